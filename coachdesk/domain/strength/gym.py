"""How strong an athlete is in the gym: the trend that training days come to, in logarithms.

A damped local linear trend (`trend_filter`), as bodyweight has one. How it goes on is the same for
all athletes of like experience (`parameters`). Each training day is an observation of the level
whose error is the day's noise together with what the equation and the reserve leave open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import exp, log, sqrt

from coachdesk.domain.engine_parameters import Parameter
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.strength.parameters import DRIFT, DRIFT_EARLY, HALF_LIFE, TREND_SHARE
from coachdesk.domain.text import text
from coachdesk.domain.trend_filter import Day, Dynamics, State, carried, level_weights


def _going_on(drift: Parameter) -> Dynamics:
    """Slopes so that, in the long run, they and the level's own steps add up to the drift."""
    damping = 0.5 ** (1.0 / HALF_LIFE.value)
    square, share = drift.value**2, TREND_SHARE.value
    slopes = share * square * (1.0 - damping) / (1.0 + damping)
    return Dynamics(
        damping=damping,
        level_variance=(1.0 - share) * square,
        slope_variance=(1.0 - damping**2) * slopes,
    )


USUAL = _going_on(DRIFT)
"""How strength goes on, in logarithms, of athletes who have lifted at more than one meet."""

EARLY = _going_on(DRIFT_EARLY)
"""How it goes on before the second meet, when athletes differ most in how fast they gain."""


def dynamics(meets_behind: int) -> Dynamics:
    """How the strength of an athlete goes on who has lifted at so many meets."""
    return USUAL if meets_behind > 1 else EARLY


@dataclass(frozen=True, slots=True)
class GymLevel:
    """The one-repetition maximum in the gym [kg] for a day to come, and its standard deviation, a
    fraction."""

    maximum_kg: float
    error: float


def gym_level(
    seen: Sequence[Observation], *, noise: float, forecast_for: date, going_on: Dynamics = USUAL
) -> GymLevel:
    """The level that observations come to on the day `forecast_for`, which is not before them.

    `seen` are of different days; `noise` is that of a training day, a fraction; `going_on` says how
    strength goes on. Raises InvalidInput: field "sets" without any observation, "forecast_for" for
    a day before one of them.
    """
    days, start = observed(seen, noise, going_on)
    level = carried(days, start, _further(seen, forecast_for), going_on)
    return GymLevel(exp(level.level), sqrt(level.level_variance))


def shares(
    seen: Sequence[Observation], *, noise: float, forecast_for: date, going_on: Dynamics = USUAL
) -> tuple[float, ...]:
    """How much each observation counts in the `gym_level` of that day; together one.

    Where a trend is carried on, old days may count a little against it. Errors as `gym_level`.
    """
    days, start = observed(seen, noise, going_on)
    weights = level_weights(days, start, _further(seen, forecast_for), going_on)
    first = min(each.on for each in seen)
    return tuple(weights[(each.on - first).days] for each in seen)


def _further(seen: Sequence[Observation], forecast_for: date) -> int:
    latest = max(each.on for each in seen)
    if forecast_for < latest:
        raise InvalidInput("forecast_for", text("strength.day_before_sets", day=latest))
    return (forecast_for - latest).days


def observed(
    seen: Sequence[Observation], noise: float, going_on: Dynamics
) -> tuple[list[Day], State]:
    """The days from the first observation to the last, in logarithms, and what is known before.

    `noise` is that of a training day, a fraction. Raises InvalidInput: field "sets" without any.
    """
    if not seen:
        raise InvalidInput("sets", text("strength.no_sets"))
    first, last = min(each.on for each in seen), max(each.on for each in seen)
    days: list[Day] = [None] * ((last - first).days + 1)
    for each in seen:
        days[(each.on - first).days] = (log(each.maximum_kg), noise**2 + each.error**2)
    begin = days[0]
    return days, going_on.start(0.0 if begin is None else begin[0])
