"""What the engine is told of entries: from records to beliefs."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import hypot
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Engine, event

from coachdesk.domain.engine import DEFAULT, DayBelief, LiftBelief
from coachdesk.domain.engine_parameters import Experience
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Result
from coachdesk.domain.meet import AttemptData, Entry
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.strength.lift_sources import LiftSources
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.domain.wishes import LiftBasisData, WishesData
from coachdesk.services.desk import Desk
from coachdesk.services.lift_beliefs import lift_belief
from coachdesk.services.lift_sources import KnownLifts, read_known
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.meets import record_attempts, upcoming_meets
from coachdesk.services.print_choice import no_progress
from coachdesk.services.training import log_sets
from coachdesk.services.wishes_editing import say_of_lift, wish_for_all
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from tests.conftest import Results

MEET_DAY = date(2026, 12, 12)
ROOT = Path(__file__).parents[2]


@contextmanager
def _statements() -> Iterator[list[str]]:
    seen: list[str] = []

    def note(*arguments: object) -> None:
        seen.append(str(arguments[2]))

    event.listen(Engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", note)


@pytest.fixture
def meet_id(results: Results) -> int:
    return results.meet("Harbour Open", MEET_DAY)


def _squats(results: Results, athlete_id: int, on: date, kg: float, reps: int = 1) -> None:
    logged = LoggedSetData(
        athlete_id=athlete_id,
        on=on,
        lift=Lift.SQUAT,
        weight=kilograms(kg),
        reps=reps,
        rir=0.0,
    )
    log_sets(results.desk, [logged])


@dataclass(frozen=True)
class Believed:
    """What is believed of an entry's day."""

    first_meet: bool
    sources: dict[Lift, LiftSources]
    beliefs: dict[Lift, LiftBelief]
    wishes: WishesData | None


def _believed(known: KnownLifts, entry: Entry) -> Believed:
    sources = {lift: known.sources(entry, lift) for lift in entry.event.lifts}
    beliefs = {lift: lift_belief(each) for lift, each in sources.items()}
    return Believed(
        is_first_meet(known.record, entry),
        sources,
        {lift: belief for lift, belief in beliefs.items() if belief is not None},
        known.training.wishes.get(entry.id),
    )


def meet_beliefs(
    desk: Desk, meet_id: int, *, entry_ids: frozenset[int] | None = None
) -> dict[int, Believed]:
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today, only=entry_ids)
        known = read_known(reader, desk.rulebooks.get(record.meet.rulebook), record, today)
    return {entry.id: _believed(known, entry) for entry in record.entries}


def _belief(results: Results, meet_id: int) -> Believed:
    (found,) = meet_beliefs(results.desk, meet_id).values()
    return found


