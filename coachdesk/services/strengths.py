"""Keeping on file what training days come to, so that reading a list does not go through years."""

from __future__ import annotations

from coachdesk.services.desk import Desk
from coachdesk.storage.strength_states import keep_strength_states

_AT_ONCE = 2
"""So few that nobody waits for the file meanwhile: some fifteen milliseconds each."""


def keep_strengths(desk: Desk) -> int:
    """Put on file what is not there of what training days come to; answers of how many athletes.

    It changes no answer, only how soon it comes: nothing is journalled.
    """
    kept = 0
    while True:
        with desk.store.raw_writing() as connection:
            more = keep_strength_states(connection, _AT_ONCE)
        kept += more
        if more < _AT_ONCE:
            return kept
