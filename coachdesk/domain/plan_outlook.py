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


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """Where the day should stand after a lift: the least subtotals with which the aim is hardly,
    evenly and very likely met (one in ten, five, nine in ten); None where none is."""

    after: Lift
    hopeful: Mass | None
    even: Mass | None
    likely: Mass | None
