"""Speed of the attempt engine; reported, never gating.

Run with `pytest -n0 --benchmark-enable tests/bench/bench_engine.py`. Budgets: 30 ms a lift, 300 ms
an athlete for a number on the total, 2 s for a team of 20 (6 s with numbers).
"""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from coachdesk.domain.attempts import Steps
from coachdesk.domain.engine import (
    DayBelief,
    DayRequest,
    LiftBelief,
    Limits,
    MissRate,
    Request,
    TotalRequest,
    one_lift,
    plan_aim,
    plan_day,
    plan_number,
)
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import kilograms

LIMITS = Limits(steps=Steps(step=kilograms("2.5"), lightest=kilograms(25)))
TEAM = 20


def _belief(expected_kg: float, sd: float) -> LiftBelief:
    return LiftBelief(kilograms(expected_kg), sd, MissRate.learned(0.025, 20))


def _day(scale: float = 1.0) -> DayBelief:
    expected = {Lift.SQUAT: 200.0, Lift.BENCH: 130.0, Lift.DEADLIFT: 230.0}
    return DayBelief.of({lift: _belief(scale * kg, 0.036) for lift, kg in expected.items()})


@pytest.mark.parametrize(
    ("expected_kg", "sd"), [(60, 0.036), (200, 0.03), (200, 0.049), (320, 0.036)], ids=str
)
def test_a_lift(benchmark: BenchmarkFixture, expected_kg: float, sd: float) -> None:
    belief = _belief(expected_kg, sd)
    benchmark(lambda: plan_aim(Request(one_lift(belief), LIMITS, 350.0)))


def test_a_number_on_the_total(benchmark: BenchmarkFixture) -> None:
    number = kilograms("552.5")
    benchmark(lambda: plan_number(TotalRequest(_day(), dict.fromkeys(Lift, LIMITS)), number))


def test_a_team_for_the_biggest_total(benchmark: BenchmarkFixture) -> None:
    days = [_day(0.5 + 0.05 * member) for member in range(TEAM)]

    def team() -> None:
        for day in days:
            plan_day(DayRequest(day, dict.fromkeys(Lift, LIMITS)))

    benchmark(team)
