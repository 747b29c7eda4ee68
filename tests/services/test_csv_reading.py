"""Files of separated values as RFC 4180 defines them, and as other programs write them."""

from __future__ import annotations

from datetime import date, time
from pathlib import Path

import pytest

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.units import Unit
from coachdesk.services import csv_reading
from coachdesk.services.csv_reading import Delimiter, Encoding, Source, decode, rows_of
from coachdesk.services.day_reading import (
    DayOrder,
    find_order,
    named_day,
    read_day,
    read_hour,
    split_hour,
)

MONTHS = {"mar": 3, "apr": 4, "nov": 11}
DAY, MONTH = DayOrder.DAY_FIRST, DayOrder.MONTH_FIRST


def source(words: str) -> Source:
    return Source("file.csv", words, Encoding.UTF_8)


@pytest.mark.parametrize(
    ("raw", "encoding"),
    [
        ("Zoë;82,5".encode(), Encoding.UTF_8),
        ("Zoë;82,5".encode("utf-8-sig"), Encoding.UTF_8_MARKED),
        ("Zoë;82,5".encode("cp1252"), Encoding.WINDOWS),
    ],
)
def test_letters_are_read_in_three_encodings(raw: bytes, encoding: Encoding) -> None:
    found = decode("file.csv", raw)
    assert (found.words, found.encoding) == ("Zoë;82,5", encoding)


@pytest.mark.parametrize("raw", ["Zoë".encode("utf-16"), b"PK\x03\x04\0\0", b"\x81\x8d\xff"])
def test_what_is_no_text_is_refused_in_words(raw: bytes) -> None:
    with pytest.raises(Trouble) as refused:
        decode("file.csv", raw)
    assert refused.value.text.code == "csv.not_text"


@pytest.mark.parametrize(
    "cell", ["=1+1", "-Ben", "+49", "@x", "'=1", "''-a", "'Aupa", "O'Hara", "'", "", "82.5"]
)
def test_a_guard_is_taken_off_again_and_nothing_else(cell: str) -> None:
    written = csv_reading.guarded(cell)
    assert not written.startswith(("=", "+", "-", "@"))
    assert csv_reading.unguarded(written) == cell
    assert csv_reading.Row(1, (written,)).cell(0) == cell


def test_a_file_that_is_gone_is_trouble(tmp_path: Path) -> None:
    with pytest.raises(Trouble) as refused:
        csv_reading.read_source(tmp_path / "gone.csv")
    assert refused.value.text.code == "csv.cannot_read"


@pytest.mark.parametrize(
    ("words", "delimiter"),
    [
        ("Name,Date,Weight\nMia,2026-11-01,82.5\n", Delimiter.COMMA),
        ("Name;Weight\nMia;82,5\nZoë;60,1\n", Delimiter.SEMICOLON),
        ("Mia;82,5\nZoë;60,1\n", Delimiter.SEMICOLON),
        ("Oster, Mia\t82,5\nBąk, Łucja\t60,1\n", Delimiter.TAB),
        ('"Oster, Mia",82.5\n"a; b",60.1\n', Delimiter.COMMA),
    ],
)
def test_the_mark_between_cells_is_found(words: str, delimiter: Delimiter) -> None:
    assert csv_reading.find_delimiter(source(words)) is delimiter


def test_quotes_line_breaks_and_empty_lines_are_as_in_the_standard() -> None:
    """RFC 4180, section 2: rules 5 to 7; lines are counted as an editor does."""
    words = 'Name,Note\r\n\r\n"Oster, ""Mia""","two\r\nlines"\r\n,\r\nZoë,plain\r\n'
    rows = rows_of(source(words), Delimiter.COMMA)
    assert [(row.number, row.cells) for row in rows] == [
        (1, ("Name", "Note")),
        (3, ('Oster, "Mia"', "two\r\nlines")),
        (6, ("Zoë", "plain")),
    ]


def test_a_quote_left_open_is_said_with_its_line() -> None:
    with pytest.raises(Trouble) as refused:
        rows_of(source('Name,Weight\nMia,80\n"Zoë,60\nAna,50\n'), Delimiter.COMMA)
    assert refused.value.text.code == "csv.broken"
    assert dict(refused.value.text.values)["number"] == 3


