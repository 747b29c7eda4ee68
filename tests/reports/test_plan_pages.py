"""Plans with chances on paper: cards go by what was seen, chances are for the coach alone."""

from __future__ import annotations

from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.attempts import Branch, Outcome, Turn
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.domain.wishes import DayAim, WishesData
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheets
from coachdesk.reports.handler_card import render_handler_cards
from coachdesk.reports.plan_paths import Way, second_steps, third_steps, way_in_words
from coachdesk.reports.theme import Paper
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.packet_content import EntryPacket
from coachdesk.services.packets import entry_packet, print_job
from coachdesk.services.print_choice import no_progress
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.wishes_editing import wish_for_all
from coachdesk.wording.wording import Wording

GOOD = (Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND)
MISSED = (Outcome.STRENGTH, Outcome.TECHNICAL)


@pytest.fixture
def packet(desk: Desk) -> EntryPacket:
    """Ana, who wants 325 kg, of whom 120, 60 and 140 kg are expected."""
    athlete_id = add_athlete(
        desk,
        AthleteData(
            given_name="Ana",
            family_name="Ruiz",
            sex=Sex.FEMALE,
            birth_date=date(1996, 5, 4),
            meets_before=3,
        ),
    ).value
    weighed = ReadingData(athlete_id=athlete_id, on=desk.today(), weight=kilograms("62.4"))
    add_readings(desk, [weighed])
    meet = MeetData(
        name="Harbour Open",
        starts_on=date(2027, 2, 20),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    meet_id = add_meet(desk, meet).value
    data = EntryData(
        athlete_id=athlete_id,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
        expected_squat=kilograms(120),
        expected_bench=kilograms(60),
        expected_deadlift=kilograms(140),
    )
    entry_id = enter_athlete(desk, data).value
    wish = WishesData(entry_id=entry_id, aim=DayAim.NUMBER, aim_weight=kilograms(325))
    wish_for_all(desk, meet_id, frozenset({entry_id}), wish, no_progress)
    job = print_job(desk, meet_id)
    return entry_packet(desk, job, job.entries[0])


def _words(pdf: bytes) -> str:
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
    return " ".join(text.split())


def test_the_coachs_sheet_holds_every_turn_chances_checkpoints_and_the_textbook(
    packet: EntryPacket, wording: Wording
) -> None:
    page = _words(render_coach_sheets([packet], wording, Paper.A4))
    plan = packet.plan
    assert plan is not None
    assert plan.outlook is not None
    assert plan.outlook.aim is not None
    assert f"Chance of no total {100 * plan.outlook.no_total:.1f} %" in page
    chance = f"{100 * plan.outlook.aim:.0f} %"
    assert f"Chance of the first aim, 325 kg on the total: {chance}" in page
    assert page.count("Eight days in ten bring") == 3
    assert "After Squat" in page
    assert "The textbook pattern" in page
    assert packet.expected is not None
    assert packet.expected.score is not None
    assert f"{packet.expected.score:.2f} IPF GL" in page
    for lift in plan.lifts:
        assert lift.opener.good is not None
        assert f"{lift.opener.weight.number.normalize():f}" in page
        assert f"{100 * lift.opener.good:.0f} %" in page


@pytest.mark.parametrize("paper", Paper)
def test_neither_the_athlete_nor_the_handler_is_handed_odds(
    packet: EntryPacket, wording: Wording, paper: Paper
) -> None:
    for pdf in (
        render_athlete_sheet(packet, wording, paper),
        render_handler_cards([packet], wording, paper),
    ):
        page = _words(pdf)
        assert "%" not in page
        for word in ("chance", "risk", "likely", "expected"):
            assert word not in page.casefold()


def test_the_card_holds_each_weight_of_the_plan_with_what_leads_to_it(
    packet: EntryPacket, wording: Wording
) -> None:
    page = _words(render_handler_cards([packet], wording, Paper.A4))
    for card in packet.lifts:
        assert card.plan is not None
        for step in (*second_steps(card.plan.opener), *third_steps(card.plan.opener)):
            assert wording.bare_mass(step.weight) in page
        for step in third_steps(card.plan.opener):
            for way in step.after:
                assert way_in_words(way, wording) in page


def test_equal_ways_stand_together_in_few_words(wording: Wording) -> None:
    third = Turn(3, kilograms(200))
    again = Turn(3, kilograms(190))
    second = Turn(
        2,
        kilograms(190),
        (*(Branch(seen, third) for seen in GOOD), *(Branch(seen, again) for seen in MISSED)),
    )
    opener = Turn(1, kilograms(180), tuple(Branch(seen, second) for seen in (*GOOD, *MISSED)))
    (step,) = second_steps(opener)
    assert way_in_words(step.after[0], wording, bare=True) == "good or no lift"
    up, repeated = third_steps(opener)
    assert [way_in_words(way, wording) for way in up.after] == ["190 good"]
    assert [way_in_words(way, wording) for way in repeated.after] == ["190 no lift"]


def test_where_the_same_second_leads_on_in_two_ways_the_card_says_how_the_opener_went(
    wording: Wording,
) -> None:
    """180 easy and 180 missed both lead to 190, but 190 made leads to 205 or to 195."""

    def second(third: float) -> Turn:
        return Turn(
            2,
            kilograms(190),
            (
                *(Branch(seen, Turn(3, kilograms(third))) for seen in GOOD),
                *(Branch(seen, Turn(3, kilograms(190))) for seen in MISSED),
            ),
        )

    opener = Turn(
        1,
        kilograms(180),
        (
            *(Branch(seen, second(205)) for seen in GOOD),
            *(Branch(seen, second(195)) for seen in MISSED),
        ),
    )
    ways = {step.weight.kg: step.after for step in third_steps(opener)}
    assert ways[205.0] == (Way(kilograms(190), GOOD, GOOD),)
    assert way_in_words(ways[195.0][0], wording) == "190 good (opener no lift)"
    assert ways[190.0] == (Way(kilograms(190), MISSED),)
