"""Totals from attempts: what a day brought, lift by lift."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from coachdesk.domain.lifting import Event, Lift, Result
from coachdesk.domain.meet import AttemptData

A = TypeVar("A", bound=AttemptData)


def standing(attempts: Iterable[A], lift: Lift) -> dict[int, A]:
    """The attempts of `lift` by number; of one that was taken again, the latest take."""
    ordered = sorted(
        (attempt for attempt in attempts if attempt.lift is lift), key=lambda each: each.take
    )
    return {attempt.number: attempt for attempt in ordered}


def best_grams(attempts: Iterable[AttemptData], lift: Lift) -> int | None:
    """The heaviest good lift [g] among the first three attempts of `lift`, or None.

    A fourth attempt is for records only and never counts.
    """
    good = [
        attempt.weight.grams
        for attempt in attempts
        if attempt.lift is lift and attempt.number <= 3 and attempt.result is Result.GOOD
    ]
    return max(good, default=None)


def total_grams(attempts: Iterable[AttemptData], event: Event) -> int | None:
    """The total [g]: the best good lift of each lift of the event; None when one has none."""
    listed = list(attempts)
    bests = [best_grams(listed, lift) for lift in event.lifts]
    made = [best for best in bests if best is not None]
    return sum(made) if len(made) == len(bests) else None


def bombed_lift(attempts: Iterable[AttemptData], event: Event) -> Lift | None:
    """The first lift of the event with three no lifts: the athlete bombed out there."""
    listed = list(attempts)
    for lift in event.lifts:
        missed = {
            attempt.number
            for attempt in listed
            if attempt.lift is lift and attempt.result is Result.NO_LIFT
        }
        if missed >= {1, 2, 3} and best_grams(listed, lift) is None:
            return lift
    return None
