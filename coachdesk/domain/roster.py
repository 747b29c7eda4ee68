"""What the roster tells of an athlete at a glance, and what hangs on one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.units import Mass, Unit


@dataclass(frozen=True, slots=True)
class LatestWeight:
    """The latest bodyweight reading."""

    weight: Mass
    on: date


@dataclass(frozen=True, slots=True)
class NextMeet:
    """The next meet an athlete is entered to, and the class, None while it is not chosen."""

    name: str
    on: date
    weight_class: str | None


@dataclass(frozen=True, slots=True)
class BestTotal:
    """The best total [g] on record and the first day of the meet it was lifted at."""

    grams: int
    on: date
    event: Event
    equipment: Equipment


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterLine:
    """An athlete as the roster lists them."""

    id: int
    given_name: str
    family_name: str
    sex: Sex
    birth_date: date | None
    unit: Unit
    equipment: Equipment
    archived: bool
    latest: LatestWeight | None
    next_meet: NextMeet | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Belongings:
    """How much goes with an athlete who is deleted."""

    readings: int
    logged_sets: int
    blocks: int
    entries: int
    attempts: int
