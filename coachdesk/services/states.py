"""Keeping on file what readings and training days come to, so that reading a list of athletes does
not go through years. It changes no answer, only how soon it comes: nothing is journalled."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coachdesk.services.desk import Desk
from coachdesk.storage.strength_states import keep_strength_states
from coachdesk.storage.weight_states import keep_weight_states

_WEIGHTS_AT_ONCE, _STRENGTHS_AT_ONCE = 8, 2
"""So few that nobody waits for the file meanwhile: some three and fifteen milliseconds each."""


def keep_bodyweights(desk: Desk) -> int:
    """Put on file what is not there of what readings come to; answers of how many athletes."""
    return _keep(desk, keep_weight_states, _WEIGHTS_AT_ONCE)


def keep_strengths(desk: Desk) -> int:
    """Put on file what is not there of what training days come to; answers of how many athletes."""
    return _keep(desk, keep_strength_states, _STRENGTHS_AT_ONCE)


def _keep(desk: Desk, keep: Callable[[Any, int], int], at_once: int) -> int:
    kept = 0
    while True:
        with desk.store.raw_writing() as connection:
            more = keep(connection, at_once)
        kept += more
        if more < at_once:
            return kept
