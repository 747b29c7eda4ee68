"""Use cases about the cells of a block's grid: what is planned of an exercise in a week."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.checks import check_week
from coachdesk.domain.blocks.notation import (
    Prescription,
    made_in,
    prescription_of,
    read_prescriptions,
)
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.text import text
from coachdesk.domain.training import Block, PlannedSet, PlannedSetData
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.block_queries import exercises_of, planned_of
from coachdesk.storage.store import Work

Cell = tuple[int, int]
"""An exercise's id and a week."""


@dataclass(frozen=True, slots=True)
class TypedCell:
    """What a coach typed into a cell, in the notation of sets; empty empties it."""

    exercise_id: int
    week: int
    typed: str

    @property
    def field(self) -> str:
        """The field that a fault of this cell is at."""
        return f"cell_{self.exercise_id}_{self.week}"


def type_cells(desk: Desk, block_id: int, cells: Sequence[TypedCell]) -> Done[None]:
    """Plan what was typed into cells of a block, all of them or none; bare weights in the
    athlete's unit.

    Planned sets that stay keep their logged sets. What the generator wrote in a cell stays on file
    beside what it was changed into. Raises InvalidInput at the field "cell_<exercise>_<week>", and
    Trouble when an exercise is no longer on file.
    """
    with desk.action(text("did.type_cells", count=len(cells))) as work:
        block = work.get(Block, block_id)
        unit = work.get(Athlete, block.athlete_id).unit
        known = {each.id for each in exercises_of(work, block_id)}
        present = by_cell(planned_of(work, block_id))
        for cell in cells:
            if cell.exercise_id not in known:
                raise Trouble(text("record.gone", kind=text("kind.exercise")))
            wanted = _read(cell, block, unit)
            here = present.get((cell.exercise_id, cell.week), ())
            _arrange(work, (cell.exercise_id, cell.week), here, wanted)
        return Done(None, work.changes())


def copy_week(desk: Desk, block_id: int, from_week: int, to_week: int) -> Done[None]:
    """Plan a week of a block as another one; what stood there before goes.

    Raises InvalidInput (fields "from_week", "to_week"), also when nothing is planned in the first.
    """
    with desk.action(text("did.copy_week", week=from_week, to=to_week)) as work:
        block = work.get(Block, block_id)
        check_week("from_week", from_week, block)
        check_week("to_week", to_week, block)
        present = by_cell(planned_of(work, block_id))
        if not any(week == from_week for _, week in present):
            raise InvalidInput("from_week", text("check.week_empty", week=from_week))
        for each in exercises_of(work, block_id):
            wanted = present.get((each.id, from_week), ())
            here = present.get((each.id, to_week), ())
            _arrange(work, (each.id, to_week), here, [prescription_of(one) for one in wanted])
        return Done(None, work.changes())


def by_cell(planned: Iterable[PlannedSet]) -> dict[Cell, tuple[PlannedSet, ...]]:
    """Planned sets by their cell, in order."""
    cells: dict[Cell, list[PlannedSet]] = {}
    for each in planned:
        cells.setdefault((each.exercise_id, each.week), []).append(each)
    return {cell: tuple(sets) for cell, sets in cells.items()}


def _read(cell: TypedCell, block: Block, unit: Unit) -> tuple[Prescription, ...]:
    try:
        check_week(cell.field, cell.week, block)
        return read_prescriptions(cell.typed, unit)
    except InvalidInput as error:
        raise InvalidInput(cell.field, error.text) from error


def _arrange(
    work: Work, cell: Cell, present: Sequence[PlannedSet], wanted: Sequence[Prescription]
) -> None:
    if [prescription_of(each) for each in present] == list(wanted):
        return
    made = made_in(present)
    kept, gone = _matched(present, wanted)
    for each in gone:
        work.delete(PlannedSet, each.id, each.version)
    exercise_id, week = cell
    for place, (prescription, held) in enumerate(zip(wanted, kept, strict=True), start=1):
        data = PlannedSetData(
            exercise_id=exercise_id,
            week=week,
            place=place,
            sets=prescription.sets,
            reps=prescription.reps,
            percent=prescription.percent,
            weight=prescription.weight,
            rir=prescription.rir,
            judged=prescription.judged,
            note="" if held is None else held.note,
            made=made if place == 1 else "",
        )
        if held is None:
            work.insert(data)
        else:
            work.update(held.id, held.version, data)


def _matched(
    present: Sequence[PlannedSet], wanted: Sequence[Prescription]
) -> tuple[list[PlannedSet | None], list[PlannedSet]]:
    """The planned set on file for each prescription, None for a new one, and those that go.

    Equal ones first, then by their order, so that what was logged stays with its plan.
    """
    left = list(present)
    kept: list[PlannedSet | None] = []
    for prescription in wanted:
        same = next((one for one in left if prescription_of(one) == prescription), None)
        kept.append(same)
        if same is not None:
            left.remove(same)
    for at, held in enumerate(kept):
        if held is None and left:
            kept[at] = left.pop(0)
    return kept, left
