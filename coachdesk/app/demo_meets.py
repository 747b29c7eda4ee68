"""The demo club's meets: those behind it with their attempts, those ahead with their entries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from numpy.random import Generator

from coachdesk.app.demo_attempts import draw_attempts
from coachdesk.app.demo_file import (
    Club,
    EntryPattern,
    Moment,
    Person,
    Record,
    SessionPattern,
)
from coachdesk.app.demo_history import bodyweight_kg
from coachdesk.domain.athlete import Athlete
from coachdesk.domain.division import divisions_open_to
from coachdesk.domain.history import total_grams
from coachdesk.domain.lifting import Event, Lift
from coachdesk.domain.meet import (
    AttemptData,
    Entry,
    EntryData,
    FlightData,
    Meet,
    MeetData,
    SessionData,
)
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.weight_class import class_for
from coachdesk.services.desk import Desk
from coachdesk.services.meets import (
    add_flights,
    add_meet,
    add_session,
    choose_opener,
    enter_athlete,
    enter_athletes,
    place_entry,
    record_attempts,
    steps_of,
)

SATURDAY = 5
LOWEST_PLACE = 6


@dataclass(frozen=True)
class Members:
    """The club once its people are on file: athlete ids by key, handler ids by name."""

    club: Club
    athlete_ids: Mapping[str, int]
    handler_ids: Mapping[str, int]

    def person(self, key: str) -> Person:
        """The person of this key."""
        return next(person for person in self.club.people if person.key == key)


def seed_past_meets(desk: Desk, members: Members, rng: Generator) -> None:
    """The meets behind us, with everybody's attempts."""
    lifted: list[AttemptData] = []
    for pattern in members.club.past_meets:
        rulebook = desk.rulebooks.get(pattern.rulebook)
        steps = steps_of(rulebook)
        on = _saturday_from(desk.today() - timedelta(days=pattern.days_ago))
        data = MeetData(
            name=pattern.name.format(year=on.year),
            starts_on=on,
            rulebook=pattern.rulebook,
            time_zone=members.club.time_zone,
            place=pattern.place,
        )
        meet_id = add_meet(desk, data).value
        with desk.reading() as reader:
            meet = reader.get(Meet, meet_id)
            athletes = {athlete.id: athlete for athlete in reader.list(Athlete)}
        entries: list[EntryData] = []
        drawn: list[list[AttemptData]] = []
        for key in pattern.lifted:
            person, athlete = members.person(key), athletes[members.athlete_ids[key]]
            record = _record(person)
            attempts = draw_attempts(
                rng, person.event, record.strength, pattern.days_ago, members.club.causes, steps
            )
            bodyweight = from_grams(
                round(bodyweight_kg(record.weight, pattern.days_ago) * 100) * 10
            )
            entry = _past_entry(person.event, athlete, meet, rulebook, bodyweight)
            if total_grams(attempts, entry.event) is not None:
                entry = replace(entry, place=int(rng.integers(1, LOWEST_PLACE + 1)))
            entries.append(entry)
            drawn.append(attempts)
        entry_ids = enter_athletes(desk, entries).value
        for entry_id, attempts in zip(entry_ids, drawn, strict=True):
            lifted.extend(replace(attempt, entry_id=entry_id) for attempt in attempts)
    record_attempts(desk, lifted)


def seed_meets_ahead(desk: Desk, members: Members) -> None:
    """The meets ahead, with sessions, flights, entries, duties and the openers chosen already."""
    for meet in members.club.meets:
        on = _saturday_from(desk.today() + timedelta(days=meet.in_days))
        meet_id = add_meet(
            desk,
            MeetData(
                name=meet.name,
                starts_on=on,
                rulebook=meet.rulebook,
                time_zone=members.club.time_zone,
                place=meet.place,
                entry_deadline=on - timedelta(days=meet.deadline_days_before),
                note=meet.note,
            ),
        ).value
        sessions = {
            session.name: _add_session(desk, session, meet_id, on) for session in meet.sessions
        }
        for entry in meet.entries:
            _enter(desk, members, entry, meet_id, sessions)


@dataclass(frozen=True, slots=True)
class _Session:
    """A session on file: its id, and the flights' ids by name and lift."""

    id: int
    flight_ids: Mapping[tuple[str, Lift], int]


def _add_session(desk: Desk, session: SessionPattern, meet_id: int, on: date) -> _Session:
    session_id = add_session(
        desk,
        SessionData(
            meet_id=meet_id,
            name=session.name,
            platform=session.platform,
            starts_at=_moment(session.starts, on),
            weigh_in_opens=_moment(session.weigh_in_opens, on),
            weigh_in_closes=_moment(session.weigh_in_closes, on),
        ),
    ).value
    flights = [
        FlightData(
            session_id=session_id,
            lift=lift,
            name=flight.name,
            position=position,
            lifters=flight.lifters,
        )
        for lift in Lift
        for position, flight in enumerate(session.flights, start=1)
    ]
    flight_ids = add_flights(desk, flights).value
    named = zip(flights, flight_ids, strict=True)
    return _Session(
        session_id, {(flight.name, flight.lift): flight_id for flight, flight_id in named}
    )


def _enter(
    desk: Desk,
    members: Members,
    pattern: EntryPattern,
    meet_id: int,
    sessions: Mapping[str, _Session],
) -> None:
    person = members.person(pattern.who)
    session = None if pattern.session is None else sessions[pattern.session]
    event = pattern.event or person.event
    entry_id = enter_athlete(
        desk,
        EntryData(
            athlete_id=members.athlete_ids[pattern.who],
            meet_id=meet_id,
            event=event,
            equipment=person.profile.equipment,
            divisions=pattern.divisions,
            weight_class=pattern.weight_class,
            comes_down=pattern.comes_down,
            session_id=None if session is None else session.id,
            lot=pattern.lot,
            expected_squat=pattern.expected.get(Lift.SQUAT),
            expected_bench=pattern.expected.get(Lift.BENCH),
            expected_deadlift=pattern.expected.get(Lift.DEADLIFT),
            note=pattern.note,
        ),
    ).value
    if session is not None and pattern.flight is not None:
        with desk.reading() as reader:
            entry = reader.get(Entry, entry_id)
        place_entry(
            desk,
            entry,
            flight_ids=[session.flight_ids[pattern.flight, lift] for lift in event.lifts],
            duties=[(members.handler_ids[duty.handler], duty.role) for duty in pattern.duties],
        )
    for lift, weight in pattern.openers.items():
        choose_opener(desk, entry_id, lift, weight)


def _record(person: Person) -> Record:
    """What the past of somebody who lifted is drawn from."""
    if person.record is None:
        raise ValueError(person.key)
    return person.record


def _past_entry(
    event: Event, athlete: Athlete, meet: Meet, rulebook: Rulebook, bodyweight: Mass
) -> EntryData:
    """An entry in the division closest in age and the class weighed."""
    division = divisions_open_to(athlete.birth_date, meet.starts_on, rulebook)[-1].key
    classes = rulebook.classes(athlete.sex, meet.starts_on, [division])
    return EntryData(
        athlete_id=athlete.id,
        meet_id=meet.id,
        event=event,
        equipment=athlete.equipment,
        divisions=(division,),
        weight_class=class_for(bodyweight, classes).name,
        bodyweight=bodyweight,
    )


def _saturday_from(on: date) -> date:
    """The first Saturday from the day `on`."""
    return on + timedelta(days=(SATURDAY - on.weekday()) % 7)


def _moment(moment: Moment, first_day: date) -> datetime:
    return datetime.combine(first_day + timedelta(days=moment.day), moment.at)
