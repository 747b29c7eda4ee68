"""The defaults against two fixed patterns, under a true belief and under wrong ones.

`tests/bench/simulate_plans.py` prints the same comparison from drawn days; here it is exact.
"""

from __future__ import annotations

import pytest

from coachdesk.domain.attempts import Outcome, Steps
from coachdesk.domain.engine.belief import LiftBelief, LiftGrid, one_lift
from coachdesk.domain.engine.evaluate import evaluate
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.plan_lift import kilograms_at_stake, plan_lift
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.engine.tree import Choice
from coachdesk.domain.engine_parameters import honest_sd
from coachdesk.domain.units import kilograms

LIMITS = Limits(steps=Steps(step=kilograms("2.5"), lightest=kilograms(25)))
UTILITY = kilograms_at_stake(350)
ATHLETES = [(0.045, 0.06), (0.03, 0.025), (0.025, 0.02)]
GOOD = (Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND)
MISSED = (Outcome.STRENGTH, Outcome.TECHNICAL)


def _pattern(*kg: float) -> Choice:
    """A missed weight is repeated (common practice)."""

    def choice(number: int, reached: int) -> Choice:
        weight = kilograms(kg[reached])
        if number == 3:
            return Choice(number, weight)
        good, missed = choice(number + 1, reached + 1), choice(number + 1, reached)
        return Choice(number, weight, ((GOOD, good), (MISSED, missed)))

    return choice(1, 0)


HEAVY, LIGHT = _pattern(182.5, 192.5, 202.5), _pattern(180, 190, 200)
"""91/96/101 % and 90/95/100 % of 200 kg, to the nearest step."""


def _truth(expected: float, sd: float, rate: float) -> LiftGrid:
    return one_lift(LiftBelief(kilograms(expected), sd, MissRate.learned(rate, 20)))


def _plan(sd: float, rate: float) -> Choice:
    return plan_lift(_truth(200, honest_sd(sd), rate), LIMITS, UTILITY).choice


@pytest.mark.parametrize(("sd", "rate"), ATHLETES)
def test_where_the_belief_is_true_the_plan_beats_both_patterns(sd: float, rate: float) -> None:
    truth = _truth(200, sd, rate)
    worth = [evaluate(plan, truth).utility(UTILITY) for plan in (_plan(sd, rate), HEAVY, LIGHT)]
    assert worth[0] >= max(worth[1:])


def test_a_first_timer_is_left_without_a_lift_at_most_a_fifth_as_often() -> None:
    sd, rate = ATHLETES[0]
    truth = _truth(200, sd, rate)
    risks = [evaluate(plan, truth).no_lift for plan in (_plan(sd, rate), HEAVY)]
    assert risks[0] <= risks[1] / 5


@pytest.mark.parametrize(("sd", "rate"), ATHLETES)
def test_a_coach_three_per_cent_too_hopeful_is_not_worse_off_than_with_90_95_100(
    sd: float, rate: float
) -> None:
    truth = _truth(200 / 1.03, sd, rate)
    worth = [evaluate(plan, truth).utility(UTILITY) for plan in (_plan(sd, rate), LIGHT)]
    assert worth[0] >= worth[1]
