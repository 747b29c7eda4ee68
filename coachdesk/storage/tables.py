"""The tables, typed. Everything outside storage sees frozen domain records instead.

A mass takes two columns: `<name>_g`, integer grams for the machine, and `<name>_entered`, the
number and unit somebody typed. Times local to a meet are stored without a zone; instants are
stored as UTC with one.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time
from enum import StrEnum
from typing import Any, ClassVar

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Dialect,
    Enum,
    ForeignKey,
    Index,
    MetaData,
    String,
    Table,
    TypeDecorator,
    UniqueConstraint,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from coachdesk.domain.athlete import Dress, LossBar
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Seen, Sex
from coachdesk.domain.meet import Role
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Unit


class Instant(TypeDecorator[datetime]):
    """An aware moment, stored as ISO 8601 in UTC."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Store in UTC; a moment without a zone is a bug."""
        del dialect
        if value is None:
            return None
        if value.tzinfo is None:
            msg = "an instant needs a time zone"
            raise ValueError(msg)
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """Read back as an aware UTC moment."""
        del dialect
        return None if value is None else datetime.fromisoformat(value)


def _enum(kind: type[StrEnum]) -> Enum:
    return Enum(
        kind,
        name=re.sub(r"(?<!^)(?=[A-Z])", "_", kind.__name__).lower(),
        native_enum=False,
        create_constraint=True,
        values_callable=lambda members: [member.value for member in members],
    )


class Base(DeclarativeBase):
    """Base of all tables, with named constraints so that migrations can change them."""

    __table__: ClassVar[Table]

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        kind: _enum(kind)
        for kind in (
            Dress, Equipment, Event, Lift, LossBar, Purpose, Result, Role, Seen, Sex, Unit,
        )
    }  # fmt: skip


_NEVER_REUSE_IDS = {"sqlite_autoincrement": True}


class Row(Base):
    """Base of the journalled tables: an id that is never used again and a version."""

    __abstract__ = True
    __table_args__: Any = _NEVER_REUSE_IDS

    id: Mapped[int] = mapped_column(primary_key=True, sort_order=-2)
    version: Mapped[int] = mapped_column(sort_order=-1)


def _owned_by(table: str, *, index: bool = True) -> Mapped[int]:
    """A row that goes when `table`'s row goes; no index of its own where another starts with it."""
    return mapped_column(ForeignKey(f"{table}.id", ondelete="CASCADE"), index=index)


class AthleteRow(Row):
    """An athlete."""

    __tablename__ = "athlete"
    __table_args__ = (
        CheckConstraint("meets_before >= 0", name="meets_before"),
        CheckConstraint("height_cm BETWEEN 80 AND 260", name="height_cm"),
        _NEVER_REUSE_IDS,
    )

    given_name: Mapped[str]
    family_name: Mapped[str]
    sex: Mapped[Sex]
    birth_date: Mapped[date | None]
    unit: Mapped[Unit]
    equipment: Mapped[Equipment]
    height_cm: Mapped[int | None]
    meets_before: Mapped[int]
    loss_bar: Mapped[LossBar]
    member_number: Mapped[str]
    member_until: Mapped[date | None]
    squat_rack: Mapped[str]
    bench_rack: Mapped[str]
    bench_safety: Mapped[str]
    bench_lift_off: Mapped[bool]
    bench_foot_blocks: Mapped[str]
    squat_cue: Mapped[str]
    bench_cue: Mapped[str]
    deadlift_cue: Mapped[str]
    email: Mapped[str]
    phone: Mapped[str]
    emergency_contact: Mapped[str]
    health_note: Mapped[str]
    note: Mapped[str]
    archived: Mapped[bool] = mapped_column(default=False)


