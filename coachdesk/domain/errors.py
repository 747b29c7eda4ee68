"""Errors that have words for the coach.

Three kinds, three ways to the user: `InvalidInput` is shown beside its field, `Trouble` is a
plain sentence with the next step, and anything else is a bug.
"""

from __future__ import annotations

from coachdesk.domain.text import Text


class CoachdeskError(Exception):
    """Base of the errors that carry a text for the coach."""

    def __init__(self, text: Text) -> None:
        super().__init__(f"{text.code} {dict(text.values)}")
        self.text = text


class InvalidInput(CoachdeskError):
    """A value that cannot be taken; `field` names the input it belongs to."""

    def __init__(self, field: str, text: Text) -> None:
        super().__init__(text)
        self.field = field


class Trouble(CoachdeskError):
    """Expected trouble: a file in use, a full disk, a file from a newer version."""
