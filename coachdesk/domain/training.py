"""Records about training: blocks with what is planned in them, and logged sets."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.units import Mass


class Purpose(StrEnum):
    """What a block is for."""

    VOLUME = "volume"
    INTENSITY = "intensity"
    PEAK = "peak"
    TAPER = "taper"
    GENERAL = "general"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockData:
    """A training block of whole weeks.

    `meet_id` is the meet it leads to and `disc_set_id` the discs it is trained with, where they are
    known.
    """

    athlete_id: int
    name: str
    purpose: Purpose
    starts_on: date
    weeks: int
    note: str = ""
    meet_id: int | None = None
    disc_set_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Block(BlockData):
    """A block on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedSetData:
    """A set as it was lifted.

    `reps` repetitions done, `rir` repetitions in reserve (half steps, None when not noted). A
    judged single is one commanded and called as a referee would; it carries a result, and the
    cause when the call was no lift. `variation` is empty for the competition lift itself.
    """

    athlete_id: int
    on: date
    lift: Lift
    weight: Mass
    reps: int
    rir: float | None = None
    variation: str = ""
    judged: bool = False
    result: Result | None = None
    cause: str = ""
    block_id: int | None = None
    planned_set_id: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedSet(LoggedSetData):
    """A logged set on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingMaximumData:
    """What the per cents of a lift mean throughout a block."""

    block_id: int
    lift: Lift
    weight: Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingMaximum(TrainingMaximumData):
    """A training maximum on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseData:
    """A lift on a day of every week of a block, the competition lift or a variation of it.

    `day` counts from the block's first day, 1 to 7; `place` orders the exercises of a day. `share`
    is what the variation's maximum is of the competition lift's, above 0 up to 1.5; it is 1 for the
    competition lift itself, whose `variation` is empty.
    """

    block_id: int
    day: int
    place: int
    lift: Lift
    variation: str = ""
    share: float = 1.0
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise(ExerciseData):
    """An exercise on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSetData:
    """So many equal sets of an exercise in a week of its block, 1 to the block's weeks.

    `place` orders what an exercise holds in a week. How heavy is said by `percent` of the training
    maximum (times the exercise's share) or by `weight`, never by both, or is left to `rir`,
    repetitions in reserve (half steps), which may also stand beside either. `judged` are singles
    to be commanded and called as a referee would. `note` is said to the athlete, on paper too.
    `made` is what the generator wrote here, in the notation of sets with units named; empty for
    what a coach typed. In a cell that was changed, its first sets keep what the generator had
    written in the whole cell.
    """

    exercise_id: int
    week: int
    place: int
    sets: int
    reps: int
    percent: float | None = None
    weight: Mass | None = None
    rir: float | None = None
    judged: bool = False
    note: str = ""
    made: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSet(PlannedSetData):
    """A planned set on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EmptiedCellData:
    """What the generator had written of an exercise in a week from which a coach took it all."""

    exercise_id: int
    week: int
    made: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EmptiedCell(EmptiedCellData):
    """An emptied cell on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingDayData:
    """What is noted of a training day of a block: that it was missed, and in words."""

    block_id: int
    week: int
    day: int
    missed: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingDay(TrainingDayData):
    """A noted training day on file."""

    id: int
    version: int
