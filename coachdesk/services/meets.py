"""Use cases about meets: the meet itself, its sessions and flights, entries and attempts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import Steps, check_not_below_bar, check_on_bar
from coachdesk.domain.checks import (
    check_attempt,
    check_bodyweight,
    check_flight,
    check_lifted,
    check_meet,
    check_session,
)
from coachdesk.domain.division import check_division
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import (
    AttemptData,
    Entry,
    EntryData,
    FlightData,
    HandlerDuty,
    Meet,
    MeetData,
    Role,
    Session,
    SessionData,
)
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.entry_rows import first_attempt, set_duties, set_flights
from coachdesk.storage.meet_queries import (
    flights_named,
    meets_from,
    meets_named,
    same_entries,
)
from coachdesk.storage.store import Reader, Work


@dataclass(frozen=True, slots=True)
class Place:
    """Which flights an entry lifts in, and who does what for it."""

    flight_ids: tuple[int, ...] = ()
    duties: tuple[tuple[int, Role], ...] = ()


def add_meet(desk: Desk, data: MeetData) -> Done[int]:
    """Put a meet on file; answers the id. The rulebook must be on the shelf."""
    check_meet(data)
    desk.rulebooks.get(data.rulebook)
    with desk.action(text("did.add_meet", name=data.name)) as work:
        meet_id = work.insert(data)
        return Done(meet_id, work.changes())


def add_session(desk: Desk, data: SessionData) -> Done[int]:
    """Add a session to a meet; answers the id."""
    check_session(data)
    with desk.action(text("did.add_session", name=data.name)) as work:
        session_id = work.insert(data)
        return Done(session_id, work.changes())


def add_flights(desk: Desk, many: Sequence[FlightData]) -> Done[tuple[int, ...]]:
    """Add flights to a session; answers their ids."""
    for data in many:
        check_flight(data)
    with desk.action(text("did.add_flights", count=len(many))) as work:
        ids = tuple(work.insert(data) for data in many)
        return Done(ids, work.changes())


def enter_athlete(desk: Desk, data: EntryData) -> Done[int]:
    """Enter an athlete to a meet; answers the id."""
    with desk.reading() as reader:
        athlete = check_entry(desk, reader, data)
    with desk.action(text("did.enter_athlete", name=athlete.name)) as work:
        entry_id = work.insert(data)
        return Done(entry_id, work.changes())


def enter_athletes(desk: Desk, many: Sequence[EntryData]) -> Done[tuple[int, ...]]:
    """Enter several athletes at once, all of them or none; answers their ids."""
    with desk.reading() as reader:
        for data in many:
            check_entry(desk, reader, data)
    same = Counter((data.athlete_id, data.meet_id, data.event, data.equipment) for data in many)
    if any(times > 1 for times in same.values()):
        raise InvalidInput("athletes", text("entry.twice_at_once"))
    with desk.action(text("did.enter_athletes", count=len(many))) as work:
        ids = tuple(work.insert(data) for data in many)
        return Done(ids, work.changes())


def edit_entry(desk: Desk, entry_id: int, version: int, data: EntryData) -> Done[None]:
    """Replace what is on file about an entry, unless somebody else did meanwhile."""
    with desk.reading() as reader:
        athlete = check_entry(desk, reader, data, entry_id)
    with desk.action(text("did.edit_entry", name=athlete.name)) as work:
        work.update(entry_id, version, data)
        return Done(None, work.changes())


def place_entries(desk: Desk, places: Mapping[int, Place]) -> Done[None]:
    """Say which flights entries lift in and who does what for them, replacing what stood.

    Entries go by their ids; all of them are placed or none.
    """
    with desk.action(text("did.place_entries", count=len(places))) as work:
        for entry_id, place in places.items():
            put_in_place(work, work.get(Entry, entry_id), place)
        return Done(None, work.changes())


def put_in_place(work: Work, entry: Entry, place: Place) -> None:
    """Flights and duties of an entry, one flight of its own session for each of its lifts."""
    flights = flights_named(work, place.flight_ids)
    lifts = [flight.lift for flight in flights]
    if len(set(lifts)) != len(lifts):
        raise InvalidInput("flights", text("check.one_flight_a_lift"))
    if any(flight.session_id != entry.session_id for flight in flights):
        raise InvalidInput("flights", text("check.flight_of_session"))
    if set(lifts) - set(entry.event.lifts):
        raise InvalidInput("flights", text("check.flight_of_event"))
    set_flights(work, entry.id, place.flight_ids)
    duties = [
        HandlerDuty(entry_id=entry.id, handler_id=handler_id, role=role)
        for handler_id, role in place.duties
    ]
    set_duties(work, entry.id, duties)


def record_attempts(desk: Desk, many: Sequence[AttemptData]) -> Done[None]:
    """Keep attempts, chosen or lifted, all of them or none."""
    for data in many:
        check_attempt(data)
    with desk.action(text("did.record_attempts", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def choose_opener(desk: Desk, entry_id: int, lift: Lift, weight: Mass) -> Done[None]:
    """Choose or change an opener: on the rulebook's steps, not below the lightest bar."""
    check_lifted("weight", weight)
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        athlete = reader.get(Athlete, entry.athlete_id)
        steps = steps_of(desk.rulebooks.get(reader.get(Meet, entry.meet_id).rulebook))
    if lift not in entry.event.lifts:
        raise InvalidInput("lift", text("entry.lift", lift=text(f"lift.{lift}")))
    check_on_bar("weight", weight, steps)
    label = text("did.choose_opener", name=athlete.name, lift=text(f"lift.{lift}"), weight=weight)
    with desk.action(label) as work:
        opener = AttemptData(entry_id=entry_id, lift=lift, number=1, weight=weight)
        present = first_attempt(work, entry_id, lift)
        if present is None:
            work.insert(opener)
        else:
            work.update(present.id, present.version, opener)
        return Done(None, work.changes())