class ReadingRow(Row):
    """A bodyweight reading."""

    __tablename__ = "reading"
    __table_args__ = (
        Index(None, "athlete_id", "on"),
        CheckConstraint("weight_g > 0", name="weight_g"),
        _NEVER_REUSE_IDS,
    )

    athlete_id: Mapped[int] = _owned_by("athlete", index=False)
    on: Mapped[date]
    at: Mapped[time | None]
    weight_g: Mapped[int]
    weight_entered: Mapped[str]
    dress: Mapped[Dress]
    scale: Mapped[str]
    note: Mapped[str]


class HandlerRow(Row):
    """A handler."""

    __tablename__ = "handler"

    name: Mapped[str]
    phone: Mapped[str]
    note: Mapped[str]


class BlockRow(Row):
    """A training block."""

    __tablename__ = "block"
    __table_args__ = (CheckConstraint("weeks >= 1", name="weeks"), _NEVER_REUSE_IDS)

    athlete_id: Mapped[int] = _owned_by("athlete")
    name: Mapped[str]
    purpose: Mapped[Purpose]
    starts_on: Mapped[date]
    weeks: Mapped[int]
    note: Mapped[str]


class LoggedSetRow(Row):
    """A logged set."""

    __tablename__ = "logged_set"
    __table_args__ = (
        Index(None, "athlete_id", "on"),
        CheckConstraint("weight_g > 0", name="weight_g"),
        CheckConstraint("reps >= 0", name="reps"),
        CheckConstraint("rir BETWEEN 0 AND 10", name="rir"),
        _NEVER_REUSE_IDS,
    )

    athlete_id: Mapped[int] = _owned_by("athlete", index=False)
    on: Mapped[date]
    lift: Mapped[Lift]
    weight_g: Mapped[int]
    weight_entered: Mapped[str]
    reps: Mapped[int]
    rir: Mapped[float | None]
    variation: Mapped[str]
    judged: Mapped[bool]
    result: Mapped[Result | None]
    cause: Mapped[str]
    block_id: Mapped[int | None] = mapped_column(
        ForeignKey("block.id", ondelete="SET NULL"), index=True
    )
    note: Mapped[str]


class MeetRow(Row):
    """A meet."""

    __tablename__ = "meet"

    name: Mapped[str]
    starts_on: Mapped[date] = mapped_column(index=True)
    rulebook: Mapped[str]
    time_zone: Mapped[str]
    place: Mapped[str]
    entry_deadline: Mapped[date | None]
    note: Mapped[str]


class SessionRow(Row):
    """A session of a meet."""

    __tablename__ = "session"

    meet_id: Mapped[int] = _owned_by("meet")
    name: Mapped[str]
    starts_at: Mapped[datetime]
    weigh_in_opens: Mapped[datetime | None]
    weigh_in_closes: Mapped[datetime | None]
    platform: Mapped[str]


class FlightRow(Row):
    """A flight of one lift within a session."""

    __tablename__ = "flight"
    __table_args__ = (
        UniqueConstraint("session_id", "lift", "position"),
        CheckConstraint("lifters >= 1", name="lifters"),
        _NEVER_REUSE_IDS,
    )

    session_id: Mapped[int] = _owned_by("session", index=False)
    lift: Mapped[Lift]
    name: Mapped[str]
    position: Mapped[int]
    lifters: Mapped[int | None]


class EntryRow(Row):
    """An athlete's entry to a meet."""

    __tablename__ = "entry"
    __table_args__ = (
        UniqueConstraint("athlete_id", "meet_id", "event", "equipment"),
        _NEVER_REUSE_IDS,
    )

    athlete_id: Mapped[int] = _owned_by("athlete", index=False)
    meet_id: Mapped[int] = _owned_by("meet")
    event: Mapped[Event]
    equipment: Mapped[Equipment]
    divisions: Mapped[list[str]] = mapped_column(JSON)
    weight_class: Mapped[str | None]
    comes_down: Mapped[bool]
    session_id: Mapped[int | None] = mapped_column(
        ForeignKey("session.id", ondelete="SET NULL"), index=True
    )
    lot: Mapped[int | None]
    bodyweight_g: Mapped[int | None]
    bodyweight_entered: Mapped[str | None]
    expected_squat_g: Mapped[int | None]
    expected_squat_entered: Mapped[str | None]
    expected_bench_g: Mapped[int | None]
    expected_bench_entered: Mapped[str | None]
    expected_deadlift_g: Mapped[int | None]
    expected_deadlift_entered: Mapped[str | None]
    withdrawn: Mapped[bool]
    place: Mapped[int | None]
    note: Mapped[str]


