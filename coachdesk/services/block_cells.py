"""Use cases about the cells of a block's grid: what is planned of an exercise in a week."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.checks import check_week
from coachdesk.domain.blocks.notation import (
    Prescription,
    bare,
    made_in,
    prescription_of,
    read_prescriptions,
)
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.text import text
from coachdesk.domain.training import (
    Block,
    EmptiedCell,
    EmptiedCellData,
    PlannedSet,
    PlannedSetData,
)
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.block_queries import emptied_of, exercises_of, planned_of
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
    athlete's unit. Of a cell that is there twice the last counts.

    Planned sets that stay keep their logged sets. What the generator wrote in a cell stays on file
    beside what it was changed into. Raises InvalidInput at the field "cell_<exercise>_<week>", and
    Trouble when an exercise is no longer on file.
    """
    with desk.action(text("did.type_cells", count=len(cells))) as work:
        block = work.get(Block, block_id)
        unit = work.get(Athlete, block.athlete_id).unit
        known = {each.id for each in exercises_of(work, block_id)}
        grid = _Grid.read(work, block_id)
        for cell in {each.field: each for each in cells}.values():
            if cell.exercise_id not in known:
                raise Trouble(text("record.gone", kind=text("kind.exercise")))
            grid.plan((cell.exercise_id, cell.week), _read(cell, block, unit))
        return Done(None, work.changes())


def copy_week(desk: Desk, block_id: int, from_week: int, to_week: int) -> Done[None]:
    """Plan a week of a block as another one; what stood there before goes.

    Raises InvalidInput (fields "from_week", "to_week"), also when nothing is planned in the first.
    """
    with desk.action(text("did.copy_week", week=from_week, to=to_week)) as work:
        block = work.get(Block, block_id)
        check_week("from_week", from_week, block)
        check_week("to_week", to_week, block)
        grid = _Grid.read(work, block_id)
        if not any(week == from_week for _, week in grid.planned):
            raise InvalidInput("from_week", text("check.week_empty", week=from_week))
        for each in exercises_of(work, block_id):
            wanted = grid.planned.get((each.id, from_week), ())
            grid.plan((each.id, to_week), [prescription_of(one) for one in wanted])
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


@dataclass(frozen=True)
class _Grid:
    """What is planned in a block, while it is written anew."""

    work: Work
    planned: dict[Cell, tuple[PlannedSet, ...]]
    emptied: dict[Cell, EmptiedCell]

    @classmethod
    def read(cls, work: Work, block_id: int) -> _Grid:
        emptied = {(each.exercise_id, each.week): each for each in emptied_of(work, block_id)}
        return cls(work, by_cell(planned_of(work, block_id)), emptied)

    def plan(self, cell: Cell, wanted: Sequence[Prescription]) -> None:
        """Put `wanted` into a cell, and keep what the generator had written there."""
        present = self.planned.get(cell, ())
        if [prescription_of(each) for each in present] == list(wanted):
            return
        made = self._let_go_of_made(cell, present)
        kept, gone = _matched(present, wanted)
        for each in gone:
            self.work.delete(PlannedSet, each.id, each.version)
        if made and not wanted:
            self.work.insert(EmptiedCellData(exercise_id=cell[0], week=cell[1], made=made))
        for place, (prescription, held) in enumerate(zip(wanted, kept, strict=True), start=1):
            data = _planned_data(cell, place, prescription, made if place == 1 else "")
            if held is None:
                self.work.insert(data)
            else:
                self.work.update(held.id, held.version, data)

    def _let_go_of_made(self, cell: Cell, present: Sequence[PlannedSet]) -> str:
        """What the generator had written in a cell, for the cell's new content to hold."""
        emptied = self.emptied.get(cell)
        if emptied is None:
            return made_in(present)
        self.work.delete(EmptiedCell, emptied.id, emptied.version)
        return emptied.made


def _planned_data(cell: Cell, place: int, prescription: Prescription, made: str) -> PlannedSetData:
    exercise_id, week = cell
    return PlannedSetData(
        exercise_id=exercise_id,
        week=week,
        place=place,
        sets=prescription.sets,
        reps=prescription.reps,
        percent=prescription.percent,
        weight=prescription.weight,
        rir=prescription.rir,
        judged=prescription.judged,
        note=prescription.note,
        made=made,
    )


def _matched(
    present: Sequence[PlannedSet], wanted: Sequence[Prescription]
) -> tuple[list[PlannedSet | None], list[PlannedSet]]:
    """The planned set on file for each prescription, None for a new one, and those that go.

    Equal ones first, whatever their notes, then by their order, so that what was logged stays with
    its plan.
    """
    left = list(present)
    kept: list[PlannedSet | None] = []
    for prescription in wanted:
        same = next((one for one in left if bare(one) == bare(prescription)), None)
        kept.append(same)
        if same is not None:
            left.remove(same)
    for at, held in enumerate(kept):
        if held is None and left:
            kept[at] = left.pop(0)
    return kept, left
