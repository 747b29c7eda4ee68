"""The words that weights from elsewhere are recognised by, and what to choose from."""

from __future__ import annotations

from coachdesk.domain.athlete import Dress
from coachdesk.services.weights_file import Part, Vocabulary
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording

_MONTHS = range(1, 13)


def months_of(words: Wording) -> dict[str, int]:
    """The months' short names, folded."""
    return {folded(words(f"date.month.{number}")): number for number in _MONTHS}


def dress_choices(words: Wording) -> list[tuple[str, str]]:
    """What can have been worn on the scale."""
    return [(dress, words(f"roster.dress.{dress}")) for dress in Dress]


def vocabulary_of(words: Wording) -> Vocabulary:
    """Heads of columns, what was worn, and months, in the catalogue's words."""
    return Vocabulary(
        heads={
            folded(head.strip()): part
            for part in Part
            for head in words(f"weights.heads.{part}").split(";")
        },
        dress={
            folded(named): Dress(dress)
            for dress, shown in dress_choices(words)
            for named in (dress, shown)
        },
        months=months_of(words),
    )
