"""The loading chart on paper, read back."""

from __future__ import annotations

import re
from datetime import datetime
from io import BytesIO
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from pypdf import PdfReader
from pypdfium2 import PdfDocument

from coachdesk.app.printing import DeskPrinting
from coachdesk.domain.contrast import contrast
from coachdesk.domain.disc_look import ink_on, paint_of
from coachdesk.domain.disc_set import DiscSetData
from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.reports.loading_chart import render_loading_chart
from coachdesk.reports.theme import Paper
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import add_disc_set, offered_sets
from coachdesk.services.loading_chart import LoadingChart, loading_chart
from coachdesk.wording.wording import Wording

LUMA = {1: 0.299, 3: 0.587, 5: 0.114}
"""Where red, green and blue stand in "#rrggbb", and what they count (Rec. 601)."""
NOW = datetime(2026, 11, 25, 10, 0, tzinfo=ZoneInfo("Europe/Berlin"))
GARAGE = DiscSetData(
    name='Garage <b>&"\u0627',
    unit=Unit.LB,
    bar=pounds(45),
    collar=pounds(0),
    discs=(
        Disc(pounds(45), 3, "black"),
        Disc(pounds(10), 2, "teal & pink"),
        Disc(kilograms("1.25"), 1),
    ),
)


def chart_of(desk: Desk, key: str, step: Mass, last: Mass) -> LoadingChart:
    offered = next(each for each in offered_sets(desk) if each.key.startswith(key))
    return loading_chart(offered, step=step, last=last, printed_at=NOW)


def read(data: bytes) -> PdfReader:
    return PdfReader(BytesIO(data))


def words_of(reader: PdfReader) -> str:
    return "\n".join(page.extract_text() for page in reader.pages)


@pytest.mark.parametrize("paper", list(Paper))
def test_a_rulebooks_chart_fits_two_pages_and_names_rules_and_hour(
    desk: Desk, wording: Wording, paper: Paper
) -> None:
    chart = chart_of(desk, "rulebook:ipf_2021", kilograms("2.5"), kilograms(350))
    reader = read(render_loading_chart(chart, wording, paper))
    assert len(reader.pages) == 2
    width, height = paper.size
    assert reader.pages[0].mediabox.width == pytest.approx(width, abs=1)
    assert reader.pages[0].mediabox.height == pytest.approx(height, abs=1)
    words = words_of(reader)
    for expected in (
        "142.5", "314.16", "bare bar", "Bar 20 kg",
        "two collars of 2.5 kg", "25 kg red", "Printed Wed 25 Nov 2026 10:00",
        "Check the meet's own rules", "Page 1 of 2", "Page 2 of 2",
    ):  # fmt: skip
        assert expected in words, expected
    flat = " ".join(words.split())
    # By hand: (142.5 - 25) / 2 = 58.75 and (225 - 25) / 2 = 100 on each side.
    for row in ("142.5 314.16 50 5 2.5 1.25", "225 496.04 50 50"):
        assert row in flat, row
    outline = [str(each["/Title"]) for each in reader.outline if not isinstance(each, list)]
    assert outline[0].startswith("25 kg to ")
    assert outline[1].endswith(" to 350 kg")
    assert all("each side" in page.extract_text().lower() for page in reader.pages)
    assert reader.metadata is not None
    assert reader.metadata.title == f"Loading chart: {wording.say(chart.name)}"
    assert str(reader.root_object["/Lang"]) == "en"


def test_an_own_set_stands_in_its_own_unit_letter_by_letter(desk: Desk, wording: Wording) -> None:
    """95 lb is 43.09 kg (1 lb is 0.45359237 kg exactly)."""
    add_disc_set(desk, GARAGE)
    chart = chart_of(desk, "own", pounds(5), pounds(300))
    reader = read(render_loading_chart(chart, wording, Paper.A4))
    words = words_of(reader)
    assert len(reader.pages) == 1
    assert 'Garage <b>&"' in words
    assert "teal & pink" in words
    assert "45 lb black (3 pairs)" in words
    assert "no collars" in words
    assert "left out" in words
    assert re.search(r"\b65\b[^\n]*\n?29\.48", words)
    assert "Check the meet's own rules" not in words


@pytest.mark.parametrize("colour", ["red", "blue", "yellow", "green", "white", "black", "silver"])
def test_it_reads_in_black_and_white(desk: Desk, wording: Wording, colour: str) -> None:
    """The number stands on every disc, and stands out from its colour turned to grey.

    Luma of a colour and contrast as in Rec. 601 and WCAG 2; large bold figures need 3 to 1.
    """
    disc = Disc(kilograms(20), 2, colour)
    add_disc_set(desk, DiscSetData(name="Gym", unit=Unit.KG, bar=kilograms(20),
                                   collar=kilograms(0), discs=(disc,)))  # fmt: skip
    chart = chart_of(desk, "own", kilograms(20), kilograms(100))
    (page,) = PdfDocument(render_loading_chart(chart, wording, Paper.A4))
    words = page.get_textpage().get_text_range().split()
    assert "100 220.46 20 20" in " ".join(words)
    paint = paint_of(colour, "")
    grey = sum(int(paint[at : at + 2], 16) * share for at, share in LUMA.items())
    shade = f"#{round(grey):02x}" + f"{round(grey):02x}" * 2
    assert contrast(ink_on(paint), shade) > 3


def test_equal_content_gives_equal_bytes(desk: Desk, wording: Wording) -> None:
    chart = chart_of(desk, "rulebook:ipf_2021", kilograms(5), kilograms(200))
    assert render_loading_chart(chart, wording, Paper.A4) == render_loading_chart(
        chart, wording, Paper.A4
    )


def test_a_set_that_makes_nothing_still_prints(desk: Desk, wording: Wording) -> None:
    add_disc_set(desk, GARAGE)
    chart = chart_of(desk, "own", pounds(7), pounds(49))
    assert chart.rows == ()
    assert "left out" in words_of(read(render_loading_chart(chart, wording, Paper.A4)))


def test_a_very_long_name_stays_on_the_page(desk: Desk, wording: Wording) -> None:
    add_disc_set(desk, DiscSetData(name="W" * 200, unit=Unit.KG, bar=kilograms(20),
                                   collar=kilograms(0), discs=(Disc(kilograms(20)),)))  # fmt: skip
    chart = chart_of(desk, "own", kilograms(40), kilograms(100))
    reader = read(render_loading_chart(chart, wording, Paper.A4))
    assert "…" in words_of(reader)
    assert len(reader.pages) == 1


def test_the_program_writes_it_where_it_is_told(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    chart = chart_of(desk, "rulebook:ipf_2021", kilograms(5), kilograms(200))
    file = tmp_path / "charts" / "chart.pdf"
    assert DeskPrinting(desk, wording).loading_chart(chart, "letter", file) == file
    assert read(file.read_bytes()).pages[0].mediabox.width == pytest.approx(612)
    assert [each.name for each in file.parent.iterdir()] == ["chart.pdf"]
