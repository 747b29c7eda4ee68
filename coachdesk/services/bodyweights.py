"""Keeping on file what readings come to, so that reading a roster does not go through years."""

from __future__ import annotations

from coachdesk.services.desk import Desk
from coachdesk.storage.weight_states import keep_weight_states

_AT_ONCE = 8
"""So few that nobody waits for the file meanwhile: some three milliseconds each."""


def keep_bodyweights(desk: Desk) -> int:
    """Put on file what is not there of what readings come to; answers of how many athletes.

    It changes no answer, only how soon it comes: nothing is journalled.
    """
    kept = 0
    while True:
        with desk.store.raw_writing() as connection:
            more = keep_weight_states(connection, _AT_ONCE)
        kept += more
        if more < _AT_ONCE:
            return kept
