"""An entry as a whole: defaults from what is on file, changes, withdrawing, deleting, undoing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from coachdesk.domain.athlete import AthleteData, HandlerData, ReadingData
from coachdesk.domain.attempts import LiftPlan
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import (
    Attempt,
    AttemptData,
    Entry,
    EntryData,
    FlightData,
    HandlerDuty,
    MeetData,
    Role,
    SessionData,
)
from coachdesk.domain.units import kilograms
from coachdesk.services.attempt_editing import choose_attempt
from coachdesk.services.desk import Desk
from coachdesk.services.entry_defaults import default_entries
from coachdesk.services.entry_editing import (
    delete_entries,
    extent_of_entries,
    save_entry,
    withdraw_entry,
)
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import (
    Place,
    add_flights,
    add_meet,
    add_session,
    enter_athlete,
    enter_athletes,
    record_attempts,
)
from coachdesk.services.planning import plan_entry
from coachdesk.services.roster import add_athlete, add_handler, add_readings
from coachdesk.services.undo import undo, undoable

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)
ANA = AthleteData(given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4))


@pytest.fixture
def meet_id(desk: Desk) -> int:
    return add_meet(desk, MEET).value


@pytest.fixture
def entry(desk: Desk, meet_id: int) -> Entry:
    data = EntryData(
        athlete_id=add_athlete(desk, ANA).value,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
        expected_squat=kilograms(120),
    )
    enter_athlete(desk, data)
    return _entry(desk)


def _entry(desk: Desk) -> Entry:
    with desk.reading() as reader:
        return reader.list(Entry)[0]


def _weigh(desk: Desk, athlete_id: int, *readings: tuple[str, int]) -> None:
    add_readings(
        desk,
        [
            ReadingData(athlete_id=athlete_id, on=date(2026, 11, day), weight=kilograms(kg))
            for kg, day in readings
        ],
    )


def test_an_entry_begins_in_the_class_weighed_now(desk: Desk, meet_id: int) -> None:
    """IPF, women since 2021: 63.4 kg is above 63, so 69."""
    athlete_id = add_athlete(desk, ANA).value
    _weigh(desk, athlete_id, ("62.8", 1), ("63.5", 22), ("63.3", 24))
    (made,) = default_entries(desk, meet_id, [athlete_id])
    assert made.data == EntryData(
        athlete_id=athlete_id,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="69",
    )
    assert not made.data.comes_down


def test_without_a_recent_weight_the_class_stays_open(desk: Desk, meet_id: int) -> None:
    athlete_id = add_athlete(desk, ANA).value
    (made,) = default_entries(desk, meet_id, [athlete_id])
    assert made.data.weight_class is None
    assert made.fault is None


@pytest.mark.parametrize(
    ("born", "division"),
    [
        (date(1996, 5, 4), "open"),
        (date(2006, 5, 4), "junior"),
        (date(2010, 1, 1), "sub_junior"),
        (date(1987, 12, 31), "masters_1"),
        (date(1950, 6, 1), "masters_4"),
    ],
)
def test_an_entry_begins_in_the_division_of_the_athletes_age(
    desk: Desk, meet_id: int, born: date, division: str
) -> None:
    """IPF: the calendar year decides. 1987 turns 40 in 2027, 2006 turns 21, 2010 turns 17."""
    athlete_id = add_athlete(desk, replace(ANA, birth_date=born)).value
    (made,) = default_entries(desk, meet_id, [athlete_id])
    assert made.data.divisions == (division,)


def test_an_entry_begins_in_the_event_lifted_last(desk: Desk, entry: Entry) -> None:
    """Where the rulebook has it."""
    with desk.reading() as reader:
        data = reader.get(Entry, entry.id)
    save_entry(desk, data, replace(data, event=Event.BENCH_ONLY), Place())
    later = add_meet(desk, replace(MEET, name="Later")).value
    (made,) = default_entries(desk, later, [entry.athlete_id])
    assert made.data.event is Event.BENCH_ONLY


def test_who_cannot_be_entered_is_said_with_the_reason(desk: Desk, meet_id: int) -> None:
    """Every IPF division goes by age."""
    athlete_id = add_athlete(desk, replace(ANA, birth_date=None)).value
    (made,) = default_entries(desk, meet_id, [athlete_id])
    assert made.fault is not None
    assert made.fault.code == "entry.no_division_open"


def test_nobody_is_entered_twice_in_the_same_event_and_equipment(desk: Desk, entry: Entry) -> None:
    same = EntryData(
        athlete_id=entry.athlete_id,
        meet_id=entry.meet_id,
        event=entry.event,
        equipment=entry.equipment,
        divisions=entry.divisions,
    )
    with pytest.raises(InvalidInput) as refused:
        enter_athlete(desk, same)
    assert refused.value.text.code == "entry.twice"
    twice = [replace(same, equipment=Equipment.EQUIPPED)] * 2
    with pytest.raises(InvalidInput) as refused:
        enter_athletes(desk, twice)
    assert refused.value.text.code == "entry.twice_at_once"
    assert enter_athlete(desk, twice[0]).value


def test_an_entry_is_saved_with_its_place_in_one_action(desk: Desk, entry: Entry) -> None:
    session_id = add_session(
        desk,
        SessionData(
            meet_id=entry.meet_id,
            name="Morning",
            starts_at=datetime(2027, 2, 20, 9, 0),  # noqa: DTZ001 - a meet's local time
        ),
    ).value
    flights = add_flights(
        desk,
        [
            FlightData(session_id=session_id, lift=lift, name="A", position=1)
            for lift in (Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT)
        ],
    ).value
    bo = add_handler(desk, HandlerData(name="Bo")).value
    data = replace(entry, weight_class="69", session_id=session_id, lot=7)
    place = Place(flights, ((bo, Role.HANDLING), (bo, Role.TABLE)))

    save_entry(desk, entry, data, place)

    with desk.reading() as reader:
        record = read_meet(reader, entry.meet_id, desk.today())
    assert record.entries[0].lot == 7
    assert record.flights_of_entry[entry.id] == flights
    assert {duty.role for duty in record.duties} == {Role.HANDLING, Role.TABLE}
    with pytest.raises(Trouble) as refused:
        save_entry(desk, entry, data, Place())
    assert refused.value.text.code == "record.moved_on"
    changed = {change.kind for change in save_entry(desk, _entry(desk), data, place).changes}
    assert changed == {"entry"}  # what stays as it was is not touched
    undo(desk)
    undo(desk)
    with desk.reading() as reader:
        assert reader.list(HandlerDuty) == ()
    assert (_entry(desk).weight_class, _entry(desk).lot) == ("63", None)


def test_a_flight_of_another_session_or_lift_is_refused(desk: Desk, entry: Entry) -> None:
    def session(name: str) -> int:
        return add_session(
            desk,
            SessionData(
                meet_id=entry.meet_id,
                name=name,
                starts_at=datetime(2027, 2, 20, 9, 0),  # noqa: DTZ001 - a meet's local time
            ),
        ).value

    morning, evening = session("Morning"), session("Evening")
    (squat,) = add_flights(
        desk, [FlightData(session_id=morning, lift=Lift.SQUAT, name="A", position=1)]
    ).value
    for change, code in (
        ({"session_id": evening}, "check.flight_of_session"),
        ({"session_id": morning, "event": Event.BENCH_ONLY}, "check.flight_of_event"),
    ):
        with pytest.raises(InvalidInput) as refused:
            save_entry(desk, entry, replace(entry, **change), Place((squat,)))
        assert (refused.value.field, refused.value.text.code) == ("flights", code)
    assert _entry(desk) == entry


def test_another_expected_maximum_makes_the_plan_anew(desk: Desk, entry: Entry) -> None:
    def squat() -> LiftPlan:
        with desk.reading() as reader:
            plan = read_meet(reader, entry.meet_id, desk.today()).plans[entry.id].plan
        found = plan.of(Lift.SQUAT)
        assert found is not None
        return found

    plan_entry(desk, entry)
    before = squat()
    save_entry(desk, entry, replace(entry, expected_squat=kilograms(130)), Place())
    assert (before.expected, squat().expected) == (kilograms(120), kilograms(130))
    assert squat().opener.weight.grams > before.opener.weight.grams


def test_a_lift_that_is_no_longer_lifted_loses_its_choices_but_never_its_results(
    desk: Desk, entry: Entry
) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(100), seen=None)
    choose_attempt(desk, entry.id, Lift.BENCH, 1, kilograms(60), seen=None)
    save_entry(desk, entry, replace(entry, event=Event.BENCH_ONLY), Place())
    with desk.reading() as reader:
        assert [each.lift for each in reader.list(Attempt)] == [Lift.BENCH]
    undo(desk)
    lifted = AttemptData(
        entry_id=entry.id, lift=Lift.DEADLIFT, number=1, weight=kilograms(140), result=Result.GOOD
    )
    record_attempts(desk, [lifted])
    present = _entry(desk)
    with pytest.raises(InvalidInput) as refused:
        save_entry(desk, present, replace(present, event=Event.BENCH_ONLY), Place())
    assert (refused.value.field, refused.value.text.code) == ("event", "entry.event_lifted")
    with desk.reading() as reader:
        assert len(reader.list(Attempt)) == 3


def test_a_withdrawn_entry_comes_back_with_all_that_belongs_to_it(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(100), seen=None)
    withdraw_entry(desk, entry, withdrawn=True)
    assert _entry(desk).withdrawn
    withdraw_entry(desk, _entry(desk), withdrawn=False)
    with desk.reading() as reader:
        assert len(reader.list(Attempt)) == 1


def test_deleting_entries_says_what_goes_along_and_can_be_undone(desk: Desk, entry: Entry) -> None:
    choose_attempt(desk, entry.id, Lift.SQUAT, 1, kilograms(100), seen=None)
    plan_entry(desk, entry)
    extent = extent_of_entries(desk, [entry])
    assert (extent.entries, extent.attempts, extent.plans) == (1, 1, 1)
    delete_entries(desk, [entry])
    label = undoable(desk)
    assert label is not None
    assert label.code == "did.delete_entry"
    with desk.reading() as reader:
        assert (reader.list(Entry), reader.list(Attempt)) == ((), ())
    undo(desk)
    with desk.reading() as reader:
        assert len(reader.list(Attempt)) == 1
    assert _entry(desk).athlete_id == entry.athlete_id
