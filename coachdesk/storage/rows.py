"""Between frozen domain records and table rows: one mapping for all of them.

A record's field is a column of the same name, but for masses, which take two columns (see
`tables`), and tuples, which are stored as lists.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import cache, lru_cache
from typing import Any, ClassVar, Protocol, TypeVar

from sqlalchemy import JSON, RowMapping, Table

from coachdesk.domain.athlete import Athlete, CycleNoteRecord, Handler, Reading
from coachdesk.domain.disc_set import DiscSet
from coachdesk.domain.meet import Attempt, Entry, Flight, HandlerDuty, Meet, Session
from coachdesk.domain.readiness import KitCheck, Snooze, Task
from coachdesk.domain.training import (
    Block,
    EmptiedCell,
    Exercise,
    LoggedSet,
    PlannedSet,
    TrainingDay,
    TrainingMaximum,
)
from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.domain.wishes import LiftBasis, Wishes
from coachdesk.storage import readiness_tables, tables, training_tables
from coachdesk.storage.column_kinds import Versioned, entered


class Data(Protocol):
    """A frozen record, with or without an id."""

    __dataclass_fields__: ClassVar[dict[str, Any]]


R = TypeVar("R", bound=Data)

_TABLES: dict[type[Any], Table[Versioned]] = {
    Athlete: tables.athlete,
    Reading: tables.reading,
    Handler: tables.handler,
    Block: training_tables.block,
    TrainingMaximum: training_tables.training_maximum,
    Exercise: training_tables.exercise,
    PlannedSet: training_tables.planned_set,
    EmptiedCell: training_tables.emptied_cell,
    TrainingDay: training_tables.training_day,
    LoggedSet: training_tables.logged_set,
    Meet: tables.meet,
    Session: tables.session,
    Flight: tables.flight,
    Entry: tables.entry,
    Attempt: tables.attempt,
    HandlerDuty: tables.handler_duty,
    DiscSet: tables.disc_set,
    LiftBasis: tables.lift_basis,
    Wishes: tables.wishes,
    CycleNoteRecord: readiness_tables.cycle_note,
    WeightPlan: readiness_tables.weight_plan,
    KitCheck: readiness_tables.kit_check,
    Task: readiness_tables.task,
    Snooze: readiness_tables.snooze,
}

_KEYS = frozenset({"id", "version"})


@cache
def table_of(record_type: type[Data]) -> Table[Versioned]:
    """The table of a record type; a record without an id has the table of the one with."""
    for known, table in _TABLES.items():
        if issubclass(known, record_type):
            return table
    raise KeyError(record_type)


def columns(data: Data) -> dict[str, Any]:
    """The column values of a record, without id and version."""
    shape = _shape(type(data))
    values = {name: getattr(data, name) for name in shape.plain}
    for name in shape.tuples:
        values[name] = list(getattr(data, name))
    for name, in_grams, as_entered in shape.masses:
        mass: Mass | None = getattr(data, name)
        values[in_grams] = None if mass is None else mass.grams
        values[as_entered] = None if mass is None else entered(mass)
    return values


def record(record_type: type[R], row: RowMapping) -> R:
    """The frozen record of a row."""
    shape = _shape(record_type)
    values = {name: row[name] for name in (*shape.keys, *shape.plain)}
    for name in shape.tuples:
        values[name] = tuple(row[name])
    for name, _, as_entered in shape.masses:
        text = row[as_entered]
        values[name] = None if text is None else stored_mass(text)
    return record_type(**values)


@lru_cache(maxsize=4096)
def stored_mass(stored: str) -> Mass:
    """A mass as it was entered; weights recur."""
    return parse_mass(stored, Unit.KG)


@dataclass(frozen=True, slots=True)
class _Shape:
    """The fields of a record by how they are stored; a mass with the names of its two columns."""

    keys: tuple[str, ...]
    plain: tuple[str, ...]
    tuples: tuple[str, ...]
    masses: tuple[tuple[str, str, str], ...]


@cache
def _shape(record_type: type[Data]) -> _Shape:
    column = table_of(record_type).columns
    names = [field.name for field in fields(record_type)]
    masses = [name for name in names if f"{name}_g" in column]
    lists = {each.name for each in column if isinstance(each.type, JSON)}
    return _Shape(
        keys=tuple(name for name in names if name in _KEYS),
        plain=tuple(name for name in names if name not in {*_KEYS, *masses, *lists}),
        tuples=tuple(name for name in names if name in lists),
        masses=tuple((name, f"{name}_g", f"{name}_entered") for name in masses),
    )


def by(records: Iterable[Any], key: str) -> dict[int, tuple[Any, ...]]:
    """Records grouped by the id in their field `key`."""
    grouped: dict[int, list[Any]] = {}
    for each in records:
        grouped.setdefault(getattr(each, key), []).append(each)
    return {owner: tuple(group) for owner, group in grouped.items()}
