"""What training days come to, kept on file: the same as made on the spot, gone when sets change."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import func, select

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.strength.observations import lift_days
from coachdesk.domain.training import LoggedSet, LoggedSetData
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.states import keep_strengths
from coachdesk.services.training import delete_sets, edit_set, log_sets
from coachdesk.services.undo import undo, undoable
from coachdesk.storage import training_tables
from coachdesk.storage.strength_states import Strength, all_days, strength_states
from tests.conftest import Results

TODAY = date(2026, 11, 25)


def squat(athlete_id: int, days_ago: int, kg: str, reps: int, rir: float | None) -> LoggedSetData:
    return LoggedSetData(
        athlete_id=athlete_id,
        on=TODAY - timedelta(days=days_ago),
        lift=Lift.SQUAT,
        weight=kilograms(kg),
        reps=reps,
        rir=rir,
    )


@pytest.fixture
def athlete_id(desk: Desk, results: Results) -> int:
    """Somebody with sets that tell and sets that do not."""
    athlete_id = results.athlete("Ana Ruiz")
    plain = squat(athlete_id, 3, "100", 5, 1.0)
    log_sets(
        desk,
        [
            plain,
            replace(plain, weight=kilograms("102.5")),
            replace(plain, weight=kilograms(85), reps=10, rir=None),
            replace(plain, weight=kilograms(200), variation="box squat"),
            replace(plain, weight=kilograms(150), reps=1, rir=None, result=Result.NO_LIFT),
            replace(plain, weight=kilograms(120), reps=15),
            squat(athlete_id, 10, "105", 3, 2.0),
            squat(athlete_id, 900, "80", 5, 0.0),
            squat(athlete_id, 1000, "79", 5, 0.0),
            replace(plain, weight=pounds(245), reps=1, judged=True, result=Result.GOOD),
            replace(plain, lift=Lift.BENCH, weight=kilograms(60)),
        ],
    )
    return athlete_id


def kept(desk: Desk) -> int:
    with desk.reading() as reader:
        count = select(func.count()).select_from(training_tables.strength_state)
        return reader.connection.execute(count).scalar_one()


def state(desk: Desk, athlete_id: int) -> Strength:
    with desk.reading() as reader:
        return strength_states(reader, [athlete_id])[athlete_id]


def sets_of(desk: Desk, athlete_id: int) -> tuple[LoggedSet, ...]:
    with desk.reading() as reader:
        return reader.list(LoggedSet, training_tables.logged_set.c.athlete_id == athlete_id)


def test_what_is_kept_is_what_is_made(desk: Desk, athlete_id: int) -> None:
    made = state(desk, athlete_id)
    assert kept(desk) == 0
    assert keep_strengths(desk) == 1
    assert kept(desk) == 1
    assert state(desk, athlete_id) == made
    assert keep_strengths(desk) == 0


def test_the_file_looks_at_sets_as_the_domain_does(desk: Desk, athlete_id: int) -> None:
    """The best set of each day, picked by the file or by the domain."""
    logged = sets_of(desk, athlete_id)
    with desk.reading() as reader:
        found = all_days(reader, athlete_id, Lift.SQUAT, TODAY)
    assert found == lift_days(logged, Lift.SQUAT)
    assert [str(each.weight.number) for each in found.sets] == ["79", "80", "105", "102.5"]
    assert [each.weight for each in found.judged] == [pounds(245)]


def test_sets_out_of_reach_of_any_meet_that_counts_are_not_kept(
    desk: Desk, athlete_id: int
) -> None:
    """Two years back for meets, and half a year before these."""
    days = state(desk, athlete_id)[Lift.SQUAT].sets
    assert [each.weight.kg for each in days] == [80, 105, 102.5]


def test_keeping_is_no_action_of_the_coach(desk: Desk, athlete_id: int) -> None:
    before = undoable(desk)
    keep_strengths(desk)
    assert undoable(desk) == before
    undo(desk)
    assert kept(desk) == 0
    with desk.reading() as reader:
        assert strength_states(reader, [athlete_id]) == {}


def _edit(desk: Desk, seen: LoggedSet) -> object:
    return edit_set(desk, seen, squat(seen.athlete_id, 3, "110", 5, 1.0))


def _add(desk: Desk, seen: LoggedSet) -> object:
    return log_sets(desk, [squat(seen.athlete_id, 0, "110", 5, 1.0)])


def _delete(desk: Desk, seen: LoggedSet) -> object:
    return delete_sets(desk, [seen])


@pytest.mark.parametrize("change", [_edit, _add, _delete])
def test_a_change_is_seen_at_once(
    desk: Desk, athlete_id: int, change: Callable[[Desk, LoggedSet], object]
) -> None:
    keep_strengths(desk)
    before = state(desk, athlete_id)
    heaviest = next(each for each in sets_of(desk, athlete_id) if each.weight.grams == 102_500)
    change(desk, heaviest)
    assert kept(desk) == 0
    assert state(desk, athlete_id) != before
    undo(desk)
    assert state(desk, athlete_id) == before


def test_the_states_of_others_stay(desk: Desk, athlete_id: int, results: Results) -> None:
    others = [results.athlete(name) for name in ("Bo Lind", "Cy Moe", "Di Ek")]
    log_sets(desk, [squat(other, 1, "90", 5, 1.0) for other in others])
    assert keep_strengths(desk) == 4
    log_sets(desk, [squat(others[0], 0, "90", 5, 1.0)])
    assert kept(desk) == 3
    with desk.reading() as reader:
        assert set(strength_states(reader, [athlete_id, *others])) == {athlete_id, *others}


def test_somebody_with_nothing_that_tells_is_looked_at_once(desk: Desk, results: Results) -> None:
    athlete_id = results.athlete("Ana Ruiz")
    log_sets(desk, [squat(athlete_id, 1, "50", 20, 1.0)])
    assert keep_strengths(desk) == 1
    assert state(desk, athlete_id) == {}
    assert keep_strengths(desk) == 0
