"""When each matter begins and ends to need the coach; what comes first."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from coachdesk.domain.athlete import LossBar, Reading
from coachdesk.domain.attention import (
    Due,
    EntryFacts,
    Kind,
    Matter,
    Place,
    matters_of,
    weight_matters,
)
from coachdesk.domain.bodyweight import Bodyweight, bodyweight
from coachdesk.domain.class_fit import Person, class_fit, present_weight
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_plan import Standing

MEET = date(2027, 3, 27)
CLASSES = tuple(
    WeightClass(name=name, limit=kilograms(name) if "+" not in name else None)
    for name in ("74", "83", "93", "93+")
)
PERSON = Person(date(1995, 3, 1), 180, LossBar.NONE, first_meet=False)


def weighing(kg: str, today: date, *, last: int = 0) -> Bodyweight:
    found = bodyweight(
        [
            Reading(
                id=ago + 1,
                version=1,
                athlete_id=1,
                on=today - timedelta(days=ago),
                weight=kilograms(kg),
            )
            for ago in range(last, 60, 3)
        ]
    )
    assert found is not None
    return found


def facts(kg: str, today: date, entered: str = "83", person: Person = PERSON) -> EntryFacts:
    """An entry to the class entered of somebody who weighs as much."""
    weight = weighing(kg, today)
    present = present_weight(weight, today)
    assert present is not None
    fit = class_fit(
        next(each for each in CLASSES if each.name == entered),
        present=present,
        today=today,
        weigh_in_on=MEET,
        person=person,
        chosen=False,
    )
    return EntryFacts(
        starts_on=MEET,
        weigh_in_on=MEET,
        weight=weight,
        fit=fit,
        classes=CLASSES,
        entered=entered,
    )


def kinds(found: tuple[Matter, ...]) -> list[Kind]:
    return [matter.kind for matter in found]


def in_class(today: date) -> EntryFacts:
    return facts("82", today)


def test_in_the_class_there_is_nothing_to_do() -> None:
    assert matters_of(in_class(MEET - timedelta(weeks=10)), MEET - timedelta(weeks=10)) == ()


@pytest.mark.parametrize(
    ("person", "said"),
    [
        (replace(PERSON, birth_date=date(2010, 1, 1)), "class_fit.minor"),
        (replace(PERSON, birth_date=None), "class_fit.age_unknown"),
        (replace(PERSON, loss_bar=LossBar.PREGNANCY), "class_fit.bar.pregnancy"),
        (replace(PERSON, first_meet=True), "class_fit.first_meet"),
    ],
)
def test_where_nobody_may_come_down_the_class_is_the_matter(person: Person, said: str) -> None:
    today = MEET - timedelta(weeks=16)
    (matter,) = matters_of(facts("85", today, person=person), today)
    assert (matter.kind, matter.place) == (Kind.CLASS, Place.WEIGHT)
    assert dict(matter.why.values)["why"] == text(said)


def test_a_way_down_that_is_agreed_on_is_no_matter_until_it_is_behind() -> None:
    today = MEET - timedelta(weeks=12)
    above = facts("85.5", today)
    assert kinds(matters_of(above, today)) == [Kind.START_DOWN]
    agreed = replace(above, has_plan=True, line=Standing(0.1, None))
    assert matters_of(agreed, today) == ()
    since = today - timedelta(days=9)
    (behind,) = matters_of(replace(agreed, line=Standing(0.8, since)), today)
    assert (behind.kind, behind.since, behind.by) == (Kind.BEHIND, since, today)


def test_weighed_in_there_is_nothing_left_about_the_class() -> None:
    assert matters_of(replace(facts("85", MEET), is_weighed_in=True), MEET) == ()


@pytest.mark.parametrize(("weeks", "listed"), [(9, False), (8, True), (1, True)])
def test_somebody_lighter_than_the_class_entered_is_spoken_of_from_eight_weeks(
    weeks: int, listed: bool
) -> None:
    today = MEET - timedelta(weeks=weeks)
    found = matters_of(facts("80", today, entered="93"), today)
    assert kinds(found) == ([Kind.CLASS] if listed else [])
    if listed:
        assert dict(found[0].why.values) == {"now": "83", "entered": "93"}


@pytest.mark.parametrize(
    ("days", "code"),
    [
        (-15, None),
        (-14, "attention.entry_closes"),
        (0, "attention.entry_closes"),
        (1, "attention.entry_closed"),
    ],
)
def test_entries_that_close_are_listed_for_two_weeks_and_after(days: int, code: str | None) -> None:
    deadline = MEET - timedelta(weeks=6)
    today = deadline + timedelta(days=days)
    found = matters_of(replace(in_class(today), entry_deadline=deadline), today)
    assert [matter.why.code for matter in found] == ([] if code is None else [code])
    sent = replace(in_class(today), entry_deadline=deadline, entry_sent=True)
    assert matters_of(sent, today) == ()


def test_a_membership_that_ends_before_the_meet_is_due_by_the_entry_deadline() -> None:
    today = MEET - timedelta(weeks=11)
    deadline = MEET - timedelta(weeks=8)
    ends = replace(in_class(today), member_until=MEET - timedelta(days=1), entry_deadline=deadline)
    (matter,) = matters_of(ends, today)
    assert (matter.kind, matter.by) == (Kind.MEMBERSHIP, deadline)
    assert matters_of(replace(ends, member_until=MEET), today) == ()
    assert matters_of(ends, MEET - timedelta(weeks=13)) == ()


@pytest.mark.parametrize(("days", "listed"), [(8, False), (7, True), (0, True), (-1, False)])
def test_kit_inspection_is_listed_in_its_week(days: int, listed: bool) -> None:
    inspection = MEET - timedelta(days=1)
    today = inspection - timedelta(days=days)
    with_day = replace(in_class(today), kit_inspection_on=inspection)
    assert kinds(matters_of(with_day, today)) == ([Kind.INSPECTION] if listed else [])
    assert matters_of(replace(with_day, inspected=True), today) == ()


@pytest.mark.parametrize(
    ("weeks", "expected"),
    [(4, []), (3, [Kind.JUDGED_SINGLE]), (1, [Kind.JUDGED_SINGLE, Kind.OPENER])],
)
def test_openers_and_judged_singles_are_missed_in_time(weeks: int, expected: list[Kind]) -> None:
    """Common practice: openers in the last week, a first-timer's judged singles by three weeks."""
    today = MEET - timedelta(weeks=weeks)
    lifts = (text("lift.squat"),)
    missing = replace(in_class(today), no_opener=lifts, no_judged=lifts, first_meet=True)
    assert kinds(matters_of(missing, today)) == expected
    experienced = replace(missing, first_meet=False)
    assert Kind.JUDGED_SINGLE not in kinds(matters_of(experienced, today))


