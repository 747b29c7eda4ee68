"""What goes along when something is deleted, in words."""

from __future__ import annotations

from coachdesk.wording.wording import Wording


def goes_along(words: Wording, *counts: tuple[str, int]) -> str:
    """What goes, counted, and that it can be undone."""
    said = tuple(words(f"meets.count.{what}", count=count) for what, count in counts if count)
    undo = words("meets.delete.undo")
    return f"{words('meets.delete.along', what=said)} {undo}" if said else undo
