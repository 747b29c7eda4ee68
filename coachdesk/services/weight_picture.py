"""One picture of a bodyweight over time: what the chart on screen and the chart on paper draw.

Weights are in kilograms here; the renderers show them in the reader's unit (`chart_scale`).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from enum import StrEnum
from functools import cached_property
from math import sqrt
from typing import NamedTuple

from coachdesk.domain.athlete import Reading
from coachdesk.domain.bodyweight import ScaleForecast, Trend
from coachdesk.domain.bodyweight.parameters import EIGHT_IN_TEN, FARTHEST
from coachdesk.domain.units import Mass, Unit
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_plan import WeightPlanData

FORECAST_POINTS = 40
"""A band over half a year looks the same with a point for every day."""
_CLOSE_KG = 1.0
"""A neighbouring class's limit is drawn when it is no further outside of what else is drawn."""


_THREE_MONTHS, _YEAR, _TWENTY_WEEKS = (timedelta(days=days) for days in (91, 365, 140))


class Span(StrEnum):
    """How far back a picture reaches."""

    THREE_MONTHS = "three_months"
    YEAR = "year"
    ALL = "all"

    @property
    def back(self) -> timedelta | None:
        """How far back; None for all there is."""
        return {Span.THREE_MONTHS: _THREE_MONTHS, Span.YEAR: _YEAR, Span.ALL: None}[self]

    @property
    def ahead(self) -> timedelta:
        """How far ahead at most, on the way to a weigh-in: a way down may take twenty weeks."""
        return {Span.THREE_MONTHS: _TWENTY_WEEKS, Span.YEAR: _YEAR, Span.ALL: FARTHEST}[self]


class DayBand(NamedTuple):
    """A weight on a day and the band that holds eight in ten [kg]."""

    on: date
    kg: float
    low_kg: float
    high_kg: float


@dataclass(frozen=True, slots=True)
class SeenReading:
    """A reading as the scale showed it; for an odd one what the other days led to expect."""

    reading: Reading
    expected_kg: float | None = None

    @property
    def is_odd(self) -> bool:
        """Whether it lies far off what the other days lead to expect."""
        return self.expected_kg is not None

    def kg_between(self, low_kg: float, high_kg: float) -> float:
        """Where it is drawn [kg]: an odd one at the edge where it lies outside."""
        return min(max(self.reading.weight.kg, low_kg), high_kg)


@dataclass(frozen=True, slots=True)
class ClassLine:
    """The limit of a class, and whether it is the class entered."""

    name: str
    limit: Mass
    is_entered: bool


@dataclass(frozen=True)
class WeightPicture:
    """A bodyweight from the day `first` to the day `last`, seen on `today`.

    `level` is the trend by days up to today, `forecast` what the scale is to show from today on:
    it is for the coach alone. `weigh_in_on` and the plan's days may lie outside of the days drawn.
    """

    first: date
    today: date
    last: date
    unit: Unit
    readings: tuple[SeenReading, ...]
    level: tuple[DayBand, ...]
    forecast: tuple[DayBand, ...]
    classes: tuple[ClassLine, ...]
    plan: WeightPlanData | None
    weigh_in_on: date | None

    @property
    def entered(self) -> ClassLine | None:
        """The limit of the class entered."""
        return next((line for line in self.classes if line.is_entered), None)

    @property
    def plan_days(self) -> tuple[date, ...]:
        """The days between which the plan's line is drawn: its ends, as far as they are shown."""
        if self.plan is None:
            return ()
        begins = max(self.first, self.plan.agreed_on)
        days = sorted({begins, *(day for day, _ in self.plan_marks)})
        if self.plan.arrive_on < self.last and self.weigh_in_on is not None:
            days.append(min(self.last, self.weigh_in_on))
        return tuple(day for day in days if self.first <= day <= self.last)

    @property
    def plan_marks(self) -> tuple[tuple[date, Mass], ...]:
        """The plan's weekly marks that are shown."""
        if self.plan is None:
            return ()
        return tuple(mark for mark in self.plan.marks() if self.first <= mark[0] <= self.last)

    def plan_kg(self, day: date) -> float | None:
        """What the plan says of a day [kg]; None without one, and before it was agreed on."""
        if self.plan is None or day < self.plan.agreed_on:
            return None
        return self.plan.kg_on(day)

    def level_on(self, day: date) -> DayBand | None:
        """The trend of a day; None before the first reading and after today."""
        return self._levels.get(day)

    def forecast_on(self, day: date) -> DayBand | None:
        """What the scale is to show on a day after today; None where nothing is foretold.

        Between days with a point of their own, in a straight line.
        """
        for before, after in zip(self.forecast, self.forecast[1:], strict=False):
            if before.on < day <= after.on:
                share = (day - before.on) / (after.on - before.on)
                ends = zip(before[1:], after[1:], strict=True)
                return DayBand(day, *(low + share * (high - low) for low, high in ends))
        return None

    def readings_on(self, day: date) -> tuple[SeenReading, ...]:
        """The readings of a day."""
        return self._readings.get(day, ())

    def kg_range(self, *, forecast: bool) -> tuple[float, float]:
        """The lightest and the heaviest weight to make room for [kg], with the forecast or without.

        Odd readings make no room for themselves: a slip of the pen would flatten all the rest.
        """
        found = [seen.reading.weight.kg for seen in self.readings if not seen.is_odd]
        found += [kg for day in self.level for kg in (day.low_kg, day.high_kg)]
        if forecast:
            found += [kg for day in self.forecast for kg in (day.low_kg, day.high_kg)]
        found += [kg for day in self.plan_days if (kg := self.plan_kg(day)) is not None]
        if self.entered is not None:
            found.append(self.entered.limit.kg)
        return min(found), max(found)

    def classes_between(self, low_kg: float, high_kg: float) -> tuple[ClassLine, ...]:
        """The limits to draw between two weights [kg]: the one entered, and neighbours close by."""
        return tuple(line for line in self.classes if low_kg <= line.limit.kg <= high_kg)

    def drawn_range(self, *, forecast: bool) -> tuple[float, float]:
        """As `kg_range`, widened to the neighbouring limits that are close by."""
        low, high = self.kg_range(forecast=forecast)
        near = [
            line.limit.kg
            for line in self.classes
            if low - _CLOSE_KG <= line.limit.kg <= high + _CLOSE_KG
        ]
        return min([low, *near]), max([high, *near])

    @cached_property
    def _levels(self) -> dict[date, DayBand]:
        return {day.on: day for day in self.level}

    @cached_property
    def _readings(self) -> dict[date, tuple[SeenReading, ...]]:
        found: dict[date, tuple[SeenReading, ...]] = {}
        for seen in self.readings:
            on = seen.reading.on
            found[on] = (*found.get(on, ()), seen)
        return found


