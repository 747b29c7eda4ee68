"""A bodyweight carried from the last day that is known to a day to come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from math import isfinite, sqrt
from statistics import NormalDist

from coachdesk.domain.bodyweight.parameters import (
    EIGHT_IN_TEN,
    FARTHEST,
    HALF_LIFE,
    LEVEL_SPREAD,
    RATE_SPREAD,
)
from coachdesk.domain.bodyweight.weighing import (
    ANOTHER_SCALE,
    CycleNote,
    cycle_shift,
    hour_shift,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.trend_filter import Dynamics, State, ahead

DAYS_A_WEEK = 7
_DAMPING = 0.5 ** (1.0 / HALF_LIFE.value)
USUAL = Dynamics(
    damping=_DAMPING,
    level_variance=LEVEL_SPREAD.value**2,
    slope_variance=(1.0 - _DAMPING**2) * (RATE_SPREAD.value / DAYS_A_WEEK) ** 2,
)
"""How bodyweight goes on, of every athlete: a trend fades by half in `HALF_LIFE` days."""


@dataclass(frozen=True, slots=True)
class ScaleForecast:
    """What the scale will show on a day, undressed: `mean_kg` and standard deviation `sd_kg`."""

    on: date
    mean_kg: float
    sd_kg: float

    @property
    def low_kg(self) -> float:
        """The lower end of the band that holds eight readings in ten [kg]."""
        return self.mean_kg - EIGHT_IN_TEN * self.sd_kg

    @property
    def high_kg(self) -> float:
        """The upper end of the band that holds eight readings in ten [kg]."""
        return self.mean_kg + EIGHT_IN_TEN * self.sd_kg

    def chance_at_most(self, limit_kg: float) -> float:
        """The chance, 0 to 1, that the scale shows `limit_kg` [kg] or less.

        Raises InvalidInput: field "limit_kg" that is no weight.
        """
        if not (isfinite(limit_kg) and limit_kg > 0.0):
            raise InvalidInput("limit_kg", text("trend.limit"))
        return NormalDist(self.mean_kg, self.sd_kg).cdf(limit_kg)


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is known of a bodyweight on the day `on`, and so of the days after it.

    `state` has level [kg] and slope [kg a day] with their variances and covariance [kg2];
    `noise_kg` [kg] is the standard deviation of a reading about the level.
    """

    on: date
    state: State
    noise_kg: float
    cycle_notes: tuple[CycleNote, ...] = ()

    @property
    def level_kg(self) -> float:
        """The present level [kg]."""
        return self.state.level

    @property
    def level_error_kg(self) -> float:
        """The standard deviation of the level [kg]."""
        return sqrt(self.state.level_variance)

    @property
    def rate_kg(self) -> float:
        """The present rate [kg a week], below 0 on the way down."""
        return DAYS_A_WEEK * self.state.slope

    @property
    def rate_error_kg(self) -> float:
        """The standard deviation of the rate [kg a week]."""
        return DAYS_A_WEEK * sqrt(self.state.slope_variance)

    def carried_to(self, day: date) -> Outlook:
        """The same on a later `day`, without a reading in between; itself on a day before."""
        days = (day - self.on).days
        if days <= 0:
            return self
        return Outlook(day, ahead(self.state, days, USUAL), self.noise_kg, self.cycle_notes)

    def forecast(
        self, day: date, *, at: time | None = None, other_scale: bool = False
    ) -> ScaleForecast:
        """What the scale will show on `day` if the present trend fades as usual.

        `at` is the time of the weigh-in, in the morning where not given; `other_scale` says that
        it is not the usual one. Nothing special is done for the day: no day of eating less, none of
        making weight. Raises InvalidInput: field "day" before the trend ends or more than
        `FARTHEST` after it.
        """
        if day < self.on:
            raise InvalidInput("day", text("trend.day_past", on=self.on))
        if day - self.on > FARTHEST:
            raise InvalidInput("day", text("trend.day_too_far", last=self.on + FARTHEST))
        state = ahead(self.state, (day - self.on).days, USUAL)
        shift = hour_shift(at) + cycle_shift(day, self.cycle_notes)
        if other_scale:
            shift += ANOTHER_SCALE
        variance = state.level_variance + self.noise_kg**2 + shift.variance
        return ScaleForecast(day, state.level + shift.kg, sqrt(variance))

    def chance_at_most(
        self, limit_kg: float, day: date, *, at: time | None = None, other_scale: bool = False
    ) -> float:
        """The chance, 0 to 1, that the scale shows `limit_kg` [kg] or less, as `forecast` has it.

        Raises InvalidInput: field "limit_kg" that is no weight, "day" as for `forecast`.
        """
        return self.forecast(day, at=at, other_scale=other_scale).chance_at_most(limit_kg)