def test_beliefs_are_ready_for_the_engine(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    past = results.meet("Spring Cup", date(2026, 4, 11))
    results.day(athlete, past, [100, 60, 130])
    results.entry(athlete, meet_id)
    found = _belief(results, meet_id)
    assert set(found.beliefs) == set(Lift)
    assert not found.first_meet
    assert list(DayBelief.of(found.beliefs).lifts) == list(Lift)
    squat, used = found.beliefs[Lift.SQUAT], found.sources[Lift.SQUAT].used
    assert used is not None
    assert (squat.expected, squat.sd) == (used.expected, used.sd)
    assert used.source is Source.LAST_MEET
    assert squat.sd == pytest.approx(hypot(used.day, used.error))


def test_a_lift_of_which_nothing_is_known_has_no_belief(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    results.entry(athlete, meet_id)
    _squats(results, athlete, date(2026, 11, 20), 100)
    found = _belief(results, meet_id)
    assert set(found.beliefs) == {Lift.SQUAT}
    assert set(found.sources) == set(Lift)
    assert found.first_meet
    assert found.beliefs[Lift.SQUAT].miss.mean == pytest.approx(
        DEFAULT.miss_rate(Lift.SQUAT, Experience.FIRST_MEET, Equipment.CLASSIC)
    )


def test_misses_of_the_athletes_own_move_the_rate(results: Results, meet_id: int) -> None:
    """By hand: the usual rate after one meet is worth 20 attempts; one red for depth of three
    makes (20 t + 1) / 23. The engine's few rates have that mean."""
    athlete = results.athlete("Ana Ruiz")
    past = results.entry(athlete, results.meet("Spring Cup", date(2026, 4, 11)))
    results.lift(past, Lift.SQUAT, [(100, True)])
    record_attempts(
        results.desk,
        [
            AttemptData(
                entry_id=past,
                lift=Lift.SQUAT,
                number=number,
                weight=kilograms(105),
                result=result,
                cause=cause,
            )
            for number, result, cause in (
                (2, Result.NO_LIFT, "squat.depth"),
                (3, Result.GOOD, ""),
            )
        ],
    )
    results.entry(athlete, meet_id)
    usual = DEFAULT.miss_rate(Lift.SQUAT, Experience.EARLY, Equipment.CLASSIC)
    learned = _belief(results, meet_id).beliefs[Lift.SQUAT].miss.mean
    assert learned == pytest.approx((20 * usual + 1) / 23)


def test_other_equipment_says_nothing(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    past = results.meet("Spring Cup", date(2026, 4, 11))
    results.day(athlete, past, [150, 90, 140], equipment=Equipment.EQUIPPED)
    results.entry(athlete, meet_id)
    assert _belief(results, meet_id).beliefs == {}


def test_an_entry_at_a_bench_meet_counts_for_the_bench(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    past = results.meet("Bench Day", date(2026, 4, 11))
    results.day(athlete, past, [62.5], event=Event.BENCH_ONLY)
    results.entry(athlete, meet_id)
    assert set(_belief(results, meet_id).beliefs) == {Lift.BENCH}


def test_sets_before_past_meets_tell_what_carries_over(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    past_day = date(2026, 4, 11)
    past = results.meet("Spring Cup", past_day)
    results.day(athlete, past, [100, 60, 130])
    results.entry(athlete, meet_id)
    days = [
        past_day - timedelta(days=43),
        past_day - timedelta(days=42),
        past_day - timedelta(days=1),
        past_day,
        date(2026, 8, 1),
        date(2026, 11, 20),
    ]
    for day in days:
        _squats(results, athlete, day, 105)
    desk = results.desk
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, desk.today())
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, desk.today())
    assert [each.on for each in known.training.lifts[athlete][Lift.SQUAT].sets] == days
    sets = known.sources(record.entries[0], Lift.SQUAT).of(Source.SETS)
    assert sets is not None
    assert "strength.carry_over.own" in {each.code for each in sets.evidence}


def test_wishes_and_the_coachs_band_come_along(results: Results, meet_id: int) -> None:
    entry_id = results.entry(results.athlete("Ana Ruiz"), meet_id)
    desk = results.desk

    def entry() -> Entry:
        with desk.reading() as reader:
            return reader.get(Entry, entry_id)

    band = LiftBasisData(entry_id=entry_id, lift=Lift.BENCH, low=kilograms(58), high=kilograms(62))
    say_of_lift(desk, entry(), kilograms(60), band, basis=None)
    wanted = WishesData(entry_id=entry_id, risk_cap=0.03)
    wish_for_all(desk, meet_id, frozenset({entry_id}), wanted, no_progress)
    found = _belief(results, meet_id)
    assert found.wishes is not None
    assert found.wishes.risk_cap == 0.03
    used = found.sources[Lift.BENCH].used
    assert used is not None
    assert used.error > DEFAULT.coach_error.value  # 58 to 62 about 60 is wider than the usual 2 %


def test_an_entry_as_typed_is_believed_as_typed(results: Results, meet_id: int) -> None:
    results.entry(results.athlete("Ana Ruiz"), meet_id)
    desk = results.desk
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, desk.today())
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, desk.today())
    typed = replace(record.entries[0], expected_squat=kilograms(102.5))
    assert _believed(known, typed).beliefs[Lift.SQUAT].expected == kilograms(102.5)


def test_as_many_statements_for_many_entries_as_for_one(results: Results, meet_id: int) -> None:
    counts = []
    past = results.meet("Spring Cup", date(2026, 4, 11))
    for number in (1, 12):
        for at in range(number):
            athlete = results.athlete(f"Ana Ruiz {number} {at}")
            results.day(athlete, past, [100, 60, 130])
            results.entry(athlete, meet_id)
            _squats(results, athlete, date(2026, 4, 1), 105)
        with _statements() as seen:
            found = meet_beliefs(results.desk, meet_id)
        counts.append((len(seen), len(found)))
    assert [entries for _, entries in counts] == [1, 13]
    assert counts[0][0] == counts[1][0]


def test_some_entries_alone(results: Results, meet_id: int) -> None:
    first, second = (results.entry(results.athlete(name), meet_id) for name in ("Ana R", "Bea S"))
    found = meet_beliefs(results.desk, meet_id, entry_ids=frozenset({second}))
    assert set(found) == {second} != {first}


def test_everything_is_said_in_words(club: Desk, wording: Wording) -> None:
    """Which sets, which factor, how wide: no sentence lacks a value, and each weight is shown."""
    said = 0
    for meet in upcoming_meets(club):
        for found in meet_beliefs(club, meet.id).values():
            for sources in found.sources.values():
                assert wording.say(sources.misses.told).startswith("Technical misses")
                for forecast in sources.forecasts:
                    assert wording.say(forecast.origin)
                    assert [wording.say(each) for each in forecast.evidence]
                    width = wording.say(forecast.width)
                    assert wording.mass(forecast.low) in width
                    assert wording.mass(forecast.high) in width
                    said += 1
    assert said > 50


PLAN = """
import sys
from pathlib import Path
from typing import TYPE_CHECKING
import coachdesk.app.main
from coachdesk.app.wiring import open_desk
from coachdesk.services.entry_look import open_entry
from coachdesk.services.meet_page import meet_page
from coachdesk.services.planning import expected_of

desk = open_desk(Path(sys.argv[1]))
meet_page(desk, int(sys.argv[2]))
opened = open_entry(desk, int(sys.argv[3]))
assert expected_of(opened.known, opened.entry)
print(*sys.modules, sep="\\n")
"""


def test_numbers_to_plan_on_do_without_numpy(results: Results, meet_id: int) -> None:
    athlete = results.athlete("Ana Ruiz")
    past = results.meet("Spring Cup", date(2026, 4, 11))
    results.day(athlete, past, [100, 60, 130])
    entry_id = results.entry(athlete, meet_id)
    _squats(results, athlete, date(2026, 4, 1), 105)
    command = [
        sys.executable,
        "-c",
        PLAN,
        str(results.desk.store.file),
        str(meet_id),
        str(entry_id),
    ]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    loaded = set(ran.stdout.split())
    assert "coachdesk.domain.strength" in loaded
    assert "numpy" not in loaded


def test_a_desk_without_the_meet_says_so(desk: Desk) -> None:
    with pytest.raises(Trouble):
        meet_beliefs(desk, 99)
