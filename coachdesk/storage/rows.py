"""Between frozen domain records and table rows: one mapping for all of them.

A record's field is a column of the same name, but for masses, which take two columns (see
`tables`), and tuples, which are stored as lists.
"""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from typing import Any, ClassVar, Protocol, TypeVar

from sqlalchemy import RowMapping, Table

from coachdesk.domain.athlete import Athlete, Handler, Reading
from coachdesk.domain.meet import Attempt, Entry, Flight, HandlerDuty, Meet, Session
from coachdesk.domain.training import Block, LoggedSet
from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.storage.tables import (
    AthleteRow,
    AttemptRow,
    BlockRow,
    EntryRow,
    FlightRow,
    HandlerDutyRow,
    HandlerRow,
    LoggedSetRow,
    MeetRow,
    ReadingRow,
    Row,
    SessionRow,
)


class Data(Protocol):
    """A frozen record, with or without an id."""

    __dataclass_fields__: ClassVar[dict[str, Any]]


R = TypeVar("R", bound=Data)

_TABLES: dict[type[Any], type[Row]] = {
    Athlete: AthleteRow,
    Reading: ReadingRow,
    Handler: HandlerRow,
    Block: BlockRow,
    LoggedSet: LoggedSetRow,
    Meet: MeetRow,
    Session: SessionRow,
    Flight: FlightRow,
    Entry: EntryRow,
    Attempt: AttemptRow,
    HandlerDuty: HandlerDutyRow,
}

_KEYS = frozenset({"id", "version"})


@cache
def table_of(record_type: type[Data]) -> Table:
    """The table of a record type; a record without an id has the table of the one with."""
    for known, row in _TABLES.items():
        if issubclass(known, record_type):
            return row.__table__
    raise KeyError(record_type)


def columns(data: Data) -> dict[str, Any]:
    """The column values of a record, without id and version."""
    values: dict[str, Any] = {}
    for name, is_mass in _fields(type(data)):
        if name in _KEYS:
            continue
        value = getattr(data, name)
        if is_mass:
            mass: Mass | None = value
            values[f"{name}_g"] = None if mass is None else mass.grams
            values[f"{name}_entered"] = None if mass is None else entered(mass)
        else:
            values[name] = list(value) if isinstance(value, tuple) else value
    return values


def record(record_type: type[R], row: RowMapping) -> R:
    """The frozen record of a row."""
    values: dict[str, Any] = {}
    for name, is_mass in _fields(record_type):
        if is_mass:
            text = row[f"{name}_entered"]
            values[name] = None if text is None else parse_mass(text, Unit.KG)
        else:
            value = row[name]
            values[name] = tuple(value) if isinstance(value, list) else value
    return record_type(**values)


@cache
def _fields(record_type: type[Data]) -> tuple[tuple[str, bool], ...]:
    """The fields of a record, and whether each is a mass."""
    row = table_of(record_type).columns
    return tuple((field.name, f"{field.name}_g" in row) for field in fields(record_type))


def entered(mass: Mass) -> str:
    """A mass as stored beside its grams: "405 lb"."""
    return f"{mass.number:f} {mass.unit}"
