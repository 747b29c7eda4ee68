"""A block's page in words: the grid, and a cell in full."""

from __future__ import annotations

from datetime import date, timedelta

from coachdesk.domain.blocks.notation import bare, in_full, show_prescription
from coachdesk.domain.training import Exercise, PlannedSet
from coachdesk.services.block_reading import BlockPage
from coachdesk.ui.loading_words import discs_in_words
from coachdesk.ui.screens.blocks.grid_rows import CellKey, Grid, GridCell, GridRow
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording


class GridWords:
    """Says what a page holds; `words` speak in the athlete's unit."""

    def __init__(self, words: Wording, page: BlockPage, today: date) -> None:
        self._words = words
        self._page = page
        self._today = today

    def grid(self) -> Grid:
        """The whole grid."""
        block = self._page.block
        weeks = range(1, block.weeks + 1)
        week = (self._today - block.starts_on).days // 7 + 1
        rows = []
        before = 0
        for exercise in self._page.exercises:
            rows.append(self._row(exercise, is_first=exercise.day != before))
            before = exercise.day
        return Grid(
            block_id=block.id,
            heads=tuple(self._week_head(each, is_now=each == week) for each in weeks),
            rows=tuple(rows),
            this_week=week if 1 <= week <= block.weeks else 0,
        )

    def in_full(self, key: CellKey) -> str:
        """A cell's day, and each of its sets with the weight on the bar and the discs."""
        page, words = self._page, self._words
        exercise = next((each for each in page.exercises if each.id == key[0]), None)
        if exercise is None:
            return ""
        day = short_day(words, page.day_of(key[1], exercise.day))
        planned = page.cell(*key)
        lines = [self._head(exercise, day)]
        lines += [self._set(exercise, each) for each in planned]
        if not planned:
            lines.append(words("blocks.full.nothing"))
        lines += self._made_lines(key)
        noted = page.days.get((key[1], exercise.day))
        if noted is not None and noted.missed:
            lines.append(words("blocks.full.missed"))
        if noted is not None and noted.note:
            lines.append(words("blocks.full.note", note=noted.note))
        return "\n".join(lines)

    def _head(self, exercise: Exercise, day: str) -> str:
        words, name = self._words, self._name(exercise)
        if exercise.note:
            return words("blocks.full.head_note", exercise=name, day=day, note=exercise.note)
        return words("blocks.full.head", exercise=name, day=day)

    def shown(self, planned: PlannedSet) -> str:
        """A planned set in the notation."""
        return show_prescription(planned, self._page.athlete.unit)

    def _set(self, exercise: Exercise, planned: PlannedSet) -> str:
        words = self._words
        said = [words.say(in_full(planned))]
        loading = self._page.loading(exercise, planned)
        if loading is not None:
            discs = discs_in_words(loading, words)
            said.append(words("blocks.full.bar", mass=loading.total, discs=discs))
        elif planned.percent is not None:
            said.append(words("blocks.full.no_maximum", lift=words(f"lift.{exercise.lift}")))
        done = len(self._page.logged.get(planned.id, ()))
        if done:
            said.append(words("blocks.full.done", done=done, of=planned.sets))
        if planned.note:
            said.append(words("blocks.full.note", note=planned.note))
        return words("blocks.facts.joint").join(said)

    def _made_lines(self, key: CellKey) -> list[str]:
        if not self._page.is_changed(*key):
            return []
        return [self._words("blocks.full.made", made=self._page.made(*key))]

    def _row(self, exercise: Exercise, *, is_first: bool) -> GridRow:
        words = self._words
        day = words(
            "blocks.day",
            number=exercise.day,
            weekday=words(f"date.weekday.{self._page.day_of(1, exercise.day).weekday()}"),
        )
        name = self._name(exercise)
        head = words("blocks.row.first", day=day, exercise=name) if is_first else name
        cells = (self._cell(exercise, week) for week in range(1, self._page.block.weeks + 1))
        return GridRow(
            exercise_id=exercise.id,
            day=exercise.day,
            head=head,
            about=words("blocks.row.about", day=day, exercise=name),
            cells=tuple(cells),
        )

    def _cell(self, exercise: Exercise, week: int) -> GridCell:
        page, words = self._page, self._words
        planned = page.cell(exercise.id, week)
        marks, notes = [], []
        noted = page.days.get((week, exercise.day))
        if noted is not None and noted.missed:
            marks.append(words("blocks.mark.missed"))
            notes.append(words("blocks.full.missed"))
        if planned and all(len(page.logged.get(e.id, ())) >= e.sets for e in planned):
            marks.append(words("blocks.mark.done"))
            notes.append(words("blocks.cell.done"))
        if made := self._made_lines((exercise.id, week)):
            marks.append(words("blocks.mark.changed"))
            notes += made
        notes += [words("blocks.full.note", note=each.note) for each in planned if each.note]
        return GridCell(
            key=(exercise.id, week),
            typed=page.cell_text(exercise.id, week),
            sets=tuple(self._set_shown(each) for each in planned),
            marks=tuple(marks),
            note=" ".join(notes),
        )

    def _set_shown(self, planned: PlannedSet) -> str:
        """Short: of a note, only that there is one."""
        sets = show_prescription(bare(planned), self._page.athlete.unit)
        return self._words("blocks.set.noted", sets=sets) if planned.note else sets

    def _week_head(self, week: int, *, is_now: bool) -> str:
        first = self._page.block.starts_on + timedelta(weeks=week - 1)
        code = "blocks.week.now" if is_now else "blocks.week"
        return self._words(code, week=week, day=self._words.short_day(first))

    def _name(self, exercise: Exercise) -> str:
        lift = self._words(f"lift.{exercise.lift}")
        if not exercise.variation:
            return lift
        return self._words("roster.lift_variation", lift=lift, variation=exercise.variation)
