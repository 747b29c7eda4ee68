"""Texts as codes with parameters.

The program never carries a sentence for people in its code: it carries a code and the values
that go into the sentence. `coachdesk.wording` turns both into words, in the reader's language
and unit, the same way for screen and paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from typing import TypeAlias, Union

from coachdesk.domain.units import Mass, Percent

Value: TypeAlias = Union[
    str, int, float, Decimal, Mass, Percent, date, datetime, time, "Text", tuple["Value", ...]
]


@dataclass(frozen=True, slots=True)
class Text:
    """A sentence as a catalogue code and the values that go into it.

    `values` holds (name, value) pairs sorted by name, so that equal texts compare equal. A value
    named `count` chooses between singular and plural.
    """

    code: str
    values: tuple[tuple[str, Value], ...] = ()


def text(code: str, **values: Value) -> Text:
    """Build the text `code` with named values."""
    named = values.items()
    return Text(code, tuple(sorted(named) if len(named) > 1 else named))
