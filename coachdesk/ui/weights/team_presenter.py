"""The team's weights without Qt: who is weighed, what is typed, what is said beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Dress
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.roster import RosterLine
from coachdesk.services import typed
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk, Done
from coachdesk.services.team_weights import (
    Cell,
    Common,
    Morning,
    keep_morning,
    read_morning,
    read_pasted,
    team,
)
from coachdesk.ui.weights.vocabulary import months_of
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class TeamRow:
    """An athlete to be weighed, with the last reading as context."""

    id: int
    name: str
    unit: str
    last: str
    last_day: str


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said beside a weight, and the colour role it has."""

    words: str
    role: str


class TeamPresenter:
    """What is typed stays until it is kept. `order` is how the system writes days."""

    def __init__(self, desk: Desk, words: Wording, order: DayOrder | None) -> None:
        self._desk = desk
        self._words = words
        self._order = order
        self._people = team(desk)
        self._person = {person.id: person for person in self._people}
        self._cells: dict[int, Cell] = {}
        self._agreed: set[int] = set()
        self._common = Common(on=typed.shown_day(desk.today()))
        self._morning = Morning((), {}, {})

    def rows(self) -> tuple[TeamRow, ...]:
        """The athletes, in the order they are weighed in."""
        return tuple(self._row(person) for person in self._people)

    def common_values(self) -> dict[str, str]:
        """The day, the hour and what is worn, as they begin."""
        return {"on": self._common.on, "at": "", "dress": Dress.UNKNOWN}

    def set_common(self, values: Mapping[str, str]) -> None:
        """Take the day, the hour and what is worn for all rows; raises InvalidInput."""
        self._common = Common(values["on"], values["at"], values["dress"])
        self._look()

    @property
    def has_typed(self) -> bool:
        """Whether a weight is typed and not kept."""
        return bool(self._cells)

    @property
    def count(self) -> int:
        """How many weights are typed."""
        return len(self._cells)

    def typed(self, athlete_id: int) -> str:
        """What is typed for an athlete."""
        cell = self._cells.get(athlete_id)
        return "" if cell is None else cell.weight

    def type(self, athlete_id: int, words: str) -> None:
        """Take what is typed for an athlete, whether it can be taken or not."""
        if words.strip() == self.typed(athlete_id):
            return
        self._put({athlete_id: Cell(words.strip())})

    def remark(self, athlete_id: int) -> Remark:
        """What is said beside a weight: why not, what is asked, or how it is understood."""
        words = self._words.in_unit(self._person[athlete_id].unit)
        if fault := self._morning.faults.get(athlete_id):
            return Remark(words.say(fault), "bad")
        if question := self._morning.asked.get(athlete_id):
            return Remark(words.say(question), "warn")
        for reading in self._morning.readings:
            if reading.athlete_id == athlete_id:
                weight = words.mass(reading.weight, reading.weight.unit)
                own_day = self._cells[athlete_id].on
                if own_day is None:
                    return Remark(weight, "quiet")
                return Remark(words("team.taken", weight=weight, day=own_day), "quiet")
        return Remark("", "")

    def first_doubtful(self) -> int | None:
        """The first athlete whose weight is faulty or else asked about."""
        doubtful = self._morning.faults or self._morning.asked
        return next((person.id for person in self._people if person.id in doubtful), None)

    def paste(self, lines: Sequence[Sequence[str]], first: int) -> tuple[str, ...]:
        """Fill in pasted lines, a column from the row `first` on; answers those nobody is given."""
        pasted = read_pasted(
            lines, self._people, first=first, order=self._order, months=months_of(self._words)
        )
        self._put(pasted.cells)
        return tuple(
            self._words("roster.paste.fault", number=each.number, line=each.line, why=each.why)
            for each in pasted.refused
        )

    def keep(self) -> Done[None]:
        """Keep all weights or none; what is asked about counts as agreed to from then on."""
        self._look()
        agreed = frozenset(self._agreed)
        if not self._morning.faults:
            self._agreed = set(self._morning.asked)
        return keep_morning(self._desk, self._morning, agreed)

    def _put(self, cells: Mapping[int, Cell]) -> None:
        for athlete_id, cell in cells.items():
            self._agreed.discard(athlete_id)
            if cell.weight:
                self._cells[athlete_id] = cell
            else:
                self._cells.pop(athlete_id, None)
        try:
            self._look()
        except InvalidInput:
            return  # the day or the hour is said when the weights are kept

    def _look(self) -> None:
        self._morning = read_morning(self._desk, self._people, self._cells, self._common)

    def _row(self, person: RosterLine) -> TeamRow:
        words, latest = self._words, person.latest
        return TeamRow(
            id=person.id,
            name=f"{person.given_name} {person.family_name}".strip(),
            unit=person.unit,
            last="" if latest is None else words.bare_mass(latest.weight, person.unit),
            last_day=words("team.never") if latest is None else words.day(latest.on),
        )