def test_a_file_without_rows_is_trouble() -> None:
    with pytest.raises(Trouble):
        rows_of(source("\n;;\n"), Delimiter.SEMICOLON)


def test_heads_are_known_by_their_words_with_or_without_a_unit() -> None:
    parts = {"weight": "weight", "full name": "name", "date": "day"}
    heads = ("Full_Name", "DATE", "Weight (lbs)", "weight", "Colour")
    assert csv_reading.match_heads(heads, parts) == {"name": 0, "day": 1, "weight": 2}
    assert csv_reading.unit_in_head("Weight (lbs)") is Unit.LB
    assert csv_reading.unit_in_head("Weight") is None


def test_a_first_line_without_a_figure_holds_heads() -> None:
    assert csv_reading.has_heads(rows_of(source("Wer,Wann\nMia,1\n"), Delimiter.COMMA), {})
    assert not csv_reading.has_heads(rows_of(source("Mia,82\nZoë,60\n"), Delimiter.COMMA), {})


def test_one_day_that_can_be_read_one_way_settles_the_file() -> None:
    assert find_order(["03/04/2026", "25/04/2026"], MONTHS).order is DAY
    assert find_order(["03/04/2026", "04/25/2026", ""], MONTHS).order is MONTH
    assert find_order(["03.04.2026"], MONTHS).order is DAY
    assert find_order(["04.25.2026"], MONTHS).order is MONTH


def test_days_that_are_all_ambiguous_are_left_to_the_coach() -> None:
    found = find_order(["03/03/2026", "03/04/2026"], MONTHS)
    assert found.must_choose
    assert found.examples == {
        DAY: ("03/04/2026", date(2026, 4, 3)),
        MONTH: ("03/04/2026", date(2026, 3, 4)),
    }


def test_days_that_contradict_each_other_are_left_to_the_coach() -> None:
    found = find_order(["25/04/2026", "04/25/2026"], MONTHS)
    assert found.must_choose
    assert found.examples[DAY] == ("25/04/2026", date(2026, 4, 25))


def test_no_order_is_needed_for_days_that_begin_with_the_year_or_name_the_month() -> None:
    found = find_order(["2026-04-03", "3 Apr 2026", "03/03/2026", "what"], MONTHS)
    assert (found.order, found.must_choose) == (None, False)


@pytest.mark.parametrize(
    ("cell", "order", "day"),
    [
        ("2026-04-03", None, date(2026, 4, 3)),
        ("2026/4/3", MONTH, date(2026, 4, 3)),
        ("03/04/2026", DAY, date(2026, 4, 3)),
        ("03/04/2026", MONTH, date(2026, 3, 4)),
        ("3.4.26", DAY, date(2026, 4, 3)),
        ("Fri 3 Apr 2026", None, date(2026, 4, 3)),
        ("03/03/2026", None, date(2026, 3, 3)),
    ],
)
def test_a_day_is_read(cell: str, order: DayOrder | None, day: date) -> None:
    assert read_day("on", cell, order, MONTHS) == day


@pytest.mark.parametrize(
    ("cell", "order"),
    [("03/04/2026", None), ("25/04/2026", MONTH), ("2026-02-30", DAY), ("x", DAY), ("", DAY)],
)
def test_a_day_is_never_guessed(cell: str, order: DayOrder | None) -> None:
    with pytest.raises(InvalidInput):
        read_day("on", cell, order, MONTHS)


def test_days_in_words_need_one_month_and_two_numbers() -> None:
    assert named_day("Nov 25, 2026", MONTHS) == date(2026, 11, 25)
    assert named_day("25th Nov 2026", MONTHS) == date(2026, 11, 25)
    assert named_day("1er nov 2026", MONTHS) == date(2026, 11, 1)
    assert named_day("Nov 2026", MONTHS) is None


def test_hours_behind_days_and_by_themselves() -> None:
    assert split_hour("2026-11-25T07:05:30") == ("2026-11-25", "07:05:30")
    assert split_hour("3/4/2026 7:05 PM") == ("3/4/2026", "7:05 PM")
    assert split_hour("25 Nov 2026") == ("25 Nov 2026", "")
    assert read_hour("at", "07:05:30") == time(7, 5)
    assert read_hour("at", "7:05 PM") == time(19, 5)
    assert read_hour("at", "") is None
    with pytest.raises(InvalidInput):
        read_hour("at", "25:00")
