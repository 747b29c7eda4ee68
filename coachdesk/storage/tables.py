"""The tables, typed. Everything outside storage sees frozen domain records instead.

A mass takes two columns: `<name>_g`, integer grams for the machine, and `<name>_entered`, the
number and unit somebody typed. Times local to a meet are stored without a zone; instants are
stored as UTC with one.
"""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Column,
    Index,
    Named,
    Table,
    UniqueConstraint,
)

from coachdesk.domain.athlete import Dress, LossBar
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Seen, Sex
from coachdesk.domain.loading import Disc
from coachdesk.domain.meet import Role
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.units import Unit
from coachdesk.domain.wishes import DayAim
from coachdesk.storage.column_kinds import (
    Discs,
    Instant,
    Numbered,
    Versioned,
    one_of,
    owned_by,
    points_to,
)
from coachdesk.storage.readiness_tables import READINESS
from coachdesk.storage.table_making import REGISTER, make_table
from coachdesk.storage.training_tables import TRAINING


class AthleteColumns(Versioned):
    """An athlete."""

    given_name: Named[str]
    family_name: Named[str]
    sex: Named[Sex] = one_of(Sex)
    birth_date: Named[date | None]
    unit: Named[Unit] = one_of(Unit)
    equipment: Named[Equipment] = one_of(Equipment)
    height_cm: Named[int | None]
    meets_before: Named[int]
    loss_bar: Named[LossBar] = one_of(LossBar)
    member_number: Named[str]
    member_until: Named[date | None]
    squat_rack: Named[str]
    bench_rack: Named[str]
    bench_safety: Named[str]
    bench_lift_off: Named[bool]
    bench_foot_blocks: Named[str]
    squat_cue: Named[str]
    bench_cue: Named[str]
    deadlift_cue: Named[str]
    email: Named[str]
    phone: Named[str]
    emergency_contact: Named[str]
    health_note: Named[str]
    note: Named[str]
    archived: Named[bool] = Column(default=False)


athlete = make_table(
    "athlete",
    AthleteColumns,
    CheckConstraint("meets_before >= 0", name="meets_before"),
    CheckConstraint("height_cm BETWEEN 80 AND 260", name="height_cm"),
)


class ReadingColumns(Versioned):
    """A bodyweight reading."""

    athlete_id: Named[int] = owned_by("athlete", index=False)
    on: Named[date]
    at: Named[time | None]
    weight_g: Named[int]
    weight_entered: Named[str]
    dress: Named[Dress] = one_of(Dress)
    scale: Named[str]
    note: Named[str]


reading = make_table(
    "reading",
    ReadingColumns,
    Index(None, "athlete_id", "on"),
    CheckConstraint("weight_g > 0", name="weight_g"),
)


class HandlerColumns(Versioned):
    """A handler."""

    name: Named[str]
    phone: Named[str]
    note: Named[str]


handler = make_table("handler", HandlerColumns)


class MeetColumns(Versioned):
    """A meet."""

    name: Named[str]
    starts_on: Named[date] = Column(index=True)
    rulebook: Named[str]
    time_zone: Named[str]
    place: Named[str]
    entry_deadline: Named[date | None]
    note: Named[str]
    kit_inspection_on: Named[date | None]


meet = make_table("meet", MeetColumns)


class SessionColumns(Versioned):
    """A session of a meet."""

    meet_id: Named[int] = owned_by("meet")
    name: Named[str]
    starts_at: Named[datetime]
    weigh_in_opens: Named[datetime | None]
    weigh_in_closes: Named[datetime | None]
    platform: Named[str]


session = make_table("session", SessionColumns)


class FlightColumns(Versioned):
    """A flight of one lift within a session."""

    session_id: Named[int] = owned_by("session", index=False)
    lift: Named[Lift] = one_of(Lift)
    name: Named[str]
    position: Named[int]
    lifters: Named[int | None]


flight = make_table(
    "flight",
    FlightColumns,
    UniqueConstraint("session_id", "lift", "position"),
    CheckConstraint("lifters >= 1", name="lifters"),
)


class EntryColumns(Versioned):
    """An athlete's entry to a meet."""

    athlete_id: Named[int] = owned_by("athlete", index=False)
    meet_id: Named[int] = owned_by("meet")
    event: Named[Event] = one_of(Event)
    equipment: Named[Equipment] = one_of(Equipment)
    divisions: Named[list[str]] = Column(JSON)
    weight_class: Named[str | None]
    comes_down: Named[bool]
    session_id: Named[int | None] = points_to("session")
    lot: Named[int | None]
    bodyweight_g: Named[int | None]
    bodyweight_entered: Named[str | None]
    expected_squat_g: Named[int | None]
    expected_squat_entered: Named[str | None]
    expected_bench_g: Named[int | None]
    expected_bench_entered: Named[str | None]
    expected_deadlift_g: Named[int | None]
    expected_deadlift_entered: Named[str | None]
    withdrawn: Named[bool]
    place: Named[int | None]
    note: Named[str]


entry = make_table(
    "entry", EntryColumns, UniqueConstraint("athlete_id", "meet_id", "event", "equipment")
)


