"""Records about people: the athlete, a bodyweight reading, a handler."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from enum import StrEnum

from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.units import Mass, Unit


class Dress(StrEnum):
    """What was worn on the scale."""

    UNKNOWN = "unknown"
    UNDRESSED = "undressed"
    LIGHT = "light"
    DRESSED = "dressed"


class LossBar(StrEnum):
    """Why an athlete gets no plan for coming down in weight."""

    NONE = "none"
    PREGNANCY = "pregnancy"
    ILLNESS = "illness"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class AthleteData:
    """What a coach keeps about an athlete.

    `height_cm` [cm]; `meets_before` counts meets lifted before this record began; rack settings
    are written as the athlete reads them off the rack. Contacts and health notes leave the desk
    in the athlete's whole record only.
    """

    given_name: str
    family_name: str
    sex: Sex
    birth_date: date | None = None
    unit: Unit = Unit.KG
    equipment: Equipment = Equipment.CLASSIC
    height_cm: int | None = None
    meets_before: int = 0
    loss_bar: LossBar = LossBar.NONE
    member_number: str = ""
    member_until: date | None = None
    squat_rack: str = ""
    bench_rack: str = ""
    bench_safety: str = ""
    bench_lift_off: bool = False
    bench_foot_blocks: str = ""
    squat_cue: str = ""
    bench_cue: str = ""
    deadlift_cue: str = ""
    email: str = ""
    phone: str = ""
    emergency_contact: str = ""
    health_note: str = ""
    note: str = ""

    @property
    def name(self) -> str:
        """Given and family name."""
        return f"{self.given_name} {self.family_name}".strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Athlete(AthleteData):
    """An athlete on file."""

    id: int
    version: int
    archived: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingData:
    """One bodyweight reading; the time of day and the dress shift what the scale shows."""

    athlete_id: int
    on: date
    weight: Mass
    at: time | None = None
    dress: Dress = Dress.UNKNOWN
    scale: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(ReadingData):
    """A bodyweight reading on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CycleNoteData:
    """Days on which an athlete's cycle holds water, the `first` to the `last`.

    Private: it leaves the desk in the athlete's whole record only.
    """

    athlete_id: int
    first: date
    last: date


@dataclass(frozen=True, slots=True, kw_only=True)
class CycleNoteRecord(CycleNoteData):
    """A cycle note on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HandlerData:
    """Somebody who handles athletes at meets."""

    name: str
    phone: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Handler(HandlerData):
    """A handler on file."""

    id: int
    version: int
