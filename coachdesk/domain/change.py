"""What a write changed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Change:
    """A row that a transaction changed: its kind (the table) and its id."""

    kind: str
    id: int
