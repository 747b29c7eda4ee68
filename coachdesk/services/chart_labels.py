"""Where the words of a line can stand in a picture without covering readings or other lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.services.weight_picture import WeightPicture

_PLACES = 24
"""Places along a line that are tried."""


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """The middle of the words' lower edge: a day and a weight [kg]."""

    on: date
    kg: float


def place_beside(
    line: Sequence[tuple[date, float, float]],
    picture: WeightPicture,
    *,
    half_days: float,
    height_kg: float,
    low_kg: float,
    high_kg: float,
    taken: Iterable[LabelPlace] = (),
) -> LabelPlace:
    """The emptiest place above or below a line for words of a size in the picture's own measures.

    `line` has the lower and the upper edge of the line [kg] by days; the words stay between
    `low_kg` and `high_kg`, and off the words in `taken`.
    """
    reach = timedelta(days=half_days)
    inside = [
        each for each in line if picture.first + reach <= each[0] <= picture.last - reach
    ] or line[:1]
    step = max(1, len(inside) // _PLACES)
    places = [
        LabelPlace(day, kg)
        for day, low, high in inside[::step]
        for kg in (high + height_kg / 4, low - 1.25 * height_kg)
        if low_kg <= kg <= high_kg - height_kg
    ] or [LabelPlace(inside[0][0], low_kg)]
    points = _points(picture)
    limits = [limit.limit.kg for limit in picture.classes]
    words = tuple(taken)

    def covered(place: LabelPlace) -> int:
        top = place.kg + height_kg
        lines = sum(place.kg - height_kg / 4 < kg < top for kg in limits)
        others = sum(
            abs(other.on - place.on) < 2 * reach and abs(other.kg - place.kg) < height_kg
            for other in words
        )
        dots = sum(abs(on - place.on) < reach and place.kg < kg < top for on, kg in points)
        return dots + 5 * lines + 20 * others

    return min(places, key=covered)


def _points(picture: WeightPicture) -> list[tuple[date, float]]:
    points = [(seen.reading.on, seen.reading.weight.kg) for seen in picture.readings]
    return points + [(day, mass.kg) for day, mass in picture.plan_marks]
