"""The kinds of columns that the tables are made of."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import (
    JSON,
    Column,
    Dialect,
    Enum,
    ForeignKey,
    Integer,
    Named,
    String,
    TypedColumns,
    TypeDecorator,
)

from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass, Unit, parse_mass


class Numbered(TypedColumns):
    """Columns of every table: an id."""

    id: Named[int] = Column(primary_key=True)


class Versioned(Numbered):
    """Columns of every journalled table: an id and a version."""

    version: Named[int]


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


class Discs(TypeDecorator[tuple[Disc, ...]]):
    """Kinds of discs, stored as a list of weight, pairs and colour."""

    impl = JSON
    cache_ok = True

    def process_bind_param(self, value: tuple[Disc, ...] | None, dialect: Dialect) -> Any:
        """Store weights as they were entered."""
        del dialect
        return [
            {"weight": entered(disc.weight), "pairs": disc.pairs, "colour": disc.colour}
            for disc in value or ()
        ]

    def process_result_value(self, value: Any, dialect: Dialect) -> tuple[Disc, ...]:
        """Read back as discs."""
        del dialect
        return tuple(
            Disc(parse_mass(disc["weight"], Unit.KG), disc["pairs"], disc["colour"])
            for disc in value
        )


def entered(mass: Mass) -> str:
    """A mass as stored beside its grams: "405 lb"."""
    return f"{mass.number:f} {mass.unit}"


def one_of(kind: type[StrEnum]) -> Column[Any]:
    """A member of `kind`, stored as its value; the file itself refuses any other."""
    return Column(
        Enum(
            kind,
            name=re.sub(r"(?<!^)(?=[A-Z])", "_", kind.__name__).lower(),
            native_enum=False,
            create_constraint=True,
            values_callable=lambda members: [member.value for member in members],
        )
    )


def owned_by(table: str, *, index: bool = True) -> Column[int]:
    """A row that goes when `table`'s row goes; no index of its own where another starts with it."""
    return Column(Integer, ForeignKey(f"{table}.id", ondelete="CASCADE"), index=index)


def points_to(table: str) -> Column[int]:
    """A row that stays, pointing nowhere, when `table`'s row goes."""
    return Column(Integer, ForeignKey(f"{table}.id", ondelete="SET NULL"), index=True)
