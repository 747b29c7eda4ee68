"""One-repetition maximum from a set, and the scales coaches use beside it.

An equation is a factor on the weight that grows with the effective repetitions: repetitions done
plus repetitions in reserve (RIR). One effective repetition is the maximum itself and returns the
weight, although most of the equations would add to it. Up to ten effective repetitions count
(Reynolds 2006); and the guess at the reserve is out by about one repetition when 0-5 are left but
by more than two when 7-10 are (Hackett 2017).

References
----------
[1] The seven equations: Epley 1985, Brzycki 1993, Lombardi 1989, Mayhew 1992, Wathan 1994,
    O'Conner 1989, Lander 1985. Constants [recalled]; Lander's also read in a summary.
[2] Reynolds et al. 2006, J Strength Cond Res 20(3):584-592: bench press from 5 repetitions.
[3] Zourdos et al. 2016, J Strength Cond Res 30(1):267-275: RPE 10 is 0 RIR, 9 is 1; half steps and
    the lower end [recalled].
[4] RPE chart of a coaching manual of 2008 [recalled], not peer-reviewed.
[5] NSCA training load chart; the figure for 15 repetitions is [recalled].
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from math import exp, inf

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text

MOST_EFFECTIVE_REPS = 10
LOWEST_RPE = 5.0


class Equation(StrEnum):
    """A published equation for the one-repetition maximum."""

    EPLEY = "epley"
    BRZYCKI = "brzycki"
    LOMBARDI = "lombardi"
    MAYHEW = "mayhew"
    WATHAN = "wathan"
    OCONNER = "oconner"
    LANDER = "lander"


_FACTORS: dict[Equation, Callable[[float], float]] = {
    Equation.EPLEY: lambda reps: 1 + reps / 30,
    Equation.BRZYCKI: lambda reps: 36 / (37 - reps),
    Equation.LOMBARDI: lambda reps: reps**0.10,
    Equation.MAYHEW: lambda reps: 100 / (52.2 + 41.9 * exp(-0.055 * reps)),
    Equation.WATHAN: lambda reps: 100 / (48.8 + 53.8 * exp(-0.075 * reps)),
    Equation.OCONNER: lambda reps: 1 + 0.025 * reps,
    Equation.LANDER: lambda reps: 100 / (101.3 - 2.67123 * reps),
}
"""The one-repetition maximum over the weight, by effective repetitions [1]."""

_PERCENT_BY_HALF_REPS = {
    2: 100.0,
    3: 97.8,
    4: 95.5,
    5: 93.9,
    6: 92.2,
    7: 90.7,
    8: 89.2,
    9: 87.8,
    10: 86.3,
    11: 85.0,
    12: 83.7,
    13: 82.4,
    14: 81.1,
    15: 79.9,
    16: 78.6,
    17: 77.4,
    18: 76.2,
    19: 75.1,
    20: 73.9,
    21: 72.3,
    22: 70.7,
    23: 69.4,
    24: 68.0,
    25: 66.7,
    26: 65.3,
}
"""The chart [4]: per cent of the maximum by twice the effective repetitions."""

_PERCENT_BY_REPS = {
    1: 100.0,
    2: 95.0,
    3: 93.0,
    4: 90.0,
    5: 87.0,
    6: 85.0,
    7: 83.0,
    8: 80.0,
    9: 77.0,
    10: 75.0,
    12: 70.0,
    15: 65.0,
}
"""The chart [5]: per cent of the maximum by the most repetitions that can be done."""


def usable(reps: int, rir: float = 0.0) -> bool:
    """Whether a set tells a one-repetition maximum: one to ten effective repetitions.

    False, not an error, for a set without a repetition or with a reserve that cannot be.
    """
    return reps >= 1 and rir >= 0 and reps + rir <= MOST_EFFECTIVE_REPS


def one_rep_max(equation: Equation, weight_kg: float, reps: int, rir: float = 0.0) -> float:
    """The one-repetition maximum [kg] from `reps` at a weight [kg] with `rir` in reserve.

    Range: weight above zero, one to ten effective repetitions. Raises InvalidInput (fields
    `weight`, `reps`, `rir`); ask `usable` first where a longer set is no error.
    """
    _check_weight(weight_kg)
    return weight_kg * _factor(equation, reps, rir)


def over_a_single(equation: Equation, reps: int, rir: float = 0.0) -> float:
    """How many times what the equation makes of a single it makes of `reps` with `rir` in reserve.

    Most of the equations add to a single itself; measured from their own single on, they agree
    about few repetitions and part ways with more. Range and errors as for `one_rep_max`.
    """
    factor = _factor(equation, reps, rir)
    return factor if reps + rir == 1 else factor / _FACTORS[equation](1.0)


def weight_for(equation: Equation, max_kg: float, reps: int, rir: float = 0.0) -> float:
    """The weight [kg] for `reps` with `rir` in reserve at a one-repetition maximum [kg].

    The inverse of `one_rep_max`, with the same range and errors.
    """
    _check_weight(max_kg)
    return max_kg / _factor(equation, reps, rir)


def bench_max_from_five(weight_kg: float) -> float:
    """The bench press maximum [kg] from a weight [kg] done for five and no more [2].

    1.1307 times the weight plus 0.6999 kg; standard error of estimate 2.98 kg. Raises InvalidInput
    (field `weight`) for a weight that is not above zero.
    """
    _check_weight(weight_kg)
    return 1.1307 * weight_kg + 0.6999


def rir_of_rpe(rpe: float) -> float:
    """Repetitions in reserve at an RPE of 5 to 10 [3]: ten minus the RPE.

    The published scale words 9.5 as "none left, but a little more weight"; charts count it as half
    a repetition. Below 5 it describes effort, not repetitions: raises InvalidInput (field `rpe`).
    """
    if not LOWEST_RPE <= rpe <= 10:
        raise InvalidInput("rpe", text("one_rep_max.rpe_out_of_range", lowest=LOWEST_RPE))
    return 10 - rpe


def rpe_of_rir(rir: float) -> float:
    """RPE at 0 to 5 repetitions in reserve [3]; raises InvalidInput (field `rir`) beyond."""
    if not 0 <= rir <= 10 - LOWEST_RPE:
        raise InvalidInput("rir", text("one_rep_max.rir_out_of_range", most=10 - LOWEST_RPE))
    return 10 - rir


def percent_by_rpe(reps: int, rpe: float) -> float:
    """Per cent of the maximum [%] for `reps` at an RPE in half steps, by the chart [4].

    The chart ends at 13 effective repetitions. Raises InvalidInput (fields `reps`, `rpe`).
    """
    half_reps = 2 * _effective_reps(reps, rir_of_rpe(rpe))
    if half_reps != int(half_reps):
        raise InvalidInput("rpe", text("one_rep_max.rpe_not_half_steps"))
    if int(half_reps) not in _PERCENT_BY_HALF_REPS:
        raise InvalidInput("reps", text("one_rep_max.off_the_chart"))
    return _PERCENT_BY_HALF_REPS[int(half_reps)]


def percent_by_reps(reps: int) -> float:
    """Per cent of the maximum [%] at which `reps` and no more can be done, by the chart [5].

    The chart has 1 to 10, 12 and 15 repetitions; raises InvalidInput (field `reps`) for others.
    People do more repetitions than it says at moderate weights (Nuzzo 2024, 269 studies).
    """
    if reps not in _PERCENT_BY_REPS:
        raise InvalidInput("reps", text("one_rep_max.off_the_chart"))
    return _PERCENT_BY_REPS[reps]


def _factor(equation: Equation, reps: int, rir: float) -> float:
    effective_reps = _effective_reps(reps, rir)
    if effective_reps > MOST_EFFECTIVE_REPS:
        raise InvalidInput("reps", text("one_rep_max.too_many_reps", most=MOST_EFFECTIVE_REPS))
    return 1.0 if effective_reps == 1 else _FACTORS[equation](effective_reps)


def _effective_reps(reps: int, rir: float) -> float:
    if reps < 1:
        raise InvalidInput("reps", text("one_rep_max.no_reps"))
    if not 0 <= rir < inf:
        raise InvalidInput("rir", text("one_rep_max.rir_negative"))
    return reps + rir


def _check_weight(weight_kg: float) -> None:
    if not 0 < weight_kg < inf:
        raise InvalidInput("weight", text("one_rep_max.weight_not_positive"))
