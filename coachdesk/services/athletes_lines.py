"""The lines of a file of athletes: understood one by one, then held against the file and against
who is on the roster."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import TypeVar

from coachdesk.domain.athlete import Athlete, AthleteData, LossBar, ReadingData
from coachdesk.domain.checks import check_athlete, check_reading
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit
from coachdesk.services import csv_reading, typed
from coachdesk.services.athlete_names import plain_name
from coachdesk.services.athletes_file import Part, Vocabulary
from coachdesk.services.csv_reading import Row
from coachdesk.services.day_reading import read_day, split_hour
from coachdesk.services.desk import Desk
from coachdesk.services.file_words import plain_words
from coachdesk.services.import_file import Fate, Layout, Line, Progress, RowReader, read_each
from coachdesk.services.roster import Newcomer

T = TypeVar("T")

_WHOLE_YEAR = re.compile(r"\d{4}")
_CENTURY = 100
_METRES_BELOW = Decimal(3)
"""A height below this is in metres."""


def read_lines(
    desk: Desk, rows: Sequence[Row], layout: Layout, words: Vocabulary, progress: Progress
) -> tuple[Line[Newcomer], ...]:
    """Every row as a line, in the order of the file."""
    lines = read_each(
        desk, rows, progress, lambda row, _book, today: _LineReader(row, layout, words).read(today)
    )
    return _held_against(desk, lines)


class _LineReader(RowReader):
    """Reads one row as an athlete."""

    def __init__(self, row: Row, layout: Layout, words: Vocabulary) -> None:
        super().__init__(row, layout)
        self._words = words

    def read(self, today: date) -> Line[Newcomer]:
        """The line, as far as it is understood."""
        names = self.attempt(self._names)
        sex = self.attempt(self._sex)
        born = self.attempt(lambda: self._born(today))
        unit = self.attempt(self._unit)
        equipment = self.attempt(
            lambda: self._word(Part.EQUIPMENT, self._words.equipment, Equipment.CLASSIC)
        )
        loss_bar = self.attempt(
            lambda: self._word(Part.LOSS_BAR, self._words.loss_bars, LossBar.NONE)
        )
        height = self.attempt(self._height)
        meets_before = self.attempt(lambda: self._whole(Part.MEETS_BEFORE)) or 0
        member_until = self.attempt(lambda: self._day(Part.MEMBER_UNTIL))
        weighed = self.attempt(lambda: self._weighed(unit or self._words.unit, today))
        if names is None or sex is None or unit is None or equipment is None or loss_bar is None:
            return self.faulty(None)
        data = AthleteData(
            given_name=names[0],
            family_name=names[1],
            sex=sex,
            birth_date=born,
            unit=unit,
            equipment=equipment,
            height_cm=height,
            meets_before=meets_before,
            loss_bar=loss_bar,
            member_number=self.cell(Part.MEMBER_NUMBER),
            member_until=member_until,
            phone=self.cell(Part.PHONE),
            email=self.cell(Part.EMAIL),
            emergency_contact=self.cell(Part.EMERGENCY),
            health_note=self.cell(Part.HEALTH),
            note=self.cell(Part.NOTE),
        )
        self.attempt(lambda: check_athlete(data, today))
        if self.faults:
            return self.faulty(None)
        return Line(self.row.number, self.row.cells, Fate.NEW, Newcomer(data, weighed))

    def _names(self) -> tuple[str, str]:
        """Given and family name. Of a name in one cell the family name stands before a comma, else
        behind the first blank."""
        whole, given, family = (
            " ".join(self.cell(part).split()) for part in (Part.NAME, Part.GIVEN, Part.FAMILY)
        )
        if not given and family:
            given = whole
        elif not given and "," in whole:
            family, _, given = (part.strip() for part in whole.partition(","))
        elif not given:
            given, _, family = whole.partition(" ")
        if not given:
            raise InvalidInput("name", text("names.missing"))
        return given, family

    def _sex(self) -> Sex:
        if not self.cell(Part.SEX):
            raise InvalidInput("sex", text("athletes.sex_missing"))
        return self._word(Part.SEX, self._words.sexes, Sex.FEMALE)

    def _word(self, part: Part, known: Mapping[str, T], otherwise: T) -> T:
        """What the word in a cell stands for, `otherwise` where there is none."""
        cell = self.cell(part)
        if not cell:
            return otherwise
        found = known.get(plain_words(cell))
        if found is None:
            raise InvalidInput(part, text(f"athletes.unknown.{part}", cell=cell))
        return found

    def _unit(self) -> Unit:
        cell = self.cell(Part.UNIT)
        found = csv_reading.unit_named(cell) if cell else self._words.unit
        if found is None:
            raise InvalidInput("unit", text("weights.unit_unknown", unit=cell))
        return found

    def _day(self, part: Part) -> date | None:
        words, _hour = split_hour(self.cell(part))
        return read_day(part, words, self.layout.order, self._words.months) if words else None

    def _born(self, today: date) -> date | None:
        """The birth date; a year of two digits is of the last hundred years."""
        born = self._day(Part.BORN)
        if born is None or born <= today or _WHOLE_YEAR.search(self.cell(Part.BORN)):
            return born
        return born.replace(year=born.year - _CENTURY)

    def _height(self) -> int | None:
        """The height in whole centimetres, also where it stands in metres."""
        cell = re.sub(r"\s*c?m$", "", self.cell(Part.HEIGHT), flags=re.IGNORECASE)
        height = typed.number("height_cm", cell)
        if height is None:
            return None
        return round(height * 100 if height < _METRES_BELOW else height)

    def _whole(self, part: Part) -> int | None:
        return typed.whole(part, self.cell(part))

    def _weighed(self, unit: Unit, today: date) -> ReadingData | None:
        """The weight, of today where the line names no day."""
        weight = typed.mass("weight", self.cell(Part.WEIGHT), self.layout.unit or unit)
        if weight is None:
            return None
        reading = ReadingData(athlete_id=0, on=self._day(Part.DAY) or today, weight=weight)
        check_reading(reading, today)
        return reading


def _held_against(desk: Desk, lines: Sequence[Line[Newcomer]]) -> tuple[Line[Newcomer], ...]:
    """Who is on file already, stands twice in the file, or shares a name with somebody."""
    on_file: defaultdict[str, set[date | None]] = defaultdict(set)
    with desk.reading() as reader:
        for athlete in reader.list(Athlete):
            on_file[_key(athlete)].add(athlete.birth_date)
    in_file: defaultdict[str, dict[date | None, int]] = defaultdict(dict)
    return tuple(
        line if line.record is None else _judged(line, line.record.data, on_file, in_file)
        for line in lines
    )


def _judged(
    line: Line[Newcomer],
    data: AthleteData,
    on_file: Mapping[str, set[date | None]],
    in_file: Mapping[str, dict[date | None, int]],
) -> Line[Newcomer]:
    key, born = _key(data), data.birth_date
    before = in_file[key]
    if born in on_file[key]:
        return line.becomes(Fate.ON_FILE, text("athletes.on_file", name=data.name))
    if born in before:
        return line.becomes(Fate.TWICE, text("weights.twice", line=before[born]))
    namesake = next(iter(before.values()), 0)
    before[born] = line.number
    if on_file[key]:
        return line.becomes(Fate.ODD, text("athletes.namesake", name=data.name))
    if namesake:
        return line.becomes(Fate.ODD, text("athletes.namesake_in_file", line=namesake))
    return line


def _key(data: AthleteData) -> str:
    """The name, whichever part stands first."""
    return " ".join(sorted(plain_name(data.name).split()))
