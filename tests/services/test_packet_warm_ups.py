"""Warm-ups in a packet: for the opener that counts, with the warm-up room's discs, and in time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import EntryData, FlightData, MeetData, SessionData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import (
    Place,
    add_flights,
    add_meet,
    add_session,
    choose_opener,
    enter_athlete,
    place_entries,
)
from coachdesk.services.packet_content import LiftWarmUps, WarmUpPage
from coachdesk.services.packets import entry_packet, print_job
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_athlete

START = datetime(2027, 2, 27, 10, 0)  # noqa: DTZ001 - a meet's local time


class Team:
    """A meet with one session, entered by one athlete who squats about 200 kg."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.meet_id = add_meet(
            desk,
            MeetData(
                name="Harbour Open",
                starts_on=START.date(),
                rulebook="ipf_2021",
                time_zone="Europe/Berlin",
            ),
        ).value
        self.session_id = add_session(
            desk, SessionData(meet_id=self.meet_id, name="Men", starts_at=START)
        ).value

    def flight(self, name: str, position: int, lifters: int | None) -> int:
        """Add a flight of the squat."""
        flight = FlightData(
            session_id=self.session_id,
            lift=Lift.SQUAT,
            name=name,
            position=position,
            lifters=lifters,
        )
        return add_flights(self.desk, [flight]).value[0]

    def enter(self, *flights: int, **changes: object) -> int:
        """Enter an athlete in flights and answer the entry's id."""
        athlete = AthleteData(
            given_name="Jan", family_name="Rust", sex=Sex.MALE, birth_date=date(1995, 3, 2)
        )
        entry = EntryData(
            athlete_id=add_athlete(self.desk, athlete).value,
            meet_id=self.meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            session_id=self.session_id,
            expected_squat=kilograms(220),
            expected_bench=kilograms(140),
            expected_deadlift=kilograms(250),
        )
        entered = replace(entry, **changes)  # type: ignore[arg-type]
        entry_id = enter_athlete(self.desk, entered).value
        if flights:
            place_entries(self.desk, {entry_id: Place(flight_ids=flights)})
        return entry_id

    def page(self) -> WarmUpPage:
        """The warm-ups of the one entry, planned anew."""
        plan_meet(self.desk, self.meet_id)
        job = print_job(self.desk, self.meet_id)
        return entry_packet(self.desk, job, job.entries[0]).warm_up

    def squat(self) -> LiftWarmUps:
        """The warm-ups of the squat."""
        return self.page().lifts[0]


@pytest.fixture
def team(desk: Desk) -> Team:
    return Team(desk)


def test_each_lift_has_warm_ups_for_the_opener_on_its_card(team: Team) -> None:
    team.enter()
    page = team.page()
    assert [one.lift for one in page.lifts] == list(Lift)
    for one in page.lifts:
        assert one.warm_ups is not None
        assert one.warm_ups.opener == one.opener
        assert one.warm_ups.usual[-1].weight.grams < one.warm_ups.opener.grams


def test_the_opener_handed_in_counts_not_the_planned_one(team: Team) -> None:
    entry_id = team.enter()
    assert not team.squat().opener_chosen
    choose_opener(team.desk, entry_id, Lift.SQUAT, kilograms(180))
    squat = team.squat()
    assert squat.opener_chosen
    assert squat.warm_ups is not None
    assert squat.warm_ups.opener == kilograms(180)


def test_the_warm_up_room_has_the_meets_bar_and_no_50_kg_discs(team: Team) -> None:
    """Bar 20 kg, collars 2.5 kg, discs up to 50 kg at the platform (IPF 2007); the 50 kg disc
    seldom stands in the warm-up room (common practice), record discs never."""
    team.enter()
    room = team.page().room
    assert (room.bar, room.collar) == (kilograms(20), kilograms("2.5"))
    assert [disc.weight.kg for disc in room.discs] == [25, 20, 15, 10, 5, 2.5, 1.25]


def test_without_an_opener_there_is_nothing_to_warm_up_for(team: Team) -> None:
    team.enter(expected_squat=None)
    squat = team.squat()
    assert squat.warm_ups is None
    assert squat.begins_at is None


def test_an_equipped_entry_warms_up_in_gear(team: Team) -> None:
    team.enter(equipment=Equipment.EQUIPPED)
    warm_ups = team.squat().warm_ups
    assert warm_ups is not None
    assert all(one.gear is not None for one in warm_ups.usual)


def test_the_first_flight_begins_before_the_session(team: Team) -> None:
    """The first set is due 22 min before the call, and the call may come at 10:00."""
    team.enter(team.flight("A", 1, 12))
    squat = team.squat()
    assert squat.warm_ups is not None
    assert squat.warm_ups.usual[0].minutes == 22
    assert squat.begins_at == datetime(2027, 2, 27, 9, 38)  # noqa: DTZ001
    assert [one.begins_at for one in team.page().lifts[1:]] == [None, None]


def test_a_later_flight_waits_for_three_rounds_of_the_earlier_ones(team: Team) -> None:
    """Three rounds of 12 at a minute each are 36 min: 10:36, less 22 min."""
    team.flight("A", 1, 12)
    team.enter(team.flight("B", 2, 10))
    assert team.squat().begins_at == datetime(2027, 2, 27, 10, 14)  # noqa: DTZ001


def test_a_small_earlier_flight_is_given_its_extra_rest(team: Team) -> None:
    """A group of 8 rests 2 min more after each round (ipf_2021, recalled): 24 + 6 - 22 min."""
    team.flight("A", 1, 8)
    team.enter(team.flight("B", 2, 10))
    assert team.squat().begins_at == datetime(2027, 2, 27, 10, 8)  # noqa: DTZ001


def test_no_time_is_made_up_where_flight_size_or_place_is_unknown(team: Team) -> None:
    team.flight("A", 1, None)
    team.enter(team.flight("B", 2, 10))
    assert team.squat().begins_at is None


def test_an_entry_without_a_flight_among_flights_has_no_time(team: Team) -> None:
    team.flight("A", 1, 12)
    team.enter()
    assert team.squat().begins_at is None


def test_a_session_without_flights_begins_with_its_first_lift(team: Team) -> None:
    team.enter()
    assert team.squat().begins_at == datetime(2027, 2, 27, 9, 38)  # noqa: DTZ001


def test_bench_only_in_a_session_that_squats_first_has_no_time(team: Team) -> None:
    team.flight("A", 1, 12)
    team.enter(event=Event.BENCH_ONLY)
    (bench,) = team.page().lifts
    assert bench.warm_ups is not None
    assert bench.begins_at is None


def test_an_entry_without_a_session_has_no_time(team: Team) -> None:
    team.enter(session_id=None)
    assert team.squat().begins_at is None
