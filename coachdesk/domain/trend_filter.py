"""Level and slope by days: a damped local linear trend, its Kalman filter and smoother.

One filter for all that drifts: bodyweight in kilograms, strength in logarithms of kilograms.
"Units" are those of the level.

From one day to the next

    level' = level + slope + a step of variance `level_variance`
    slope' = damping * slope + a step of variance `slope_variance`

and what is observed is the level with an error of known variance. A slope starts as slopes are in
the long run; of the first level nothing is known. Durbin and Koopman, Time Series Analysis by State
Space Methods, 2nd edition, 2012, chapters 3 and 4 (the smoother in the form of Rauch, Tung and
Striebel, 1965).

Plain tuples and two long loops: a roster of two hundred has some 70,000 days a year, and each is
gone through several times.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

UNKNOWN_LEVEL = 1e6
"""Variance of a level of which nothing is known [units squared]: a thousand units either way."""

Day: TypeAlias = tuple[float, float] | None
"""A day's observation and the variance of its error, above 0; None without one."""


class State(NamedTuple):
    """What is known of a day: level and slope (units a day), with their covariances."""

    level: float
    slope: float
    level_variance: float
    covariance: float
    slope_variance: float


_Numbers: TypeAlias = tuple[float, float, float, float, float]


@dataclass(frozen=True, slots=True)
class Dynamics:
    """How level and slope go on: `damping` of a day, above 0 and below 1, and variances."""

    damping: float
    level_variance: float
    slope_variance: float

    def start(self, level: float) -> State:
        """What is known before the first observation, which lies about `level`."""
        slopes = self.slope_variance / (1.0 - self.damping**2)
        return State(level, 0.0, UNKNOWN_LEVEL, 0.0, slopes)


def ahead(state: State, days: int, dynamics: Dynamics) -> State:
    """What is known of a day so many `days` after `state`, 0 or more, without an observation."""
    states, _ = _forward([None] * (days + 1), state, dynamics)
    return State(*states[-1])


def surprises(days: Sequence[Day], start: State, dynamics: Dynamics) -> list[tuple[float, float]]:
    """How far each observation lies off what the days before it lead to expect, and the
    variance that was expected of it; `start` is what is known before the first day."""
    _, found = _forward(days, start, dynamics)
    return found


def smoothed(days: Sequence[Day], start: State, dynamics: Dynamics) -> list[State]:
    """What all `days` together say of each; `start` is what is known before the first.

    For the last day that is what the filter says.
    """
    states, _ = _forward(days, start, dynamics)
    _backward(states, dynamics)
    return list(map(State._make, states))


def carried(days: Sequence[Day], start: State, further: int, dynamics: Dynamics) -> State:
    """What all `days` say of a day so many days `further` after the last of them, 0 or more."""
    states, _ = _forward([*days, *[None] * further], start, dynamics)
    return State(*states[-1])


def level_weights(
    days: Sequence[Day], start: State, further: int, dynamics: Dynamics
) -> list[float]:
    """How much each day's observation counts in the level of the day that `carried` answers of.

    That level is their weighted sum. Where nothing is known of the first level the weights sum to
    one, and those of old days may fall below 0 where a slope is carried on. Worked out backward
    from the day that is asked for (Koopman and Harvey, 2003: Computing observation weights for
    signal extraction and filtering).
    """
    damping = dynamics.damping
    states, _ = _forward(days, start, dynamics)
    level, slope = 1.0, (1.0 - damping**further) / (1.0 - damping)
    weights = [0.0] * len(days)
    for at in range(len(days) - 1, -1, -1):
        day = days[at]
        if day is not None:
            _, _, p, c, _ = states[at]
            weights[at] = (level * p + slope * c) / day[1]
            level -= weights[at]
        slope = level + damping * slope
    return weights


def _forward(
    days: Sequence[Day], start: State, dynamics: Dynamics
) -> tuple[list[_Numbers], list[tuple[float, float]]]:
    """The filter: what each day and those before it say of it, and how the days surprised.

    `p`, `c` and `s` are the variance of the level, its covariance with the slope, and the variance
    of the slope; they are revised without differences that cancel.
    """
    states: list[_Numbers] = []
    found: list[tuple[float, float]] = []
    damping = dynamics.damping
    squared = damping * damping
    level_step, slope_step = dynamics.level_variance, dynamics.slope_variance
    level, slope, p, c, s = start
    for day in days:
        if day is not None:
            value, error = day
            expected = p + error
            off = value - level
            found.append((off, expected))
            gain = off / expected
            level += p * gain
            slope += c * gain
            s -= c * c / expected
            kept = error / expected
            p *= kept
            c *= kept
        states.append((level, slope, p, c, s))
        level += slope
        slope *= damping
        p += 2.0 * c + s + level_step
        c = damping * (c + s)
        s = squared * s + slope_step
    return states, found


def _backward(states: list[_Numbers], dynamics: Dynamics) -> None:
    """The smoother: what the filter says of each day, revised in place by the day after it."""
    damping = dynamics.damping
    squared = damping * damping
    level_step, slope_step = dynamics.level_variance, dynamics.slope_variance
    level_next, slope_next, p_next, c_next, s_next = states[-1]
    for at in range(len(states) - 2, -1, -1):
        level, slope, p, c, s = states[at]
        # What was foretold of the day after, and the gains: the covariance of the two days'
        # states times the inverse of that covariance.
        p_told = p + 2.0 * c + s + level_step
        c_told = damping * (c + s)
        s_told = squared * s + slope_step
        scale = 1.0 / (p_told * s_told - c_told * c_told)
        across, slopes = damping * c, damping * s
        a = (p + c) * s_told - across * c_told
        b = across * p_told - (p + c) * c_told
        d = (c + s) * s_told - slopes * c_told
        e = slopes * p_told - (c + s) * c_told
        a, b, d, e = a * scale, b * scale, d * scale, e * scale
        level_more = level_next - level - slope
        slope_more = slope_next - damping * slope
        p_more, c_more, s_more = p_next - p_told, c_next - c_told, s_next - s_told
        up, vp = a * p_more + b * c_more, a * c_more + b * s_more
        us, vs = d * p_more + e * c_more, d * c_more + e * s_more
        level_next = level + a * level_more + b * slope_more
        slope_next = slope + d * level_more + e * slope_more
        p_next = p + up * a + vp * b
        c_next = c + up * d + vp * e
        s_next = s + us * d + vs * e
        states[at] = (level_next, slope_next, p_next, c_next, s_next)
