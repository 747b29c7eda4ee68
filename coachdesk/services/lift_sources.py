"""From the records of an entry to what each of its lifts can be planned on, source by source."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.history import best_grams
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength.from_records import from_records
from coachdesk.domain.strength.lift_sources import LiftRecord, LiftSources, PastMeet
from coachdesk.domain.strength.observations import LiftDays
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.strength.parameters import LOOK_BACK
from coachdesk.domain.strength.tried import Tried, outcome_of
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.wishes import LiftBasis, WishesData
from coachdesk.storage.meet_queries import MeetRecord, PastEntry
from coachdesk.storage.store import Reader
from coachdesk.storage.training_queries import Training, training_of

NOTHING_KNOWN = text("meets.expected.none")
_COUNTED = 3
"""A fourth attempt is for a record only."""


@dataclass(frozen=True)
class KnownLifts:
    """What is on file about the lifts of a meet's entries, as seen on the day `today`.

    Nothing counts from the day of the meet on. What records say of a lift is worked out once, so
    that an entry can be looked at again and again while it is typed.
    """

    rulebook: Rulebook
    record: MeetRecord
    training: Training
    today: date
    _known: dict[tuple[int, Lift, Equipment], LiftSources] = field(default_factory=dict)

    def sources(self, entry: Entry, lift: Lift) -> LiftSources:
        """The sources of a lift of `entry`, as it is on file or as it is typed.

        Raises InvalidInput where the coach's number does not go with the band on file.
        """
        key = (entry.athlete_id, lift, entry.equipment)
        if key not in self._known:
            athlete = self.record.athletes[entry.athlete_id]
            subject = Subject(self.record.meet, entry, athlete, self.rulebook)
            self._known[key] = from_records(lift_record(self.training, subject, lift, self.today))
        return as_said(self._known[key], self.training, entry, lift)

    def with_wishes(self, data: WishesData) -> KnownLifts:
        """The same, were `data` wished for all entries."""
        wishes = {entry.id: replace(data, entry_id=entry.id) for entry in self.record.entries}
        return replace(self, training=replace(self.training, wishes=wishes))


@dataclass(frozen=True, slots=True)
class Subject:
    """An entry with its meet, its athlete and the meet's rulebook."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    rulebook: Rulebook


def lift_record(training: Training, subject: Subject, lift: Lift, today: date) -> LiftRecord:
    """What is on file about a lift of an entry, as seen on the day `today`."""
    meet_day, athlete_id = subject.meet.starts_on, subject.athlete.id
    strength = _strength_causes(subject.rulebook, lift)
    past = [each for each in training.past.get(athlete_id, ()) if each.meet.starts_on < meet_day]
    same = (each for each in past if each.entry.equipment is subject.entry.equipment)
    return LiftRecord(
        lift=lift,
        equipment=subject.entry.equipment,
        on=meet_day,
        until=min(today + timedelta(days=1), meet_day),
        meets_behind=meets_behind(subject.athlete, past),
        days=training.lifts.get(athlete_id, {}).get(lift, LiftDays()),
        singles=tuple(
            logged for logged in training.singles.get(athlete_id, ()) if logged.lift is lift
        ),
        past=past_meets(same, lift, strength),
        strength_causes=strength,
    )


def meets_behind(athlete: Athlete, past: Iterable[PastEntry]) -> int:
    """How many meets an athlete has lifted at, on file or before the record began."""
    lifted = {
        each.meet.id
        for each in past
        if any(attempt.result is not None for attempt in each.attempts)
    }
    return athlete.meets_before + len(lifted)


def as_said(known: LiftSources, training: Training, entry: Entry, lift: Lift) -> LiftSources:
    """What records say of a lift, with what the coach says of it.

    Raises InvalidInput where the coach's number does not go with the band on file.
    """
    basis = basis_of(training, entry.id, lift)
    number = entry.expected(lift)
    low, high = (None, None) if basis is None else (basis.low, basis.high)
    own = None if number is None else OwnNumber(number, low, high)
    return known.with_own(own, None if basis is None else basis.source)


def read_known(reader: Reader, rulebook: Rulebook, record: MeetRecord, today: date) -> KnownLifts:
    """What is on file about the lifts of the entries in `record`."""
    until = min(today, record.meet.starts_on)
    training = training_of(
        reader, record.entries, before=record.meet.starts_on, look_back=LOOK_BACK, until=until
    )
    return KnownLifts(rulebook, record, training, today)


def basis_of(training: Training, entry_id: int, lift: Lift) -> LiftBasis | None:
    """What the coach has said of a lift besides the number, if anything."""
    bases = training.bases.get(entry_id, ())
    return next((basis for basis in bases if basis.lift is lift), None)


def floor_of(training: Training, entry: Entry, lift: Lift) -> Mass | None:
    """The least weight that the suit or shirt works with; None without one on file or on."""
    basis = basis_of(training, entry.id, lift)
    return None if basis is None or entry.equipment is not Equipment.EQUIPPED else basis.floor


def past_meets(
    past: Iterable[PastEntry], lift: Lift, strength_causes: frozenset[str]
) -> tuple[PastMeet, ...]:
    """A lift at earlier meets, in the order given."""
    meets = []
    for each in past:
        tried = _tried(each.attempts, lift, strength_causes)
        best = best_grams(each.attempts, lift)
        meets.append(
            PastMeet(
                name=each.meet.name,
                on=each.meet.starts_on,
                attempts=tried,
                best=None if best is None else from_grams(best),
                own=each.entry.expected(lift),
            )
        )
    return tuple(meets)


def tried_at(attempts: Iterable[Attempt], lift: Lift, rulebook: Rulebook) -> tuple[Tried, ...]:
    """The attempts at a lift that were taken at a meet, in their order."""
    return _tried(attempts, lift, _strength_causes(rulebook, lift))


def _strength_causes(rulebook: Rulebook, lift: Lift) -> frozenset[str]:
    causes = rulebook.lift_rules(lift).causes
    return frozenset(cause.code for cause in causes if cause.strength)


def _tried(
    attempts: Iterable[Attempt], lift: Lift, strength_causes: frozenset[str]
) -> tuple[Tried, ...]:
    found = []
    for attempt in sorted(attempts, key=lambda taken: (taken.number, taken.take)):
        outcome = outcome_of(attempt.result, attempt.cause, strength_causes)
        if attempt.lift is lift and attempt.number <= _COUNTED and outcome is not None:
            found.append(Tried(attempt.weight.kg, outcome))
    return tuple(found)
