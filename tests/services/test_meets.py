"""Entering a team: what the rulebook has to say is said at the field, and nothing is kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from coachdesk.domain.athlete import AthleteData, HandlerData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
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
from coachdesk.domain.units import Mass, kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import (
    Place,
    add_flights,
    add_meet,
    add_session,
    choose_opener,
    edit_entry,
    enter_athlete,
    find_meet,
    place_entries,
    record_attempts,
)
from coachdesk.services.roster import add_athlete, add_handler
from coachdesk.services.undo import undo

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


@pytest.fixture
def entry(desk: Desk) -> EntryData:
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    return EntryData(
        athlete_id=add_athlete(desk, athlete).value,
        meet_id=add_meet(desk, MEET).value,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
    )


def _entries(desk: Desk) -> tuple[Entry, ...]:
    with desk.reading() as reader:
        return reader.list(Entry)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"weight_class": "60"}, "weight_class"),
        ({"weight_class": "43"}, "weight_class"),
        ({"divisions": ()}, "divisions"),
        ({"divisions": ("junior",)}, "divisions"),
        ({"event": Event.DEADLIFT_ONLY}, "event"),
        ({"bodyweight": kilograms(5)}, "bodyweight"),
        ({"expected_squat": kilograms(-1)}, "expected_squat"),
    ],
)
def test_an_entry_against_the_rulebook_is_refused_at_its_field(
    desk: Desk, entry: EntryData, change: dict[str, object], field: str
) -> None:
    """Classes and age rules: IPF, since 2021; the 43 kg class is for sub-juniors and juniors."""
    with pytest.raises(InvalidInput) as refused:
        enter_athlete(desk, replace(entry, **change))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert _entries(desk) == ()


def test_an_unknown_division_or_rulebook_is_said(desk: Desk, entry: EntryData) -> None:
    with pytest.raises(Trouble):
        enter_athlete(desk, replace(entry, divisions=("giants",)))
    with pytest.raises(Trouble) as refused:
        add_meet(desk, replace(MEET, rulebook="moon"))
    assert refused.value.text.code == "shelf.not_found"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": "  "}, "name"),
        ({"time_zone": "Mars/Olympus"}, "time_zone"),
        ({"time_zone": "../etc/passwd"}, "time_zone"),
        ({"entry_deadline": date(2027, 3, 1)}, "entry_deadline"),
        ({"kit_inspection_on": date(2027, 2, 21)}, "kit_inspection_on"),
    ],
)
def test_a_meet_that_cannot_be_is_refused(
    desk: Desk, change: dict[str, object], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        add_meet(desk, replace(MEET, **change))  # type: ignore[arg-type]
    assert refused.value.field == field


def test_the_bar_decides_what_opener_can_be_chosen(desk: Desk, entry: EntryData) -> None:
    """Bar with collars 25 kg, steps of 2.5 kg: IPF family."""
    entry_id = enter_athlete(desk, entry).value

    def refusal(lift: Lift, weight: Mass) -> str:
        with pytest.raises(InvalidInput) as refused:
            choose_opener(desk, entry_id, lift, weight)
        return refused.value.text.code

    assert refusal(Lift.SQUAT, kilograms("22.5")) == "attempts.below_bar"
    assert refusal(Lift.SQUAT, kilograms(101)) == "attempts.off_step"
    assert refusal(Lift.SQUAT, kilograms(900)) == "check.lifted"
    choose_opener(desk, entry_id, Lift.SQUAT, kilograms(100))
    choose_opener(desk, entry_id, Lift.SQUAT, kilograms("102.5"))
    with desk.reading() as reader:
        assert [each.weight.kg for each in reader.list(Attempt)] == [102.5]
    undo(desk)
    with desk.reading() as reader:
        assert [each.weight.kg for each in reader.list(Attempt)] == [100]


def test_an_opener_of_a_lift_outside_the_event_is_refused(desk: Desk, entry: EntryData) -> None:
    entry_id = enter_athlete(desk, replace(entry, event=Event.BENCH_ONLY)).value
    with pytest.raises(InvalidInput) as refused:
        choose_opener(desk, entry_id, Lift.SQUAT, kilograms(100))
    assert refused.value.field == "lift"


def test_flights_and_handlers_of_an_entry(desk: Desk, entry: EntryData) -> None:
    entry_id = enter_athlete(desk, entry).value
    session = SessionData(
        meet_id=entry.meet_id,
        name="Morning",
        starts_at=datetime(2027, 2, 20, 9, 0),  # noqa: DTZ001 - a meet's local time
    )
    session_id = add_session(desk, session).value
    flights = add_flights(
        desk,
        [
            FlightData(session_id=session_id, lift=lift, name=name, position=position)
            for lift in Lift
            for position, name in ((1, "A"), (2, "B"))
        ],
    ).value
    handler = add_handler(desk, HandlerData(name="Bo")).value
    kept = _entries(desk)[0]
    edit_entry(desk, entry_id, kept.version, replace(entry, session_id=session_id))
    with pytest.raises(InvalidInput):
        place_entries(desk, {kept.id: Place(flights[:2])})
    place_entries(desk, {kept.id: Place(flights[::2], ((handler, Role.HANDLING),))})
    place_entries(desk, {kept.id: Place(flights[1::2], ((handler, Role.TABLE),))})
    with desk.reading() as reader:
        assert [each.role for each in reader.list(HandlerDuty)] == [Role.TABLE]


def test_a_session_of_another_meet_is_refused(desk: Desk, entry: EntryData) -> None:
    other = add_meet(desk, replace(MEET, name="Other")).value
    session_id = add_session(
        desk,
        SessionData(
            meet_id=other,
            name="Morning",
            starts_at=datetime(2027, 2, 20, 9, 0),  # noqa: DTZ001 - a meet's local time
        ),
    ).value
    with pytest.raises(InvalidInput) as refused:
        enter_athlete(desk, replace(entry, session_id=session_id))
    assert refused.value.field == "session_id"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"number": 5}, "number"),
        ({"lights": "wwx"}, "lights"),
        ({"lights": "ww"}, "lights"),
        ({"weight": kilograms(0)}, "weight"),
    ],
)
def test_attempts_that_cannot_be_are_refused(
    desk: Desk, entry: EntryData, change: dict[str, object], field: str
) -> None:
    entry_id = enter_athlete(desk, entry).value
    attempt = AttemptData(entry_id=entry_id, lift=Lift.SQUAT, number=1, weight=kilograms(100))
    with pytest.raises(InvalidInput) as refused:
        record_attempts(desk, [attempt, replace(attempt, **change)])  # type: ignore[arg-type]
    assert refused.value.field == field
    with desk.reading() as reader:
        assert reader.list(Attempt) == ()


def test_a_meet_is_found_by_name_the_coming_one_first(desk: Desk) -> None:
    add_meet(desk, replace(MEET, starts_on=date(2025, 2, 20)))
    coming = add_meet(desk, MEET).value
    add_meet(desk, replace(MEET, starts_on=date(2028, 2, 20)))
    assert find_meet(desk, " harbour OPEN ").id == coming
    with pytest.raises(Trouble) as refused:
        find_meet(desk, "Harbor Open")
    assert refused.value.text.code == "meet.not_found"
