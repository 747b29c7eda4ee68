"""Ten years of one athlete's training, 30,000 sets: opening a lift's history, and a new set.

Run with `pytest -n0 --benchmark-enable tests/bench/bench_strength.py`; reported, never gating. The
budget is 100 ms to open a lift, 50 ms for a set until estimate, forecast and Today's list are
there.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete
from coachdesk.services.states import keep_bodyweights, keep_strengths
from coachdesk.services.strength_history import strength_history
from coachdesk.services.team_strength import team_strength
from coachdesk.services.training import log_sets
from coachdesk.services.weight_picture import Span
from coachdesk.ui.screens.today.presenter import TodayPresenter
from coachdesk.wording.wording import Wording
from tests.bench.large_club import fill

SETS_A_DAY = 19


@pytest.fixture(scope="module")
def desk(
    tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Iterator[Desk]:
    """Three days a week for ten years where speed is measured, a few weeks otherwise."""
    desk = open_desk(tmp_path_factory.mktemp("strength") / "coachdesk.db")
    today = desk.today()
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    athlete_id = add_athlete(desk, athlete).value
    measured = request.config.getoption("--benchmark-enable")
    random = Random(1)  # noqa: S311
    days = [week + at for week in range(0, 3650 if measured else 50, 7) for at in (0, 2, 4)]
    sets = [
        LoggedSetData(
            athlete_id=athlete_id,
            on=today - timedelta(days=ago),
            lift=(Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT)[at % 3],
            weight=kilograms(100 + 2.5 * random.randint(0, 12)),
            reps=random.randint(1, 6),
            rir=float(random.randint(0, 4)),
        )
        for ago in days
        for at in range(SETS_A_DAY)
    ]
    log_sets(desk, sets)
    meet = MeetData(
        name="Harbour Open",
        starts_on=today + timedelta(days=40),
        rulebook="traditional_two_hour",
        time_zone="Europe/Berlin",
    )
    enter_athlete(
        desk,
        EntryData(
            athlete_id=athlete_id,
            meet_id=add_meet(desk, meet).value,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
        ),
    )
    keep_strengths(desk)
    yield desk
    desk.store.close()


def test_open_a_lift(benchmark: BenchmarkFixture, desk: Desk) -> None:
    def look() -> None:
        found = strength_history(desk, 1, Lift.SQUAT)
        assert found is not None
        assert found.picture(Span.ALL).platform is not None

    benchmark(look)


def test_a_new_set_and_what_it_comes_to(benchmark: BenchmarkFixture, desk: Desk) -> None:
    logged = LoggedSetData(
        athlete_id=1, on=desk.today(), lift=Lift.SQUAT, weight=kilograms(140), reps=3, rir=1.0
    )

    def lift() -> None:
        log_sets(desk, [logged])
        (line,) = team_strength(desk)
        assert line.total is not None

    benchmark(lift)


def test_a_set_estimate_forecast_and_attention(
    benchmark: BenchmarkFixture, desk: Desk, wording: Wording
) -> None:
    _measure_a_set(benchmark, desk, 1, wording)


def _measure_a_set(
    benchmark: BenchmarkFixture, desk: Desk, athlete_id: int, wording: Wording
) -> None:
    """Kept with what it comes to, the lift's history with its forecast read, and Today read and
    worded again, as the open screens do."""
    today = TodayPresenter(desk, wording)
    today.read()
    logged = LoggedSetData(
        athlete_id=athlete_id,
        on=desk.today(),
        lift=Lift.SQUAT,
        weight=kilograms(140),
        reps=3,
        rir=1.0,
    )

    def lift() -> None:
        log_sets(desk, [logged])
        keep_strengths(desk)
        found = strength_history(desk, athlete_id, Lift.SQUAT)
        assert found is not None
        assert found.used is not None
        assert today.read().meets

    benchmark(lift)


@pytest.fixture(scope="module")
def club(
    tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Iterator[Desk]:
    """Two hundred athletes over five years where speed is measured, a handful otherwise."""
    desk = open_desk(tmp_path_factory.mktemp("team") / "coachdesk.db")
    measured = request.config.getoption("--benchmark-enable")
    athletes, years = (200, 5) if measured else (8, 1)
    fill(desk, athletes=athletes, years=years, readings_a_week=1, sets_a_week=9)
    keep_bodyweights(desk)  # as the desk does while it is open
    keep_strengths(desk)
    yield desk
    desk.store.close()


def test_the_team(benchmark: BenchmarkFixture, club: Desk) -> None:
    """About half of the athletes have a meet ahead."""
    assert benchmark(team_strength, club)


def test_a_set_estimate_forecast_and_attention_in_a_team(
    benchmark: BenchmarkFixture, club: Desk, wording: Wording
) -> None:
    (first, *_) = team_strength(club)
    _measure_a_set(benchmark, club, first.athlete.id, wording)
