"""What was seen of an attempt, in as few words as will do: for cards and for the screen."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.attempts import Outcome
from coachdesk.wording.wording import Wording

_MADE = frozenset({Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND})
_MISSED = frozenset({Outcome.STRENGTH, Outcome.TECHNICAL})


def seen_in_words(outcomes: Sequence[Outcome], words: Wording) -> str:
    """Any of `outcomes`: "easy or as planned", or just "good" where all that is good is meant."""
    seen = frozenset(outcomes)
    parts: list[str] = []
    for whole, code in ((_MADE, Outcome.GOOD), (_MISSED, Outcome.NO_LIFT)):
        if seen >= whole or code in seen:
            parts.append(words(f"seen_short.{code}"))
            seen -= whole | {code}
    parts.extend(words(f"seen_short.{outcome}") for outcome in Outcome if outcome in seen)
    return words("seen_short.or").join(parts)
