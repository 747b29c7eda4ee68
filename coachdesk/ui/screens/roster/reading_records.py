"""An athlete's bodyweight readings without Qt: shown, typed, pasted, mended, deleted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.athlete import Athlete, Dress, Reading, ReadingData
from coachdesk.domain.checks import check_reading
from coachdesk.domain.class_fit import ADULT_YEARS
from coachdesk.domain.division import age_on
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.services import roster, roster_reading, typed
from coachdesk.services.desk import Desk, Done
from coachdesk.services.weight_history import weight_history
from coachdesk.services.weight_picture import WeightHistory
from coachdesk.ui.athletes.profile_values import Values
from coachdesk.ui.weights.day_words import pasted_day, short_day
from coachdesk.wording.wording import Wording

FIRST_SHOWN = 60


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """A reading in words, in the order its columns are copied and pasted."""

    reading: Reading
    day: str
    weight: str
    hour: str
    dress: str
    scale: str
    note: str


@dataclass(frozen=True, slots=True)
class Pasted:
    """What pasted rows hold: readings, or what is wrong with which line."""

    readings: tuple[ReadingData, ...]
    faults: tuple[str, ...]


class ReadingRecords:
    """The readings of one athlete. `words` shows masses in the athlete's own unit."""

    def __init__(self, desk: Desk, words: Wording, athlete: Athlete) -> None:
        self._desk = desk
        self._words = words
        self._athlete = athlete

    @property
    def unit(self) -> str:
        """The unit weights are shown in, and taken for where none is typed."""
        return self._athlete.unit

    def rows(self, *, everything: bool) -> tuple[tuple[ReadingRow, ...], int]:
        """The latest readings, or all of them; and how many there are."""
        limit = None if everything else FIRST_SHOWN
        found, of = roster_reading.readings(self._desk, self._athlete.id, limit)
        return tuple(self._row(reading) for reading in found), of

    @property
    def words(self) -> Wording:
        """Words with masses in the athlete's own unit."""
        return self._words

    def history(self) -> WeightHistory | None:
        """The trend of all readings, with the next meet; None without a reading. May take long."""
        return weight_history(self._desk, self._athlete.id)

    def cautions(self) -> str:
        """The cautions that always stand beside weights."""
        codes = ["caution.weight"]
        born, today = self._athlete.birth_date, self._desk.today()
        if born is None or age_on(born, today) < ADULT_YEARS:
            codes.append("caution.minor")
        return " ".join(self._words(code) for code in codes)

    def new_values(self, dress: str = Dress.UNKNOWN) -> Values:
        """What a new line begins with: today."""
        today = typed.shown_day(self._desk.today())
        return {"weight": "", "on": today, "at": "", "dress": dress, "scale": "", "note": ""}

    def values(self, reading: Reading) -> Values:
        """A reading as the strings of its form."""
        return {
            "weight": typed.shown_mass(reading.weight),
            "on": typed.shown_day(reading.on),
            "at": typed.shown_hour(reading.at),
            "dress": reading.dress,
            "scale": reading.scale,
            "note": reading.note,
        }

    def add(self, values: Mapping[str, str]) -> Done[None]:
        """Keep what was typed as a new reading."""
        return roster.add_readings(self._desk, [self._data(values)])

    def add_many(self, many: Sequence[ReadingData]) -> Done[None]:
        """Keep readings, all of them or none."""
        return roster.add_readings(self._desk, many)

    def edit(self, seen: Reading, values: Mapping[str, str]) -> Done[None]:
        """Change a reading to what was typed."""
        return roster.edit_reading(self._desk, seen, self._data(values))

    def delete(self, many: Sequence[Reading]) -> Done[None]:
        """Delete readings."""
        return roster.delete_readings(self._desk, many)

    def read_pasted(self, lines: Sequence[Sequence[str]]) -> Pasted:
        """Read rows of day, weight and, where there are more cells, hour, dress, scale, note.

        A first line of heads is passed over. Every line that cannot be taken is named.
        """
        readings: list[ReadingData] = []
        faults: list[str] = []
        for number, cells in enumerate(lines, start=1):
            if number == 1 and _is_head(cells):
                continue
            try:
                readings.append(self._pasted(cells))
            except InvalidInput as error:
                line = "  ".join(cell.strip() for cell in cells)
                why = error.text
                faults.append(self._words("roster.paste.fault", number=number, line=line, why=why))
        if not readings and not faults:
            faults.append(self._words("roster.paste.nothing"))
        return Pasted(tuple(readings), tuple(faults))

    def _row(self, reading: Reading) -> ReadingRow:
        words = self._words
        unknown = reading.dress is Dress.UNKNOWN
        return ReadingRow(
            reading=reading,
            day=short_day(words, reading.on),
            weight=words.bare_mass(reading.weight),
            hour="" if reading.at is None else words.hour(reading.at),
            dress="" if unknown else words(f"roster.dress.{reading.dress}"),
            scale=reading.scale,
            note=reading.note,
        )

    def _data(self, values: Mapping[str, str]) -> ReadingData:
        return ReadingData(
            athlete_id=self._athlete.id,
            weight=typed.required_mass("weight", values["weight"], self._athlete.unit),
            on=typed.required_day("on", values["on"]),
            at=typed.hour("at", values["at"]),
            dress=typed.choice("dress", values["dress"], Dress),
            scale=values.get("scale", ""),
            note=values.get("note", ""),
        )

    def _pasted(self, cells: Sequence[str]) -> ReadingData:
        day, weight, hour, dress, scale, note = (*(cell.strip() for cell in cells), *[""] * 6)[:6]
        found = ReadingData(
            athlete_id=self._athlete.id,
            on=pasted_day(self._words, "on", day),
            weight=typed.required_mass("weight", weight, self._athlete.unit),
            at=typed.hour("at", hour),
            dress=self._dress(dress),
            scale=scale,
            note=note,
        )
        check_reading(found, self._desk.today())
        return found

    def _dress(self, shown: str) -> Dress:
        if not shown:
            return Dress.UNKNOWN
        for dress in Dress:
            if self._words(f"roster.dress.{dress}").casefold() == shown.casefold():
                return dress
        raise InvalidInput("dress", text("roster.paste.dress", dress=shown))


def day_of(row: ReadingRow) -> date:
    """What the day's column is sorted by."""
    return row.reading.on


def _is_head(cells: Sequence[str]) -> bool:
    """A line without a digit holds no reading."""
    return not any(letter.isdigit() for cell in cells for letter in cell)
