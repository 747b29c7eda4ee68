"""The picture of a bodyweight on paper, read back from the PDF."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from coachdesk.domain.bodyweight import trend
from coachdesk.domain.units import Unit, kilograms
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.reports.theme import load_fonts
from coachdesk.reports.weight_chart import weight_chart
from coachdesk.services.weight_picture import ClassLine, Span, WeightHistory, WeightPicture
from coachdesk.wording.wording import Wording
from tests.domain.bodyweights import daily, day, noisy, reading

TODAY = day(99)
WIDTH, HEIGHT = 500.0, 170.0


@pytest.fixture(scope="module", autouse=True)
def fonts() -> None:
    load_fonts(Path(__file__).parents[2] / "resources" / "fonts")


@pytest.fixture
def history() -> WeightHistory:
    readings = (*daily(noisy(99, start_kg=66.0)), reading(99, 72.0))
    return WeightHistory(
        trend=trend(readings, on=TODAY),
        readings=readings,
        unit=Unit.KG,
        classes=(
            ClassLine("57", kilograms("57"), is_entered=False),
            ClassLine("63", kilograms("63"), is_entered=True),
        ),
        plan=WeightPlanData(
            entry_id=1,
            agreed_on=TODAY,
            from_weight=kilograms("66"),
            to_weight=kilograms("63"),
            weight_class="63",
            arrive_on=TODAY + timedelta(days=63),
        ),
        weigh_in_on=TODAY + timedelta(days=70),
        meet="Cup",
    )


@pytest.fixture
def picture(history: WeightHistory) -> WeightPicture:
    return history.picture(Span.THREE_MONTHS)


def drawn(picture: WeightPicture, wording: Wording, *, forecast: bool) -> tuple[list[str], str]:
    """The words of the chart, and what draws it."""
    data = BytesIO()
    canvas = Canvas(data, pagesize=(600, 300), pageCompression=0)
    weight_chart(picture, wording, WIDTH, HEIGHT, forecast=forecast).draw(canvas, 40, 250)
    canvas.save()
    page = PdfReader(BytesIO(data.getvalue()), strict=True).pages[0]
    return page.extract_text().splitlines(), page.get_contents().get_data().decode("latin-1")  # type: ignore[union-attr]


def test_lines_and_axes_are_named(picture: WeightPicture, wording: Wording) -> None:
    words, _ = drawn(picture, wording, forecast=False)
    said = " ".join(words)
    for each in ("Bodyweight, kg", "trend", "plan", "class 63", "weigh-in", "plan ends"):
        assert each in said
    assert {"64", "66"} <= set(said.split())
    assert "class 57" not in said
    assert "crosses: odd ones" in said


def test_no_odds_without_the_coach_asking(picture: WeightPicture, wording: Wording) -> None:
    """An athlete's own sheet carries no odds: nothing at all is drawn of the forecast."""
    own, own_marks = drawn(picture, wording, forecast=False)
    coachs, _ = drawn(picture, wording, forecast=True)
    assert "likely" not in " ".join(own)
    assert "likely" in " ".join(coachs)
    bare, bare_marks = drawn(replace(picture, forecast=()), wording, forecast=False)
    assert (own, own_marks) == (bare, bare_marks)


def test_it_is_drawn_in_greys_alone(picture: WeightPicture, wording: Wording) -> None:
    _, marks = drawn(picture, wording, forecast=True)
    operators = {line.split()[-1] for line in marks.splitlines() if line.split()}
    assert not operators & {"rg", "RG", "k", "K", "sc", "SC", "scn", "SCN"}
    assert "d" in operators


def test_another_reader_reads_pounds(history: WeightHistory, wording: Wording) -> None:
    picture = replace(history, unit=Unit.LB).picture(Span.THREE_MONTHS)
    words, _ = drawn(picture, wording.in_unit(Unit.LB), forecast=False)
    assert "Bodyweight, lb" in " ".join(words)
    assert {"140", "145"} <= set(" ".join(words).split())


def test_a_single_reading_can_be_drawn(wording: Wording) -> None:
    readings = (reading(0, 66.0),)
    history = WeightHistory(trend(readings, on=date(2026, 1, 5)), readings, Unit.KG)
    words, _ = drawn(history.picture(Span.ALL), wording, forecast=False)
    assert "Bodyweight, kg" in " ".join(words)
