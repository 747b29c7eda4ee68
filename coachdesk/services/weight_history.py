"""Gathering a bodyweight's history: an athlete's for the Roster, a meet's entries' for paper."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.bodyweight import CycleNote, Trend, trend
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.units import from_grams
from coachdesk.domain.weight_class import WeightClass, class_for
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.services.class_standing import weigh_in_day, weigh_in_times
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.packet_weight import weight_page
from coachdesk.services.weight_picture import (
    ClassLine,
    Span,
    WeightHistory,
    WeightPicture,
    class_lines,
)
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.store import Reader
from coachdesk.storage.weight_queries import Weighed, next_entry, weighed

_LOOK_BACK = timedelta(days=365)
"""What paper shows of three months is no other when older readings are known."""


def weight_history(
    desk: Desk, athlete_id: int, entry_id: int | None = None
) -> WeightHistory | None:
    """An athlete's whole history up to today, with the meet of an entry, or the next one.

    None without a reading. It has a way down only while that is in force: nobody who must not come
    down is shown one. About 10 ms for each thousand days: for the background.
    """
    today = desk.today()
    with desk.reading() as reader:
        athlete = reader.get(Athlete, athlete_id)
        found = weighed(reader, [athlete_id], since=date.min, until=today).get(athlete_id)
        if found is None:
            return None
        entry = (
            next_entry(reader, athlete_id, today)
            if entry_id is None
            else reader.get(Entry, entry_id)
        )
        record = (
            None
            if entry is None
            else read_meet(reader, entry.meet_id, today, only=frozenset({entry.id}))
        )
    seen = _trend(found, today)
    rulebook = None if record is None else desk.rulebooks.books.get(record.meet.rulebook)
    if entry is None or record is None or rulebook is None:
        return WeightHistory(seen, found.readings, athlete.unit)
    session = record.sessions.get(entry.session_id or 0)
    plan = _in_force(record, rulebook, entry, today)
    return _towards(seen, found, athlete, entry, record.meet, rulebook, session, plan)


def _in_force(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, today: date
) -> WeightPlanData | None:
    """The way down agreed on, as long as the class is the same and nothing bars it."""
    try:
        first_meet = is_first_meet(record, entry)
        return weight_page(record, rulebook, entry, today=today, first_meet=first_meet).plan
    except CoachdeskError:
        return None


def weighed_lately(reader: Reader, entries: Collection[Entry], today: date) -> dict[int, Weighed]:
    """What the pictures of these entries are made of, by athlete; two statements."""
    athletes = {entry.athlete_id for entry in entries}
    return weighed(reader, athletes, since=today - _LOOK_BACK, until=today)


def entry_picture(
    found: Weighed,
    entry: Entry,
    meet: Meet,
    athlete: Athlete,
    rulebook: Rulebook,
    session: Session | None,
    *,
    today: date,
    plan: WeightPlanData | None,
) -> WeightPicture:
    """The last three months and the way to the weigh-in, with the way down of the `plan`."""
    history = _towards(_trend(found, today), found, athlete, entry, meet, rulebook, session, plan)
    return history.picture(Span.THREE_MONTHS)


def _trend(found: Weighed, today: date) -> Trend:
    notes = [CycleNote(note.first, note.last) for note in found.cycle_notes]
    return trend(found.readings, on=today, cycle_notes=notes)


def _towards(
    seen: Trend,
    found: Weighed,
    athlete: Athlete,
    entry: Entry,
    meet: Meet,
    rulebook: Rulebook,
    session: Session | None,
    plan: WeightPlanData | None,
) -> WeightHistory:
    opens, _closes = weigh_in_times(rulebook, session)
    return WeightHistory(
        trend=seen,
        readings=found.readings,
        unit=athlete.unit,
        classes=_classes(seen, athlete, entry, meet, rulebook),
        plan=plan,
        weigh_in_on=weigh_in_day(rulebook, meet, session),
        weigh_in_at=None if opens is None else opens.time(),
        meet=meet.name,
    )


def _classes(
    seen: Trend, athlete: Athlete, entry: Entry, meet: Meet, rulebook: Rulebook
) -> tuple[ClassLine, ...]:
    """The limits about the class entered, or the one of the present level; none where the rules
    have no class for the athlete: what is amiss is said at the entry."""
    try:
        classes = rulebook.classes(athlete.sex, meet.starts_on, entry.divisions)
        wanted = _wanted(classes, entry, seen)
    except CoachdeskError:
        return ()
    return () if wanted is None else class_lines(classes, wanted)


def _wanted(classes: tuple[WeightClass, ...], entry: Entry, seen: Trend) -> WeightClass | None:
    if entry.weight_class is None:
        return class_for(from_grams(round(seen.level_kg * 1000)), classes)
    return next((each for each in classes if each.name == entry.weight_class), None)
