"""Templates of blocks: TOML files of planned weeks, in per cents and efforts, never in weights."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import PurePath

from coachdesk.domain.blocks.checks import DAYS_OF_WEEK, LARGEST_SHARE
from coachdesk.domain.blocks.notation import Prescription, read_prescriptions
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.checks import LONGEST_BLOCK_WEEKS
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.toml_reader import TomlTable, read_toml
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Unit

REST = "-"
"""Stands for a week in which an exercise is left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockTemplate:
    """A block without an athlete or a date.

    `key` is the stem of its file; `about` says in a sentence for whom it is, `source` where it
    comes from; `exercises` by day.
    """

    key: str
    name: str
    about: str
    source: str
    purpose: Purpose
    weeks: int
    exercises: tuple[PlannedExercise, ...]

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """The lifts whose maxima its per cents need."""
        seen = {each.lift for each in self.exercises}
        return tuple(lift for lift in Lift if lift in seen)

    @property
    def days(self) -> int:
        """Training days a week."""
        return len({each.day for each in self.exercises})

    def from_day(self, starts_on: date) -> PlannedBlock:
        """The block as it begins on a day."""
        return PlannedBlock(self.name, self.purpose, starts_on, self.weeks, self.exercises)


def parse_template(data: bytes, file: str, language: str = "") -> BlockTemplate:
    """Read a template from the bytes of the TOML file named `file`, its texts in `language` where
    it holds them; raises FileFault."""
    table = read_toml(data, file, language)
    weeks = table.integer("weeks", 1, LONGEST_BLOCK_WEEKS)
    rows = [_exercise(row, weeks) for row in table.tables("exercises")]
    template = BlockTemplate(
        key=PurePath(file).stem,
        name=table.text("name"),
        about=table.text("about"),
        source=table.text("source"),
        purpose=table.choice("purpose", Purpose),
        weeks=weeks,
        exercises=tuple(sorted(rows, key=lambda row: row.day)),
    )
    table.finish()
    return template


def _exercise(row: TomlTable, weeks: int) -> PlannedExercise:
    variation = row.text("variation") if "variation" in row else ""
    most = round(LARGEST_SHARE * 100)
    if "share" in row and not variation:
        raise row.fault("share", text("expected.share_of_variation"))
    exercise = PlannedExercise(
        day=row.integer("day", 1, DAYS_OF_WEEK),
        lift=row.choice("lift", Lift),
        sets=_sets(row, weeks),
        variation=variation,
        share=row.integer("share", 1, most) / 100 if "share" in row else 1.0,
    )
    row.finish()
    return exercise


def _sets(row: TomlTable, weeks: int) -> dict[int, tuple[Prescription, ...]]:
    cells = row.texts("sets")
    if len(cells) != weeks:
        raise row.fault("sets", text("expected.a_cell_a_week", weeks=weeks))
    planned: dict[int, tuple[Prescription, ...]] = {}
    for index, cell in enumerate(cells):
        if cell == REST:
            continue
        try:
            planned[index + 1] = read_prescriptions(cell, Unit.KG)
        except InvalidInput as error:
            raise row.fault("sets", text("expected.planned_sets"), index) from error
        if any(each.weight is not None for each in planned[index + 1]):
            raise row.fault("sets", text("expected.no_weights"), index)
    return planned