@dataclass(frozen=True, slots=True)
class WeightHistory:
    """All that is known of a bodyweight up to the day its `trend` ends, in order of time.

    `weigh_in_at` is the hour of the next weigh-in, None where it is not known.
    """

    trend: Trend
    readings: tuple[Reading, ...]
    unit: Unit
    classes: tuple[ClassLine, ...] = ()
    plan: WeightPlanData | None = None
    weigh_in_on: date | None = None
    weigh_in_at: time | None = None
    meet: str = ""

    def odd_by_reading(self) -> dict[int, float]:
        """What the other days led to expect [kg] of each odd reading, by the reading's id."""
        return {odd.reading.id: odd.expected_kg for odd in self.trend.odd}

    def weigh_in(self) -> ScaleForecast | None:
        """What the scale is to show at the next weigh-in; None without one within reach."""
        on = self.weigh_in_on
        if on is None or not self.trend.on <= on <= self.trend.on + FARTHEST:
            return None
        return self.trend.forecast(on, at=self.weigh_in_at, other_scale=True)

    def picture(self, span: Span) -> WeightPicture:
        """The picture of a span of days, and ahead to the weigh-in where it is not too far."""
        trend, today = self.trend, self.trend.on
        first = trend.since if span.back is None else max(trend.since, today - span.back)
        last = max(today, min(self.weigh_in_on or today, today + span.ahead))
        if first == last:
            first, last = first - timedelta(days=1), last + timedelta(days=1)
        odd = self.odd_by_reading()
        return WeightPicture(
            first=first,
            today=today,
            last=last,
            unit=self.unit,
            readings=tuple(
                SeenReading(reading, odd.get(reading.id))
                for reading in self.readings
                if first <= reading.on <= today
            ),
            level=_level(trend, first),
            forecast=self._forecast(min(last, today + FARTHEST)),
            classes=self.classes,
            plan=self.plan,
            weigh_in_on=self.weigh_in_on,
        )

    def _forecast(self, last: date) -> tuple[DayBand, ...]:
        today = self.trend.on
        days = (last - today).days
        if self.weigh_in_on is None or days == 0:
            return ()
        step = max(1, days // FORECAST_POINTS)
        found = [self.trend.forecast(today + timedelta(days=at)) for at in range(0, days, step)]
        weigh_in = self.weigh_in()
        at_end = weigh_in if weigh_in is not None and weigh_in.on == last else None
        found.append(at_end or self.trend.forecast(last))
        return tuple(DayBand(each.on, each.mean_kg, each.low_kg, each.high_kg) for each in found)


def class_lines(classes: Sequence[WeightClass], wanted: WeightClass) -> tuple[ClassLine, ...]:
    """The limits of the class wanted and of its neighbours, among ascending `classes`."""
    at = classes.index(wanted)
    near: Collection[WeightClass] = classes[max(0, at - 1) : at + 2]
    return tuple(
        ClassLine(each.name, each.limit, each == wanted) for each in near if each.limit is not None
    )


def _level(trend: Trend, first: date) -> tuple[DayBand, ...]:
    begin = max(0, (first - trend.since).days)
    found = []
    for at, state in enumerate(trend.states[begin:], start=begin):
        wide = EIGHT_IN_TEN * sqrt(state.level_variance)
        day = trend.since + timedelta(days=at)
        found.append(DayBand(day, state.level, state.level - wide, state.level + wide))
    return tuple(found)
