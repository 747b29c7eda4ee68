"""What the demo club has planned: in the blocks of now and ahead, and what was lifted of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from random import Random

from coachdesk.app.demo.file import BlockPattern, Club, SetPattern
from coachdesk.app.demo.history import (
    DatedBlock,
    Trainee,
    gym_weight,
    is_judged,
    reps_and_reserve,
)
from coachdesk.domain.blocks.notation import Prescription, prescription_of, show_cell
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.one_rep_max import Equation, weight_for
from coachdesk.domain.training import Block, Exercise, LoggedSetData, PlannedSet
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import note_day
from coachdesk.services.block_generating import keep, propose
from coachdesk.services.block_keeping import LaidOut, Say
from coachdesk.services.block_reading import block_page
from coachdesk.services.desk import Desk
from coachdesk.storage.meet_queries import meets_from

BACK_OFF_SETS = 3
JUDGED_PERCENT = 90.0
PAUSED, PAUSED_BELOW = "pause 2 s", 5.0
"""A note beside a set, and by how many per cent it is lighter."""
MISSED = 0.06
"""The share of sessions that are missed."""
_DAYS = 7


def laid_out(club: Club, athlete: Trainee, block: DatedBlock) -> LaidOut:
    """A block of a year plan with what is planned in each of its weeks."""
    patterns = club.weeks[athlete.record.week]
    planned = PlannedBlock(
        name=block.pattern.name,
        purpose=block.pattern.purpose,
        starts_on=block.starts_on,
        weeks=block.pattern.weeks,
        exercises=tuple(_exercises(block.pattern, patterns)),
    )
    maxima = athlete.record.strength.maxima
    return LaidOut(
        athlete_id=athlete.id,
        block=planned,
        maxima={lift: gym_weight(kg, athlete.unit) for lift, kg in maxima.items()},
    )


def follow_plans(
    desk: Desk, lifted: Iterable[LoggedSetData], rng: Random
) -> Iterator[LoggedSetData]:
    """The sets as they go with what is planned: linked to it, as often as it says, but for some
    sessions that were missed and are noted so."""
    plans = _planned_sets(desk)
    with desk.reading() as reader:
        blocks = {block.id: block for block in reader.list(Block)}
    went: dict[tuple[int, date], bool] = {}
    for each in lifted:
        block_id = each.block_id or 0
        week, day = divmod((each.on - blocks[block_id].starts_on).days, _DAYS)
        place = (block_id, week + 1, day + 1, each.lift, each.variation)
        if place not in plans:
            yield each
            continue
        if (block_id, each.on) not in went:
            went[block_id, each.on] = rng.random() >= MISSED
            if not went[block_id, each.on]:
                note_day(desk, block_id, week + 1, day + 1, missed=True, note="")
        if went[block_id, each.on]:
            planned = plans[place].pop(0)
            yield from [replace(each, planned_set_id=planned.id)] * planned.sets


def lead_to_next_meet(desk: Desk, say: Say) -> None:
    """Blocks laid out from next Monday to the first meet ahead, where nothing is planned then; in
    the first of them the coach has changed a cell."""
    today = desk.today()
    monday = today + timedelta(days=_DAYS - today.weekday())
    with desk.reading() as reader:
        meet = meets_from(reader, today)[0]
        entered = [each for each in reader.list(Entry) if each.meet_id == meet.id]
        busy = {
            block.athlete_id
            for block in reader.list(Block)
            if block.starts_on + timedelta(weeks=block.weeks) > monday
        }
    kept: list[int] = []
    for entry in entered:
        if entry.athlete_id not in busy:
            proposal = propose(desk, entry.athlete_id, meet.id, 3, starts_from=monday)
            kept.extend(keep(desk, proposal, say).value)
    _change_by_hand(desk, kept[0])


def _change_by_hand(desk: Desk, block_id: int) -> None:
    """The first set of a block is paused, and lighter for it."""
    page = block_page(desk, block_id)
    exercise = page.exercises[0]
    first, *others = page.cell(exercise.id, 1)
    percent = None if first.percent is None else first.percent - PAUSED_BELOW
    paused = replace(prescription_of(first), percent=percent, note=PAUSED)
    words = show_cell([paused, *others], page.unit)
    type_cells(desk, block_id, [TypedCell(exercise.id, 1, words)])


def _exercises(block: BlockPattern, patterns: Sequence[SetPattern]) -> Iterator[PlannedExercise]:
    """An exercise for each lift and variation of a day; its back-off sets go with the top set."""
    rows: dict[tuple[int, Lift, str], list[SetPattern]] = {}
    for each in patterns:
        rows.setdefault((each.day, each.lift, each.variation), []).append(each)
    for (day, lift, variation), several in rows.items():
        yield PlannedExercise(
            day=day + 1,
            lift=lift,
            sets={week + 1: _sets(block, several, week) for week in range(block.weeks)},
            variation=variation,
            share=several[0].share,
        )


def _sets(
    block: BlockPattern, patterns: Sequence[SetPattern], week: int
) -> tuple[Prescription, ...]:
    reps, reserve = reps_and_reserve(block, week)
    percent = weight_for(Equation.BRZYCKI, 100, reps, reserve)
    lines: list[Prescription] = []
    for each in patterns:
        if is_judged(block, each):
            lines.append(Prescription(1, 1, JUDGED_PERCENT, judged=True))
        is_top = each.drop == 1 and not each.variation
        sets = 1 if is_top else BACK_OFF_SETS
        lines.append(Prescription(sets, reps, float(round(percent * each.drop))))
    return tuple(lines)


def _planned_sets(desk: Desk) -> dict[tuple[int, int, int, Lift, str], list[PlannedSet]]:
    """What is planned, by block, week, day, lift and variation, in order."""
    with desk.reading() as reader:
        exercises = {each.id: each for each in reader.list(Exercise)}
        planned = sorted(reader.list(PlannedSet), key=lambda each: (each.week, each.place))
    found: dict[tuple[int, int, int, Lift, str], list[PlannedSet]] = {}
    for each in planned:
        of = exercises[each.exercise_id]
        place = (of.block_id, each.week, of.day, of.lift, of.variation)
        found.setdefault(place, []).append(each)
    return found
