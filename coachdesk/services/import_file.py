"""Records from a file of another program, whatever their kind: how the file is laid out, what
becomes of each line, and that all of it is kept or nothing."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum
from typing import Generic, TypeAlias, TypeVar

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.services import csv_reading, typed
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.csv_reading import DecimalMark, Delimiter, Row, Source
from coachdesk.services.day_reading import DayOrder, DaysFound, Months, find_order, split_hour
from coachdesk.services.desk import Desk

R = TypeVar("R")
T = TypeVar("T")
Progress: TypeAlias = Callable[[int, int], None]

NAME, GIVEN, FAMILY = "name", "given", "family"
DAY, WEIGHT, UNIT = "day", "weight", "unit"
"""Parts of a line that every kind has."""
_STEP = 500
"""Lines between two reports of progress."""
_GUESSED_FROM = 50
"""Rows that columns without heads are told from."""


class Fate(StrEnum):
    """What becomes of a line."""

    NEW = "new"
    ODD = "odd"
    ON_FILE = "on_file"
    TWICE = "twice"
    FAULTY = "faulty"
    UNREAD = "unread"


KEPT = frozenset({Fate.NEW, Fate.ODD})


@dataclass(frozen=True, slots=True)
class Layout:
    """How a file is read: the column of each part. `unit` is that of bare numbers, None for each
    athlete's own."""

    delimiter: Delimiter
    has_heads: bool
    columns: Mapping[str, int] = field(default_factory=dict)
    order: DayOrder | None = None
    unit: Unit | None = None

    @property
    def names_athletes(self) -> bool:
        """Whether lines say whose they are."""
        return bool({NAME, GIVEN, FAMILY} & set(self.columns))


@dataclass(frozen=True, slots=True)
class Line(Generic[R]):
    """A line of the file: what was understood, what becomes of it, and why."""

    number: int
    cells: tuple[str, ...]
    fate: Fate
    record: R | None = None
    athlete: Athlete | None = None
    remarks: tuple[Text, ...] = ()

    def becomes(self, fate: Fate, remark: Text) -> Line[R]:
        """The same line with another fate, and why."""
        return replace(self, fate=fate, remarks=(remark,))


@dataclass(frozen=True, slots=True)
class Preview(Generic[R]):
    """A file as it would be kept. `lacking` is what the coach must choose before it can be read."""

    layout: Layout
    heads: tuple[str, ...]
    days: DaysFound
    decimals: DecimalMark
    lines: tuple[Line[R], ...]
    lacking: Text | None

    def count(self, *fates: Fate) -> int:
        """How many lines have one of these fates."""
        return sum(line.fate in fates for line in self.lines)

    @property
    def records(self) -> tuple[R, ...]:
        """What would be kept."""
        return tuple(
            line.record for line in self.lines if line.record is not None and line.fate in KEPT
        )


Guesses: TypeAlias = Sequence[tuple[str, Callable[[str], bool]]]
"""Parts, and what tells a cell of theirs."""


def lay_out(
    source: Source,
    parts_of_heads: Mapping[str, str],
    guesses: Guesses,
    delimiter: Delimiter,
    *,
    has_heads: bool | None = None,
) -> Layout:
    """The columns of a file with this mark between cells, and whether it begins with heads.

    Beside given names a column of mere names holds family names ("Name; Vorname").
    """
    rows = csv_reading.rows_of(source, delimiter)
    heads = csv_reading.has_heads(rows, parts_of_heads) if has_heads is None else has_heads
    if not heads:
        columns = _guessed(rows[:_GUESSED_FROM], guesses)
        return Layout(delimiter, has_heads=False, columns=columns)
    matched = csv_reading.match_heads(rows[0].cells, parts_of_heads)
    if NAME in matched and GIVEN in matched and FAMILY not in matched:
        matched[FAMILY] = matched.pop(NAME)
    weight = matched.get(WEIGHT)
    unit = None if weight is None else csv_reading.unit_in_head(rows[0].cells[weight])
    return Layout(delimiter, has_heads=True, columns=matched, unit=unit)


def preview(
    source: Source,
    layout: Layout,
    months: Months,
    needed: Mapping[str, Text],
    read: Callable[[Sequence[Row], Layout], tuple[Line[R], ...]],
    owner: Athlete | None = None,
    days_in: Sequence[str] = (DAY,),
) -> Preview[R]:
    """Every line as `read` understands it. It changes nothing.

    `needed` says of each part that must have a column what is said where it has none. Lines that
    do not say whose they are belong to `owner`, if there is one. `days_in` are the parts that hold
    days.
    """
    rows = csv_reading.rows_of(source, layout.delimiter)
    heads = rows[0].cells if layout.has_heads else ()
    body = rows[1:] if layout.has_heads else rows
    columns = layout.columns
    written = (split_hour(row.cell(columns.get(part)))[0] for part in days_in for row in body)
    days = find_order(written, months)
    order = layout.order or days.order
    lacking = _lacking(layout, needed, days, order, owner)
    if lacking is None:
        lines = read(body, replace(layout, order=order))
    else:
        lines = tuple(Line(row.number, row.cells, Fate.UNREAD) for row in body)
    decimals = csv_reading.decimal_mark(row.cell(columns.get(WEIGHT)) for row in body)
    return Preview(layout, heads or _numbered(rows), days, decimals, lines, lacking)


