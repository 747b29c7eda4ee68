"""What a plan of attempts leads to, as it is kept with the plan: chances are fractions, 0 to 1."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftOutlook:
    """What a plan for one lift leads to.

    `spread` is the standard deviation of the day's maximum the plan was made with, as a fraction
    of the expected one, `miss` the chance of a technical miss. `expected_best` is the expected best
    when a lift is made, `no_lift` the chance that none is, `all_good` that all three are.
    """

    spread: float
    miss: float
    expected_best: Mass
    no_lift: float
    all_good: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DayOutlook:
    """What the plans of all lifts lead to together.

    `expected_total` is the expected total when there is one, `no_total` the chance of none,
    `all_good` that every attempt is good (None where it was not worked out). `aim` is the chance of
    the first aim and `best_aim` the most it could be, None for the biggest total; `cap_met` says
    whether the coach's cap on the risk was met, None without one.
    """

    expected_total: Mass
    no_total: float
    all_good: float | None = None
    aim: float | None = None
    best_aim: float | None = None
    cap_met: bool | None = None

    @property
    def average_kg(self) -> float:
        """The total to be expected [kg] when a day without one counts as nothing."""
        return self.expected_total.kg * (1.0 - self.no_total)


@dataclass(frozen=True, slots=True)
class Cost:
    """What the coach's own weights give away against the free plan; negative where they gain.

    `kilograms` [kg] of the average total, a day without one counted as nothing: the expected total
    alone would speak for reckless weights. `points` are the same by the formula in use, and
    `no_total` is the chance of no total that they add.
    """

    kilograms: float
    points: float
    no_total: float


def cost_of(free: DayOutlook, own: DayOutlook, points_per_kg: float = 0.0) -> Cost:
    """What a plan with the coach's `own` weights costs against the `free` one.

    `points_per_kg` is what a kilogram on the total is worth by the formula in use: for a given
    athlete every formula is a coefficient times the total.
    """
    kilograms = free.average_kg - own.average_kg
    return Cost(kilograms, points_per_kg * kilograms, own.no_total - free.no_total)


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """Where the day should stand after a lift: the least subtotals with which the aim is hardly,
    evenly and very likely met (one in ten, five, nine in ten); None where none is."""

    after: Lift
    hopeful: Mass | None
    even: Mass | None
    likely: Mass | None
