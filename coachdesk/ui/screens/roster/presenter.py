"""The Roster without Qt: the list, looked through and filtered, and the way to one athlete."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.athlete import Handler, HandlerData
from coachdesk.domain.lifting import Sex
from coachdesk.domain.roster import BestTotal, RosterLine
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import text
from coachdesk.services import roster, roster_reading
from coachdesk.services.desk import Desk, Done
from coachdesk.services.roster_reading import by_name
from coachdesk.ui.athletes.profile_values import profile_data
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording

AT_A_TIME = 200
"""Athletes whose best total is looked up in one go, so that the window stays alive."""


class Shown(StrEnum):
    """Which athletes the list shows."""

    ACTIVE = "active"
    MEET_AHEAD = "meet_ahead"
    WOMEN = "women"
    MEN = "men"
    ARCHIVED = "archived"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class RosterRow:
    """An athlete in the list, with the best total as far as it was looked up.

    Words are made of it only for what is seen: `name_of` and its like.
    """

    line: RosterLine
    best: BestTotal | None

    @property
    def id(self) -> int:
        """The athlete's id."""
        return self.line.id


@dataclass(frozen=True, slots=True)
class HandlerRow:
    """A handler, and at how many entries they have something to do."""

    handler: Handler
    duties: int


class RosterPresenter:
    """What the screen shows and does. `formula` is the coach's own."""

    def __init__(self, desk: Desk, words: Wording, formula: Formula) -> None:
        self._desk = desk
        self._words = words
        self._formula = formula
        self._lines: tuple[RosterLine, ...] = ()
        self._names: dict[int, str] = {}
        self._best: dict[int, BestTotal | None] = {}

    def load(self) -> None:
        """Read the list anew."""
        found = roster_reading.roster(self._desk)
        self._lines = tuple(sorted(found, key=by_name))
        self._names = {line.id: " ".join(reversed(by_name(line))) for line in self._lines}

    def forget_totals(self) -> None:
        """Results have changed: look the best totals up anew."""
        self._best.clear()

    def lacks_totals(self) -> bool:
        """Whether some best totals are still to be looked up."""
        return any(line.id not in self._best for line in self._lines)

    def look_up_totals(self) -> bool:
        """Look up the best totals of the next athletes in the list; whether some are left."""
        missing = [line.id for line in self._lines if line.id not in self._best]
        some = missing[:AT_A_TIME]
        found = roster_reading.best_totals(self._desk, some) if some else {}
        self._best.update((athlete_id, found.get(athlete_id)) for athlete_id in some)
        return len(missing) > len(some)

    def rows(self, looked_for: str, shown: Shown) -> tuple[RosterRow, ...]:
        """The athletes shown whose names hold all words looked for, accents and case aside."""
        wanted = folded(looked_for).split()
        return tuple(
            RosterRow(line, self._best.get(line.id))
            for line in self._lines
            if _is_shown(line, shown) and all(word in self._names[line.id] for word in wanted)
        )

    def is_shown(self, athlete_id: int, shown: Shown) -> bool:
        """Whether a filter shows an athlete."""
        return any(line.id == athlete_id and _is_shown(line, shown) for line in self._lines)

    def add(self, values: Mapping[str, str]) -> Done[int]:
        """Put an athlete on the roster; answers the id."""
        return roster.add_athlete(self._desk, profile_data(values))

    def detail(self, athlete_id: int) -> AthleteDetail:
        """One athlete; Trouble when there is none (any more)."""
        return AthleteDetail(self._desk, self._words, self._formula, athlete_id)

    def handlers(self) -> tuple[HandlerRow, ...]:
        """The handlers, by name."""
        return tuple(
            HandlerRow(handler, duties) for handler, duties in roster_reading.handlers(self._desk)
        )

    def save_handler(
        self, seen: Handler | None, values: Mapping[str, str]
    ) -> Done[int] | Done[None]:
        """Add a handler, or change the one that was seen."""
        data = HandlerData(name=values["name"], phone=values["phone"], note=values["note"])
        if seen is None:
            return roster.add_handler(self._desk, data)
        return roster.edit_handler(self._desk, seen, data)

    def delete_handler(self, seen: Handler) -> Done[None]:
        """Delete a handler."""
        return roster.delete_handler(self._desk, seen)

    def handler_goes_with(self, row: HandlerRow) -> str:
        """What goes with a handler who is deleted."""
        if not row.duties:
            return self._words("roster.goes.nothing")
        duties = text("roster.goes.duties", count=row.duties)
        return self._words("roster.goes", what=(duties,))


def _is_shown(line: RosterLine, shown: Shown) -> bool:
    match shown:
        case Shown.ALL:
            return True
        case Shown.ARCHIVED:
            return line.archived
        case Shown.MEET_AHEAD:
            return not line.archived and line.next_meet is not None
        case Shown.WOMEN:
            return not line.archived and line.sex is Sex.FEMALE
        case Shown.MEN:
            return not line.archived and line.sex is Sex.MALE
        case Shown.ACTIVE:
            return not line.archived
