"""The words that days are recognised by, and what can have been worn on the scale."""

from __future__ import annotations

from coachdesk.domain.athlete import Dress
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording

_MONTHS = range(1, 13)


def months_of(words: Wording) -> dict[str, int]:
    """The months' short names, folded, without the full stop that some end with."""
    return {folded(words(f"date.month.{number}")).rstrip("."): number for number in _MONTHS}


def dress_choices(words: Wording) -> list[tuple[str, str]]:
    """What can have been worn on the scale."""
    return [(dress, words(f"roster.dress.{dress}")) for dress in Dress]
