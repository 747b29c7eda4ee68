"""The lines of a file of logged sets: understood one by one, then held against the desk."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import TypeAlias

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.notation import MOST_SETS
from coachdesk.domain.checks import check_logged_set
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import rir_of_rpe
from coachdesk.domain.text import text
from coachdesk.domain.training import LoggedSetData
from coachdesk.services import typed
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.csv_reading import Row
from coachdesk.services.day_reading import read_day, split_hour
from coachdesk.services.desk import Desk
from coachdesk.services.file_words import plain_words
from coachdesk.services.import_file import Fate, Layout, Line, Progress, RowReader, read_each
from coachdesk.services.sets_file import Part, Vocabulary
from coachdesk.services.training import causes_of
from coachdesk.storage.training_queries import sets_between

Sets: TypeAlias = tuple[LoggedSetData, ...]
"""The equal sets of one line."""
Causes: TypeAlias = Mapping[Lift, Collection[str]]


def read_lines(
    desk: Desk,
    rows: Sequence[Row],
    layout: Layout,
    words: Vocabulary,
    progress: Progress,
    owner: Athlete | None,
) -> tuple[Line[Sets], ...]:
    """Every row as a line, in the order of the file. Lines without a name belong to `owner`."""
    causes = {lift: {cause.code for cause in causes_of(desk, lift)} for lift in Lift}
    own = owner if owner is not None and not layout.names_athletes else None

    def read(row: Row, book: NameBook[Athlete], today: date) -> Line[Sets]:
        reader = _LineReader(row, layout, words, causes)
        return reader.read(lambda: own or book.find(reader.name()), today)

    return _held_against(desk, read_each(desk, rows, progress, read))


class _LineReader(RowReader):
    """Reads one row as equal sets."""

    def __init__(self, row: Row, layout: Layout, words: Vocabulary, causes: Causes) -> None:
        super().__init__(row, layout)
        self._words = words
        self._causes = causes

    def read(self, whose: Callable[[], Athlete], today: date) -> Line[Sets]:
        """The line, as far as it is understood."""
        athlete = self.attempt(whose)
        day_words, _hour = split_hour(self.cell(Part.DAY))
        months, order = self._words.months, self.layout.order
        on = self.attempt(lambda: read_day("on", day_words, order, months))
        named = self.attempt(self._lift)
        weight = self.attempt(lambda: self.weight(athlete))
        reps = self.attempt(lambda: self._whole(Part.REPS))
        count = self.attempt(self._count)
        rir = self.attempt(self._rir)
        call = self.attempt(self._call)
        if athlete is None or on is None or named is None or weight is None or reps is None:
            return self.faulty(athlete)
        lift, variation = named
        data = LoggedSetData(
            athlete_id=athlete.id,
            on=on,
            lift=lift,
            variation=variation,
            weight=weight,
            reps=reps,
            rir=rir,
            judged=call is not None,
            result=call,
            cause=self.attempt(lambda: self._cause(lift)) or "",
            note=self.cell(Part.NOTE),
        )
        self.attempt(lambda: check_logged_set(data, today))
        if self.faults or count is None:
            return self.faulty(athlete)
        return Line(self.row.number, self.row.cells, Fate.NEW, (data,) * count, athlete)

    def _lift(self) -> tuple[Lift, str]:
        cell = self.cell(Part.LIFT)
        named = self._words.lift_named(cell)
        if named is None:
            raise InvalidInput("lift", text("sets.lift_unknown", lift=cell))
        lift, variation = named
        more = self.cell(Part.VARIATION)
        both = [each for each in (variation, more) if each]
        return lift, ", ".join(dict.fromkeys(both))

    def _whole(self, part: Part) -> int:
        number = typed.whole(part, self.cell(part))
        if number is None:
            raise InvalidInput(part, text("sets.missing_reps"))
        return number

    def _count(self) -> int:
        if not self.cell(Part.SETS):
            return 1
        count = self._whole(Part.SETS)
        if not 1 <= count <= MOST_SETS:
            raise InvalidInput("sets", text("cell.sets_range", most=MOST_SETS))
        return count

    def _rir(self) -> float | None:
        """Repetitions in reserve; where only the RPE is noted, from that."""
        rir = typed.number("rir", self.cell(Part.RIR))
        if rir is not None:
            return float(rir)
        rpe = typed.number("rpe", self.cell(Part.RPE))
        return None if rpe is None else rir_of_rpe(float(rpe))

    def _call(self) -> Result | None:
        cell = self.cell(Part.CALL)
        if not cell:
            return None
        found = self._words.calls.get(plain_words(cell))
        if found is None:
            raise InvalidInput("result", text("sets.call_unknown", call=cell))
        return found

    def _cause(self, lift: Lift) -> str:
        code = self.cell(Part.CAUSE)
        if code and code not in self._causes[lift]:
            raise InvalidInput("cause", text("sets.cause_unknown", cause=code))
        return code


_Key: TypeAlias = tuple[int, date, Lift, str, int, int, float | None, Result | None]


def _key(data: LoggedSetData) -> _Key:
    """What makes two sets the same; whoever does five equal sets has five of them, and a judged
    single is not the plain one of the same weight."""
    variation = data.variation.casefold()
    return (
        data.athlete_id,
        data.on,
        data.lift,
        variation,
        data.weight.grams,
        data.reps,
        data.rir,
        data.result if data.judged else None,
    )


def _held_against(desk: Desk, lines: Sequence[Line[Sets]]) -> tuple[Line[Sets], ...]:
    """Sets are skipped as often as their like is on file, so that no file counts twice."""
    sets = [line.record[0] for line in lines if line.record]
    if not sets:
        return tuple(lines)
    days = [each.on for each in sets]
    ids = {each.athlete_id for each in sets}
    with desk.reading() as reader:
        left = Counter(map(_key, sets_between(reader, ids, min(days), max(days))))
    held: list[Line[Sets]] = []
    for line in lines:
        if not line.record:
            held.append(line)
            continue
        key = _key(line.record[0])
        known = min(left[key], len(line.record))
        left[key] -= known
        if known == len(line.record):
            held.append(line.becomes(Fate.ON_FILE, text("sets.on_file")))
        elif known:
            remark = text("sets.partly_on_file", count=known)
            held.append(replace(line, record=line.record[known:], remarks=(remark,)))
        else:
            held.append(line)
    return tuple(held)
