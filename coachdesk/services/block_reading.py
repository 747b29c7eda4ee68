"""A training block as it is looked at: its grid, what was lifted of it, and what is on the bar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.notation import (
    Prescribed,
    bare,
    made_in,
    read_prescriptions,
    show_cell,
)
from coachdesk.domain.disc_set import DiscSet
from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import HEAVIEST, BarSet, Disc, Loading, lightest, load
from coachdesk.domain.meet import Meet
from coachdesk.domain.training import (
    Block,
    Exercise,
    LoggedSet,
    PlannedSet,
    TrainingDay,
    TrainingMaximum,
)
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.services.block_cells import Cell, by_cell
from coachdesk.services.desk import Desk
from coachdesk.storage.block_queries import block_record, blocks_by_start
from coachdesk.storage.rows import by

DAYS = 7
USUAL_DISCS = {
    Unit.KG: BarSet(
        kilograms(20),
        kilograms(0),
        tuple(Disc(kilograms(each)) for each in ("25", "20", "15", "10", "5", "2.5", "1.25")),
    ),
    Unit.LB: BarSet(
        pounds(45),
        pounds(0),
        tuple(Disc(pounds(each)) for each in ("45", "35", "25", "10", "5", "2.5")),
    ),
}
"""What a gym has, where no set in the athlete's unit is on file (common practice)."""


@dataclass(frozen=True)
class BlockPage:
    """A block with all that is on file about it.

    `exercises` by day and place; `planned` by cell; `emptied` what the generator had written in
    cells that hold nothing any more; `days` by week and day; `logged` by planned
    set, `loose` what else was logged in the block. `discs` is the set named in the block, else the
    first by name in the athlete's unit, else None: then the usual discs of a gym count.
    """

    block: Block
    athlete: Athlete
    meet: Meet | None
    maxima: Mapping[Lift, TrainingMaximum]
    exercises: tuple[Exercise, ...]
    planned: Mapping[Cell, tuple[PlannedSet, ...]]
    emptied: Mapping[Cell, str]
    days: Mapping[tuple[int, int], TrainingDay]
    logged: Mapping[int, tuple[LoggedSet, ...]]
    loose: tuple[LoggedSet, ...]
    discs: DiscSet | None

    @property
    def unit(self) -> Unit:
        """The athlete's unit: weights typed without one are in it."""
        return self.athlete.unit

    @property
    def bar_set(self) -> BarSet:
        """What the bar is loaded from."""
        return USUAL_DISCS[self.unit] if self.discs is None else self.discs.bar_set

    def day_of(self, week: int, day: int) -> date:
        """The date of a day of the block, both from 1."""
        return self.block.starts_on + timedelta(days=DAYS * (week - 1) + day - 1)

    def cell(self, exercise_id: int, week: int) -> tuple[PlannedSet, ...]:
        """What is planned of an exercise in a week."""
        return self.planned.get((exercise_id, week), ())

    def cell_text(self, exercise_id: int, week: int) -> str:
        """What is planned of an exercise in a week, as it is typed."""
        return show_cell(self.cell(exercise_id, week), self.unit)

    def is_changed(self, exercise_id: int, week: int) -> bool:
        """Whether the generator wrote a cell and the coach has changed or emptied it since; a note
        beside the sets is no change."""
        made = self.made(exercise_id, week)
        if not made:
            return False
        written = read_prescriptions(made, self.unit)
        return written != tuple(bare(each) for each in self.cell(exercise_id, week))

    def made(self, exercise_id: int, week: int) -> str:
        """What the generator wrote in a cell, as it is typed; empty where it wrote nothing."""
        return made_in(self.cell(exercise_id, week)) or self.emptied.get((exercise_id, week), "")

    def full_weight(self, exercise: Exercise, planned: Prescribed) -> Mass | None:
        """The weight asked for, before discs: the one typed or the per cent of the maximum.

        None where neither is, or where the lift has no training maximum.
        """
        if planned.weight is not None:
            return planned.weight
        maximum = self.maxima.get(exercise.lift)
        if planned.percent is None or maximum is None:
            return None
        share = Decimal(str(exercise.share)) * Decimal(str(planned.percent)) / 100
        return Mass(maximum.weight.in_unit(self.unit) * share, self.unit)

    def loading(self, exercise: Exercise, planned: Prescribed) -> Loading | None:
        """What goes on the bar: the weight asked for, or the nearest below that the discs make.

        The bare bar where less is asked for; None where no weight is known.
        """
        asked = self.full_weight(exercise, planned)
        if asked is None:
            return None
        bare = lightest(self.bar_set)
        held = min(max(asked, bare, key=_grams), HEAVIEST, key=_grams)
        answer = load(held, self.bar_set)
        return answer.exact or answer.below

    def bar_weight(self, exercise: Exercise, planned: Prescribed) -> Mass | None:
        """The weight of `loading`."""
        found = self.loading(exercise, planned)
        return None if found is None else found.total


def blocks_of(desk: Desk, athlete_id: int) -> tuple[Block, ...]:
    """The blocks of an athlete, the first to start first."""
    with desk.reading() as reader:
        return blocks_by_start(reader, athlete_id)


def block_page(desk: Desk, block_id: int) -> BlockPage:
    """Read a block; Trouble when it is no longer on file. A constant number of statements."""
    with desk.reading() as reader:
        found = block_record(reader, block_id)
    ids = {each.id for each in found.planned}
    linked = [each for each in found.logged if each.planned_set_id in ids]
    return BlockPage(
        block=found.block,
        athlete=found.athlete,
        meet=found.meet,
        maxima={each.lift: each for each in found.maxima},
        exercises=found.exercises,
        planned=by_cell(found.planned),
        emptied={(each.exercise_id, each.week): each.made for each in found.emptied},
        days={(each.week, each.day): each for each in found.days},
        logged=by(linked, "planned_set_id"),
        loose=tuple(each for each in found.logged if each.planned_set_id not in ids),
        discs=_discs(found.disc_sets, found.block.disc_set_id, found.athlete.unit),
    )


def _discs(sets: Sequence[DiscSet], chosen: int | None, unit: Unit) -> DiscSet | None:
    by_name = sorted(sets, key=lambda each: each.name.casefold())
    own = [each for each in by_name if each.id == chosen]
    fitting = [each for each in by_name if each.unit is unit]
    return next(iter((*own, *fitting)), None)


def _grams(mass: Mass) -> int:
    return mass.grams
