"""Days as the Roster's tables show them, and read back when they are pasted."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.errors import InvalidInput
from coachdesk.services import typed
from coachdesk.services.day_reading import named_day
from coachdesk.ui.weights.vocabulary import months_of
from coachdesk.wording.wording import Wording


def short_day(words: Wording, day: date) -> str:
    """A day without its weekday, as "25 Nov 2026"."""
    month = words(f"date.month.{day.month}")
    return words("roster.day", day=words.day_of_month(day), month=month, year=str(day.year))


def pasted_day(words: Wording, field: str, cell: str) -> date:
    """A day as it is typed, or as the program itself shows it; raises InvalidInput."""
    try:
        return typed.required_day(field, cell)
    except InvalidInput:
        found = named_day(cell, months_of(words))
        if found is None:
            raise
        return found
