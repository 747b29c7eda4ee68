"""How strong an athlete is in the gym, as seen on a day: recent observations, the latest most.

Each observation counts by how sure it is (the training day's noise, the equation, the reserve) and
half as much for every four weeks of age. The error of the average is that of the observations, and
what strength may have drifted since they were made and may still drift until the day forecast.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.strength.parameters import DRIFT, HALF_LIFE
from coachdesk.domain.text import text


@dataclass(frozen=True, slots=True)
class GymLevel:
    """The one-repetition maximum in the gym [kg] for a day to come, and its standard deviation.

    `error` is a fraction; `shares` (they sum to one) say how much each observation counts.
    """

    maximum_kg: float
    error: float
    observations: tuple[Observation, ...]
    shares: tuple[float, ...]


def gym_level(seen: Sequence[Observation], *, noise: float, forecast_for: date) -> GymLevel:
    """The level that observations come to on the day `forecast_for`, which is not before them.

    `noise` is that of a training day, a fraction. Raises InvalidInput: field "sets" without any
    observation, "forecast_for" for a day before one of them.
    """
    if not seen:
        raise InvalidInput("sets", text("strength.no_sets"))
    latest = max(each.on for each in seen)
    if forecast_for < latest:
        raise InvalidInput("forecast_for", text("strength.day_before_sets", day=latest))
    variances = [noise**2 + each.error**2 for each in seen]
    weights = [
        0.5 ** ((latest - each.on).days / HALF_LIFE.value) / variance
        for each, variance in zip(seen, variances, strict=True)
    ]
    total = sum(weights)
    shares = tuple(weight / total for weight in weights)
    maximum = sum(share * each.maximum_kg for share, each in zip(shares, seen, strict=True))
    variance = sum(share**2 * variance for share, variance in zip(shares, variances, strict=True))
    days = sum(
        share * (forecast_for - each.on).days for share, each in zip(shares, seen, strict=True)
    )
    return GymLevel(maximum, sqrt(variance + DRIFT.value**2 * days), tuple(seen), shares)
