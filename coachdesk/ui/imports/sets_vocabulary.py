"""The words that logged sets from elsewhere are recognised by."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from coachdesk.domain.lifting import Lift, Result
from coachdesk.services.sets_file import Part, Vocabulary, folded_lift
from coachdesk.ui.weights.vocabulary import months_of
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording

T = TypeVar("T")
_CALLS = (Result.GOOD, Result.NO_LIFT)


def sets_vocabulary(words: Wording) -> Vocabulary:
    """Heads of columns, lifts, calls and months, in the catalogue's words."""
    return Vocabulary(
        heads={
            folded(head.strip()): part
            for part in Part
            for head in words(f"sets.heads.{part}").split(";")
        },
        lifts=_named({lift: words(f"sets.lifts.{lift}") for lift in Lift}),
        calls=_named({call: words(f"sets.calls.{call}") for call in _CALLS}),
        months=months_of(words),
    )


def _named(names: Mapping[T, str]) -> dict[str, T]:
    """What each of the names stands for, which are parted by semicolons."""
    return {folded_lift(name): what for what, many in names.items() for name in many.split(";")}
