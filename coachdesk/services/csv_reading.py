"""A file of separated values (RFC 4180) from another program: its letters, lines and columns.

What the standard leaves open is found out: the encoding, the mark between cells, whether the first
line holds heads, and which column holds what.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import islice
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit
from coachdesk.wording.folding import folded

LARGEST_BYTES = 20_000_000
"""Larger files are refused: twenty years of a team's mornings take a twentieth of it."""
_LOOKED_AT = 100
"""Lines that the mark between cells is found out from."""
_FORMULA_MARKS = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of a formula."""
_GUARD = "'"
_SAME_NUMBER = 0.9
"""Where so many of the lines have the same number of cells, the mark is the right one."""


class Encoding(StrEnum):
    """How letters are kept in a file."""

    UTF_8 = "utf_8"
    UTF_8_MARKED = "utf_8_marked"
    WINDOWS = "windows_1252"


class Delimiter(StrEnum):
    """What stands between cells, in the order it is looked for."""

    TAB = "tab"
    SEMICOLON = "semicolon"
    COMMA = "comma"

    @property
    def mark(self) -> str:
        """The mark itself."""
        return {"tab": "\t", "semicolon": ";", "comma": ","}[self.value]


class DecimalMark(StrEnum):
    """What stands before the decimals of a file's numbers."""

    NONE = "none"
    POINT = "point"
    COMMA = "comma"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class Source:
    """A file's name and words."""

    name: str
    words: str
    encoding: Encoding


@dataclass(frozen=True, slots=True)
class Row:
    """A row that is not empty; `number` is the line of the file it begins on, from 1."""

    number: int
    cells: tuple[str, ...]

    def cell(self, at: int | None) -> str:
        """A cell without blanks around it and guard; empty where there is none."""
        return unguarded(self.cells[at].strip()) if at is not None and at < len(self.cells) else ""


def read_source(file: Path) -> Source:
    """Read a file; Trouble when it cannot be read or is no text."""
    try:
        if file.stat().st_size > LARGEST_BYTES:
            raise Trouble(text("csv.too_large", file=file.name, most=LARGEST_BYTES // 1_000_000))
        raw = file.read_bytes()
    except OSError as error:
        why = error.strerror or str(error)
        raise Trouble(text("csv.cannot_read", file=file.name, why=why)) from error
    return decode(file.name, raw)


def decode(name: str, raw: bytes) -> Source:
    """UTF-8 with or without its mark, else Windows-1252; Trouble when it is neither."""
    if b"\0" in raw:
        raise Trouble(text("csv.not_text", file=name))
    try:
        words = raw.decode("utf-8")
    except UnicodeDecodeError:
        try:
            return Source(name, raw.decode("cp1252"), Encoding.WINDOWS)
        except UnicodeDecodeError as error:
            raise Trouble(text("csv.not_text", file=name)) from error
    marked = words.startswith("\ufeff")
    encoding = Encoding.UTF_8_MARKED if marked else Encoding.UTF_8
    return Source(name, words.removeprefix("\ufeff"), encoding)


def find_delimiter(source: Source) -> Delimiter:
    """The mark that gives the lines the same number of cells, two or more."""
    best, most = Delimiter.COMMA, 0.0
    for delimiter in Delimiter:
        widths = _widths(source, delimiter)
        (width, count) = widths.most_common(1)[0] if widths else (0, 0)
        share = count / widths.total() if width > 1 else 0.0
        if share >= _SAME_NUMBER:
            return delimiter
        if share > most:
            best, most = delimiter, share
    return best


def rows_of(source: Source, delimiter: Delimiter) -> tuple[Row, ...]:
    """The rows that hold something; Trouble, with the line, where quotes are not in order."""
    reader = csv.reader(
        io.StringIO(source.words, newline=""),
        delimiter=delimiter.mark,
        skipinitialspace=True,
        strict=True,
    )
    rows: list[Row] = []
    begins = 1
    try:
        for cells in reader:
            if any(map(str.strip, cells)):
                rows.append(Row(begins, tuple(cells)))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise Trouble(text("csv.broken", file=source.name, number=begins)) from error
    if not rows:
        raise Trouble(text("csv.empty", file=source.name))
    return tuple(rows)


def guarded(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; one that looks guarded is guarded again."""
    return f"{_GUARD}{cell}" if _is_formula(cell) else cell


def unguarded(cell: str) -> str:
    """A cell as it was before it was `guarded`."""
    return cell.removeprefix(_GUARD) if _is_formula(cell) else cell


def has_heads(rows: Sequence[Row], parts: Mapping[str, str]) -> bool:
    """Whether the first row names the columns, in words known or at least without a figure."""
    first = rows[0].cells
    return bool(match_heads(first, parts)) or not any(map(_has_digit, first))


def match_heads(heads: Sequence[str], parts: Mapping[str, str]) -> dict[str, int]:
    """Which column holds which part, by the words of its head; the first one where two would do.

    `parts` holds a part for each head known, plain.
    """
    found: dict[str, int] = {}
    for at, head in enumerate(heads):
        part = parts.get(plain_head(head))
        if part is not None:
            found.setdefault(part, at)
    return found


def plain_head(head: str) -> str:
    """A head without capitals, accents, marks and unit."""
    words = re.findall(r"[^\W_]+", folded(head))
    named = [word for word in words if word not in _UNITS]
    return " ".join(named or words)


def unit_in_head(head: str) -> Unit | None:
    """The unit named in a head such as "Weight (kg)"."""
    words = re.findall(r"\w+", folded(head))
    return next((_UNITS[word] for word in words if word in _UNITS), None)


def unit_named(cell: str) -> Unit | None:
    """The unit a cell names; None when it names none."""
    return _UNITS.get(folded(cell).strip(" ."))


def decimal_mark(cells: Iterable[str]) -> DecimalMark:
    """What stands before the decimals."""
    marks = {mark for cell in cells for mark in (".", ",") if mark in cell}
    if len(marks) == 2:
        return DecimalMark.BOTH
    if not marks:
        return DecimalMark.NONE
    return DecimalMark.COMMA if "," in marks else DecimalMark.POINT


_UNITS = {
    "kg": Unit.KG,
    "kgs": Unit.KG,
    "kilogram": Unit.KG,
    "kilograms": Unit.KG,
    "lb": Unit.LB,
    "lbs": Unit.LB,
    "pound": Unit.LB,
    "pounds": Unit.LB,
}


def _widths(source: Source, delimiter: Delimiter) -> Counter[int]:
    """How many of the first lines have how many cells."""
    lines = islice(io.StringIO(source.words, newline=""), _LOOKED_AT)
    reader = csv.reader(lines, delimiter=delimiter.mark, skipinitialspace=True)
    try:
        return Counter(len(cells) for cells in reader if any(map(str.strip, cells)))
    except csv.Error:
        return Counter()  # what is wrong is said when the lines are read


def _is_formula(cell: str) -> bool:
    """Whether a spreadsheet takes a cell for a formula, or would but for its guards."""
    return cell.lstrip(_GUARD).startswith(_FORMULA_MARKS)


def _has_digit(cell: str) -> bool:
    return any(map(str.isdigit, cell))
