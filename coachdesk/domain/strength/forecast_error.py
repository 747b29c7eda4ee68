"""How far past forecasts were off: learned by likelihood from what was made and missed.

The day's maximum is never seen, and best lifts would not do (see `carry_over`): of every shift and
every width of the forecasts it is asked how likely the attempts of the days were under it. It says
what the coach should make of the bands; no forecast is changed by it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import accumulate
from math import exp, log, sqrt

from coachdesk.domain.strength.carry_over import STEP, chances
from coachdesk.domain.strength.parameters import FORECAST_OFF, FORECAST_WIDTH
from coachdesk.domain.strength.tried import Tried
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent

_SHIFTS = 12
_WIDTHS = tuple(exp(0.1 * at) for at in range(-12, 13))
ENOUGH_MEETS = 5
"""Fewer meets say little of how wide bands should be (our own caution)."""


@dataclass(frozen=True, slots=True)
class PastForecast:
    """The last forecast of a lift before a meet, and the attempts taken there.

    `expected_kg` [kg], `sd` the standard deviation of the day's maximum (a fraction), `miss_rate`
    the chance of a technical miss; `meet_id` tells the meets apart.
    """

    meet_id: int
    expected_kg: float
    sd: float
    miss_rate: float
    attempts: tuple[Tried, ...]


@dataclass(frozen=True, slots=True)
class ForecastError:
    """How far forecasts were off at so many `meets`, in so many `lifts` with attempts.

    `off` is the mean of how far the days lay above what was forecast (a fraction, below 0 when
    forecasts were too high) with the standard deviation `off_error`; `width` says how many times
    the forecast's own the spread was, between `narrow` and `wide` eight times in ten. Lifts of one
    meet count as if apart, though they share the day: the errors are a little wider than said.
    """

    meets: int
    lifts: int
    off: float = 0.0
    off_error: float = FORECAST_OFF.value
    width: float = 1.0
    narrow: float = 1.0
    wide: float = 1.0

    @property
    def told(self) -> tuple[Text, ...]:
        """What it says of the widths shown, in words."""
        if not self.lifts:
            return (text("strength.error.none"),)
        found = text(
            "strength.error.off",
            off=Percent(100 * self.off),
            error=Percent(100 * self.off_error),
            lifts=self.lifts,
            count=self.meets,
        )
        if self.meets < ENOUGH_MEETS:
            return found, text("strength.error.few", count=ENOUGH_MEETS)
        return found, text(
            "strength.error.width",
            width=Decimal(f"{self.width:.1f}"),
            narrow=Decimal(f"{self.narrow:.1f}"),
            wide=Decimal(f"{self.wide:.1f}"),
        )


def forecast_error(past: Sequence[PastForecast]) -> ForecastError:
    """What `past` forecasts say; before any they are taken to be neither off nor too narrow."""
    told = [each for each in past if each.attempts]
    meets = len({each.meet_id for each in told})
    if not told:
        return ForecastError(meets=0, lifts=0)
    shifts = [STEP * at for at in range(-_SHIFTS, _SHIFTS + 1)]
    logs = [
        [
            -0.5 * ((log(width) / FORECAST_WIDTH.value) ** 2 + (at / FORECAST_OFF.value) ** 2)
            for at in shifts
        ]
        for width in _WIDTHS
    ]
    for each in told:
        widths = [width * each.sd for width in _WIDTHS]
        seen = chances(each.expected_kg, each.attempts, widths, _SHIFTS, each.miss_rate)
        logs = [
            [so_far + log(chance) for so_far, chance in zip(row, likely, strict=True)]
            for row, likely in zip(logs, seen, strict=True)
        ]
    most = max(map(max, logs))
    joint = [[exp(value - most) for value in row] for row in logs]
    return _summed_up(joint, shifts, meets, len(told))


def _summed_up(
    joint: Sequence[Sequence[float]], shifts: Sequence[float], meets: int, lifts: int
) -> ForecastError:
    by_shift = [sum(column) for column in zip(*joint, strict=True)]
    by_width = [sum(row) for row in joint]
    total = sum(by_shift)
    off = sum(chance * at for chance, at in zip(by_shift, shifts, strict=True)) / total
    square = sum(chance * (at - off) ** 2 for chance, at in zip(by_shift, shifts, strict=True))
    so_far = [chance / total for chance in accumulate(by_width)]
    narrow, middle, wide = (
        next(width for width, chance in zip(_WIDTHS, so_far, strict=True) if chance >= part)
        for part in (0.1, 0.5, 0.9)
    )
    return ForecastError(meets, lifts, exp(off) - 1.0, sqrt(square / total), middle, narrow, wide)