class LiftBasisColumns(Versioned):
    """What a lift of an entry is planned on, besides the coach's number."""

    entry_id: Named[int] = owned_by("entry", index=False)
    lift: Named[Lift] = one_of(Lift)
    low_g: Named[int | None]
    low_entered: Named[str | None]
    high_g: Named[int | None]
    high_entered: Named[str | None]
    source: Named[Source | None] = one_of(Source)
    floor_g: Named[int | None]
    floor_entered: Named[str | None]


lift_basis = make_table("lift_basis", LiftBasisColumns, UniqueConstraint("entry_id", "lift"))


class WishesColumns(Versioned):
    """What the coach wants of an entry's plan."""

    entry_id: Named[int] = owned_by("entry", index=False)
    aim: Named[DayAim | None] = one_of(DayAim)
    aim_lift: Named[Lift | None] = one_of(Lift)
    aim_weight_g: Named[int | None]
    aim_weight_entered: Named[str | None]
    risk_cap: Named[float | None]
    largest_jump: Named[float | None]


wishes = make_table(
    "wishes",
    WishesColumns,
    UniqueConstraint("entry_id"),
    CheckConstraint("risk_cap BETWEEN 0 AND 1", name="risk_cap"),
    CheckConstraint("largest_jump > 0", name="largest_jump"),
)


class EntryFlightColumns(Versioned):
    """The flight an entry lifts in, lift by lift: groups are merged and split on the day."""

    entry_id: Named[int] = owned_by("entry", index=False)
    flight_id: Named[int] = owned_by("flight")


entry_flight = make_table(
    "entry_flight", EntryFlightColumns, UniqueConstraint("entry_id", "flight_id")
)


class HandlerDutyColumns(Versioned):
    """Who does what for an entry."""

    entry_id: Named[int] = owned_by("entry", index=False)
    handler_id: Named[int] = owned_by("handler")
    role: Named[Role] = one_of(Role)


handler_duty = make_table(
    "handler_duty", HandlerDutyColumns, UniqueConstraint("entry_id", "handler_id", "role")
)


class AttemptColumns(Versioned):
    """An attempt, planned or lifted."""

    entry_id: Named[int] = owned_by("entry", index=False)
    lift: Named[Lift] = one_of(Lift)
    number: Named[int]
    take: Named[int]
    weight_g: Named[int]
    weight_entered: Named[str]
    result: Named[Result | None] = one_of(Result)
    lights: Named[str]
    seen: Named[Seen | None] = one_of(Seen)
    cause: Named[str]


attempt = make_table(
    "attempt",
    AttemptColumns,
    UniqueConstraint("entry_id", "lift", "number", "take"),
    CheckConstraint("number BETWEEN 1 AND 4", name="number"),
    CheckConstraint("weight_g > 0", name="weight_g"),
)


class PlanSnapshotColumns(Versioned):
    """A dated plan of attempts, kept as it was made."""

    entry_id: Named[int] = owned_by("entry")
    made_at: Named[datetime] = Column(Instant)
    content: Named[dict[str, Any]] = Column(JSON)


plan_snapshot = make_table("plan_snapshot", PlanSnapshotColumns)


class DiscSetColumns(Versioned):
    """A set of discs with its bar and collars."""

    name: Named[str]
    unit: Named[Unit] = one_of(Unit)
    bar_g: Named[int]
    bar_entered: Named[str]
    collar_g: Named[int]
    collar_entered: Named[str]
    discs: Named[tuple[Disc, ...]] = Column(Discs)


disc_set = make_table("disc_set", DiscSetColumns, CheckConstraint("bar_g > 0", name="bar_g"))


class PrintingColumns(Numbered):
    """What was printed when. Paper that is out cannot be undone, so this is not journalled."""

    meet_id: Named[int] = owned_by("meet")
    entry_id: Named[int | None] = owned_by("entry")
    printed_at: Named[datetime] = Column(Instant)


printing = make_table("printing", PrintingColumns)


class CalendarEntryColumns(Numbered):
    """What calendar files have brought, by the name of the event; not journalled, as the calendar
    that read it is elsewhere. `meet_id` may be that of a meet that is gone: then the event is too.
    """

    key: Named[str]
    meet_id: Named[int]
    begins_on: Named[date]


calendar_entry = make_table("calendar_entry", CalendarEntryColumns, UniqueConstraint("key"))


class JournalActionColumns(Numbered):
    """One action of the coach: what it was in words, when, and whether it is undone."""

    at: Named[datetime] = Column(Instant)
    label: Named[dict[str, Any]] = Column(JSON)
    undone: Named[bool] = Column(default=False)


journal_action = make_table("journal_action", JournalActionColumns)


class JournalChangeColumns(Numbered):
    """One row an action touched, as it was before and after; None where it did not exist."""

    action_id: Named[int] = owned_by("journal_action")
    kind: Named[str]
    row_id: Named[int]
    before: Named[str | None]
    after: Named[str | None]


journal_change = make_table("journal_change", JournalChangeColumns)

JOURNALLED: tuple[Table[Versioned], ...] = (
    athlete, reading, handler, *TRAINING, meet, session, flight,
    entry, entry_flight, handler_duty, attempt, plan_snapshot, disc_set,
    lift_basis, wishes, *READINESS,
)  # fmt: skip

METADATA = REGISTER
"""All tables."""
