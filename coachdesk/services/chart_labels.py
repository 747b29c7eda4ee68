"""Where the words of a line can stand in a picture without covering readings or other lines."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

from coachdesk.services.weight_picture import WeightPicture

_PLACES = 24
"""Places along a line that are tried."""
_OFF = (0.1, 0.5, 1.0)
_WORTH = 4.0
"""How far off the line, in heights of the words, and what a height is worth in points covered."""


_EACH_DAYS = 3

Edges: TypeAlias = tuple[date, float, float]
"""A day of a line, and its lower and upper edge [kg]."""


@dataclass(frozen=True, slots=True, order=True)
class LabelPlace:
    """The middle of the words' lower edge: a day and a weight [kg]."""

    on: date
    kg: float


def limit_line(limit_kg: float, picture: WeightPicture) -> tuple[Edges, ...]:
    """A class's limit as a line to stand beside."""
    days = (picture.last - picture.first).days
    return tuple(
        (picture.first + timedelta(days=at), limit_kg, limit_kg)
        for at in range(0, days + 1, max(1, days // _PLACES))
    )


def trend_line(picture: WeightPicture) -> tuple[Edges, ...]:
    """The trend as a line to stand beside, its error's band with it."""
    return tuple((day.on, day.low_kg, day.high_kg) for day in picture.level)


def plan_line(picture: WeightPicture) -> tuple[Edges, ...]:
    """The plan's way down as a line to stand beside."""
    return tuple((day, kg, kg) for day, kg in _plan(picture))


class Labels:
    """Finds places for words one after the other, each off those before.

    `kg_a_point` and `days_a_point` say how large a point of the drawing is in the picture's own
    measures; words stay between `low_kg` and `high_kg`.
    """

    def __init__(
        self,
        picture: WeightPicture,
        *,
        days_a_point: float,
        kg_a_point: float,
        low_kg: float,
        high_kg: float,
    ) -> None:
        self._picture = picture
        self._days_a_point = days_a_point
        self._kg_a_point = kg_a_point
        self._low_kg = low_kg
        self._high_kg = high_kg
        self._limits = [line.limit.kg for line in picture.classes]
        self._points = _points(picture)
        self._taken: list[tuple[LabelPlace, timedelta]] = []

    def beside(
        self, line: Sequence[Edges], width: float, height: float, *, close: bool = False
    ) -> LabelPlace:
        """The emptiest place above or below a line for words of a size [points].

        `close` keeps them at the line, where it stands among others of its kind.
        """
        reach = timedelta(days=width / 2 * self._days_a_point)
        high = height * self._kg_a_point
        places = self._places(line, reach, high, _OFF[:1] if close else _OFF)
        _, found = min(
            (part * _WORTH + self._covered(place, edges, reach, high), place)
            for part, place, edges in places
        )
        self._taken.append((found, reach))
        return found

    def _places(
        self, line: Sequence[Edges], reach: timedelta, high: float, off: Sequence[float]
    ) -> list[tuple[float, LabelPlace, Edges]]:
        """Places, each with how far off the line it is, in heights of the words, and which day of
        the line it is at."""
        first, last = self._picture.first + reach, self._picture.last - reach
        inside = [each for each in line if first <= each[0] <= last] or list(line[:1])
        places = [
            (part, LabelPlace(edges[0], kg), edges)
            for edges in inside[:: max(1, len(inside) // _PLACES)]
            for part in off
            for kg in (edges[2] + part * high, edges[1] - (1 + part) * high)
            if self._low_kg <= kg <= self._high_kg - high
        ]
        return places or [(0.0, LabelPlace(inside[0][0], self._low_kg), inside[0])]

    def _covered(self, place: LabelPlace, edges: Edges, reach: timedelta, high: float) -> int:
        """What words would cover, and limits that would part them from their line."""
        top = place.kg + high
        _, lower, upper = edges
        limits = sum(min(place.kg, lower) < kg < max(top, upper) for kg in self._limits)
        words = sum(
            abs(other.on - place.on) < reach + wide and abs(other.kg - place.kg) < high
            for other, wide in self._taken
        )
        begin = bisect_left(self._points, (place.on - reach, 0.0))
        end = bisect_left(self._points, (place.on + reach, top))
        points = sum(place.kg < kg < top for _, kg in self._points[begin:end])
        return points + 5 * limits + 20 * words


def _points(picture: WeightPicture) -> list[tuple[date, float]]:
    """What words had better not cover, by days: readings, and a point of the lines now and then."""
    points = [(seen.reading.on, seen.reading.weight.kg) for seen in picture.readings]
    points += [(day.on, day.kg) for day in picture.level[::_EACH_DAYS]]
    return sorted(points + _plan(picture))


def _plan(picture: WeightPicture) -> list[tuple[date, float]]:
    plan = picture.plan
    if plan is None:
        return []
    begin, end = max(picture.first, plan.agreed_on), min(picture.last, plan.arrive_on)
    days = range(0, (end - begin).days + 1, _EACH_DAYS)
    return [(day, plan.kg_on(day)) for day in (begin + timedelta(days=at) for at in days)]
