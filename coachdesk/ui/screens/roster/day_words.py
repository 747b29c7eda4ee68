"""Days as the Roster's tables show them, and read back when they are pasted."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.errors import InvalidInput
from coachdesk.services import typed
from coachdesk.wording.wording import Wording

_MONTHS = range(1, 13)


def short_day(words: Wording, day: date) -> str:
    """A day without its weekday, as "25 Nov 2026"."""
    month = words(f"date.month.{day.month}")
    return words("roster.day", day=day.day, month=month, year=str(day.year))


def pasted_day(words: Wording, field: str, cell: str) -> date:
    """A day as it is typed, or as the program itself shows it; raises InvalidInput."""
    try:
        return typed.required_day(field, cell)
    except InvalidInput:
        found = _shown(words, cell)
        if found is None:
            raise
        return found


def _shown(words: Wording, cell: str) -> date | None:
    parts = cell.casefold().split()
    months = {words(f"date.month.{number}").casefold(): number for number in _MONTHS}
    named = [months[part] for part in parts if part in months]
    numbers = [int(part) for part in parts if part.isdigit()]
    if len(named) != 1 or len(numbers) != 2:
        return None
    try:
        return date(max(numbers), named[0], min(numbers))
    except ValueError:
        return None
