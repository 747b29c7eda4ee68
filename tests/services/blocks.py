"""A block on the desk, for the tests of blocks."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from typing import Any

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.training import Block, BlockData, Exercise, ExerciseData, Purpose
from coachdesk.domain.units import Unit, kilograms
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block, add_exercise, set_maxima
from coachdesk.services.block_reading import BlockPage, block_page
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete

MONDAY = date(2026, 11, 16)


def athlete(desk: Desk, name: str = "Ana Ruiz", unit: Unit = Unit.KG) -> int:
    given, _, family = name.partition(" ")
    data = AthleteData(
        given_name=given,
        family_name=family,
        sex=Sex.FEMALE,
        birth_date=date(1996, 5, 4),
        unit=unit,
    )
    return add_athlete(desk, data).value


@dataclass
class Written:
    """A block of four weeks from a Monday with a squat of 150 kg, on days 1 and 3."""

    desk: Desk
    athlete_id: int
    block_id: int
    squat_id: int
    pause_id: int

    @classmethod
    def on(cls, desk: Desk, athlete_id: int) -> Written:
        data = BlockData(
            athlete_id=athlete_id, name="Base", purpose=Purpose.VOLUME, starts_on=MONDAY, weeks=4
        )
        block_id = add_block(desk, data).value
        set_maxima(desk, block_id, {Lift.SQUAT: kilograms(150)})
        squat = ExerciseData(block_id=block_id, day=1, place=0, lift=Lift.SQUAT)
        pause = ExerciseData(
            block_id=block_id, day=3, place=0, lift=Lift.SQUAT, variation="pause", share=0.9
        )
        return cls(
            desk,
            athlete_id,
            block_id,
            add_exercise(desk, squat).value,
            add_exercise(desk, pause).value,
        )

    @property
    def page(self) -> BlockPage:
        return block_page(self.desk, self.block_id)

    def exercise(self, exercise_id: int) -> Exercise:
        return next(each for each in self.page.exercises if each.id == exercise_id)

    def type(self, exercise_id: int, week: int, typed: str) -> None:
        type_cells(self.desk, self.block_id, [TypedCell(exercise_id, week, typed)])

    def texts(self, exercise_id: int) -> list[str]:
        page = self.page
        return [page.cell_text(exercise_id, week) for week in range(1, page.block.weeks + 1)]


def block_data(seen: Block, **changes: Any) -> BlockData:
    """What is on file about a block, with changes."""
    kept = {each.name: getattr(seen, each.name) for each in fields(BlockData)}
    return BlockData(**{**kept, **changes})