def steps_of(rulebook: Rulebook) -> Steps:
    """The rulebook's steps and lightest bar."""
    return Steps(rulebook.smallest_step, rulebook.lightest_bar)


def check_entry(
    desk: Desk, reader: Reader, data: EntryData, entry_id: int | None = None
) -> Athlete:
    """The athlete of an entry that is in order; raises InvalidInput.

    `entry_id` names the entry on file that `data` is to replace, None for a new one.
    """
    athlete = reader.get(Athlete, data.athlete_id)
    meet = reader.get(Meet, data.meet_id)
    rulebook = desk.rulebooks.get(meet.rulebook)
    _check_against_rulebook(data, athlete, meet, rulebook)
    if data.bodyweight is not None:
        check_bodyweight("bodyweight", data.bodyweight)
    for lift in Lift:
        expected = data.expected(lift)
        if expected is not None:
            check_lifted(f"expected_{lift}", expected)
            check_not_below_bar(f"expected_{lift}", expected, steps_of(rulebook))
    if data.session_id is not None and reader.get(Session, data.session_id).meet_id != meet.id:
        raise InvalidInput("session_id", text("entry.session"))
    if any(same != entry_id for same in same_entries(reader, data)):
        raise InvalidInput("event", text("entry.twice", name=athlete.name))
    return athlete


def _check_against_rulebook(
    data: EntryData, athlete: Athlete, meet: Meet, rulebook: Rulebook
) -> None:
    if data.event not in rulebook.events:
        raise InvalidInput("event", text("entry.event", rulebook=rulebook.name))
    if data.equipment not in rulebook.equipment:
        raise InvalidInput("equipment", text("entry.equipment", rulebook=rulebook.name))
    if not data.divisions:
        raise InvalidInput("divisions", text("entry.no_division"))
    for key in data.divisions:
        reason = check_division(rulebook.division(key), athlete.birth_date, meet.starts_on)
        if reason is not None:
            raise InvalidInput("divisions", reason)
    names = [each.name for each in rulebook.classes(athlete.sex, meet.starts_on, data.divisions)]
    if data.weight_class is not None and data.weight_class not in names:
        raise InvalidInput("weight_class", text("entry.weight_class", classes=tuple(names)))


def upcoming_meets(desk: Desk) -> tuple[Meet, ...]:
    """The meets from today on, soonest first."""
    with desk.reading() as reader:
        return meets_from(reader, desk.today())


def find_meet(desk: Desk, name: str) -> Meet:
    """The meet of this name: the next one to come, else the latest; Trouble when there is none."""
    with desk.reading() as reader:
        found = meets_named(reader, name)
    if not found:
        raise Trouble(text("meet.not_found", name=name))
    to_come = [meet for meet in found if meet.starts_on >= desk.today()]
    return to_come[-1] if to_come else found[0]