def check_keepable(found: Preview[R], *, leave_out_faulty: bool) -> None:
    """Raises InvalidInput where a file cannot be kept: lines are faulty and not to be left out, or
    nothing is left to keep."""
    if found.lacking is not None:
        raise InvalidInput("columns", found.lacking)
    faulty = found.count(Fate.FAULTY)
    if faulty and not leave_out_faulty:
        raise InvalidInput("lines", text("weights.faulty", count=faulty))
    if not found.records:
        raise InvalidInput("lines", text("weights.nothing_new"))


def read_each(
    desk: Desk,
    rows: Sequence[Row],
    progress: Progress,
    read: Callable[[Row, NameBook[Athlete], date], Line[R]],
) -> list[Line[R]]:
    """Every row as a line, in the order of the file."""
    with desk.reading() as reader:
        book = NameBook(reader.list(Athlete))
    today = desk.today()
    lines: list[Line[R]] = []
    for done, row in enumerate(rows):
        if done % _STEP == 0:
            progress(done, len(rows))
        lines.append(read(row, book, today))
    progress(len(rows), len(rows))
    return lines


class RowReader:
    """Reads parts of one row, and gathers all that is wrong with it."""

    def __init__(self, row: Row, layout: Layout) -> None:
        self.row = row
        self.layout = layout
        self.faults: list[Text] = []

    def attempt(self, task: Callable[[], T]) -> T | None:
        """What `task` reads; None, with the fault noted, when it cannot."""
        try:
            return task()
        except InvalidInput as error:
            self.faults.append(error.text)
            return None

    def faulty(self, athlete: Athlete | None) -> Line[R]:
        """The line with what is wrong with it."""
        remarks = tuple(self.faults)
        return Line(self.row.number, self.row.cells, Fate.FAULTY, athlete=athlete, remarks=remarks)

    def cell(self, part: str) -> str:
        """What stands in the column of a part."""
        return self.row.cell(self.layout.columns.get(part))

    def name(self) -> str:
        """Whose line it is."""
        return self.cell(NAME) or f"{self.cell(GIVEN)} {self.cell(FAMILY)}"

    def weight(self, athlete: Athlete | None) -> Mass:
        """The weight in the unit named, else that of the file, else the athlete's own."""
        unit = self.layout.unit or (Unit.KG if athlete is None else athlete.unit)
        if named := self.cell(UNIT):
            found = csv_reading.unit_named(named)
            if found is None:
                raise InvalidInput("unit", text("weights.unit_unknown", unit=named))
            unit = found
        return typed.required_mass("weight", self.cell(WEIGHT), unit)


def is_mass(cell: str) -> bool:
    """Whether a cell holds a weight."""
    try:
        parse_mass(cell, Unit.KG)
    except ValueError:
        return False
    return True


def knows_names(desk: Desk) -> Callable[[str], bool]:
    """Tells whether a cell holds the name of somebody on the roster."""
    with desk.reading() as reader:
        return NameBook(reader.list(Athlete)).knows


def _lacking(
    layout: Layout,
    needed: Mapping[str, Text],
    days: DaysFound,
    order: DayOrder | None,
    owner: Athlete | None,
) -> Text | None:
    """What is still to be chosen before a file can be read."""
    if owner is None and not layout.names_athletes:
        return text("weights.lacking.name")
    for part, said in needed.items():
        if part not in layout.columns:
            return said
    if order is None and days.must_choose:
        return text("weights.lacking.order")
    return None


def _numbered(rows: Sequence[Row]) -> tuple[str, ...]:
    """Columns without heads are told apart by what the first line holds."""
    return tuple(cell.strip() for cell in rows[0].cells)


def _guessed(rows: Collection[Row], guesses: Guesses) -> dict[str, int]:
    """Columns told by what most of their cells hold."""
    found: dict[str, int] = {}
    for at in range(max(len(row.cells) for row in rows)):
        cells = [row.cell(at) for row in rows if row.cell(at)]
        for part, fits in guesses:
            if part not in found and cells and sum(map(fits, cells)) * 2 > len(cells):
                found[part] = at
                break
    return found
