"""What a coach typed, read into values: one reader of each kind for every screen and import."""

from __future__ import annotations

import re
from datetime import date, datetime, time
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit, parse_mass, parse_number

E = TypeVar("E", bound=StrEnum)

YES = "yes"
_DAY_FIRST = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})")


def mass(field: str, typed: str, unit: Unit) -> Mass | None:
    """A weight such as "82,5", "82.5 kg" or "182 lb"; None when nothing was typed."""
    if not typed.strip():
        return None
    try:
        return parse_mass(typed, unit)
    except ValueError as error:
        raise InvalidInput(field, text("typed.mass")) from error


def required_mass(field: str, typed: str, unit: Unit) -> Mass:
    """A weight; raises InvalidInput when nothing was typed."""
    found = mass(field, typed, unit)
    if found is None:
        raise InvalidInput(field, text("typed.mass_missing"))
    return found


def day(field: str, typed: str) -> date | None:
    """A day such as "2026-11-25" or "25.11.2026"; None when nothing was typed."""
    words = typed.strip()
    if not words:
        return None
    try:
        if found := _DAY_FIRST.fullmatch(words):
            return date(int(found[3]), int(found[2]), int(found[1]))
        return date.fromisoformat(words)
    except ValueError as error:
        raise InvalidInput(field, text("typed.day")) from error


def required_day(field: str, typed: str) -> date:
    """A day; raises InvalidInput when nothing was typed."""
    found = day(field, typed)
    if found is None:
        raise InvalidInput(field, text("typed.day_missing"))
    return found


def hour(field: str, typed: str) -> time | None:
    """A time of day such as "9:05"; None when nothing was typed."""
    words = typed.strip()
    if not words:
        return None
    try:
        found = datetime.strptime(words.replace(".", ":"), "%H:%M")  # noqa: DTZ007
    except ValueError as error:
        raise InvalidInput(field, text("typed.hour")) from error
    return found.time()


def moment(field: str, typed: str) -> datetime | None:
    """A day and a time local to a meet, such as "2026-11-25 9:05"; None when nothing was typed."""
    words = typed.replace("T", " ").split()
    if not words:
        return None
    if len(words) != 2:
        raise InvalidInput(field, text("typed.moment"))
    on, at = day(field, words[0]), hour(field, words[1])
    if on is None or at is None:
        raise InvalidInput(field, text("typed.moment"))
    return datetime.combine(on, at)


def number(field: str, typed: str) -> Decimal | None:
    """A number with point or comma; None when nothing was typed."""
    if not typed.strip():
        return None
    try:
        return parse_number(typed)
    except ValueError as error:
        raise InvalidInput(field, text("typed.number")) from error


def whole(field: str, typed: str) -> int | None:
    """A whole number; None when nothing was typed."""
    found = number(field, typed)
    if found is None:
        return None
    if found != found.to_integral_value():
        raise InvalidInput(field, text("typed.whole"))
    return int(found)


def choice(field: str, typed: str, kind: type[E]) -> E:
    """One of the members of `kind`; raises InvalidInput when nothing was chosen."""
    try:
        return kind(typed)
    except ValueError as error:
        raise InvalidInput(field, text("typed.choice")) from error


def yes(typed: str) -> bool:
    """Whether a box was ticked."""
    return typed == YES


def shown_yes(value: bool) -> str:
    """A box's value."""
    return YES if value else ""


def shown_mass(value: Mass | None) -> str:
    """A weight as it is typed again: the number, and the unit it was entered in."""
    return "" if value is None else f"{value.number:f} {value.unit}"


def shown_day(value: date | None) -> str:
    """A day as it is typed."""
    return "" if value is None else value.isoformat()


def shown_hour(value: time | None) -> str:
    """A time of day as it is typed."""
    return "" if value is None else f"{value:%H:%M}"


def shown_moment(value: datetime | None) -> str:
    """A day and time as they are typed."""
    return "" if value is None else f"{value:%Y-%m-%d %H:%M}"


def shown_whole(value: int | None) -> str:
    """A whole number as it is typed."""
    return "" if value is None else str(value)
