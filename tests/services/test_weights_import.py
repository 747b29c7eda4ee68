"""Weights from real files: what is understood, what is skipped, and that all or nothing is kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData, Dress, Reading, ReadingData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Sex
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services import weights_import
from coachdesk.services.csv_reading import Delimiter, read_source
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk
from coachdesk.services.import_file import Fate, Layout, Preview
from coachdesk.services.roster import add_athlete, add_readings, archive_athlete
from coachdesk.services.undo import undo
from coachdesk.services.weights_file import Part, Vocabulary
from coachdesk.ui.imports.vocabularies import weights_vocabulary
from coachdesk.wording.wording import Wording

LONG = "Ana" + "x" * 197


@pytest.fixture
def words(wording: Wording) -> Vocabulary:
    return weights_vocabulary(wording)


@pytest.fixture
def ids(desk: Desk) -> dict[str, int]:
    """Łucja weighs in pounds; two share a name; one name holds markup, one 200 letters."""
    people = {
        "Łucja": ("Łucja", "Bąk", Unit.LB),
        "Mia": ("Mia", "Oster", Unit.KG),
        "Ana": ("Ana", "Lee", Unit.KG),
        "other Ana": ("Lee", "Ana", Unit.KG),
        "<b>": ("<b>Zoë</b>", "O'Hara & Sons", Unit.KG),
        "long": (LONG, "", Unit.KG),
    }
    return {
        key: add_athlete(
            desk,
            AthleteData(given_name=given, family_name=family, sex=Sex.FEMALE, unit=unit),
        ).value
        for key, (given, family, unit) in people.items()
    }


Read = Callable[..., Preview[ReadingData]]


@pytest.fixture
def read(desk: Desk, ids: dict[str, int], words: Vocabulary, tmp_path: Path) -> Read:
    """Writes a file and reads it as it looks to be meant, or as `change` makes the layout."""
    assert ids

    def make(
        content: str,
        *,
        encoding: str = "utf-8",
        change: Callable[[Layout], Layout] = lambda layout: layout,
    ) -> Preview[ReadingData]:
        file = tmp_path / "weights.csv"
        file.write_bytes(content.encode(encoding))
        source = read_source(file)
        layout = change(weights_import.suggest(desk, source, words))
        return weights_import.preview(desk, source, layout, words, lambda *_: None)

    return make


def fates(found: Preview[ReadingData]) -> list[tuple[int, Fate]]:
    return [(line.number, line.fate) for line in found.lines]


def codes(found: Preview[ReadingData], number: int) -> list[str]:
    (line,) = (each for each in found.lines if each.number == number)
    return [remark.code for remark in line.remarks]


def on_file(desk: Desk) -> list[Reading]:
    with desk.reading() as reader:
        return list(reader.list(Reading))


def test_a_spreadsheets_file_is_understood_whole(read: Read, ids: dict[str, int]) -> None:
    """As a spreadsheet on Windows writes it where the comma is the decimal mark."""
    found = read(
        "Name;Datum;Weight (kg);Time;Worn;Scale;Notes\r\n"
        '"Oster, Mia";25.11.2026;82,5;7:05;undressed;Hall;"=1+1"\r\n'
        "lucja bak;24.11.2026;60,1;;;;\r\n",
        encoding="cp1252",
        change=lambda layout: replace(layout, columns={**layout.columns, Part.DAY: 1}),
    )
    assert found.layout.unit is Unit.KG
    assert found.records == (
        ReadingData(
            athlete_id=ids["Mia"], on=date(2026, 11, 25), weight=kilograms("82.5"), at=time(7, 5),
            dress=Dress.UNDRESSED, scale="Hall", note="=1+1",
        ),
        ReadingData(athlete_id=ids["Łucja"], on=date(2026, 11, 24), weight=kilograms("60.1")),
    )  # fmt: skip


def test_names_in_two_columns_units_in_one_and_days_with_hours(
    read: Read, ids: dict[str, int]
) -> None:
    found = read(
        "\ufefffirst name,last name,date,weight,unit\n"
        "ŁUCJA,BĄK,2026-11-24 06:50:10,132.5,lb\n"
        "Mia,Oster,2026-11-24T07:00,82.5,kg\n"
        "Mia,Oster,2026-11-23,182,stone\n"
    )
    assert found.layout.delimiter is Delimiter.COMMA
    assert [(each.weight, each.at) for each in found.records] == [
        (pounds("132.5"), time(6, 50)),
        (kilograms("82.5"), time(7, 0)),
    ]
    assert codes(found, 4) == ["weights.unit_unknown"]
    assert ids["Łucja"] == found.records[0].athlete_id


def test_a_file_without_heads_is_told_by_what_it_holds(read: Read) -> None:
    found = read("25 Nov 2026\tMia Oster\t82,5\n24 Nov 2026\tŁucja Bąk\t132,5 lb\n")
    assert not found.layout.has_heads
    assert found.layout.columns == {Part.DAY: 0, Part.NAME: 1, Part.WEIGHT: 2}
    assert [each.weight for each in found.records] == [kilograms("82.5"), pounds("132.5")]


def test_bare_numbers_are_in_each_athletes_own_unit_unless_chosen(read: Read) -> None:
    content = "name,day,weight\nŁucja Bąk,2026-11-24,132.5\n"
    assert [each.weight for each in read(content).records] == [pounds("132.5")]
    chosen = read(content, change=lambda layout: replace(layout, unit=Unit.KG))
    assert [each.weight for each in chosen.records] == [kilograms("132.5")]


def test_each_faulty_line_says_all_that_is_wrong_with_it(read: Read) -> None:
    found = read(
        "name,day,weight,hour,worn\n"
        "Nobody,2026-11-20,80,,\n"
        "Ana Lee,2026-11-20,80,,\n"
        "Mia,2026-11-20,80,,\n"
        "Mia Oster,2026-11-26,80,,\n"
        "Mia Oster,2026-11-20,8,,\n"
        "Mia Oster,2026-11-20,eighty,25:00,armour\n"
        ",,,7:00,\n"
    )
    assert {fate for _, fate in fates(found)} == {Fate.FAULTY}
    assert codes(found, 2) == ["names.unknown"]
    assert codes(found, 3) == ["names.several"]
    assert codes(found, 4) == ["names.unknown"], "a part of a name finds nobody"
    assert codes(found, 5) == ["check.day_not_come"]
    assert codes(found, 6) == ["check.bodyweight"]
    assert codes(found, 7) == ["typed.hour", "typed.mass", "roster.paste.dress"]
    assert codes(found, 8) == ["names.missing", "typed.day_missing", "typed.mass_missing"]


def test_names_with_markup_and_of_200_letters_are_found(read: Read) -> None:
    found = read(
        f"name,day,weight\n<b>zoe</b> o'hara & sons,2026-11-24,60\n{LONG.upper()},2026-11-24,70\n"
    )
    assert [fate for _, fate in fates(found)] == [Fate.NEW, Fate.NEW]


def test_archived_athletes_are_found_too(desk: Desk, ids: dict[str, int], read: Read) -> None:
    with desk.reading() as reader:
        archive_athlete(desk, reader.get(Athlete, ids["Mia"]), archived=True)
    assert fates(read("name,day,weight\nMia Oster,2026-11-24,82\n")) == [(2, Fate.NEW)]


def test_what_is_on_file_or_stands_twice_is_skipped(
    desk: Desk, ids: dict[str, int], read: Read
) -> None:
    """The same athlete, day, hour and weight; the unit it was typed in does not count."""
    kept = ReadingData(
        athlete_id=ids["Mia"], on=date(2026, 11, 20), weight=kilograms("82.5"), at=time(7)
    )
    add_readings(desk, [kept])
    found = read(
        "name,day,hour,weight\n"
        "Mia Oster,2026-11-20,7:00,82.5\n"
        "Mia Oster,2026-11-20,,82.5\n"
        "Mia Oster,2026-11-20,,82.50 kg\n"
        "Mia Oster,2026-11-20,7:00,82.6\n"
    )
    assert fates(found) == [(2, Fate.ON_FILE), (3, Fate.NEW), (4, Fate.TWICE), (5, Fate.NEW)]
    assert dict(found.lines[2].remarks[0].values)["line"] == 3


def test_a_weight_far_off_its_nearest_day_is_odd_and_kept(
    desk: Desk, ids: dict[str, int], read: Read
) -> None:
    """By hand: 3 % of 82 kg is 2.46 kg, for a day or a week alike; two weeks allow 4.92 kg."""
    on = date(2026, 11, 1)
    add_readings(desk, [ReadingData(athlete_id=ids["Mia"], on=on, weight=kilograms(82))])
    for day, weight, fate in (
        ("2026-11-08", "84.4", Fate.NEW),
        ("2026-11-08", "84.5", Fate.ODD),
        ("2026-11-15", "86.9", Fate.NEW),
        ("2026-11-15", "87.0", Fate.ODD),
        ("2026-10-31", "79.5", Fate.ODD),
    ):
        found = read(f"name,day,weight\nMia Oster,{day},{weight}\n")
        assert fates(found) == [(2, fate)], (day, weight)
        assert len(found.records) == 1


def test_ambiguous_days_must_be_chosen(read: Read) -> None:
    content = "name,day,weight\nMia Oster,03/04/2026,82\nMia Oster,05/04/2026,82.1\n"
    found = read(content)
    assert found.lacking is not None
    assert found.lacking.code == "weights.lacking.order"
    assert found.records == ()
    chosen = read(content, change=lambda each: replace(each, order=DayOrder.DAY_FIRST))
    assert [each.on for each in chosen.records] == [date(2026, 4, 3), date(2026, 4, 5)]


@pytest.mark.parametrize(
    ("heads", "code"),
    [
        ("who,day,weight", "weights.lacking.name"),
        ("name,when,weight", "weights.lacking.day"),
        ("name,day,load", "weights.lacking.weight"),
    ],
)
def test_a_column_that_is_not_known_must_be_chosen(
    desk: Desk, read: Read, heads: str, code: str
) -> None:
    found = read(f"{heads}\nMia Oster,2026-11-24,82\n")
    assert found.lacking is not None
    assert found.lacking.code == code
    with pytest.raises(InvalidInput):
        weights_import.keep(desk, found, leave_out_faulty=True)


def test_a_faulty_line_stops_all_unless_it_is_left_out(desk: Desk, read: Read) -> None:
    found = read("name,day,weight\nMia Oster,2026-11-24,82\nNobody,2026-11-24,82\n")
    with pytest.raises(InvalidInput) as refused:
        weights_import.keep(desk, found, leave_out_faulty=False)
    assert refused.value.text.code == "weights.faulty"
    assert on_file(desk) == []
    weights_import.keep(desk, found, leave_out_faulty=True)
    assert [each.weight for each in on_file(desk)] == [kilograms(82)]
    undo(desk)
    assert on_file(desk) == []


def test_a_file_with_nothing_new_adds_nothing(desk: Desk, read: Read) -> None:
    content = "name,day,weight\nMia Oster,2026-11-24,82\n"
    weights_import.keep(desk, read(content), leave_out_faulty=False)
    with pytest.raises(InvalidInput) as refused:
        weights_import.keep(desk, read(content), leave_out_faulty=False)
    assert refused.value.text.code == "weights.nothing_new"
