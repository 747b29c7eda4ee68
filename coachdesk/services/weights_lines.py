"""The lines of a file of bodyweight readings: understood one by one, then held against the file
and against what is on the desk."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, time
from typing import TypeVar

from coachdesk.domain.athlete import Athlete, Dress, ReadingData
from coachdesk.domain.checks import check_reading
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.odd_weight import is_odd
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit
from coachdesk.services import csv_reading, typed
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.csv_reading import Row
from coachdesk.services.day_reading import read_day, read_hour, split_hour
from coachdesk.services.desk import Desk
from coachdesk.services.weights_file import Fate, Layout, Line, Part, Vocabulary
from coachdesk.storage.reading_queries import Weighed, weighed_between
from coachdesk.wording.folding import folded

Progress = Callable[[int, int], None]
T = TypeVar("T")
_STEP = 500
"""Lines between two reports of progress."""


def read_lines(
    desk: Desk, rows: Sequence[Row], layout: Layout, words: Vocabulary, progress: Progress
) -> tuple[Line, ...]:
    """Every row as a line, in the order of the file. `layout` says in which order days are."""
    with desk.reading() as reader:
        book = NameBook(reader.list(Athlete))
    today = desk.today()
    lines: list[Line] = []
    for done, row in enumerate(rows):
        if done % _STEP == 0:
            progress(done, len(rows))
        lines.append(_LineReader(row, layout, words).read(book, today))
    progress(len(rows), len(rows))
    return _held_against(desk, lines)


class _LineReader:
    """Reads one row, and gathers all that is wrong with it."""

    def __init__(self, row: Row, layout: Layout, words: Vocabulary) -> None:
        self._row = row
        self._layout = layout
        self._words = words
        self._faults: list[Text] = []

    def read(self, book: NameBook[Athlete], today: date) -> Line:
        """The line, as far as it is understood."""
        row = self._row
        athlete = self._try(lambda: book.find(self._name()))
        day_words, hour_words = split_hour(self._cell(Part.DAY))
        months, order = self._words.months, self._layout.order
        on = self._try(lambda: read_day("on", day_words, order, months))
        at = self._try(lambda: read_hour("at", self._cell(Part.HOUR) or hour_words))
        weight = self._try(lambda: self._weight(athlete))
        dress = self._try(self._dress) or Dress.UNKNOWN
        if athlete is None or on is None or weight is None or self._faults:
            return self._line(Fate.FAULTY, athlete)
        reading = ReadingData(
            athlete_id=athlete.id,
            on=on,
            at=at,
            weight=weight,
            dress=dress,
            scale=self._cell(Part.SCALE),
            note=self._cell(Part.NOTE),
        )
        self._try(lambda: check_reading(reading, today))
        if self._faults:
            return self._line(Fate.FAULTY, athlete)
        return Line(row.number, row.cells, Fate.NEW, reading, athlete)

    def _line(self, fate: Fate, athlete: Athlete | None) -> Line:
        return Line(
            self._row.number, self._row.cells, fate, athlete=athlete, remarks=tuple(self._faults)
        )

    def _try(self, task: Callable[[], T]) -> T | None:
        try:
            return task()
        except InvalidInput as error:
            self._faults.append(error.text)
            return None

    def _cell(self, part: Part) -> str:
        return self._row.cell(self._layout.columns.get(part))

    def _name(self) -> str:
        return self._cell(Part.NAME) or f"{self._cell(Part.GIVEN)} {self._cell(Part.FAMILY)}"

    def _weight(self, athlete: Athlete | None) -> Mass:
        unit = self._layout.unit or (Unit.KG if athlete is None else athlete.unit)
        if named := self._cell(Part.UNIT):
            found = csv_reading.unit_named(named)
            if found is None:
                raise InvalidInput("unit", text("weights.unit_unknown", unit=named))
            unit = found
        return typed.required_mass("weight", self._cell(Part.WEIGHT), unit)

    def _dress(self) -> Dress:
        shown = self._cell(Part.DRESS)
        if not shown:
            return Dress.UNKNOWN
        found = self._words.dress.get(folded(shown))
        if found is None:
            raise InvalidInput("dress", text("roster.paste.dress", dress=shown))
        return found


def _held_against(desk: Desk, lines: Sequence[Line]) -> tuple[Line, ...]:
    """What is on file already, stands twice in the file, or is far off its neighbours."""
    readings = [line.reading for line in lines if line.reading is not None]
    if not readings:
        return tuple(lines)
    days = [reading.on for reading in readings]
    ids = {reading.athlete_id for reading in readings}
    with desk.reading() as reader:
        on_file = weighed_between(reader, ids, min(days), max(days))
    known = {
        (athlete_id, each.on, each.at, each.weight.grams)
        for athlete_id, found in on_file.items()
        for each in found
    }
    around = _Neighbours(on_file, readings)
    first_at: dict[tuple[int, date, time | None, int], int] = {}
    judged: list[Line] = []
    for line in lines:
        reading = line.reading
        if reading is None:
            judged.append(line)
            continue
        key = (reading.athlete_id, reading.on, reading.at, reading.weight.grams)
        if key in known:
            judged.append(_as(line, Fate.ON_FILE, text("weights.on_file")))
        elif key in first_at:
            judged.append(_as(line, Fate.TWICE, text("weights.twice", line=first_at[key])))
        else:
            first_at[key] = line.number
            judged.append(_odd_or_new(line, reading, around.nearest(reading)))
    return tuple(judged)


class _Neighbours:
    """The weights of each athlete by day, those on file and those of the file together."""

    def __init__(
        self, on_file: dict[int, tuple[Weighed, ...]], readings: Sequence[ReadingData]
    ) -> None:
        weights: defaultdict[int, list[tuple[date, Mass]]] = defaultdict(list)
        for athlete_id, found in on_file.items():
            weights[athlete_id] = [(each.on, each.weight) for each in found]
        for reading in readings:
            weights[reading.athlete_id].append((reading.on, reading.weight))
        self._weights = {
            athlete_id: sorted(each, key=lambda pair: pair[0])
            for athlete_id, each in weights.items()
        }
        self._days = {
            athlete_id: [on for on, _ in each] for athlete_id, each in self._weights.items()
        }

    def nearest(self, reading: ReadingData) -> tuple[date, Mass] | None:
        """The weight of the nearest other day, the earlier of two; None where it is alone."""
        days, weights = self._days[reading.athlete_id], self._weights[reading.athlete_id]
        earlier, later = bisect_left(days, reading.on), bisect_right(days, reading.on)
        around = [*weights[max(earlier - 1, 0) : earlier], *weights[later : later + 1]]
        return min(around, key=lambda pair: abs((pair[0] - reading.on).days), default=None)


def _odd_or_new(line: Line, reading: ReadingData, near: tuple[date, Mass] | None) -> Line:
    if near is None or not is_odd(reading.weight, reading.on, near[1], near[0]):
        return line
    return _as(line, Fate.ODD, text("weights.odd", near=near[1], day=near[0]))


def _as(line: Line, fate: Fate, remark: Text) -> Line:
    return replace(line, fate=fate, remarks=(remark,))
