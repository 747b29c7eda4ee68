"""What is expected of the lifts of all entries ahead: a constant number of statements, however many
entries and meets there are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.strength.forecast import Forecast
from coachdesk.domain.strength.from_records import from_records
from coachdesk.domain.strength.parameters import LOOK_BACK
from coachdesk.domain.text import Text
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import Subject, as_said, lift_record
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.store import Reader
from coachdesk.storage.today_queries import entries_with_athletes
from coachdesk.storage.training_queries import Training, training_of
from coachdesk.storage.weight_states import weight_states


@dataclass(frozen=True, slots=True)
class ComingEntry:
    """An entry ahead with what is planned on by lift, None where nothing is known, and what its
    readings come to. `faults` say by lift what is wrong with the coach's number."""

    subject: Subject
    forecasts: Mapping[Lift, Forecast | None]
    weight: Bodyweight | None
    faults: Mapping[Lift, Text]


def coming_lifts(
    desk: Desk, reader: Reader, *, but: frozenset[int] = frozenset()
) -> tuple[ComingEntry, ...]:
    """The entries to meets from today on, by meet, soonest first, then by athlete's name.

    Left out are those withdrawn, those whose rulebook cannot be read, and those with an id in
    `but`. Some seven milliseconds for each athlete who has lifted at several meets.
    """
    today = desk.today()
    meets = {meet.id: meet for meet in meets_from(reader, today)}
    found = [each for each in entries_with_athletes(reader, meets) if each[0].id not in but]
    if not found:
        return ()
    entries = [entry for entry, _ in found]
    training = training_of(
        reader,
        entries,
        before=max(meet.starts_on for meet in meets.values()),
        look_back=LOOK_BACK,
        until=today,
    )
    weights = weight_states(reader, sorted({entry.athlete_id for entry in entries}))
    coming = []
    for entry, athlete in found:
        meet = meets[entry.meet_id]
        rulebook = desk.rulebooks.books.get(meet.rulebook)
        if rulebook is not None:
            subject = Subject(meet, entry, athlete, rulebook)
            coming.append(_coming(desk, training, subject, weights.get(athlete.id)))
    place = {meet_id: at for at, meet_id in enumerate(meets)}
    return tuple(sorted(coming, key=lambda each: (place[each.subject.meet.id], *_by_name(each))))


def _coming(
    desk: Desk, training: Training, subject: Subject, weight: Bodyweight | None
) -> ComingEntry:
    forecasts: dict[Lift, Forecast | None] = {}
    faults: dict[Lift, Text] = {}
    for lift in subject.rulebook.lift_order:
        if lift not in subject.entry.event.lifts:
            continue
        known = from_records(lift_record(training, subject, lift, desk.today()))
        try:
            forecasts[lift] = as_said(known, training, subject.entry, lift).used
        except InvalidInput as error:
            forecasts[lift], faults[lift] = None, error.text
    return ComingEntry(subject, forecasts, weight, faults)


def _by_name(coming: ComingEntry) -> tuple[str, str, int]:
    athlete = coming.subject.athlete
    family, given = athlete.family_name.casefold(), athlete.given_name.casefold()
    return family, given, coming.subject.entry.id
