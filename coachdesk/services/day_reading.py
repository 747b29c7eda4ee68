"""Days as other programs write them: year, day or month first, or with the month in words.

"03/04/2026" is two different days. Which one is meant is settled by the other days of a file, or
by the coach; it is never guessed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.services import typed
from coachdesk.wording.folding import folded

Months = Mapping[str, int]
"""The months' short names, folded."""


class DayOrder(StrEnum):
    """What stands first in a day that does not begin with its year."""

    DAY_FIRST = "day_first"
    MONTH_FIRST = "month_first"


@dataclass(frozen=True, slots=True)
class DaysFound:
    """How the days of a file are written.

    `order` is None where nothing settles it; `examples` then hold, for each order, a day as
    written and as read. Where no day depends on an order, there is neither.
    """

    order: DayOrder | None
    examples: Mapping[DayOrder, tuple[str, date]]

    @property
    def must_choose(self) -> bool:
        """Whether the coach has to say what is meant."""
        return self.order is None and bool(self.examples)


_NUMBERS = re.compile(r"(\d{1,2})([./-])\s?(\d{1,2})\2\s?(\d{4}|\d{2})")
_YEAR_FIRST = re.compile(r"(\d{4})([./-])(\d{1,2})\2(\d{1,2})")
_WITH_HOUR = re.compile(r"(.*\d)(?:T|,?\s+)(\d{1,2}:\d{2}(?::\d{2})?(?:\s*[ap]m)?)", re.IGNORECASE)
_NUMBER = re.compile(r"(\d{1,4})(?:st|nd|rd|th|er)?")
_PLAIN_HOUR = re.compile(r"\d{1,2}:\d{2}")
_HOUR_FORMS = ("%H:%M:%S", "%I:%M %p", "%I:%M%p", "%I:%M:%S %p", "%I:%M:%S%p")


def read_day(field: str, cell: str, order: DayOrder | None, months: Months) -> date:
    """The day in `cell`; raises InvalidInput when there is none, or nothing says which is meant.

    A year of two digits is one of this century.
    """
    words = cell.strip()
    if not words:
        raise InvalidInput(field, text("typed.day_missing"))
    fixed = _fixed_day(words, months)
    if fixed is not None:
        return fixed
    readable = _readable(words)
    if order is None and len(set(readable.values())) > 1:
        raise InvalidInput(field, text("day.which", day=words))
    found = next(iter(readable.values()), None) if order is None else readable.get(order)
    if found is None:
        raise InvalidInput(field, text("day.none", day=words))
    return found


def find_order(cells: Iterable[str], months: Months) -> DaysFound:
    """How days are written, from those that can only be read one way.

    Days with points begin with the day, as everywhere in the program, unless that cannot be.
    """
    settled: dict[DayOrder, tuple[str, date]] = {}
    open_to_both: dict[DayOrder, tuple[str, date]] = {}
    for cell in cells:
        words = cell.strip()
        if _fixed_day(words, months) is not None:
            continue
        readable = _readable(words)
        if "." in words and DayOrder.DAY_FIRST in readable:
            readable = {DayOrder.DAY_FIRST: readable[DayOrder.DAY_FIRST]}
        ways = {order: (words, day) for order, day in readable.items()}
        if len(ways) == 1:
            settled = {**ways, **settled}
        elif len(set(readable.values())) > 1:
            open_to_both = open_to_both or ways
    if len(settled) == 1:
        return DaysFound(next(iter(settled)), {})
    return DaysFound(None, {**settled, **open_to_both})


def is_day(cell: str, months: Months) -> bool:
    """Whether a cell holds a day, whichever is meant."""
    words = cell.strip()
    return _fixed_day(words, months) is not None or bool(_readable(words))


def split_hour(cell: str) -> tuple[str, str]:
    """A day and the hour written behind it; the hour is empty where there is none."""
    found = _WITH_HOUR.fullmatch(cell.strip())
    return (found[1], found[2]) if found else (cell.strip(), "")


def read_hour(field: str, cell: str) -> time | None:
    """A time of day such as "9:05", "09:05:30" or "7:30 pm", to the minute; None for none."""
    words = cell.strip()
    if _PLAIN_HOUR.fullmatch(words):
        return typed.hour(field, words)
    for form in _HOUR_FORMS:
        try:
            found = datetime.strptime(words, form).time()  # noqa: DTZ007
        except ValueError:
            continue
        return found.replace(second=0)
    return typed.hour(field, words)


def named_day(cell: str, months: Months) -> date | None:
    """A day with its month in words, such as "25 Nov 2026"; None when it is no such day."""
    parts = folded(cell).replace(",", " ").replace(".", " ").split()
    named = [months[part] for part in parts if part in months]
    numbers = [int(found[1]) for part in parts if (found := _NUMBER.fullmatch(part))]
    if len(named) != 1 or len(numbers) != 2:
        return None
    return _date(max(numbers), named[0], min(numbers))


def _fixed_day(words: str, months: Months) -> date | None:
    """A day that can be read one way only, by its form."""
    if found := _YEAR_FIRST.fullmatch(words):
        return _date(int(found[1]), int(found[3]), int(found[4]))
    return named_day(words, months)


def _readable(words: str) -> dict[DayOrder, date]:
    found = _NUMBERS.fullmatch(words)
    if found is None:
        return {}
    year = int(found[4]) if len(found[4]) == 4 else 2000 + int(found[4])
    first, second = int(found[1]), int(found[3])
    ways = {
        DayOrder.DAY_FIRST: _date(year, second, first),
        DayOrder.MONTH_FIRST: _date(year, first, second),
    }
    return {order: day for order, day in ways.items() if day is not None}


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
