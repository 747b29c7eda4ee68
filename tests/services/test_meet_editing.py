"""A meet that moves, changes its rulebook, or goes: its sessions and entries follow."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Entry, EntryData, Flight, Meet, MeetData, Session, SessionData
from coachdesk.services.desk import Desk
from coachdesk.services.entry_editing import withdraw_entry
from coachdesk.services.meet_editing import all_meets, delete_meet, edit_meet, extent_of_meet
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete
from coachdesk.services.session_editing import FlightLine, add_session_with_flights
from coachdesk.services.undo import undo

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


@pytest.fixture
def meet(desk: Desk) -> Meet:
    """A meet with a session that is weighed in the evening before, and one entry."""
    meet_id = add_meet(desk, MEET).value
    add_session_with_flights(
        desk,
        SessionData(
            meet_id=meet_id,
            name="Morning",
            starts_at=datetime(2027, 2, 20, 9, 0),  # noqa: DTZ001 - a meet's local time
            weigh_in_opens=datetime(2027, 2, 19, 18, 0),  # noqa: DTZ001 - a meet's local time
        ),
        {Lift.SQUAT: [FlightLine("A"), FlightLine("B")]},
    )
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    enter_athlete(
        desk,
        EntryData(
            athlete_id=add_athlete(desk, athlete).value,
            meet_id=meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            weight_class="63",
        ),
    )
    return _meet(desk)


def _meet(desk: Desk) -> Meet:
    with desk.reading() as reader:
        return reader.list(Meet)[0]


def _entry(desk: Desk) -> Entry:
    with desk.reading() as reader:
        return reader.list(Entry)[0]


def test_sessions_keep_their_day_when_the_meet_moves(desk: Desk, meet: Meet) -> None:
    edit_meet(desk, meet, replace(meet, starts_on=date(2027, 3, 6), name="Harbour Cup"))
    with desk.reading() as reader:
        (session,) = reader.list(Session)
    assert session.starts_at.isoformat() == "2027-03-06T09:00:00"
    assert session.weigh_in_opens is not None
    assert session.weigh_in_opens.isoformat() == "2027-03-05T18:00:00"
    undo(desk)
    assert _meet(desk).name == "Harbour Open"


def test_an_old_sight_of_a_meet_does_not_overwrite_a_new_one(desk: Desk, meet: Meet) -> None:
    edit_meet(desk, meet, replace(meet, place="Pier 3"))
    with pytest.raises(Trouble) as refused:
        edit_meet(desk, meet, replace(meet, place="Pier 4"))
    assert refused.value.text.code == "record.moved_on"
    assert _meet(desk).place == "Pier 3"


def test_entries_lose_a_class_another_rulebook_does_not_have(desk: Desk, meet: Meet) -> None:
    """Traditional women's classes: 60 and 67.5, no 63."""
    done = edit_meet(desk, meet, replace(meet, rulebook="traditional_two_hour"))
    assert [told.code for told in done.value] == ["meet.entry_fitted"]
    assert _entry(desk).weight_class is None
    assert _entry(desk).divisions
    undo(desk)
    assert _entry(desk).weight_class == "63"


def test_a_rulebook_without_the_event_of_an_entry_is_refused(desk: Desk) -> None:
    """The IPF family has no push-pull; the traditional set has."""
    meet_id = add_meet(desk, replace(MEET, rulebook="traditional_two_hour")).value
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    enter_athlete(
        desk,
        EntryData(
            athlete_id=add_athlete(desk, athlete).value,
            meet_id=meet_id,
            event=Event.PUSH_PULL,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
        ),
    )
    seen = _meet(desk)
    with pytest.raises(InvalidInput) as refused:
        edit_meet(desk, seen, replace(seen, rulebook="ipf_2021"))
    assert refused.value.field == "rulebook"
    assert _meet(desk) == seen


def test_a_meet_goes_with_all_that_belongs_to_it_and_comes_back(desk: Desk, meet: Meet) -> None:
    extent = extent_of_meet(desk, meet)
    assert (extent.sessions, extent.flights, extent.entries) == (1, 2, 1)
    delete_meet(desk, meet)
    with desk.reading() as reader:
        assert (reader.list(Session), reader.list(Flight), reader.list(Entry)) == ((), (), ())
    undo(desk)
    with desk.reading() as reader:
        assert len(reader.list(Flight)) == 2
    assert _entry(desk).weight_class == "63"


def test_the_list_counts_who_is_not_withdrawn(desk: Desk, meet: Meet) -> None:
    add_meet(desk, replace(MEET, name="Later", starts_on=date(2027, 6, 5)))
    assert [(line.meet.name, line.entries) for line in all_meets(desk)] == [
        ("Later", 0),
        ("Harbour Open", 1),
    ]
    withdraw_entry(desk, _entry(desk), withdrawn=True)
    assert [line.entries for line in all_meets(desk)] == [0, 0]
    assert meet.id
