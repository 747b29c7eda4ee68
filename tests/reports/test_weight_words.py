"""The way down on paper: chances for the coach alone, no weights on the sheet handed around."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from coachdesk.domain.bodyweight import ScaleForecast
from coachdesk.domain.class_fit import Pace, Verdict, WeekChange
from coachdesk.domain.units import Percent, kilograms
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_plan import Standing, WeightPlan
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheets
from coachdesk.reports.team_sheet import render_team_sheet
from coachdesk.reports.theme import Paper
from coachdesk.services.packet_content import ComingDown, EntryPacket
from coachdesk.wording.wording import Wording
from tests.reports.conftest import team_sheet, weight_page

AGREED = WeightPlan(
    id=1,
    version=1,
    entry_id=1,
    agreed_on=date(2026, 10, 1),
    from_weight=kilograms("85.9"),
    to_weight=kilograms(83),
    weight_class="83",
    arrive_on=date(2026, 11, 21),
)


def words_on(data: bytes) -> str:
    reader = PdfReader(BytesIO(data), strict=True)
    return " ".join(" ".join(page.extract_text().split()) for page in reader.pages)


@pytest.fixture
def coming_down(packet: EntryPacket) -> EntryPacket:
    page = replace(
        weight_page(),
        plan=AGREED,
        line=Standing(0.42, None),
        change=WeekChange(-0.31, Verdict.HARD, Percent(0.81, 2)),
        scale=ScaleForecast(date(2026, 11, 28), 83.4, 0.5),
        chance=0.21,
    )
    return replace(packet, weight=page)


@pytest.mark.parametrize("paper", list(Paper))
def test_the_coachs_sheet_says_how_the_way_down_stands(
    coming_down: EntryPacket, wording: Wording, paper: Paper
) -> None:
    said = words_on(render_coach_sheets([coming_down], wording, paper))
    assert "Agreed on Thu 1 Oct 2026: from 85.9 kg straight to 83 kg by Sat 21 Nov 2026." in said
    assert "Now 0.4 kg above that line." in said
    assert "In the last week the level fell by 0.31 kg. A week ago it was: hard." in said
    # By hand: 83.4 less and more 1.2816 times 0.5.
    assert "between 82.8 kg and 84 kg" in said
    assert "Chance of the class: 21 %." in said


@pytest.mark.parametrize("paper", list(Paper))
def test_an_athletes_own_sheet_has_neither_band_nor_chance(
    coming_down: EntryPacket, wording: Wording, paper: Paper
) -> None:
    said = words_on(render_athlete_sheet(coming_down, wording, paper)).casefold()
    assert "83 kg" in said
    for word in ("chance", "21 %", "eight times in ten", "82.8", "agreed on", "likely"):
        assert word not in said


def test_the_team_sheet_says_who_comes_down_without_a_weight(wording: Wording) -> None:
    team = team_sheet(["Ana Ruiz", "Bo Lind"])
    sheet = replace(
        team,
        coming_down=(
            ComingDown("Ana Ruiz", "63", date(2026, 12, 2), Pace.COMFORTABLE),
            ComingDown("Bo Lind", "83", date(2026, 12, 12), None),
        ),
    )
    said = words_on(render_team_sheet(sheet, wording, Paper.A4))
    assert (
        "Come down in weight: Ana Ruiz to 63, begin by Wed 2 Dec 2026 for a comfortable pace, "
        "Bo Lind to 83, agreed on, there by Sat 12 Dec 2026." in said
    )
    assert "Come down in weight" not in words_on(render_team_sheet(team, wording, Paper.A4))


def test_a_class_without_a_limit_is_a_sentence_of_its_own(
    packet: EntryPacket, wording: Wording
) -> None:
    page = weight_page()
    assert page.fit is not None
    fit = replace(page.fit, weight_class=WeightClass(name="120+", limit=None))
    packet = replace(packet, weight=replace(page, fit=fit))
    assert "120+ class. Now " in words_on(render_coach_sheets([packet], wording, Paper.A4))
