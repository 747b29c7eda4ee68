"""A coach overrules turns of a plan: the rest follows, it is told what changed, and undo works."""

from __future__ import annotations

from datetime import date

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.attempts import AttemptPlan, Outcome, Turn
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import Mass, kilograms
from coachdesk.services.attempt_editing import choose_attempt
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.plan_fixing import TurnOf, fix_turn, free_all_turns, free_turn
from coachdesk.services.plan_page import free_outlook_of, has_fixed, open_plan, plan_page
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_athlete
from coachdesk.services.undo import undo

AFTER_A_CALL = TurnOf(Lift.SQUAT, ((Outcome.TECHNICAL,),))


@pytest.fixture
def entry_id(desk: Desk) -> int:
    """Ana, expected to squat 200, bench 100 and deadlift 220, with a plan."""
    athlete = AthleteData(
        given_name="Ana",
        family_name="Ruiz",
        sex=Sex.FEMALE,
        birth_date=date(1996, 5, 4),
        meets_before=2,
    )
    meet = MeetData(
        name="Harbour Open",
        starts_on=date(2027, 2, 20),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    data = EntryData(
        athlete_id=add_athlete(desk, athlete).value,
        meet_id=add_meet(desk, meet).value,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
        expected_squat=kilograms(200),
        expected_bench=kilograms(100),
        expected_deadlift=kilograms(220),
    )
    found = enter_athlete(desk, data).value
    plan_meet(desk, data.meet_id)
    return found


def _plan(desk: Desk, entry_id: int) -> AttemptPlan:
    snapshot = open_plan(desk, entry_id).line.plan
    assert snapshot is not None
    return snapshot.plan


def _after(desk: Desk, entry_id: int, outcome: Outcome) -> Turn:
    squat = _plan(desk, entry_id).of(Lift.SQUAT)
    assert squat is not None
    turn = squat.opener.after(outcome)
    assert turn is not None
    return turn


def _heavier(desk: Desk, entry_id: int) -> Mass:
    return kilograms(_after(desk, entry_id, Outcome.TECHNICAL).weight.kg + 5)


def test_a_turn_is_overruled_and_stays_so_when_the_plan_is_made_anew(
    desk: Desk, entry_id: int
) -> None:
    weight = _heavier(desk, entry_id)
    fix_turn(desk, entry_id, AFTER_A_CALL, weight)
    choose_attempt(desk, entry_id, Lift.BENCH, 1, kilograms(90), seen=None)
    turn = _after(desk, entry_id, Outcome.TECHNICAL)
    assert (turn.weight, turn.fixed) == (weight, True)


def test_it_is_told_what_changed_and_what_it_costs(desk: Desk, entry_id: int) -> None:
    before = _plan(desk, entry_id)
    fix_turn(desk, entry_id, AFTER_A_CALL, _heavier(desk, entry_id))
    opened = open_plan(desk, entry_id)
    codes = {change.code for change in opened.changes}
    assert codes & {"plan_change.other_turns", "plan_change.path"}
    assert has_fixed(opened)
    assert free_outlook_of(opened) == before.outlook


def test_a_turn_is_left_to_the_plan_again(desk: Desk, entry_id: int) -> None:
    before = _plan(desk, entry_id)
    fix_turn(desk, entry_id, AFTER_A_CALL, _heavier(desk, entry_id))
    free_turn(desk, entry_id, AFTER_A_CALL)
    assert _plan(desk, entry_id) == before
    fix_turn(desk, entry_id, AFTER_A_CALL, _heavier(desk, entry_id))
    free_all_turns(desk, entry_id)
    assert _plan(desk, entry_id) == before


def test_undo_brings_the_plan_back(desk: Desk, entry_id: int) -> None:
    before = _plan(desk, entry_id)
    fix_turn(desk, entry_id, AFTER_A_CALL, _heavier(desk, entry_id))
    undo(desk)
    assert _plan(desk, entry_id) == before


@pytest.mark.parametrize("weight", [kilograms("171.3"), kilograms(10)])
def test_a_weight_the_bar_cannot_be_loaded_with_is_refused(
    desk: Desk, entry_id: int, weight: Mass
) -> None:
    with pytest.raises(InvalidInput) as refused:
        fix_turn(desk, entry_id, AFTER_A_CALL, weight)
    assert refused.value.field == "weight"


def test_a_lighter_weight_than_the_opener_is_refused(desk: Desk, entry_id: int) -> None:
    """The bar never gets lighter (IPF Technical Rules, recalled)."""
    before = _plan(desk, entry_id)
    with pytest.raises(InvalidInput):
        fix_turn(desk, entry_id, AFTER_A_CALL, kilograms(150))
    assert _plan(desk, entry_id) == before


def test_without_a_plan_there_is_nothing_to_overrule(desk: Desk, entry_id: int) -> None:
    undo(desk)
    with pytest.raises(Trouble):
        fix_turn(desk, entry_id, AFTER_A_CALL, kilograms(180))


def test_the_team_is_compared_by_expected_total_score_and_risk(desk: Desk, entry_id: int) -> None:
    (line,) = plan_page(desk, open_plan(desk, entry_id).line.entry.meet_id).lines
    assert line.plan is not None
    assert line.plan.plan.outlook == _plan(desk, entry_id).outlook
    assert line.score is None  # no bodyweight is known
