"""The scales of a chart over days: nice steps in the reader's unit, for screen and paper alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from enum import StrEnum

from coachdesk.domain.units import Mass, Unit, from_grams
from coachdesk.wording.wording import Wording

_STEPS = tuple(
    Decimal(step) for step in ("0.1", "0.2", "0.5", "1", "2", "5", "10", "20", "50", "100", "200")
)
_DAYS_A_WEEK = 7
_WEEKS = (1, 2, 4)
_MONTHS = (1, 2, 3, 6)
_YEARS = (1, 2, 5, 10, 20, 50)
_DAYS_A_MONTH = 30.4


@dataclass(frozen=True, slots=True)
class WeightScale:
    """From `low` to `high` with the `ticks` between, both among them, in the reader's unit."""

    ticks: tuple[Mass, ...]

    @property
    def low_kg(self) -> float:
        """The lower end [kg]."""
        return self.ticks[0].kg

    @property
    def high_kg(self) -> float:
        """The upper end [kg]."""
        return self.ticks[-1].kg


class Fineness(StrEnum):
    """What the words of a day's tick tell."""

    DAY = "day"
    MONTH = "month"
    YEAR = "year"


@dataclass(frozen=True, slots=True)
class DayScale:
    """Days with a tick, and what their words tell."""

    ticks: tuple[date, ...]
    fineness: Fineness

    def words(self, words: Wording) -> tuple[tuple[date, str], ...]:
        """Each tick with its words."""
        return tuple(
            (
                tick,
                words(
                    f"picture.tick.{self.fineness}",
                    day=tick.day,
                    month=words(f"date.month.{tick.month}"),
                    year=str(tick.year),
                ),
            )
            for tick in self.ticks
        )


def weight_scale(low_kg: float, high_kg: float, unit: Unit, most: int) -> WeightScale:
    """The finest scale from at or below `low_kg` to at or above `high_kg` [kg] in nice steps.

    It has `most` ticks at most, 2 or more, unless the coarsest step makes more.
    """
    low, high = (_number(kg, unit) for kg in (low_kg, high_kg))
    step = next((step for step in _STEPS if _count(low, high, step) <= most), _STEPS[-1])
    first = _steps_below(low, step)
    return WeightScale(
        tuple(Mass((first + at) * step, unit) for at in range(_count(low, high, step)))
    )


def day_scale(first: date, last: date, most: int) -> DayScale:
    """Mondays, first days of a month or of a year between two days, `most` of them at most.

    A span of a few days may have none but the first.
    """
    days = (last - first).days
    for weeks in _WEEKS:
        if days / (_DAYS_A_WEEK * weeks) < most:
            return _found(_mondays(first, last, weeks), first, Fineness.DAY)
    for months in _MONTHS:
        if days / (_DAYS_A_MONTH * months) < most:
            return _found(_months(first, last, months), first, Fineness.MONTH)
    for years in _YEARS:
        if days / (12 * _DAYS_A_MONTH * years) < most:
            break
    return _found(_months(first, last, 12 * years), first, Fineness.YEAR)


def _steps_below(low: Decimal, step: Decimal) -> Decimal:
    return (low / step).to_integral_value(ROUND_FLOOR)


def _count(low: Decimal, high: Decimal, step: Decimal) -> int:
    """How many ticks a step makes, two at least."""
    first, last = _steps_below(low, step), (high / step).to_integral_value(ROUND_CEILING)
    return max(int(last) - int(first), 1) + 1


def _found(ticks: Iterator[date], first: date, fineness: Fineness) -> DayScale:
    return DayScale(tuple(ticks) or (first,), fineness)


def _mondays(first: date, last: date, weeks: int) -> Iterator[date]:
    day = first + timedelta(days=-first.weekday() % _DAYS_A_WEEK)
    while day <= last:
        yield day
        day += timedelta(weeks=weeks)


def _months(first: date, last: date, months: int) -> Iterator[date]:
    """First days of the month, counted so that January is among them."""
    at = (first.year * 12 + first.month - 1) // months * months
    while (day := date(at // 12, at % 12 + 1, 1)) <= last:
        if day >= first:
            yield day
        at += months


def _number(kg: float, unit: Unit) -> Decimal:
    return from_grams(round(kg * 1000)).in_unit(unit)
