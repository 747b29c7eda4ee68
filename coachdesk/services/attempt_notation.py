"""Attempts on one line, as result sheets print them: "140 -147.5 147.5".

The weights of a lift stand in the order they were lifted, a minus sign directly before a weight
says that it was no lift (common practice on result sheets). Two marks of our own fill the gaps:
"0" stands for an attempt that was not taken, and a question mark after a weight says that nobody
noted what became of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from coachdesk.domain.checks import check_lifted
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.meet import Attempt, AttemptData
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit, parse_mass

MOST_ATTEMPTS = 4
NOT_TAKEN = "0"
UNKNOWN = "?"
MINUS = "-"
_BEFORE_UNIT = re.compile(r"(?<=\d)\s+(?=(?:kg|lbs?)\b)", re.IGNORECASE)
_ANY_MINUS = re.compile(r"[−–]")
_BETWEEN = re.compile(r"[\s;/]+")
_WEIGHT = re.compile(r"(-?)(\d+(?:[.,]\d+)?(?:kg|lbs?)?)(\??)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Called:
    """A weight that was on the bar, and what became of it; None when nobody noted it."""

    weight: Mass
    result: Result | None


def read_attempts(field: str, typed: str, unit: Unit) -> dict[int, Called]:
    """The attempts of one lift by number; weights without a unit are in `unit`.

    Raises InvalidInput for `field` when a mark cannot be read, when there are more than four, or
    when a weight goes down, which no rulebook allows.
    """
    line = _BEFORE_UNIT.sub("", _ANY_MINUS.sub(MINUS, typed.strip()))
    marks = [mark for mark in _BETWEEN.split(line) if mark]
    if len(marks) > MOST_ATTEMPTS:
        raise InvalidInput(field, text("results.too_many", count=MOST_ATTEMPTS))
    called = {
        number: _read(field, mark, unit)
        for number, mark in enumerate(marks, start=1)
        if mark != NOT_TAKEN
    }
    grams = [each.weight.grams for each in called.values()]
    if grams != sorted(grams):
        raise InvalidInput(field, text("results.goes_down"))
    return called


def write_attempts(attempts: Iterable[Attempt], lift: Lift, unit: Unit) -> str:
    """What `read_attempts` reads: the attempts of `lift` as they stand."""
    found = taken(standing(attempts, lift))
    return " ".join(
        _write(found[number], unit) if number in found else NOT_TAKEN
        for number in range(1, max(found, default=0) + 1)
    )


def taken(attempts: Mapping[int, AttemptData]) -> dict[int, Called]:
    """The attempts that were on the bar, by number: passed and void ones were not."""
    return {
        number: Called(attempt.weight, attempt.result)
        for number, attempt in attempts.items()
        if attempt.result not in {Result.PASSED, Result.VOID}
    }


def _read(field: str, mark: str, unit: Unit) -> Called:
    found = _WEIGHT.fullmatch(mark)
    if found is None or (found[1] and found[3]):
        raise InvalidInput(field, text("results.unreadable", mark=mark))
    weight = parse_mass(found[2], unit)
    check_lifted(field, weight)
    if found[3]:
        return Called(weight, None)
    return Called(weight, Result.NO_LIFT if found[1] else Result.GOOD)


def _write(called: Called, unit: Unit) -> str:
    ending = "" if called.weight.unit is unit else called.weight.unit
    before = MINUS if called.result is Result.NO_LIFT else ""
    after = UNKNOWN if called.result is None else ""
    number = f"{called.weight.number:f}"
    plain = number.rstrip("0").rstrip(".") if "." in number else number
    return f"{before}{plain}{ending}{after}"
