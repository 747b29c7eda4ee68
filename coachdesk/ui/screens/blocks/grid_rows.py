"""A block's grid in frozen rows: exercises down, weeks across."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

CellKey: TypeAlias = tuple[int, int]
"""An exercise's id and a week."""


@dataclass(frozen=True, slots=True)
class GridCell:
    """What is planned of an exercise in a week.

    `typed` is the notation of sets, several parted by "; "; `sets` are the same as they are shown,
    each on a line. `marks` say in signs and `note` in words what else there is to know: done,
    missed, changed since it was made, and notes.
    """

    key: CellKey
    typed: str
    sets: tuple[str, ...] = ()
    marks: tuple[str, ...] = ()
    note: str = ""

    @property
    def shown(self) -> str:
        """Sets on lines of their own, marks before them."""
        return " ".join((*self.marks, "\n".join(self.sets)) if self.sets else self.marks)


@dataclass(frozen=True, slots=True)
class GridRow:
    """An exercise: its head, what is said of it in full, and a cell a week."""

    exercise_id: int
    day: int
    head: str
    about: str
    cells: tuple[GridCell, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A block's weeks. `heads` stand above the columns; `this_week` is the present one, or 0."""

    block_id: int
    heads: tuple[str, ...]
    rows: tuple[GridRow, ...]
    this_week: int = 0

    def at(self, key: CellKey) -> GridCell | None:
        """The cell of an exercise and a week."""
        exercise_id, week = key
        for row in self.rows:
            if row.exercise_id == exercise_id and 1 <= week <= len(row.cells):
                return row.cells[week - 1]
        return None
