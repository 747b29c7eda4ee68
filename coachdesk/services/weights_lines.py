"""The lines of a file of bodyweight readings: understood one by one, then held against the file
and against what is on the desk."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from datetime import date, time

from coachdesk.domain.athlete import Athlete, Dress, ReadingData
from coachdesk.domain.checks import check_reading
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.odd_weight import is_odd
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.csv_reading import Row
from coachdesk.services.day_reading import read_day, read_hour, split_hour
from coachdesk.services.desk import Desk
from coachdesk.services.import_file import Fate, Layout, Line, Progress, RowReader, read_each
from coachdesk.services.weights_file import Part, Vocabulary
from coachdesk.storage.reading_queries import Weighed, weighed_between
from coachdesk.wording.folding import folded


def read_lines(
    desk: Desk, rows: Sequence[Row], layout: Layout, words: Vocabulary, progress: Progress
) -> tuple[Line[ReadingData], ...]:
    """Every row as a line, in the order of the file. `layout` says in which order days are."""
    lines = read_each(
        desk,
        rows,
        progress,
        lambda row, book, today: _LineReader(row, layout, words).read(book, today),
    )
    return _held_against(desk, lines)


class _LineReader(RowReader):
    """Reads one row as a reading."""

    def __init__(self, row: Row, layout: Layout, words: Vocabulary) -> None:
        super().__init__(row, layout)
        self._words = words

    def read(self, book: NameBook[Athlete], today: date) -> Line[ReadingData]:
        """The line, as far as it is understood."""
        row = self.row
        athlete = self.attempt(lambda: book.find(self.name()))
        day_words, hour_words = split_hour(self.cell(Part.DAY))
        months, order = self._words.months, self.layout.order
        on = self.attempt(lambda: read_day("on", day_words, order, months))
        at = self.attempt(lambda: read_hour("at", self.cell(Part.HOUR) or hour_words))
        weight = self.attempt(lambda: self.weight(athlete))
        dress = self.attempt(self._dress) or Dress.UNKNOWN
        if athlete is None or on is None or weight is None or self.faults:
            return self.faulty(athlete)
        reading = ReadingData(
            athlete_id=athlete.id,
            on=on,
            at=at,
            weight=weight,
            dress=dress,
            scale=self.cell(Part.SCALE),
            note=self.cell(Part.NOTE),
        )
        self.attempt(lambda: check_reading(reading, today))
        if self.faults:
            return self.faulty(athlete)
        return Line(row.number, row.cells, Fate.NEW, reading, athlete)

    def _dress(self) -> Dress:
        shown = self.cell(Part.DRESS)
        if not shown:
            return Dress.UNKNOWN
        found = self._words.dress.get(folded(shown))
        if found is None:
            raise InvalidInput("dress", text("roster.paste.dress", dress=shown))
        return found


def _held_against(desk: Desk, lines: Sequence[Line[ReadingData]]) -> tuple[Line[ReadingData], ...]:
    """What is on file already, stands twice in the file, or is far off its neighbours."""
    readings = [line.record for line in lines if line.record is not None]
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
    judged: list[Line[ReadingData]] = []
    for line in lines:
        reading = line.record
        if reading is None:
            judged.append(line)
            continue
        key = (reading.athlete_id, reading.on, reading.at, reading.weight.grams)
        if key in known:
            judged.append(line.becomes(Fate.ON_FILE, text("weights.on_file")))
        elif key in first_at:
            judged.append(line.becomes(Fate.TWICE, text("weights.twice", line=first_at[key])))
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


def _odd_or_new(
    line: Line[ReadingData], reading: ReadingData, near: tuple[date, Mass] | None
) -> Line[ReadingData]:
    if near is None or not is_odd(reading.weight, reading.on, near[1], near[0]):
        return line
    return line.becomes(Fate.ODD, text("weights.odd", near=near[1], day=near[0]))
