"""What is kept of an athlete's readings: enough to say on any later day where the weight stands.

It depends on the readings and cycle notes alone and not on the day it is asked, so that it can be
kept on file until one of them changes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.athlete import Reading
from coachdesk.domain.bodyweight.outlook import Outlook
from coachdesk.domain.bodyweight.trend import trend
from coachdesk.domain.bodyweight.weighing import CycleNote

LOOK_BACK = timedelta(days=200)
"""Readings so long before the last one say nothing more of it: the trend halves in a month."""

LEVELS_KEPT = timedelta(weeks=13)
"""How far back the level is kept day by day."""

STALE_AFTER = timedelta(weeks=8)
"""Readings older than that say nothing about the present (our own caution)."""

COUNTED = timedelta(weeks=1)
_DECIMALS = 4
"""Of the levels kept: a tenth of a gram."""


@dataclass(frozen=True, slots=True)
class OddWeight:
    """A reading far off what the days about it lead to expect [kg]."""

    on: date
    shown_kg: float
    expected_kg: float


@dataclass(frozen=True, slots=True)
class Bodyweight:
    """A bodyweight as it stood on the day of the last reading, and as it came there.

    `outlook` is of that day; `readings` counts those of the week that ends with it; `levels` [kg]
    are those of the days up to it, a day apart, in the light of all readings; `odd` are the
    readings of these days that count for less.
    """

    outlook: Outlook
    readings: int
    levels: tuple[float, ...]
    odd: tuple[OddWeight, ...] = ()

    @property
    def latest_on(self) -> date:
        """The day of the last reading."""
        return self.outlook.on

    def tells_of(self, day: date) -> bool:
        """Whether the readings are recent enough to say something of `day`."""
        return timedelta() <= day - self.latest_on <= STALE_AFTER

    def level_kg(self, day: date) -> float | None:
        """The level of a day [kg]; carried on after the last reading, None before `levels`."""
        back = (self.latest_on - day).days
        if back <= 0:
            return self.outlook.carried_to(day).level_kg
        return self.levels[-1 - back] if back < len(self.levels) else None


def bodyweight(
    readings: Sequence[Reading], cycle_notes: Iterable[CycleNote] = ()
) -> Bodyweight | None:
    """What the readings of one athlete come to; None without any.

    Raises InvalidInput as `trend` does.
    """
    if not readings:
        return None
    latest = max(reading.on for reading in readings)
    recent = [reading for reading in readings if latest - reading.on <= LOOK_BACK]
    found = trend(recent, on=latest, cycle_notes=cycle_notes)
    since = latest - LEVELS_KEPT
    return Bodyweight(
        outlook=Outlook(latest, found.state, found.noise_kg, found.cycle_notes),
        readings=sum(latest - reading.on < COUNTED for reading in recent),
        levels=tuple(
            round(state.level, _DECIMALS) for state in found.states[-LEVELS_KEPT.days - 1 :]
        ),
        odd=tuple(
            OddWeight(odd.reading.on, odd.reading.weight.kg, odd.expected_kg)
            for odd in found.odd
            if odd.reading.on >= since
        ),
    )
