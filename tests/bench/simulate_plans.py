"""What plans are worth on drawn days, beside two fixed patterns.

Run with `python tests/bench/simulate_plans.py` in the environment of the project.

100,000 days each for a first-timer, a typical lifter and an experienced one: 200 kg expected,
350 kg at stake, against 91/96/101 % and 90/95/100 % of it with a missed weight repeated; and again
where the belief is wrong: the maximum 3 % too high or too low, the spread half as wide again, twice
the technical misses. The plan is made as the program makes it, from the coach's number with the
margin for the coach's own error. Every plan meets the same days and the same luck. Prints a table
in Markdown: kilograms of expected utility (no lift counts minus the stake), and the chance of none.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from coachdesk.domain.attempts import Outcome, Steps
from coachdesk.domain.engine import (
    Choice,
    LiftBelief,
    Limits,
    MissRate,
    honest_sd,
    kilograms_at_stake,
    one_lift,
    plan_lift,
)
from coachdesk.domain.units import kilograms

DAYS = 100_000
EXPECTED_KG, STAKE_KG, STEP_KG = 200.0, 350.0, 2.5
NU, EASY, GRIND, BLUR = 0.008, 0.075, 0.03, 0.02
ATTEMPTS = 20
ATHLETES = {
    "first-timer": (0.045, 0.06),
    "typical": (0.03, 0.025),
    "experienced": (0.025, 0.02),
}
PATTERNS = {"91/96/101 %": (0.91, 0.96, 1.01), "90/95/100 %": (0.90, 0.95, 1.00)}
TRUTHS = {
    "as believed": (1.0, 1.0, 1.0),
    "3 % too hopeful": (1 / 1.03, 1.0, 1.0),
    "3 % too modest": (1 / 0.97, 1.0, 1.0),
    "sd x 1.5": (1.0, 1.5, 1.0),
    "t x 2": (1.0, 1.0, 2.0),
}
SEEN = (Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND, Outcome.STRENGTH, Outcome.TECHNICAL)
GOOD, MISSED = SEEN[:3], SEEN[3:]

Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class Days:
    """Drawn days: the maxima, the miss rates, and the luck of each of three attempts."""

    strength: Floats
    rate: Floats
    technical: Floats
    strain: Floats
    look: Floats


def draw(mean_kg: float, sd: float, rate: float, seed: int) -> Days:
    """Days of an athlete as they truly are."""
    rng = np.random.default_rng(seed)
    return Days(
        mean_kg * (1 + sd * rng.standard_normal(DAYS)),
        rng.beta(rate * ATTEMPTS, (1 - rate) * ATTEMPTS, DAYS),
        rng.random((3, DAYS)),
        rng.standard_normal((3, DAYS)),
        rng.standard_normal((3, DAYS)),
    )


def follow(plan: Choice, days: Days) -> Floats:
    """The best weight [kg] of each day when the plan is followed; 0 for none."""
    best = np.zeros(DAYS)

    def attempt(at: Choice, here: NDArray[np.intp]) -> None:
        luck, weight = at.number - 1, at.weight.kg
        margin = 1 - weight / days.strength[here]
        look = margin + BLUR * days.look[luck, here]
        moved = np.where(look > EASY, 0, np.where(look < GRIND, 2, 1))
        strong = margin > NU * days.strain[luck, here]
        seen = np.where(strong, moved, 3)
        seen[days.technical[luck, here] < days.rate[here]] = 4
        best[here[seen < 3]] = weight
        for outcomes, following in at.ways:
            places = [SEEN.index(outcome) for outcome in outcomes]
            attempt(following, here[np.isin(seen, places)])

    attempt(plan, np.arange(DAYS))
    return best


def pattern(parts: tuple[float, float, float]) -> Choice:
    """A fixed pattern of the expected maximum to the nearest step, a missed weight repeated."""
    weights = [kilograms(round(part * EXPECTED_KG / STEP_KG) * STEP_KG) for part in parts]

    def choice(number: int, reached: int) -> Choice:
        if number == 3:
            return Choice(number, weights[reached])
        good, missed = choice(number + 1, reached + 1), choice(number + 1, reached)
        return Choice(number, weights[reached], ((GOOD, good), (MISSED, missed)))

    return choice(1, 0)


def planned(sd: float, rate: float) -> Choice:
    """The program's plan from the coach's number."""
    limits = Limits(steps=Steps(step=kilograms("2.5"), lightest=kilograms(25)))
    belief = LiftBelief(kilograms(EXPECTED_KG), honest_sd(sd), MissRate.learned(rate, ATTEMPTS))
    return plan_lift(one_lift(belief), limits, kilograms_at_stake(STAKE_KG)).choice


@dataclass(frozen=True)
class Figures:
    """What a plan is worth on average [kg], the standard error of that, and the chance of no
    lift."""

    utility_kg: float
    error_kg: float
    none: float


@dataclass(frozen=True)
class Row:
    """An athlete under one truth: the plan's opener [kg], and the figures of the plan and of each
    of `PATTERNS`."""

    athlete: str
    truth: str
    opener_kg: float
    figures: tuple[Figures, ...]


def rows() -> Iterator[Row]:
    """All athletes under every truth."""
    for seed, (athlete, (sd, rate)) in enumerate(ATHLETES.items()):
        plan = planned(sd, rate)
        plans = [plan, *(pattern(parts) for parts in PATTERNS.values())]
        for truth, (scale, wider, careless) in TRUTHS.items():
            days = draw(scale * EXPECTED_KG, wider * sd, careless * rate, seed)
            figures = tuple(_figures(follow(each, days)) for each in plans)
            yield Row(athlete, truth, plan.weight.kg, figures)


def table() -> Iterator[str]:
    """The lines of the table."""
    yield f"| athlete | the truth | opener | plan | {' | '.join(PATTERNS)} |"
    yield "|" + "---|" * (4 + len(PATTERNS))
    for row in rows():
        cells = [
            f"{each.utility_kg:.1f} ± {each.error_kg:.1f} kg, {100 * each.none:.2f} %"
            for each in row.figures
        ]
        yield f"| {row.athlete} | {row.truth} | {row.opener_kg:g} | {' | '.join(cells)} |"


def _figures(best: Floats) -> Figures:
    utility = np.where(best > 0, best, -STAKE_KG)
    error = float(utility.std()) / sqrt(DAYS)
    return Figures(float(utility.mean()), error, float((best == 0).mean()))


if __name__ == "__main__":
    for line in table():
        sys.stdout.write(line + "\n")
