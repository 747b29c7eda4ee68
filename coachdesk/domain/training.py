"""Records about training: blocks and logged sets."""

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
    """A training block of whole weeks."""

    athlete_id: int
    name: str
    purpose: Purpose
    starts_on: date
    weeks: int
    note: str = ""


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
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedSet(LoggedSetData):
    """A logged set on file."""

    id: int
    version: int
