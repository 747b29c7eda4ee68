"""Strength in the gym over time, and on days to come: what a chart of it is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, hypot, sqrt

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.gym import observed
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.text import text
from coachdesk.domain.trend_filter import Dynamics, State, ahead, smoothed

_DAYS_A_WEEK = 7


@dataclass(frozen=True, slots=True)
class GymDay:
    """The maximum of a day [kg] as the trend has it.

    `error` is the standard deviation of the level, a fraction; `sd` that of the day's maximum, the
    day's own noise counted once.
    """

    on: date
    maximum_kg: float
    error: float
    sd: float


@dataclass(frozen=True, slots=True)
class StrengthTrend:
    """The trend of a lift from its first training day, `since`, to its last, `on`.

    `states` has level and slope (a day) of every day between, in logarithms, in the light of all
    `observations` (latest first); `noise` is that of a training day, a fraction.
    """

    since: date
    on: date
    states: tuple[State, ...]
    observations: tuple[Observation, ...]
    noise: float
    going_on: Dynamics

    @property
    def rate(self) -> float:
        """What the trend gains a week on the last day, a fraction; below 0 on the way down."""
        return _DAYS_A_WEEK * self.states[-1].slope

    @property
    def rate_error(self) -> float:
        """The standard deviation of `rate`."""
        return _DAYS_A_WEEK * sqrt(self.states[-1].slope_variance)

    def day(self, on: date) -> GymDay:
        """What the trend says of a day, on or after `since`; after the last, if it fades as usual.

        Raises InvalidInput: field "day" before `since`.
        """
        if on < self.since:
            raise InvalidInput("day", text("strength.day_before_sets", day=self.since))
        further = (on - self.on).days
        if further > 0:
            state = ahead(self.states[-1], further, self.going_on)
        else:
            state = self.states[(on - self.since).days]
        error = sqrt(state.level_variance)
        return GymDay(on, exp(state.level), error, hypot(error, self.noise))

    def days(self, first: date, last: date, step: int = 1) -> tuple[GymDay, ...]:
        """Every so many days from the `first` on, and the `last`; days before `since` are left out.

        `step` is 1 or more.
        """
        begin = max(first, self.since)
        found = [self.day(begin + timedelta(days=at)) for at in range(0, (last - begin).days, step)]
        return (*found, self.day(last)) if last >= begin else ()


def strength_trend(
    seen: Sequence[Observation], *, noise: float, going_on: Dynamics
) -> StrengthTrend:
    """The trend that observations come to, one a day, latest first.

    `noise` is that of a training day, a fraction; `going_on` says how strength goes on. Raises
    InvalidInput: field "sets" without any.
    """
    days, start = observed(seen, noise, going_on)
    return StrengthTrend(
        since=seen[-1].on,
        on=seen[0].on,
        states=tuple(smoothed(days, start, going_on)),
        observations=tuple(seen),
        noise=noise,
        going_on=going_on,
    )