def test_rounds_and_tasks_come_by_their_day_with_the_rest() -> None:
    today = MEET - timedelta(weeks=8)
    rounds = (Due(text("kit_round.one_week"), today + timedelta(days=2)),)
    tasks = (Due(text("kit_round.two_weeks"), today - timedelta(days=1)),)
    due = replace(
        facts("80", today, entered="93"),
        rounds=rounds,
        tasks=tasks,
        closed_divisions=(("junior", text("attention.reason")),),
        entry_deadline=today,
    )
    assert kinds(matters_of(due, today)) == [
        Kind.TASK,
        Kind.CLASS,
        Kind.DIVISION,
        Kind.ENTRY_CLOSES,
        Kind.KIT_CHECK,
    ]


@pytest.mark.parametrize(("days", "listed"), [(10, False), (11, True)])
def test_no_weight_for_ten_days(days: int, listed: bool) -> None:
    today = MEET - timedelta(weeks=8)
    weight = weighing("82", today, last=days)
    found = weight_matters(weight, MEET, today)
    assert kinds(found) == ([Kind.NO_WEIGHT] if listed else [])
    assert weight_matters(weight, today + timedelta(weeks=17), today) == ()
    assert kinds(weight_matters(None, MEET, today)) == [Kind.NO_WEIGHT]


@pytest.mark.parametrize(("days", "listed"), [(0, True), (7, True), (8, False)])
def test_an_odd_reading_is_asked_about_for_a_week(days: int, listed: bool) -> None:
    on = MEET - timedelta(weeks=8)
    usual = [(on - timedelta(days=2 * ago), "82") for ago in range(1, 20)]
    odd = bodyweight(
        [
            Reading(id=at, version=1, athlete_id=1, on=day, weight=kilograms(kg))
            for at, (day, kg) in enumerate([(on, "86.5"), *usual], start=1)
        ]
    )
    found = weight_matters(odd, MEET, on + timedelta(days=days))
    assert (Kind.ODD_READING in kinds(found)) is listed
