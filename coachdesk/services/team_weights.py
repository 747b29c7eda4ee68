"""A morning's weights of the whole team: read, held against the last ones, kept in one go."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, time

from coachdesk.domain.athlete import Dress, ReadingData
from coachdesk.domain.checks import check_reading
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.odd_weight import is_odd
from coachdesk.domain.roster import RosterLine
from coachdesk.domain.text import Text, Value, text
from coachdesk.domain.units import Unit
from coachdesk.services import roster, roster_reading, typed
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.day_reading import DayOrder, Months, read_day, read_hour
from coachdesk.services.desk import Desk, Done


@dataclass(frozen=True, slots=True)
class Cell:
    """What is typed for one athlete; `on` and `at` where they were pasted beside the weight."""

    weight: str
    on: date | None = None
    at: time | None = None


@dataclass(frozen=True, slots=True)
class Common:
    """What is given once for all athletes, as typed."""

    on: str
    at: str = ""
    dress: str = Dress.UNKNOWN


@dataclass(frozen=True, slots=True)
class Morning:
    """The readings that are typed; by athlete what cannot be taken, and what is asked about."""

    readings: tuple[ReadingData, ...]
    faults: Mapping[int, Text]
    asked: Mapping[int, Text]


@dataclass(frozen=True, slots=True)
class RefusedLine:
    """A pasted line that could not be given to an athlete: its number, its cells, and why."""

    number: int
    line: str
    why: Text


@dataclass
class Pasted:
    """Cells by athlete, and the lines that belong to nobody."""

    cells: dict[int, Cell] = field(default_factory=dict)
    refused: list[RefusedLine] = field(default_factory=list)


def team(desk: Desk) -> tuple[RosterLine, ...]:
    """The athletes, archived ones aside: those with a meet ahead first, then by name."""
    lines = [line for line in roster_reading.roster(desk) if not line.archived]
    return tuple(
        sorted(lines, key=lambda line: (line.next_meet is None, *roster_reading.by_name(line)))
    )


def read_morning(
    desk: Desk, people: Sequence[RosterLine], cells: Mapping[int, Cell], common: Common
) -> Morning:
    """Read what is typed; raises InvalidInput for a day or an hour that holds for all."""
    on, at = typed.required_day("on", common.on), typed.hour("at", common.at)
    dress = typed.choice("dress", common.dress, Dress)
    today = desk.today()
    if on > today:
        raise InvalidInput("on", text("check.day_not_come"))
    readings: list[ReadingData] = []
    faults: dict[int, Text] = {}
    asked: dict[int, Text] = {}
    for person in people:
        cell = cells.get(person.id)
        if cell is None or not cell.weight.strip():
            continue
        try:
            reading = ReadingData(
                athlete_id=person.id,
                on=cell.on or on,
                at=cell.at or at,
                weight=typed.required_mass("weight", cell.weight, person.unit),
                dress=dress,
            )
            check_reading(reading, today)
        except InvalidInput as error:
            faults[person.id] = error.text
            continue
        readings.append(reading)
        question = _question(person, reading)
        if question is not None:
            asked[person.id] = question
    return Morning(tuple(readings), faults, asked)


def keep_morning(desk: Desk, morning: Morning, agreed: Collection[int]) -> Done[None]:
    """Keep all of it or nothing; whatever is asked about must be among those `agreed` to.

    Raises InvalidInput at `weight` when nothing is typed, or not all of it can be taken yet.
    """
    if morning.faults:
        raise InvalidInput("weight", text("team.faults", count=len(morning.faults)))
    if not morning.readings:
        raise InvalidInput("weight", text("team.nothing"))
    doubted = [each for each in morning.asked if each not in agreed]
    if doubted:
        raise InvalidInput("weight", text("team.asked", count=len(doubted)))
    return roster.add_readings(desk, morning.readings)


def read_pasted(
    lines: Sequence[Sequence[str]],
    people: Sequence[RosterLine],
    *,
    first: int,
    order: DayOrder | None,
    months: Months,
) -> Pasted:
    """Give pasted lines to athletes.

    Lines of one cell are weights in the order of `people`, from the one at `first` on; an empty
    line passes an athlete over. Lines of more cells are a name, a weight and, where there are
    more, the day and the hour; days are read in `order`. A first line of heads is passed over.
    """
    if all(len(cells) == 1 for cells in lines):
        return _in_order(lines, people[first:])
    pasted = Pasted()
    book = NameBook(people)
    lines_of: dict[int, int] = {}
    for number, cells in enumerate(lines, start=1):
        if not any(map(str.strip, cells)) or (number == 1 and _is_head(cells)):
            continue
        name, weight, day, hour = (*(cell.strip() for cell in cells), "", "", "")[:4]
        try:
            person = book.find(name)
            if person.id in lines_of:
                raise InvalidInput("name", text("team.twice", line=lines_of[person.id]))
            on = read_day("on", day, order, months) if day else None
            cell = Cell(weight, on, read_hour("at", hour))
        except InvalidInput as error:
            pasted.refused.append(RefusedLine(number, "  ".join(cells), error.text))
            continue
        lines_of[person.id] = number
        pasted.cells[person.id] = cell
    return pasted


def _in_order(lines: Sequence[Sequence[str]], people: Sequence[RosterLine]) -> Pasted:
    pasted = Pasted()
    begin = 1 if len(lines) > 1 and lines[0][0].strip() and _is_head(lines[0]) else 0
    for at, (weight,) in enumerate(lines[begin:]):
        if not weight.strip():
            continue
        if at < len(people):
            pasted.cells[people[at].id] = Cell(weight.strip())
        else:
            refused = RefusedLine(begin + at + 1, weight, text("team.too_many"))
            pasted.refused.append(refused)
    return pasted


def _is_head(cells: Sequence[str]) -> bool:
    """A line without a figure holds no weight."""
    return not any(letter.isdigit() for cell in cells for letter in cell)


def _question(person: RosterLine, reading: ReadingData) -> Text | None:
    """What to ask about a weight before it is kept; None where nothing is odd."""
    latest = person.latest
    if latest is None:
        return None
    if latest.on == reading.on and latest.weight.grams == reading.weight.grams:
        return text("team.on_file_already", day=reading.on)
    if not is_odd(reading.weight, reading.on, latest.weight, latest.on):
        return None
    other = Unit.LB if reading.weight.unit is Unit.KG else Unit.KG
    values: dict[str, Value] = {"weight": reading.weight, "last": latest.weight, "day": latest.on}
    in_other = replace(reading.weight, unit=other)
    if not is_odd(in_other, reading.on, latest.weight, latest.on):
        return text("team.odd_unit", unit=reading.weight.unit.value, other=other.value, **values)
    return text("team.odd", **values)
