"""A row of the list in words, and what it is sorted by."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.division import age_on
from coachdesk.domain.lifting import Event
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import from_grams
from coachdesk.services.roster_reading import by_name
from coachdesk.ui.screens.roster.presenter import RosterRow
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class RowWords:
    """Says what a row holds, cell by cell, as the table asks for it."""

    words: Wording
    today: Callable[[], date]

    def name(self, row: RosterRow) -> str:
        """Family name first, as the list is sorted."""
        line = row.line
        name = line.given_name
        if line.family_name:
            name = self.words("roster.listed_name", family=line.family_name, given=line.given_name)
        return self.words("roster.archived_name", name=name) if line.archived else name

    def born(self, row: RosterRow) -> str:
        """The year of birth and the age today."""
        birth_date = row.line.birth_date
        if birth_date is None:
            return self.words("roster.age_unknown")
        age = age_on(birth_date, self.today())
        return self.words("roster.born", year=str(birth_date.year), age=age)

    def weight(self, row: RosterRow) -> str:
        """The latest weight."""
        latest = row.line.latest
        return "" if latest is None else self.words.bare_mass(latest.weight)

    def weighed(self, row: RosterRow) -> str:
        """When that was."""
        latest = row.line.latest
        return "" if latest is None else short_day(self.words, latest.on)

    def meet(self, row: RosterRow) -> str:
        """The next meet."""
        return "" if row.line.next_meet is None else row.line.next_meet.name

    def meet_day(self, row: RosterRow) -> str:
        """The first day of the next meet."""
        meet = row.line.next_meet
        return "" if meet is None else short_day(self.words, meet.on)

    def weight_class(self, row: RosterRow) -> str:
        """The class entered there."""
        meet = row.line.next_meet
        if meet is None:
            return ""
        return self.words.show(meet.weight_class or text("roster.no_class"))

    def total(self, row: RosterRow) -> str:
        """The best total on record."""
        return "" if row.best is None else self.words.bare_mass(from_grams(row.best.grams))

    def lifted(self, row: RosterRow) -> str:
        """Where that total comes from: the day, the equipment, the event if not three lifts."""
        best = row.best
        if best is None:
            return ""
        of: tuple[Text, ...] = (text(f"equipment.{best.equipment}"),)
        if best.event is not Event.THREE_LIFT:
            of = (text(f"event.{best.event}"), *of)
        return self.words("roster.total_about", day=short_day(self.words, best.on), of=of)


def sort_name(row: RosterRow) -> tuple[str, str]:
    """By family name."""
    return by_name(row.line)


def sort_birth(row: RosterRow) -> date | None:
    """By birth date."""
    return row.line.birth_date


def sort_weight(row: RosterRow) -> int | None:
    """By grams."""
    return None if row.line.latest is None else row.line.latest.weight.grams


def sort_weighed(row: RosterRow) -> date | None:
    """By the day weighed."""
    return None if row.line.latest is None else row.line.latest.on


def sort_meet(row: RosterRow) -> date | None:
    """By the day of the next meet."""
    return None if row.line.next_meet is None else row.line.next_meet.on


def sort_total(row: RosterRow) -> int | None:
    """By grams."""
    return None if row.best is None else row.best.grams


def sort_lifted(row: RosterRow) -> date | None:
    """By the day of the best total."""
    return None if row.best is None else row.best.on
