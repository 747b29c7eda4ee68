"""Readings as the trend takes them: undressed, in the morning, on the usual scale, no cycle water.

What dress, the hour, another scale and the days of a cycle note add is taken off, and how unsure
that is widens the reading.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time

from coachdesk.domain.athlete import Reading
from coachdesk.domain.bodyweight.parameters import (
    CYCLE_SPREAD,
    CYCLE_WATER,
    DRESS,
    EVENING_HOUR,
    HOURS_UNSURE,
    LONGEST_NOTE,
    MORNING,
    OTHER_SCALE,
    PER_HOUR,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text


@dataclass(frozen=True, slots=True)
class CycleNote:
    """Days on which the cycle holds water, the `first` to the `last`; past or expected.

    Private: it never leaves the desk. Raises InvalidInput: field "last" before the first day, or
    more than `LONGEST_NOTE` in all.
    """

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise InvalidInput("last", text("trend.note_backwards"))
        if self.days > LONGEST_NOTE.days:
            raise InvalidInput("last", text("trend.note_too_long", days=LONGEST_NOTE.days))

    @property
    def days(self) -> int:
        """How many days the note is about."""
        return (self.last - self.first).days + 1


@dataclass(frozen=True, slots=True)
class Shift:
    """What a circumstance adds to the scale [kg], and the variance of that [kg2]."""

    kg: float = 0.0
    variance: float = 0.0

    def __add__(self, other: Shift) -> Shift:
        return Shift(self.kg + other.kg, self.variance + other.variance)


@dataclass(frozen=True, slots=True)
class Weighing:
    """A `reading` that showed `shown_kg` [kg]: `kg` once its shift is taken off, and the variance
    of that shift [kg2]."""

    reading: Reading
    shown_kg: float
    kg: float
    variance: float


NO_SHIFT = Shift()
ANOTHER_SCALE = Shift(0.0, OTHER_SCALE.value**2)


def weighings(readings: Sequence[Reading], notes: Sequence[CycleNote]) -> list[Weighing]:
    """The `readings` in order of time, each with its shift taken off."""
    usual = _usual_scale(readings)
    found = []
    for reading in readings:
        shown_kg = reading.weight.kg
        shift = hour_shift(reading.at)
        if reading.dress in DRESS:
            worn, unsure = DRESS[reading.dress]
            shift += Shift(worn.value, unsure.value**2)
        if reading.scale != usual:
            shift += ANOTHER_SCALE
        if notes:
            shift += cycle_shift(reading.on, notes)
        found.append(Weighing(reading, shown_kg, shown_kg - shift.kg, shift.variance))
    return sorted(found, key=_when)


def hour_shift(at: time | None) -> Shift:
    """What eating and drinking since the morning add; without a time, as ever in the morning."""
    if at is None:
        return NO_SHIFT
    hour = at.hour + at.minute / 60
    begins, ends = MORNING
    if hour < begins:
        hour = EVENING_HOUR
    kg = PER_HOUR.value * max(0.0, min(hour, EVENING_HOUR) - ends)
    return Shift(kg, (HOURS_UNSURE.value * kg) ** 2)


def cycle_shift(on: date, notes: Sequence[CycleNote]) -> Shift:
    """The water of a day that a note is about.

    The days of a note hold the same water more or less: together they count as one sight of it, so
    that more of them do not turn water into a trend. Where notes overlap, the longest counts.
    """
    days = max((note.days for note in notes if note.first <= on <= note.last), default=0)
    if days == 0:
        return NO_SHIFT
    return Shift(CYCLE_WATER.value, days * CYCLE_SPREAD.value**2)


def _usual_scale(readings: Sequence[Reading]) -> str:
    """The scale with the most readings, of equals the one used last."""
    counts = Counter(reading.scale for reading in readings)
    latest: dict[str, date] = {}
    for reading in readings:
        latest[reading.scale] = max(reading.on, latest.get(reading.scale, reading.on))
    return max(counts, key=lambda scale: (counts[scale], latest[scale], scale))


def _when(weighing: Weighing) -> tuple[date, time, float, float, int]:
    """The time; then what makes readings without one come in an order of their own."""
    reading = weighing.reading
    return (
        reading.on,
        reading.at or time.min,
        weighing.kg,
        weighing.variance,
        reading.id,
    )
