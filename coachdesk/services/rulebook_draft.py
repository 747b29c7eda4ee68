"""Between the text of a rulebook file and what a form shows of it: strings by field.

Only what the coach changed is written, so that everything else in the file, comments and notes on
sources above all, stays letter by letter. Where a value with a comment is changed, the comment is
kept behind the day and the values before and after: a note such as "seen" speaks of the old one.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.items import AoT, Array, Float

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.services import typed
from coachdesk.services.rulebook_fields import FIELDS, ROWS, Field, Kind, Path, Rows
from coachdesk.services.toml_edit import (
    Holder,
    RowList,
    append_row,
    new_rows,
    remove_row,
    row_of,
    set_value,
)

_SEPARATORS = re.compile(r",?[;\s]+")


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a list. `number` is its place in the file it was read from, or a new number above
    all of those; `cells` hold what is typed, by column."""

    number: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Draft:
    """A rulebook as a form shows it: `values` by field, `rows` by list; `source` is the text of
    the file it was read from."""

    source: str
    values: Mapping[str, str]
    rows: Mapping[str, tuple[Row, ...]]


def draft_of(source: str) -> Draft:
    """What a form shows of the text of a rulebook file, faulty values included.

    Raises tomllib.TOMLDecodeError where it is no TOML.
    """
    content = tomllib.loads(source.replace("\r\n", "\n"), parse_float=Decimal)
    return Draft(
        source=source,
        values={each.name: _shown(each, _find(content, each.path)) for each in FIELDS},
        rows={each.name: _rows(each, _find(content, each.path)) for each in ROWS},
    )


def text_of(draft: Draft, today: date) -> str:
    """The text of the file with what the coach changed.

    Raises InvalidInput for what cannot be read as what its field holds; a cell's field is the
    list's name, the row's number and the column, joined by slashes.
    """
    before = draft_of(draft.source)
    document = tomlkit.parse(draft.source)
    for each in FIELDS:
        value = draft.values[each.name]
        if value != before.values[each.name]:
            kept = value_of(each, each.name, value)
            set_value(_holder(document, each.path), each.path[-1], kept, today)
    for rows in ROWS:
        if draft.rows[rows.name] != before.rows[rows.name]:
            _write_rows(document, rows, before.rows[rows.name], draft.rows[rows.name], today)
    if draft.values["lift_order"] != before.values["lift_order"]:
        for lift in Lift:
            if lift not in draft.values["lift_order"].split("\n"):
                document.pop(lift, None)
    return tomlkit.dumps(document)


def cell_name(rows: Rows, number: int, column: str) -> str:
    """What a cell is called as the field of an error."""
    return f"{rows.name}/{number}/{column}"


def value_of(field: Field, name: str, entered: str) -> object:
    """What was entered as the file keeps it; None where there is nothing to keep.

    Raises InvalidInput for the field `name` when it cannot be read as what the field holds.
    """
    value = _READERS[field.kind](name, entered.strip())
    is_missing = value is None or value in ("", [])
    if is_missing and field.required:
        raise InvalidInput(name, text("check.required"))
    return None if is_missing or (value is False and not field.required) else value


def _find(content: Mapping[str, Any], path: Path) -> Any:
    found: Any = content
    for key in path:
        found = found.get(key) if isinstance(found, Mapping) else None
    return found


def _rows(rows: Rows, found: Any) -> tuple[Row, ...]:
    if not isinstance(found, list):
        return ()
    return tuple(
        Row(
            number,
            {
                column.name: _shown(column, each.get(column.name) if _is_table(each) else None)
                for column in rows.columns
            },
        )
        for number, each in enumerate(found)
    )


def _is_table(found: object) -> bool:
    return isinstance(found, Mapping)


def _shown(field: Field, value: Any) -> str:
    if value is None or isinstance(value, Mapping):
        return ""
    if isinstance(value, list):
        joint = "\n" if field.kind in {Kind.CHOICES, Kind.IN_ORDER, Kind.LINES} else ", "
        return joint.join(_shown(field, each) for each in value)
    if isinstance(value, bool):
        return typed.shown_yes(value)
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def _holder(document: Holder, path: Path) -> Holder:
    """The table a field stands in, made where there is none."""
    holder = document
    for key in path[:-1]:
        if not isinstance(holder.get(key), MutableMapping):
            holder[key] = tomlkit.table()
        holder = holder[key]
    return holder


def _write_rows(
    document: Holder,
    rows: Rows,
    before: Sequence[Row],
    after: Sequence[Row],
    today: date,
) -> None:
    holder = _holder(document, rows.path)
    if not isinstance(holder.get(rows.path[-1]), AoT | Array):
        holder[rows.path[-1]] = new_rows()
    found: RowList = holder[rows.path[-1]]
    kept = {row.number: row for row in after}
    for place, row in reversed(list(enumerate(before))):
        if row.number not in kept:
            remove_row(found, place)
        elif row != kept[row.number]:
            _write_cells(row_of(found, place), rows, row, kept[row.number], today)
    numbers = {row.number for row in before}
    for row in after:
        if row.number not in numbers:
            _write_cells(append_row(found), rows, Row(row.number, {}), row, today)
    if not after:
        holder.pop(rows.path[-1])


def _write_cells(holder: Holder, rows: Rows, before: Row, after: Row, today: date) -> None:
    for column in rows.columns:
        entered = after.cells[column.name]
        if entered != before.cells.get(column.name):
            name = cell_name(rows, after.number, column.name)
            set_value(holder, column.name, value_of(column, name, entered), today)


def _number(name: str, entered: str) -> int | Float | None:
    """A number as the file keeps it: whole where it is, else digit by digit as entered."""
    number = typed.number(name, entered)
    if number is None:
        return None
    is_whole = number == number.to_integral_value()
    return int(number) if is_whole else tomlkit.float_(f"{number:f}")


def _parts(entered: str) -> list[str]:
    """What blanks, semicolons, or commas before a blank set apart: a comma alone is a decimal."""
    return [part for part in _SEPARATORS.split(entered) if part]


def _lines(_name: str, entered: str) -> list[str]:
    return [line.strip() for line in entered.split("\n") if line.strip()]


def _words(_name: str, entered: str) -> str:
    return entered


_READERS: dict[Kind, Callable[[str, str], object]] = {
    Kind.WORDS: _words,
    Kind.PROSE: _words,
    Kind.CHOICE: _words,
    Kind.YES: lambda _name, entered: typed.yes(entered),
    Kind.DAY: typed.day,
    Kind.WHOLE: typed.whole,
    Kind.NUMBER: _number,
    Kind.WHOLES: lambda name, entered: [typed.whole(name, part) for part in _parts(entered)],
    Kind.NUMBERS: lambda name, entered: [_number(name, part) for part in _parts(entered)],
    Kind.CODES: lambda _name, entered: _parts(entered.replace(",", " ")),
    Kind.CHOICES: _lines,
    Kind.IN_ORDER: _lines,
    Kind.LINES: _lines,
}
