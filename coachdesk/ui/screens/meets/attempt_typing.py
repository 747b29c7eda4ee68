"""An attempt as it is typed, in the table or in the grid: one way to keep it."""

from __future__ import annotations

from coachdesk.domain.meet import Attempt
from coachdesk.domain.text import Text
from coachdesk.domain.units import Unit
from coachdesk.services import typed
from coachdesk.services.attempt_editing import choose_attempt, clear_attempt
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_look import AttemptKey


def keep_typed(
    desk: Desk, entry_id: int, key: AttemptKey, words: str, unit: Unit, seen: Attempt | None
) -> Done[tuple[Text, ...]] | None:
    """Keep what was typed for an attempt in either unit, `unit` where none is named.

    None when it says what was `seen` on file; raises InvalidInput when it cannot be taken.
    """
    weight = typed.mass("weight", words, unit)
    if weight is None:
        return None if seen is None else clear_attempt(desk, seen)
    if seen is not None and seen.weight == weight:
        return None
    return choose_attempt(desk, entry_id, *key, weight, seen=seen)
