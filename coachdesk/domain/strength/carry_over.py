"""How much of the gym arrives on the platform, and how much an athlete's days differ.

The day's maximum is never seen: the factor and the spread are learned by likelihood from what was
made and missed at past meets, each against the gym's estimate before it, on a grid of logarithms.
Best lifts would not do, since a best lift is what was called for.

What was called also carries what the coach saw on the day, so the spread learned errs on the wide
side; the factor hardly minds (`tests/domain/test_strength_carry_over.py` shows both).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, exp, hypot, log, sqrt
from operator import mul

from coachdesk.domain.engine_parameters import WIDEST_SD
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.parameters import DAY_SPREAD
from coachdesk.domain.strength.tried import Tried, likelihood
from coachdesk.domain.text import text

STEP = 0.01
"""A step of strength, in logarithms."""
_REACH = 4.0
_SPREADS = (-2.0, -1.0, 0.0, 1.0, 2.0)


@dataclass(frozen=True, slots=True)
class PastDay:
    """A lift at a past meet: the gym's estimate before it [kg], its error (a fraction), and the
    attempts taken."""

    gym_kg: float
    error: float
    attempts: tuple[Tried, ...]


@dataclass(frozen=True, slots=True)
class CarryOver:
    """What carries over from gym to platform.

    `factor` on the gym's estimate and its standard deviation `sd`, a fraction; `day` the standard
    deviation of the athlete's days, a fraction; learned from so many `attempts` at so many `meets`,
    none of either before there are any.
    """

    factor: float
    sd: float
    day: float
    attempts: int = 0
    meets: int = 0


@lru_cache(maxsize=4096)
def carry_over(
    days: tuple[PastDay, ...], *, prior_sd: float, day: float, miss_rate: float
) -> CarryOver:
    """The carry-over learned from past `days`.

    Before them the factor is one with a standard deviation of `prior_sd`, and the days' spread is
    `day`, more or less (see `DAY_SPREAD`); `miss_rate` is the chance of a technical miss, 0 to 1.
    Raises InvalidInput: field "prior_sd", "day" or "miss_rate" out of range.
    """
    for field, value in (("prior_sd", prior_sd), ("day", day)):
        if not 0.0 < value <= WIDEST_SD:
            raise InvalidInput(field, text("strength.fraction"))
    if not 0.0 <= miss_rate < 1.0:
        raise InvalidInput("miss_rate", text("engine.miss_rate"))
    told = [past for past in days if past.attempts]
    if not told:
        return CarryOver(1.0, prior_sd, day)
    count = ceil(_REACH * prior_sd / STEP)
    factors = [STEP * at for at in range(-count, count + 1)]
    spreads, priors = _spreads(day)
    logs = [[log(prior) - 0.5 * (factor / prior_sd) ** 2 for factor in factors] for prior in priors]
    for past in told:
        widths = [hypot(spread, past.error) for spread in spreads]
        by_width = chances(past.gym_kg, past.attempts, widths, count, miss_rate)
        logs = [
            [so_far + log(chance) for so_far, chance in zip(row, seen, strict=True)]
            for row, seen in zip(logs, by_width, strict=True)
        ]
    most = max(map(max, logs))
    joint = [[exp(value - most) for value in row] for row in logs]
    return _summed_up(joint, factors, spreads, told)


def _spreads(day: float) -> tuple[list[float], list[float]]:
    """What the days' spread may be and how likely it is; the root of the mean square is `day`."""
    weights = [exp(-0.5 * at**2) for at in _SPREADS]
    total = sum(weights)
    likely = [weight / total for weight in weights]
    shapes = [exp(DAY_SPREAD.value * at) for at in _SPREADS]
    square = sum(chance * shape**2 for chance, shape in zip(likely, shapes, strict=True))
    return [day * shape / sqrt(square) for shape in shapes], likely


def chances(
    expected_kg: float,
    attempts: Sequence[Tried],
    widths: Sequence[float],
    count: int,
    miss_rate: float,
) -> list[list[float]]:
    """How likely the attempts of a day are, by each of the `widths` and each of 2 `count` + 1
    shifts.

    The day's strength lies normally, in logarithms, about `expected_kg` [kg] shifted by whole
    `STEP`s from -`count` to `count`; a width (a fraction) is its standard deviation.
    """
    most = count + ceil(_REACH * max(widths) / STEP)
    strengths = [expected_kg * exp(STEP * at) for at in range(-most, most + 1)]
    likely = likelihood(attempts, strengths, miss_rate)
    rows = []
    for width in widths:
        reach = ceil(_REACH * width / STEP)
        kernel = [exp(-0.5 * (STEP * at / width) ** 2) for at in range(-reach, reach + 1)]
        total = sum(kernel)
        first = most - count - reach
        rows.append(
            [
                sum(map(mul, kernel, likely[at : at + len(kernel)])) / total
                for at in range(first, first + 2 * count + 1)
            ]
        )
    return rows


def _summed_up(
    joint: list[list[float]], factors: list[float], spreads: list[float], told: Sequence[PastDay]
) -> CarryOver:
    by_factor = [sum(column) for column in zip(*joint, strict=True)]
    by_spread = [sum(row) for row in joint]
    total = sum(by_factor)
    mean = sum(map(mul, by_factor, factors)) / total
    square = sum(chance * (at - mean) ** 2 for chance, at in zip(by_factor, factors, strict=True))
    day = sum(chance * at**2 for chance, at in zip(by_spread, spreads, strict=True)) / total
    return CarryOver(
        factor=exp(mean),
        sd=sqrt(square / total),
        day=sqrt(day),
        attempts=sum(len(past.attempts) for past in told),
        meets=len(told),
    )
