"""Where a screen leads."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Way:
    """A way to another screen, by its key: to a record there (0 for none), to a part of what is
    shown of it, and to a record `within` that."""

    key: str
    record_id: int = 0
    part: str = ""
    within: int = 0
