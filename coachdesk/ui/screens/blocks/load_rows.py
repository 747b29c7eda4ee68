"""The load of a block in frozen rows: volume, intensity and heavy lifts, planned and done."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.blocks.load import Load
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Percent, Unit, from_grams
from coachdesk.services.block_load import BlockLoad
from coachdesk.wording.wording import Wording


class Measure(StrEnum):
    """What the bars show."""

    VOLUME = "volume"
    INTENSITY = "intensity"
    HEAVY = "heavy"


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in words, and its length on the axis; None where there is none."""

    words: str
    length: float | None


@dataclass(frozen=True, slots=True)
class LoadRow:
    """A week: each measure planned and done. `open` tells of repetitions without a weight."""

    week: int
    head: str
    planned: dict[Measure, Figure]
    done: dict[Measure, Figure]
    open: str


def load_rows(
    load: BlockLoad, lift: Lift | None, weeks: int, this_week: int, words: Wording
) -> tuple[LoadRow, ...]:
    """A row a week of one lift, or of all where `lift` is None."""
    rows = []
    for week in range(1, weeks + 1):
        if lift is None:
            planned, done = load.planned_weeks[week - 1], load.done_weeks[week - 1]
        else:
            planned = load.planned.get((week, lift), Load())
            done = load.done.get((week, lift), Load())
        code = "blocks.load.week.now" if week == this_week else "blocks.week.plain"
        rows.append(
            LoadRow(
                week=week,
                head=words(code, week=week),
                planned=_figures(planned, words),
                done=_figures(done, words),
                open=words("blocks.load.open", count=planned.open_reps)
                if planned.open_reps
                else "",
            )
        )
    return tuple(rows)


def _figures(load: Load, words: Wording) -> dict[Measure, Figure]:
    nothing = Figure("", None)
    if not load.reps:
        return dict.fromkeys(Measure, nothing)
    volume = in_unit(load.volume_kg, words.unit)
    intensity = nothing
    if load.intensity is not None:
        intensity = Figure(words.show(Percent(load.intensity, 0)), load.intensity)
    return {
        Measure.VOLUME: Figure(words.number(round(volume), 0), volume) if volume else nothing,
        Measure.INTENSITY: intensity,
        Measure.HEAVY: Figure(str(load.heavy), float(load.heavy)),
    }


def in_unit(kg: float, unit: Unit) -> float:
    """A volume load [kg] in a unit."""
    return float(from_grams(round(kg * 1000)).in_unit(unit))
