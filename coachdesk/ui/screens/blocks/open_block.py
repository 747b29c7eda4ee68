"""One block without Qt: its grid, what is typed into it, and all that can be done with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.training import Exercise, PlannedSet
from coachdesk.domain.units import Mass
from coachdesk.services import block_cells, block_copying, block_editing, typed
from coachdesk.services.block_cells import TypedCell
from coachdesk.services.block_load import block_load
from coachdesk.services.block_reading import BlockPage
from coachdesk.services.desk import Desk, Done
from coachdesk.ui.screens.blocks.block_values import (
    Values,
    block_data,
    block_values,
    exercise_data,
    exercise_values,
    maximum_field,
    new_exercise_values,
    required_whole,
)
from coachdesk.ui.screens.blocks.grid_rows import CellKey, Grid
from coachdesk.ui.screens.blocks.grid_words import GridWords
from coachdesk.ui.screens.blocks.load_rows import LoadRow, load_rows
from coachdesk.ui.screens.blocks.set_logging import SetLogging
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

_DAYS = 7
_LAST = 100
"""A place behind all others of a day."""


class OpenBlock:
    """A block as it was when this was made; masses in the athlete's own unit."""

    def __init__(self, desk: Desk, words: Wording, page: BlockPage) -> None:
        self._desk = desk
        self._words = words.in_unit(page.athlete.unit)
        self.page = page
        self._say = GridWords(self._words, page, desk.today())
        self.logging = SetLogging(desk, self._words, page)

    @property
    def id(self) -> int:
        """The block's id."""
        return self.page.block.id

    @property
    def title(self) -> str:
        """Its name."""
        return self.page.block.name

    @property
    def facts(self) -> str:
        """Purpose, days, what it leads to."""
        block, words = self.page.block, self._words
        last = block.starts_on + timedelta(days=7 * block.weeks - 1)
        facts = [
            words(f"purpose.{block.purpose}"),
            words(
                "blocks.fact.days",
                count=block.weeks,
                first=short_day(words, block.starts_on),
                last=short_day(words, last),
            ),
        ]
        meet = self.page.meet
        if meet is not None:
            day = short_day(words, meet.starts_on)
            facts.append(words("blocks.fact.meet", meet=meet.name, day=day))
        return words("blocks.facts.joint").join([*facts, *([block.note] if block.note else [])])

    @property
    def maxima(self) -> str:
        """The training maxima in a line."""
        words, known = self._words, self.page.maxima
        parts = [
            words(
                "blocks.maximum" if lift in known else "blocks.maximum.none",
                lift=words(f"lift.{lift}"),
                **({"mass": words.mass(known[lift].weight)} if lift in known else {}),
            )
            for lift in Lift
        ]
        return words("blocks.maxima.line", maxima=tuple(parts))

    def grid(self) -> Grid:
        """The grid."""
        return self._say.grid()

    def in_full(self, key: CellKey) -> str:
        """A cell in full words, with the weight on the bar."""
        return self._say.in_full(key)

    def load(self, lift: Lift | None) -> tuple[LoadRow, ...]:
        """The load of one lift by week, or of all."""
        weeks = self.page.block.weeks
        return load_rows(block_load(self.page), lift, weeks, self.grid().this_week, self._words)

    def exercise(self, exercise_id: int) -> Exercise:
        """An exercise of the block."""
        return next(each for each in self.page.exercises if each.id == exercise_id)

    def planned(self, key: CellKey) -> tuple[PlannedSet, ...]:
        """What is planned in a cell."""
        return self.page.cell(*key)

    def to_do(self, key: CellKey) -> PlannedSet:
        """The first set of a cell that is not done yet, or the last one; there must be one."""
        planned, logged = self.planned(key), self.page.logged
        open_sets = (each for each in planned if len(logged.get(each.id, ())) < each.sets)
        return next(open_sets, planned[-1])

    def shown(self, planned: PlannedSet) -> str:
        """A planned set in the notation."""
        return self._say.shown(planned)

    def type_cells(self, cells: Mapping[CellKey, str]) -> Done[None]:
        """Keep what was typed into cells, all of it or nothing."""
        many = [TypedCell(exercise_id, week, words) for (exercise_id, week), words in cells.items()]
        return block_cells.type_cells(self._desk, self.id, many)

    def values(self) -> Values:
        """The block as the strings of its form."""
        return block_values(self.page.block)

    def edit(self, values: Mapping[str, str]) -> Done[None]:
        """Keep the block as it was typed."""
        block = self.page.block
        return block_editing.edit_block(self._desk, block, block_data(block.athlete_id, values))

    def delete(self) -> Done[None]:
        """Delete the block and what is planned in it."""
        return block_editing.delete_blocks(self._desk, [self.page.block])

    def new_exercise_values(self) -> Values:
        """What a new exercise begins with."""
        return new_exercise_values(self.page.exercises)

    def add_exercise(self, values: Mapping[str, str]) -> Done[int]:
        """Add an exercise; answers its id."""
        data = exercise_data(self.id, values)
        return block_editing.add_exercise(self._desk, data)

    def exercise_values(self, exercise_id: int) -> Values:
        """An exercise as the strings of its form."""
        return exercise_values(self.exercise(exercise_id))

    def edit_exercise(self, exercise_id: int, values: Mapping[str, str]) -> Done[None]:
        """Keep an exercise as it was typed."""
        seen = self.exercise(exercise_id)
        data = exercise_data(self.id, values)
        return block_editing.edit_exercise(self._desk, seen, data)

    def delete_exercise(self, exercise_id: int) -> Done[None]:
        """Delete an exercise and what is planned of it."""
        return block_editing.delete_exercises(self._desk, [self.exercise(exercise_id)])

    def move_exercise(self, exercise_id: int, step: int) -> Done[None]:
        """Put an exercise before the one above it (-1) or behind the one below (1)."""
        seen = self.exercise(exercise_id)
        mates = [each for each in self.page.exercises if each.day == seen.day]
        place = mates.index(seen) + 1 + step
        day = seen.day
        if not 1 <= place <= len(mates):
            day = min(max(1, seen.day + step), _DAYS)
            place = 1 if step > 0 else _LAST
        return block_editing.move_exercise(self._desk, seen, day=day, place=place)

    def maxima_values(self) -> Values:
        """The training maxima as the strings of their form."""
        known = self.page.maxima
        return {
            maximum_field(lift): typed.shown_mass(known[lift].weight) if lift in known else ""
            for lift in Lift
        }

    def set_maxima(self, values: Mapping[str, str]) -> Done[None]:
        """Keep the training maxima as they were typed."""
        unit, known = self.page.athlete.unit, self.page.maxima
        changed: dict[Lift, Mass | None] = {}
        for lift in Lift:
            weight = typed.mass(maximum_field(lift), values[maximum_field(lift)], unit)
            if weight != (known[lift].weight if lift in known else None):
                changed[lift] = weight
        return block_editing.set_maxima(self._desk, self.id, changed)

    def week_values(self, week: int) -> Values:
        """What copying a week begins with: into the next one."""
        following = min(week + 1, self.page.block.weeks)
        return {"from_week": str(week), "to_week": str(following)}

    def copy_week(self, values: Mapping[str, str]) -> Done[None]:
        """Plan a week as another is planned."""
        return block_cells.copy_week(
            self._desk,
            self.id,
            required_whole("from_week", values["from_week"]),
            required_whole("to_week", values["to_week"]),
        )

    def copy_values(self) -> Values:
        """What copying the block begins with: for the same athlete, after this one."""
        block = self.page.block
        following = block.starts_on + timedelta(weeks=block.weeks)
        return {"to_athlete": str(block.athlete_id), "starts_on": typed.shown_day(following)}

    def copy(self, values: Mapping[str, str]) -> Done[int]:
        """Copy the block; answers the id of the new one."""
        if not values["to_athlete"]:
            raise InvalidInput("to_athlete", text("typed.choice"))
        return block_copying.copy_block(
            self._desk,
            self.id,
            to_athlete_id=int(values["to_athlete"]),
            starts_on=typed.required_day("starts_on", values["starts_on"]),
        )

    def day_values(self, key: CellKey) -> Values:
        """What is noted of the training day of a cell."""
        exercise_id, week = key
        noted = self.page.days.get((week, self.exercise(exercise_id).day))
        return {
            "missed": typed.shown_yes(noted is not None and noted.missed),
            "note": "" if noted is None else noted.note,
        }

    def note_day(self, key: CellKey, values: Mapping[str, str]) -> Done[None]:
        """Note that the training day of a cell was missed, or what there is to say of it."""
        exercise_id, week = key
        return block_editing.note_day(
            self._desk,
            self.id,
            week,
            self.exercise(exercise_id).day,
            missed=typed.yes(values["missed"]),
            note=values["note"],
        )

    def day_in_words(self, key: CellKey) -> str:
        """The training day of a cell."""
        return short_day(self._words, self.date_of(key))

    def date_of(self, key: CellKey) -> date:
        """The date of a cell."""
        exercise_id, week = key
        return self.page.day_of(week, self.exercise(exercise_id).day)

    def days(self) -> Sequence[tuple[str, str]]:
        """The days of the block's week to choose from."""
        words = self._words
        return [
            (
                str(day),
                words(
                    "blocks.day",
                    number=day,
                    weekday=words(f"date.weekday.{self.page.day_of(1, day).weekday()}"),
                ),
            )
            for day in range(1, 8)
        ]
