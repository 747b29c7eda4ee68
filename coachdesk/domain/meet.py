"""Records about meets: the meet, its sessions and flights, an entry and its attempts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Seen
from coachdesk.domain.units import Mass


class Role(StrEnum):
    """What a handler does for an entry."""

    HANDLING = "handling"
    TABLE = "table"
    LOADING = "loading"
    WRAPS = "wraps"


@dataclass(frozen=True, slots=True, kw_only=True)
class MeetData:
    """A meet.

    `rulebook` is a rulebook's key, `time_zone` an IANA name. Kit is inspected on
    `kit_inspection_on`, if that is known.
    """

    name: str
    starts_on: date
    rulebook: str
    time_zone: str
    place: str = ""
    entry_deadline: date | None = None
    kit_inspection_on: date | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meet(MeetData):
    """A meet on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionData:
    """A session of a meet. Times are local to the meet and carry no zone of their own."""

    meet_id: int
    name: str
    starts_at: datetime
    weigh_in_opens: datetime | None = None
    weigh_in_closes: datetime | None = None
    platform: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Session(SessionData):
    """A session on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightData:
    """A flight of one lift; `position` counts from 1 in session and lift; `lifters` if known."""

    session_id: int
    lift: Lift
    name: str
    position: int
    lifters: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight(FlightData):
    """A flight on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryData:
    """An athlete's entry to a meet.

    `weight_class` is a class name of the meet's rulebook. `comes_down` is the coach's explicit
    choice to plan a way down to it. The expected lifts are the coach's own numbers for the day;
    None leaves the estimate to the records. `bodyweight` is the official weigh-in.
    """

    athlete_id: int
    meet_id: int
    event: Event
    equipment: Equipment
    divisions: tuple[str, ...]
    weight_class: str | None = None
    comes_down: bool = False
    session_id: int | None = None
    lot: int | None = None
    bodyweight: Mass | None = None
    expected_squat: Mass | None = None
    expected_bench: Mass | None = None
    expected_deadlift: Mass | None = None
    withdrawn: bool = False
    place: int | None = None
    note: str = ""

    def expected(self, lift: Lift) -> Mass | None:
        """The coach's own number for `lift`, if there is one."""
        return {
            Lift.SQUAT: self.expected_squat,
            Lift.BENCH: self.expected_bench,
            Lift.DEADLIFT: self.expected_deadlift,
        }[lift]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry(EntryData):
    """An entry on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AttemptData:
    """One attempt.

    `number` is 1 to 3, or 4 for a record-only fourth; `take` counts from 1 and goes up when a
    void attempt is taken again. `lights` holds the three calls as "w" and "r" from left to right.
    """

    entry_id: int
    lift: Lift
    number: int
    weight: Mass
    take: int = 1
    result: Result | None = None
    lights: str = ""
    seen: Seen | None = None
    cause: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt(AttemptData):
    """An attempt on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HandlerDuty:
    """Who does what for an entry."""

    entry_id: int
    handler_id: int
    role: Role
