"""Attempts edited in place: the bar decides, the plan follows, and undo takes it back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.attempts import AttemptPlan, Outcome
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Seen, Sex
from coachdesk.domain.meet import Attempt, AttemptData, Entry, EntryData, Meet, MeetData
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.attempt_editing import choose_attempt, clear_attempt, record_result
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import add_meet, enter_athlete, record_attempts
from coachdesk.services.planning import plan_entry, plan_meet
from coachdesk.services.roster import add_athlete
from coachdesk.services.undo import undo, undoable

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


@pytest.fixture
def entry(desk: Desk) -> Entry:
    return _enter(desk, MEET)


def _enter(desk: Desk, meet: MeetData) -> Entry:
    """Ana, expected to squat 200, bench 100 and deadlift 220."""
    athlete = AthleteData(
        given_name="Ana",
        family_name="Ruiz",
        sex=Sex.FEMALE,
        birth_date=date(1996, 5, 4),
        meets_before=2,
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
    entry_id = enter_athlete(desk, data).value
    with desk.reading() as reader:
        return reader.get(Entry, entry_id)


def _squats(desk: Desk) -> dict[int, Attempt]:
    with desk.reading() as reader:
        return standing(reader.list(Attempt), Lift.SQUAT)


def _plan(desk: Desk, entry: Entry) -> AttemptPlan:
    with desk.reading() as reader:
        return read_meet(reader, entry.meet_id, desk.today()).plans[entry.id].plan


def _squat_path(desk: Desk, entry: Entry) -> list[float]:
    lift = _plan(desk, entry).of(Lift.SQUAT)
    assert lift is not None
    path, turn = [lift.opener.weight.kg], lift.opener
    while (following := turn.after(Outcome.GOOD)) is not None:
        turn = following
        path.append(turn.weight.kg)
    return path


def test_three_attempts_are_chosen_changed_and_cleared_each_in_its_place(
    desk: Desk, entry: Entry
) -> None:
    for number, kg in ((1, 180), (3, 200), (2, 190)):
        choose_attempt(desk, entry.id, Lift.SQUAT, number, kilograms(kg), seen=None)
    choose_attempt(desk, entry.id, Lift.SQUAT, 2, kilograms("192.5"), seen=_squats(desk)[2])
    assert {at: each.weight.kg for at, each in _squats(desk).items()} == {1: 180, 2: 192.5, 3: 200}
    clear_attempt(desk, _squats(desk)[3])
    assert set(_squats(desk)) == {1, 2}
    undo(desk)
    assert _squats(desk)[3].weight.kg == 200


def test_the_action_says_what_was_chosen(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.BENCH, 2, kilograms(95), seen=None)
    label = undoable(desk)
    assert label is not None
    assert label.code == "did.choose_attempt"
    assert dict(label.values)["name"] == "Ana Ruiz"


@pytest.mark.parametrize(
    ("lift", "number", "kg", "code"),
    [
        (Lift.SQUAT, 2, "181", "attempts.off_step"),
        (Lift.SQUAT, 2, "177.5", "attempts.below_earlier"),
        (Lift.SQUAT, 1, "20", "attempts.below_bar"),
        (Lift.SQUAT, 2, "0", "check.lifted"),
        (Lift.SQUAT, 4, "200", "check.attempt_number"),
    ],
)
def test_what_the_bar_does_not_allow_is_refused_and_nothing_is_kept(
    desk: Desk, entry: Entry, lift: Lift, number: int, kg: str, code: str
) -> None:
    """Steps of 2.5 kg, bar and collars 25 kg: IPF family."""
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(180), seen=None)
    with pytest.raises(InvalidInput) as refused:
        choose_attempt(desk, entry.id, lift, number, kilograms(kg), seen=None)
    assert refused.value.text.code == code
    assert {at: each.weight.kg for at, each in _squats(desk).items()} == {1: 180}


def test_pounds_that_are_no_step_are_refused_and_those_that_are_stay_pounds(
    desk: Desk, entry: Entry
) -> None:
    """405 lb is 183.70 kg: no step of 2.5 kg. 1 lb is 0.45359237 kg (1959)."""
    with pytest.raises(InvalidInput) as refused:
        choose_attempt(desk, entry.id, Lift.SQUAT, 1, pounds(405), seen=None)
    assert refused.value.text.code == "attempts.off_step"


def test_a_choice_made_on_an_old_sight_is_refused(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(180), seen=None)
    seen = _squats(desk)[1]
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(185), seen=seen)
    with pytest.raises(Trouble) as refused:
        choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(175), seen=seen)
    assert refused.value.text.code == "record.moved_on"
    with pytest.raises(Trouble):
        choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(175), seen=None)
    clear_attempt(desk, _squats(desk)[1])
    with pytest.raises(Trouble) as refused:
        choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(175), seen=seen)
    assert refused.value.text.code == "record.gone"
    assert _squats(desk) == {}


def test_a_plan_follows_what_is_chosen_and_undo_brings_both_back(desk: Desk, entry: Entry) -> None:
    plan_entry(desk, entry)
    before = _squat_path(desk, entry)
    choose_attempt(desk, entry.id, Lift.SQUAT, 2, kilograms(185), seen=None)
    opener, second, third = _squat_path(desk, entry)
    assert opener < second == 185 < third
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms("172.5"), seen=None)
    assert _squat_path(desk, entry)[:2] == [172.5, 185]
    undo(desk)
    undo(desk)
    assert _squat_path(desk, entry) == before


def test_without_a_plan_none_is_made_in_passing(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(180), seen=None)
    with desk.reading() as reader:
        assert read_meet(reader, entry.meet_id, desk.today()).plans == {}


def test_an_opener_above_the_expected_maximum_is_kept_and_said(desk: Desk, entry: Entry) -> None:
    plan_entry(desk, entry)
    done = choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(205), seen=None)
    assert [fault.code for fault in done.value] == ["plan.fault"]
    assert _plan(desk, entry).of(Lift.SQUAT) is None
    assert _plan(desk, entry).of(Lift.BENCH) is not None


def test_only_named_entries_are_planned_and_each_step_is_told(desk: Desk, entry: Entry) -> None:
    told: list[tuple[int, int]] = []
    plan_meet(desk, entry.meet_id, entry_ids=frozenset(), progress=lambda *at: told.append(at))
    assert told == []
    plan_meet(
        desk, entry.meet_id, entry_ids=frozenset({entry.id}), progress=lambda *at: told.append(at)
    )
    assert told == [(0, 1)]
    assert len(_squat_path(desk, entry)) == 3


def test_stopping_while_plans_are_made_keeps_none(desk: Desk, entry: Entry) -> None:
    class StoppedError(Exception):
        pass

    def stop(_done: int, _of: int) -> None:
        raise StoppedError

    with pytest.raises(StoppedError):
        plan_meet(desk, entry.meet_id, progress=stop)
    with desk.reading() as reader:
        assert read_meet(reader, entry.meet_id, desk.today()).plans == {}


def test_results_are_recorded_once_the_meet_has_begun(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(180), seen=None)
    with pytest.raises(InvalidInput) as refused:
        record_result(desk, _squats(desk)[1], Result.GOOD)
    assert (refused.value.field, refused.value.text.code) == ("result", "check.meet_not_begun")

    past = _enter(desk, replace(MEET, starts_on=date(2026, 11, 14)))
    lifted = AttemptData(
        entry_id=past.id, lift=Lift.BENCH, number=1, weight=kilograms(90), lights="wwr"
    )
    record_attempts(desk, [lifted])

    def bench() -> Attempt:
        with desk.reading() as reader:
            return standing(reader.list(Attempt), Lift.BENCH)[1]

    record_result(desk, bench(), Result.GOOD, moved=Seen.EASY)
    assert (bench().result, bench().seen, bench().lights) == (Result.GOOD, Seen.EASY, "")
    record_result(desk, bench(), Result.NO_LIFT, cause="bench.signal")
    assert (bench().result, bench().seen, bench().cause) == (Result.NO_LIFT, None, "bench.signal")
    undo(desk)
    assert bench().result is Result.GOOD
    for wrong in (
        {"result": Result.NO_LIFT, "moved": Seen.EASY},
        {"result": Result.GOOD, "cause": "bench.signal"},
        {"result": Result.NO_LIFT, "cause": "squat.depth"},
    ):
        with pytest.raises(InvalidInput):
            record_result(desk, bench(), **wrong)
    with desk.reading() as reader:
        assert reader.get(Meet, past.meet_id).name == "Harbour Open"
