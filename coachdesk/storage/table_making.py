"""How every table is made: named constraints, and ids that are never used again."""

from __future__ import annotations

from typing import TypeVar

from sqlalchemy import MetaData, Table, TypedColumns
from sqlalchemy.schema import SchemaItem

C = TypeVar("C", bound=TypedColumns)

REGISTER = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)
"""Notes the tables as they are made; constraints have names so that migrations can change them."""


def make_table(name: str, columns: type[C], *rules: SchemaItem) -> Table[C]:
    """A table whose ids are never used again."""
    return Table(name, REGISTER, columns, *rules, sqlite_autoincrement=True)
