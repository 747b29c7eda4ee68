"""From the records of an entry to what each of its lifts can be planned on, source by source."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from coachdesk.domain.history import best_grams
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength import (
    LiftRecord,
    LiftSources,
    OwnNumber,
    PastMeet,
    Tried,
    from_records,
    outcome_of,
)
from coachdesk.domain.units import from_grams
from coachdesk.domain.wishes import LiftBasis
from coachdesk.storage.meet_queries import MeetRecord, PastEntry
from coachdesk.storage.training_queries import Training

_COUNTED = 3
"""A fourth attempt is for a record only."""


def lift_sources(
    rulebook: Rulebook,
    record: MeetRecord,
    training: Training,
    entry: Entry,
    lift: Lift,
    today: date,
) -> LiftSources:
    """The sources of a lift of `entry`, as it is on file or as it is typed, as seen on `today`.

    Nothing counts from the day of the meet on. Raises InvalidInput where the coach's number does
    not go with the band on file.
    """
    known = from_records(_lift_record(rulebook, record, training, entry, lift, today))
    basis = basis_of(training, entry.id, lift)
    number = entry.expected(lift)
    low, high = (None, None) if basis is None else (basis.low, basis.high)
    own = None if number is None else OwnNumber(number, low, high)
    return known.with_own(own, None if basis is None else basis.source)


def basis_of(training: Training, entry_id: int, lift: Lift) -> LiftBasis | None:
    """What the coach has said of a lift besides the number, if anything."""
    bases = training.bases.get(entry_id, ())
    return next((basis for basis in bases if basis.lift is lift), None)


def meets_behind(record: MeetRecord, training: Training, entry: Entry) -> int:
    """How many meets the athlete has lifted at before, on file or before the record began."""
    lifted = {
        past.meet.id
        for past in training.past.get(entry.athlete_id, ())
        if any(attempt.result is not None for attempt in past.attempts)
    }
    return record.athletes[entry.athlete_id].meets_before + len(lifted)


def _lift_record(
    rulebook: Rulebook,
    record: MeetRecord,
    training: Training,
    entry: Entry,
    lift: Lift,
    today: date,
) -> LiftRecord:
    meet_day = record.meet.starts_on
    causes = rulebook.lift_rules(lift).causes
    strength = frozenset(cause.code for cause in causes if cause.strength)
    sets = training.sets.get(entry.athlete_id, ())
    past = training.past.get(entry.athlete_id, ())
    same = (each for each in past if each.entry.equipment is entry.equipment)
    return LiftRecord(
        lift=lift,
        equipment=entry.equipment,
        on=meet_day,
        until=min(today + timedelta(days=1), meet_day),
        meets_behind=meets_behind(record, training, entry),
        sets=tuple(logged for logged in sets if logged.lift is lift),
        past=_past_meets(same, lift, strength),
        strength_causes=strength,
    )


def _past_meets(
    past: Iterable[PastEntry], lift: Lift, strength_causes: frozenset[str]
) -> tuple[PastMeet, ...]:
    meets = []
    for each in past:
        tried = []
        for attempt in sorted(each.attempts, key=lambda taken: (taken.number, taken.take)):
            outcome = outcome_of(attempt.result, attempt.cause, strength_causes)
            if attempt.lift is lift and attempt.number <= _COUNTED and outcome is not None:
                tried.append(Tried(attempt.weight.kg, outcome))
        best = best_grams(each.attempts, lift)
        meets.append(
            PastMeet(
                name=each.meet.name,
                on=each.meet.starts_on,
                attempts=tuple(tried),
                best=None if best is None else from_grams(best),
                own=each.entry.expected(lift),
            )
        )
    return tuple(meets)