class EntryFlightRow(Row):
    """The flight an entry lifts in, lift by lift: groups are merged and split on the day."""

    __tablename__ = "entry_flight"
    __table_args__ = (UniqueConstraint("entry_id", "flight_id"), _NEVER_REUSE_IDS)

    entry_id: Mapped[int] = _owned_by("entry", index=False)
    flight_id: Mapped[int] = _owned_by("flight")


class HandlerDutyRow(Row):
    """Who does what for an entry."""

    __tablename__ = "handler_duty"
    __table_args__ = (UniqueConstraint("entry_id", "handler_id", "role"), _NEVER_REUSE_IDS)

    entry_id: Mapped[int] = _owned_by("entry", index=False)
    handler_id: Mapped[int] = _owned_by("handler")
    role: Mapped[Role]


class AttemptRow(Row):
    """An attempt, planned or lifted."""

    __tablename__ = "attempt"
    __table_args__ = (
        UniqueConstraint("entry_id", "lift", "number", "take"),
        CheckConstraint("number BETWEEN 1 AND 4", name="number"),
        CheckConstraint("weight_g > 0", name="weight_g"),
        _NEVER_REUSE_IDS,
    )

    entry_id: Mapped[int] = _owned_by("entry", index=False)
    lift: Mapped[Lift]
    number: Mapped[int]
    take: Mapped[int]
    weight_g: Mapped[int]
    weight_entered: Mapped[str]
    result: Mapped[Result | None]
    lights: Mapped[str]
    seen: Mapped[Seen | None]
    cause: Mapped[str]


class PlanSnapshotRow(Row):
    """A dated plan of attempts, kept as it was made."""

    __tablename__ = "plan_snapshot"

    entry_id: Mapped[int] = _owned_by("entry")
    made_at: Mapped[datetime] = mapped_column(Instant)
    content: Mapped[dict[str, Any]] = mapped_column(JSON)


class PrintingRow(Base):
    """What was printed when. Paper that is out cannot be undone, so this is not journalled."""

    __tablename__ = "printing"
    __table_args__ = _NEVER_REUSE_IDS

    id: Mapped[int] = mapped_column(primary_key=True)
    meet_id: Mapped[int] = _owned_by("meet")
    entry_id: Mapped[int | None] = mapped_column(
        ForeignKey("entry.id", ondelete="CASCADE"), index=True
    )
    printed_at: Mapped[datetime] = mapped_column(Instant)


class JournalActionRow(Base):
    """One action of the coach: what it was in words, when, and whether it is undone."""

    __tablename__ = "journal_action"
    __table_args__ = _NEVER_REUSE_IDS

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(Instant)
    label: Mapped[dict[str, Any]] = mapped_column(JSON)
    undone: Mapped[bool] = mapped_column(default=False)


class JournalChangeRow(Base):
    """One row an action touched, as it was before and after; None where it did not exist."""

    __tablename__ = "journal_change"
    __table_args__ = _NEVER_REUSE_IDS

    id: Mapped[int] = mapped_column(primary_key=True)
    action_id: Mapped[int] = _owned_by("journal_action")
    kind: Mapped[str]
    row_id: Mapped[int]
    before: Mapped[str | None]
    after: Mapped[str | None]


JOURNALLED: tuple[type[Row], ...] = (
    AthleteRow, ReadingRow, HandlerRow, BlockRow, LoggedSetRow, MeetRow, SessionRow, FlightRow,
    EntryRow, EntryFlightRow, HandlerDutyRow, AttemptRow, PlanSnapshotRow,
)  # fmt: skip
