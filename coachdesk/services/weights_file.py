"""What a file of bodyweight readings is read by, and what comes of each of its lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from coachdesk.domain.athlete import Athlete, Dress, ReadingData
from coachdesk.domain.text import Text
from coachdesk.domain.units import Unit
from coachdesk.services.csv_reading import DecimalMark, Delimiter
from coachdesk.services.day_reading import DayOrder, DaysFound, Months


class Part(StrEnum):
    """What a column can hold."""

    NAME = "name"
    GIVEN = "given"
    FAMILY = "family"
    DAY = "day"
    WEIGHT = "weight"
    UNIT = "unit"
    HOUR = "hour"
    DRESS = "dress"
    SCALE = "scale"
    NOTE = "note"


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
class Vocabulary:
    """Folded words: heads with the part they name, what was worn, and the months."""

    heads: Mapping[str, Part]
    dress: Mapping[str, Dress]
    months: Months


@dataclass(frozen=True, slots=True)
class Layout:
    """How a file is read. `unit` is that of bare numbers, None for each athlete's own."""

    delimiter: Delimiter
    has_heads: bool
    columns: Mapping[Part, int] = field(default_factory=dict)
    order: DayOrder | None = None
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the file: what was understood, what becomes of it, and why."""

    number: int
    cells: tuple[str, ...]
    fate: Fate
    reading: ReadingData | None = None
    athlete: Athlete | None = None
    remarks: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class Preview:
    """A file as it would be kept. `lacking` is what the coach must choose before it can be read."""

    layout: Layout
    heads: tuple[str, ...]
    days: DaysFound
    decimals: DecimalMark
    lines: tuple[Line, ...]
    lacking: Text | None

    def count(self, *fates: Fate) -> int:
        """How many lines have one of these fates."""
        return sum(line.fate in fates for line in self.lines)

    @property
    def readings(self) -> tuple[ReadingData, ...]:
        """What would be kept."""
        return tuple(line.reading for line in self.lines if line.reading and line.fate in KEPT)
