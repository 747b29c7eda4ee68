"""The meets the demo club has ahead: sessions, flights, entries, duties, openers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from coachdesk.app.demo.file import EntryPattern, Moment, SessionPattern
from coachdesk.app.demo.members import Members, saturday_from
from coachdesk.domain.lifting import Event, Lift
from coachdesk.domain.meet import EntryData, FlightData, MeetData, SessionData
from coachdesk.domain.readiness import KitCheckData, TaskData
from coachdesk.domain.wishes import WishesData
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import note_kit_checks
from coachdesk.services.meets import (
    Place,
    add_flights,
    add_meet,
    add_session,
    choose_opener,
    enter_athletes,
    place_entries,
)
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import no_progress
from coachdesk.services.task_editing import note_tasks
from coachdesk.services.wishes_editing import wish_for_all

FIRST_ROUND = "two_weeks"


def seed_meets_ahead(desk: Desk, members: Members) -> None:
    """The meets ahead: sessions, flights, entries, duties, plans, the openers chosen already."""
    for meet in members.club.meets:
        on = saturday_from(desk.today() + timedelta(days=meet.in_days))
        inspected = meet.inspection_days_before
        meet_id = add_meet(
            desk,
            MeetData(
                name=meet.name,
                starts_on=on,
                rulebook=meet.rulebook,
                time_zone=members.club.time_zone,
                place=meet.place,
                entry_deadline=on - timedelta(days=meet.deadline_days_before),
                kit_inspection_on=None if inspected is None else on - timedelta(days=inspected),
                note=meet.note,
            ),
        ).value
        sessions = {
            session.name: _add_session(desk, session, meet_id, on) for session in meet.sessions
        }
        entries = [_entry(members, entry, meet_id, sessions) for entry in meet.entries]
        entry_ids = enter_athletes(desk, entries).value
        patterns = dict(zip(entry_ids, meet.entries, strict=True))
        events = {entry_id: entry.event for entry_id, entry in zip(entry_ids, entries, strict=True)}
        place_entries(
            desk,
            {
                entry_id: _place(members, pattern, sessions[pattern.session], events[entry_id])
                for entry_id, pattern in patterns.items()
                if pattern.session is not None and pattern.flight is not None
            },
        )
        for entry_id, pattern in patterns.items():
            for lift, weight in pattern.openers.items():
                choose_opener(desk, entry_id, lift, weight)
        for entry_id, pattern in patterns.items():
            if pattern.aim is not None:
                wish = WishesData(
                    entry_id=entry_id,
                    aim=pattern.aim,
                    aim_lift=pattern.aim_lift,
                    aim_weight=pattern.aim_weight,
                )
                wish_for_all(desk, meet_id, frozenset({entry_id}), wish, no_progress)
        plan_meet(desk, meet_id, only_missing=True)
        _get_ready(desk, patterns)


def _get_ready(desk: Desk, patterns: Mapping[int, EntryPattern]) -> None:
    """What is done and looked for already."""
    today = desk.today()
    note_tasks(
        desk,
        [
            TaskData(entry_id=entry_id, code=code, done_on=today)
            for entry_id, pattern in patterns.items()
            for code in pattern.done
        ],
    )
    note_kit_checks(
        desk,
        [
            KitCheckData(
                entry_id=entry_id,
                round=FIRST_ROUND,
                present=pattern.kit_seen,
                missing=pattern.kit_missing,
            )
            for entry_id, pattern in patterns.items()
            if pattern.kit_seen or pattern.kit_missing
        ],
    )


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


def _entry(
    members: Members, pattern: EntryPattern, meet_id: int, sessions: Mapping[str, _Session]
) -> EntryData:
    person = members.people[pattern.who]
    return EntryData(
        athlete_id=members.athletes[pattern.who].id,
        meet_id=meet_id,
        event=pattern.event or person.event,
        equipment=person.profile.equipment,
        divisions=pattern.divisions,
        weight_class=pattern.weight_class,
        comes_down=pattern.comes_down,
        session_id=None if pattern.session is None else sessions[pattern.session].id,
        lot=pattern.lot,
        expected_squat=pattern.expected.get(Lift.SQUAT),
        expected_bench=pattern.expected.get(Lift.BENCH),
        expected_deadlift=pattern.expected.get(Lift.DEADLIFT),
        note=pattern.note,
    )


def _place(members: Members, pattern: EntryPattern, session: _Session, event: Event) -> Place:
    """Flights and duties of an entry."""
    return Place(
        tuple(session.flight_ids[pattern.flight or "", lift] for lift in event.lifts),
        tuple((members.handler_ids[duty.handler], duty.role) for duty in pattern.duties),
    )


def _moment(moment: Moment, first_day: date) -> datetime:
    return datetime.combine(first_day + timedelta(days=moment.day), moment.at)
