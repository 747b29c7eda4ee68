"""A block as it is laid out before it is on file: by the generator or from a template."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

from coachdesk.domain.blocks.notation import Prescription
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text
from coachdesk.domain.training import Purpose

Words: TypeAlias = Text | str
"""Words of ours by their code, or those of a file as they stand there."""


@dataclass(frozen=True, slots=True)
class PlannedExercise:
    """A lift on a `day` of the block's weeks, 1 to 7, and its sets by week, from 1.

    `variation` is empty for the competition lift itself; `share` is of the competition lift's
    maximum.
    """

    day: int
    lift: Lift
    sets: Mapping[int, tuple[Prescription, ...]]
    variation: Words = ""
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class PlannedBlock:
    """A block of whole weeks from the day `starts_on`; `exercises` in the order of day and
    place."""

    name: Words
    purpose: Purpose
    starts_on: date
    weeks: int
    exercises: tuple[PlannedExercise, ...]

    @property
    def ends_on(self) -> date:
        """Its last day."""
        return self.starts_on + timedelta(weeks=self.weeks, days=-1)


@dataclass(frozen=True, slots=True)
class PlannedWork:
    """Equal sets of an exercise on a day."""

    on: date
    exercise: PlannedExercise
    sets: Prescription


def work_of(block: PlannedBlock) -> Iterator[PlannedWork]:
    """All sets of a block with their days."""
    for exercise in block.exercises:
        for week, several in exercise.sets.items():
            on = block.starts_on + timedelta(weeks=week - 1, days=exercise.day - 1)
            for sets in several:
                yield PlannedWork(on, exercise, sets)
