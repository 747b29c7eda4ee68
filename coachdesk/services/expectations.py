"""What each lift of an entry is planned on."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from coachdesk.domain.expected import Expected, MeetBest, expected_maximum
from coachdesk.domain.history import best_grams
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.units import from_grams
from coachdesk.storage.meet_queries import PastEntry, Training


def expected_of(training: Training, entry: Entry, today: date) -> dict[Lift, Expected]:
    """What each lift of an entry is planned on, where something is known."""
    found = {lift: _expected(training, entry, lift, today) for lift in entry.event.lifts}
    return {lift: expected for lift, expected in found.items() if expected is not None}


def _expected(training: Training, entry: Entry, lift: Lift, today: date) -> Expected | None:
    return expected_maximum(
        lift,
        coach=entry.expected(lift),
        sets=training.recent_sets.get(entry.athlete_id, ()),
        last_meet=_last_best(training.past.get(entry.athlete_id, ()), entry, lift),
        on=today,
    )


def _last_best(past: Iterable[PastEntry], entry: Entry, lift: Lift) -> MeetBest | None:
    """The best of the latest meet in the same equipment at which the lift was made."""
    for each in past:
        grams = best_grams(each.attempts, lift)
        if grams is not None and each.entry.equipment is entry.equipment:
            return MeetBest(from_grams(grams), each.meet.name, each.meet.starts_on)
    return None
