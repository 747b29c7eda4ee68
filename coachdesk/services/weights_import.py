"""Bodyweight readings from a file of separated values: suggested, previewed, kept or not at all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Unit, parse_mass
from coachdesk.services import csv_reading, roster
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.csv_reading import Delimiter, Row, Source
from coachdesk.services.day_reading import DayOrder, DaysFound, find_order, is_day, split_hour
from coachdesk.services.desk import Desk, Done
from coachdesk.services.weights_file import Fate, Layout, Line, Part, Preview, Vocabulary
from coachdesk.services.weights_lines import Progress, read_lines

_GUESSED_FROM = 50
"""Rows that columns without heads are told from."""


def suggest(desk: Desk, source: Source, words: Vocabulary) -> Layout:
    """How a file looks to be laid out; Trouble when it holds nothing or its quotes are broken."""
    return lay_out(desk, source, words, csv_reading.find_delimiter(source))


def lay_out(
    desk: Desk,
    source: Source,
    words: Vocabulary,
    delimiter: Delimiter,
    *,
    has_heads: bool | None = None,
) -> Layout:
    """The columns of a file with this mark between cells, and whether it begins with heads."""
    rows = csv_reading.rows_of(source, delimiter)
    heads = csv_reading.has_heads(rows, words.heads) if has_heads is None else has_heads
    if not heads:
        columns = _guessed(desk, rows[:_GUESSED_FROM], words)
        return Layout(delimiter, has_heads=False, columns=columns)
    matched = csv_reading.match_heads(rows[0].cells, words.heads)
    columns = {Part(part): at for part, at in matched.items()}
    weight = columns.get(Part.WEIGHT)
    unit = None if weight is None else csv_reading.unit_in_head(rows[0].cells[weight])
    return Layout(delimiter, has_heads=True, columns=columns, unit=unit)


def preview(
    desk: Desk, source: Source, layout: Layout, words: Vocabulary, progress: Progress
) -> Preview:
    """Read every line; what cannot be taken is said of its line. It changes nothing."""
    rows = csv_reading.rows_of(source, layout.delimiter)
    heads = rows[0].cells if layout.has_heads else ()
    body = rows[1:] if layout.has_heads else rows
    columns = layout.columns
    written = (split_hour(row.cell(columns.get(Part.DAY)))[0] for row in body)
    days = find_order(written, words.months)
    order = layout.order or days.order
    lacking = _lacking(columns, days, order)
    if lacking is None:
        lines = read_lines(desk, body, replace(layout, order=order), words, progress)
    else:
        lines = tuple(Line(row.number, row.cells, Fate.UNREAD) for row in body)
    decimals = csv_reading.decimal_mark(row.cell(columns.get(Part.WEIGHT)) for row in body)
    return Preview(layout, heads or _numbered(rows), days, decimals, lines, lacking)


def keep(desk: Desk, found: Preview, *, leave_out_faulty: bool) -> Done[None]:
    """Keep what a preview holds, all of it or nothing.

    Raises InvalidInput where lines are faulty, unless they are to be left out, and where nothing
    is left to keep.
    """
    if found.lacking is not None:
        raise InvalidInput("columns", found.lacking)
    faulty = found.count(Fate.FAULTY)
    if faulty and not leave_out_faulty:
        raise InvalidInput("lines", text("weights.faulty", count=faulty))
    if not found.readings:
        raise InvalidInput("lines", text("weights.nothing_new"))
    return roster.add_readings(desk, found.readings)


def _lacking(columns: Mapping[Part, int], days: DaysFound, order: DayOrder | None) -> Text | None:
    """What is still to be chosen before a file can be read."""
    if not {Part.NAME, Part.GIVEN, Part.FAMILY} & set(columns):
        return text("weights.lacking.name")
    for part in (Part.DAY, Part.WEIGHT):
        if part not in columns:
            return text(f"weights.lacking.{part}")
    if order is None and days.must_choose:
        return text("weights.lacking.order")
    return None


def _numbered(rows: Sequence[Row]) -> tuple[str, ...]:
    """Columns without heads are told apart by what the first line holds."""
    return tuple(cell.strip() for cell in rows[0].cells)


def _guessed(desk: Desk, rows: Sequence[Row], words: Vocabulary) -> dict[Part, int]:
    """Columns told by what most of their cells hold: names on the roster, days, weights."""
    with desk.reading() as reader:
        book = NameBook(reader.list(Athlete))
    found: dict[Part, int] = {}
    for at in range(max(len(row.cells) for row in rows)):
        cells = [row.cell(at) for row in rows if row.cell(at)]
        for part, fits in (
            (Part.NAME, book.knows),
            (Part.DAY, lambda cell: is_day(split_hour(cell)[0], words.months)),
            (Part.WEIGHT, _is_mass),
        ):
            if part not in found and cells and sum(map(fits, cells)) * 2 > len(cells):
                found[part] = at
                break
    return found


def _is_mass(cell: str) -> bool:
    try:
        parse_mass(cell, Unit.KG)
    except ValueError:
        return False
    return True
