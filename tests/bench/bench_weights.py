"""Bodyweights of a thousand athletes over five years, every day: Today, and a new reading.

Run with `pytest -n0 --benchmark-enable tests/bench/bench_weights.py` (making the file takes a
minute and a half); reported, never gating. The budget is 100 ms for Today and 50 ms for a reading;
half of the athletes have an entry ahead, far more than any coach's.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import ReadingData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_readings
from coachdesk.services.states import keep_bodyweights
from coachdesk.services.today import read_today
from coachdesk.ui.screens.today.presenter import TodayPresenter
from coachdesk.wording.wording import Wording
from tests.bench.large_club import fill


@pytest.fixture(scope="module")
def club(
    tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Iterator[Desk]:
    """A thousand athletes where speed is measured, a handful otherwise."""
    desk = open_desk(tmp_path_factory.mktemp("weights") / "coachdesk.db")
    measured = request.config.getoption("--benchmark-enable")
    athletes, years = (1000, 5) if measured else (4, 1)
    fill(desk, athletes=athletes, years=years, readings_a_week=7, sets_a_week=1)
    keep_bodyweights(desk)
    yield desk
    desk.store.close()


def test_today(benchmark: BenchmarkFixture, club: Desk) -> None:
    today = benchmark(read_today, club)
    assert today.board


def test_a_new_reading_and_all_it_touches(
    benchmark: BenchmarkFixture, club: Desk, wording: Wording
) -> None:
    """Kept with what it comes to, and Today read and worded again, as the open screen does."""
    today = TodayPresenter(club, wording)
    today.read()
    reading = ReadingData(athlete_id=1, on=club.today(), weight=kilograms(85))

    def weigh() -> None:
        add_readings(club, [reading])
        keep_bodyweights(club)
        assert today.read().board

    benchmark(weigh)
