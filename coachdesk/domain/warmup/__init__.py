"""Warm-ups: from the empty bar to the last single before the opener."""

from __future__ import annotations

from coachdesk.domain.warmup.practice import Gear
from coachdesk.domain.warmup.sets import (
    SECONDS_AN_ATTEMPT,
    WarmUps,
    WarmUpSet,
    attempts_in,
    minutes_of,
    warm_ups,
)

__all__ = [
    "SECONDS_AN_ATTEMPT",
    "Gear",
    "WarmUpSet",
    "WarmUps",
    "attempts_in",
    "minutes_of",
    "warm_ups",
]
