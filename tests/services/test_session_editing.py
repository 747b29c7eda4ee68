"""Sessions and their flights: listed in order, renamed in place, reordered, and undone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Entry, EntryData, Flight, MeetData, Session, SessionData
from coachdesk.services.desk import Desk
from coachdesk.services.entry_editing import save_entry
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import Place, add_meet, enter_athlete
from coachdesk.services.roster import add_athlete
from coachdesk.services.session_editing import (
    FlightLine,
    add_session_with_flights,
    delete_session,
    edit_session,
    extent_of_session,
)
from coachdesk.services.undo import redo, undo

START = datetime(2027, 2, 20, 9, 0)  # noqa: DTZ001 - a meet's local time


class Day:
    """A session in which one athlete squats in flight B."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.meet_id = add_meet(
            desk,
            MeetData(
                name="Harbour Open",
                starts_on=date(2027, 2, 20),
                rulebook="ipf_2021",
                time_zone="Europe/Berlin",
            ),
        ).value
        add_session_with_flights(
            desk,
            SessionData(meet_id=self.meet_id, name="Morning", starts_at=START),
            {Lift.SQUAT: [FlightLine("A", 12), FlightLine("B"), FlightLine("C")]},
        )
        athlete = AthleteData(
            given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
        )
        enter_athlete(
            desk,
            EntryData(
                athlete_id=add_athlete(desk, athlete).value,
                meet_id=self.meet_id,
                event=Event.THREE_LIFT,
                equipment=Equipment.CLASSIC,
                divisions=("open",),
                session_id=self.session.id,
            ),
        )
        flight = next(flight for flight in self.flights if flight.name == "B")
        save_entry(desk, self.entry, self.entry, Place((flight.id,)))

    @property
    def session(self) -> Session:
        with self.desk.reading() as reader:
            return reader.list(Session)[0]

    @property
    def entry(self) -> Entry:
        with self.desk.reading() as reader:
            return reader.list(Entry)[0]

    @property
    def flights(self) -> tuple[Flight, ...]:
        with self.desk.reading() as reader:
            return reader.list(Flight)

    def names(self) -> list[str]:
        """The squat's flights in their order."""
        ordered = sorted(self.flights, key=lambda flight: flight.position)
        return [flight.name for flight in ordered if flight.lift is Lift.SQUAT]

    def flight_of_ana(self) -> list[str]:
        with self.desk.reading() as reader:
            record = read_meet(reader, self.meet_id, self.desk.today())
        return [record.flights[each].name for each in record.flights_of_entry[self.entry.id]]

    def arrange(self, *lines: FlightLine, lift: Lift = Lift.SQUAT) -> None:
        edit_session(
            self.desk, self.session, self.flights, replace(self.session), {lift: list(lines)}
        )


@pytest.fixture
def day(desk: Desk) -> Day:
    return Day(desk)


def test_a_flight_moved_or_renamed_keeps_its_entries(day: Day) -> None:
    day.arrange(FlightLine("B"), FlightLine("C"), FlightLine("A", 12))
    assert day.names() == ["B", "C", "A"]
    assert day.flight_of_ana() == ["B"]
    day.arrange(FlightLine("Two"), FlightLine("C"), FlightLine("A", 12))
    assert day.flight_of_ana() == ["Two"]
    undo(day.desk)
    undo(day.desk)
    assert day.names() == ["A", "B", "C"]
    assert day.flight_of_ana() == ["B"]
    redo(day.desk)
    assert day.names() == ["B", "C", "A"]


def test_a_flight_that_is_no_longer_listed_goes(day: Day) -> None:
    day.arrange(FlightLine("A"), FlightLine("C"))
    assert day.names() == ["A", "C"]
    assert day.flight_of_ana() == []
    undo(day.desk)
    assert day.flight_of_ana() == ["B"]


def test_the_number_of_lifters_is_kept(day: Day) -> None:
    assert {flight.name: flight.lifters for flight in day.flights} == {
        "A": 12,
        "B": None,
        "C": None,
    }


ORDERS = st.lists(st.lists(st.sampled_from("ABCDE"), unique=True), min_size=1, max_size=4)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=30)
@given(ORDERS)
def test_any_order_can_be_taken_and_every_step_undone(day: Day, orders: list[list[str]]) -> None:
    """Two flights never hold the same place, whichever way an action is replayed."""
    before = day.names()
    for names in orders:
        day.arrange(*(FlightLine(name) for name in names))
        assert day.names() == names
    for _ in orders:
        undo(day.desk)
    assert day.names() == before


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ([FlightLine("A"), FlightLine("a")], "check.flight_twice"),
        ([FlightLine(" ")], "check.required"),
        ([FlightLine("A", 0)], "check.from_one"),
    ],
)
def test_flights_that_cannot_be_are_refused_at_their_lift(
    day: Day, lines: list[FlightLine], code: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        day.arrange(*lines)
    assert (refused.value.field, refused.value.text.code) == ("flights_squat", code)
    assert day.names() == ["A", "B", "C"]


def test_an_old_sight_of_the_flights_is_refused(day: Day) -> None:
    seen, flights = day.session, day.flights
    day.arrange(FlightLine("A"))
    with pytest.raises(Trouble) as refused:
        edit_session(day.desk, seen, flights, seen, {})
    assert refused.value.text.code == "record.moved_on"


def test_a_deleted_session_leaves_its_entries_and_undo_puts_them_back(day: Day) -> None:
    extent = extent_of_session(day.desk, day.session)
    assert (extent.flights, extent.entries) == (3, 1)
    delete_session(day.desk, day.session)
    left = day.entry
    undo(day.desk)
    assert (left.session_id, day.entry.session_id) == (None, day.session.id)
    assert day.flight_of_ana() == ["B"]
