"""What the demo club's file holds: people, plans and meets, relative to the day of opening."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time

from cattrs import BaseValidationError, Converter

from coachdesk.domain.athlete import AthleteData, HandlerData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Event, Lift
from coachdesk.domain.meet import Role
from coachdesk.domain.text import text
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Mass, kilograms
from coachdesk.domain.wishes import DayAim


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """Morning bodyweight [kg] a year ago and now, and how many readings a week there are."""

    year_ago: float
    now: float
    a_week: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Present one-repetition maxima [kg], and what a year has added to them [%]."""

    maxima: Mapping[Lift, float]
    gain_percent: float

    def maximum(self, lift: Lift, days_ago: float) -> float:
        """The one-repetition maximum [kg] of `lift` as it was `days_ago`."""
        return float(self.maxima[lift] / (1 + self.gain_percent / 100) ** (days_ago / 365))


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What an athlete's records are drawn from: `plan` and `week` name the training, and
    `weeks_logged` is how far back it is logged.
    """

    plan: str
    week: str
    weight: Weight
    strength: Strength
    weeks_logged: int = 52


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """An athlete of the demo.

    `age` [years] and `days_since_birthday` give the birth date, which is unknown without an age;
    `event` is what the athlete lifts unless an entry says otherwise.
    """

    key: str
    profile: AthleteData
    age: int | None = None
    days_since_birthday: int = 0
    member_until_days: int | None = None
    event: Event = Event.THREE_LIFT
    record: Record | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPattern:
    """A set logged every week on `day` (0 is Monday).

    `share` is a variation's share of the competition lift's maximum, `drop` a back-off set's share
    of the top set's weight.
    """

    day: int
    lift: Lift
    variation: str = ""
    share: float = 1.0
    drop: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPattern:
    """A block; `reps` and `rir` go from the first week's figure to the last week's."""

    name: str
    purpose: Purpose
    weeks: int
    reps: tuple[int, int]
    rir: tuple[float, float]
    judged: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Causes:
    """Codes of causes of no lift: of technique, and of strength that ran out."""

    technique: tuple[str, ...]
    strength: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastMeet:
    """A meet behind us and the keys of those who lifted there."""

    name: str
    days_ago: int
    rulebook: str
    place: str
    lifted: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A time of day, `day` days after the meet's first day."""

    day: int
    at: time


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightPattern:
    """A flight, the same in all three lifts."""

    name: str
    lifters: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionPattern:
    """A session of a meet ahead."""

    name: str
    platform: str
    starts: Moment
    weigh_in_opens: Moment
    weigh_in_closes: Moment
    flights: tuple[FlightPattern, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DutyPattern:
    """Who does what for an entry."""

    handler: str
    role: Role


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryPattern:
    """An entry to a meet ahead; `expected` and `openers` are the coach's own weights by lift, `aim`
    what comes before the total. `done` are codes of tasks done, `kit_seen` and `kit_missing` what
    a first look at the kit came to."""

    who: str
    divisions: tuple[str, ...]
    event: Event | None = None
    weight_class: str | None = None
    comes_down: bool = False
    session: str | None = None
    flight: str | None = None
    lot: int | None = None
    expected: Mapping[Lift, Mass] = field(default_factory=dict)
    openers: Mapping[Lift, Mass] = field(default_factory=dict)
    aim: DayAim | None = None
    aim_lift: Lift | None = None
    aim_weight: Mass | None = None
    duties: tuple[DutyPattern, ...] = ()
    done: tuple[str, ...] = ()
    kit_seen: tuple[str, ...] = ()
    kit_missing: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeetPattern:
    """A meet ahead: on the first Saturday from `in_days` days on."""

    name: str
    in_days: int
    deadline_days_before: int
    rulebook: str
    place: str
    note: str
    sessions: tuple[SessionPattern, ...]
    entries: tuple[EntryPattern, ...]
    inspection_days_before: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """The whole file."""

    seed: int
    time_zone: str
    causes: Mapping[Lift, Causes]
    handlers: tuple[HandlerData, ...]
    weeks: Mapping[str, tuple[SetPattern, ...]]
    plans: Mapping[str, tuple[BlockPattern, ...]]
    people: tuple[Person, ...]
    past_meets: tuple[PastMeet, ...]
    meets: tuple[MeetPattern, ...]


def read_club(data: bytes, file: str) -> Club:
    """The club in the bytes of the TOML file named `file`.

    Raises Trouble when it is no TOML, or lacks a key or has one too many.
    """
    converter = Converter(forbid_extra_keys=True)
    converter.register_structure_hook(Mass, lambda number, _: kilograms(number))
    converter.register_structure_hook(time, lambda moment, _: moment)
    converter.register_structure_hook(date, lambda day, _: day)
    try:
        return converter.structure(tomllib.loads(data.decode()), Club)
    except (ValueError, BaseValidationError) as error:
        raise Trouble(text("demo.unreadable", file=file)) from error
