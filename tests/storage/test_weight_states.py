"""What readings come to, kept on file: the same as made on the spot, and gone when they change."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from sqlalchemy import func, select

from coachdesk.domain.athlete import CycleNoteData, Reading, ReadingData
from coachdesk.domain.bodyweight import Bodyweight, bodyweight, trend
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_readings, delete_readings, edit_reading
from coachdesk.services.roster_reading import readings
from coachdesk.services.states import keep_bodyweights
from coachdesk.services.undo import undo, undoable
from coachdesk.storage import readiness_tables
from coachdesk.storage.weight_states import weight_states
from tests.conftest import Results

TODAY = date(2026, 11, 25)


@pytest.fixture
def athlete_id(desk: Desk, results: Results) -> int:
    """Somebody with a month of readings, one of them odd."""
    athlete_id = results.athlete("Ana Ruiz")
    shown = ["63.2", "63.5", "63.1", "66.9", "63.3", "63.0", "62.8", "63.1"]
    add_readings(
        desk,
        [
            ReadingData(
                athlete_id=athlete_id, on=TODAY - timedelta(days=4 * ago), weight=kilograms(kg)
            )
            for ago, kg in enumerate(shown)
        ],
    )
    return athlete_id


def kept(desk: Desk) -> int:
    with desk.reading() as reader:
        count = select(func.count()).select_from(readiness_tables.weight_state)
        return reader.connection.execute(count).scalar_one()


def state(desk: Desk, athlete_id: int) -> Bodyweight:
    with desk.reading() as reader:
        return weight_states(reader, [athlete_id])[athlete_id]


def test_what_is_kept_is_what_is_made(desk: Desk, athlete_id: int) -> None:
    made = state(desk, athlete_id)
    assert kept(desk) == 0
    assert keep_bodyweights(desk) == 1
    assert kept(desk) == 1
    assert state(desk, athlete_id) == made
    assert [odd.shown_kg for odd in made.odd] == [66.9]
    assert keep_bodyweights(desk) == 0


def test_keeping_is_no_action_of_the_coach(desk: Desk, athlete_id: int) -> None:
    before = undoable(desk)
    keep_bodyweights(desk)
    assert undoable(desk) == before
    undo(desk)
    assert kept(desk) == 0
    with desk.reading() as reader:
        assert weight_states(reader, [athlete_id]) == {}


def _edit(desk: Desk, seen: Reading) -> object:
    data = ReadingData(athlete_id=seen.athlete_id, on=seen.on, weight=kilograms(70))
    return edit_reading(desk, seen, data)


def _add(desk: Desk, seen: Reading) -> object:
    data = ReadingData(athlete_id=seen.athlete_id, on=TODAY, weight=kilograms(64))
    return add_readings(desk, [data])


def _delete(desk: Desk, seen: Reading) -> object:
    return delete_readings(desk, [seen])


def _note(desk: Desk, seen: Reading) -> object:
    with desk.action(text("did.add_readings", count=1)) as work:
        return work.insert(
            CycleNoteData(athlete_id=seen.athlete_id, first=TODAY - timedelta(days=3), last=TODAY)
        )


@pytest.mark.parametrize("change", [_edit, _add, _delete, _note])
def test_a_change_is_seen_at_once(
    desk: Desk, athlete_id: int, change: Callable[[Desk, Reading], object]
) -> None:
    keep_bodyweights(desk)
    before = state(desk, athlete_id)
    latest = readings(desk, athlete_id, None)[0][0]
    change(desk, latest)
    assert kept(desk) == 0
    after = state(desk, athlete_id)
    assert after != before
    undo(desk)
    assert state(desk, athlete_id) == before


def test_the_states_of_others_stay(desk: Desk, athlete_id: int, results: Results) -> None:
    other = results.athlete("Bo Lind")
    data = ReadingData(athlete_id=other, on=TODAY, weight=kilograms(90))
    add_readings(desk, [data])
    assert keep_bodyweights(desk) == 2
    add_readings(desk, [data])
    assert kept(desk) == 1
    with desk.reading() as reader:
        assert set(weight_states(reader, [athlete_id, other])) == {athlete_id, other}


def test_readings_of_years_ago_say_nothing_more() -> None:
    """What two hundred days come to is what five years come to, to a tenth of a gram."""
    listed = [
        Reading(
            id=ago + 1,
            version=1,
            athlete_id=1,
            on=TODAY - timedelta(days=ago),
            weight=kilograms(f"{70 + ago * 0.004 + (ago * 7919 % 13 - 6) / 20:.1f}"),
        )
        for ago in range(0, 1825, 2)
    ]
    found, whole = bodyweight(listed), trend(listed, on=TODAY)
    assert found is not None
    assert found.outlook.level_kg == pytest.approx(whole.level_kg, abs=1e-4)
    assert found.outlook.rate_kg == pytest.approx(whole.rate_kg, abs=1e-4)
    assert found.outlook.noise_kg == pytest.approx(whole.noise_kg, rel=1e-3)
    assert found.levels[0] == pytest.approx(whole.states[-len(found.levels)].level, abs=1e-3)
