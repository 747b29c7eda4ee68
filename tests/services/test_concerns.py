"""What needs the coach over the whole team, put off for a reason and brought back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.attention import Kind
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms
from coachdesk.services.attention import LONGEST_SNOOZE, Concern, bring_back, put_off
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings, edit_athlete
from coachdesk.services.rulebooks import read_task_lists
from coachdesk.services.today import read_today
from coachdesk.services.undo import undo
from coachdesk.services.weight_plans import agree_on_way_down, let_go_of_way_down

TODAY = date(2026, 11, 25)
MEET = MeetData(
    name="Harbour Open",
    starts_on=TODAY + timedelta(weeks=12),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)
BO = AthleteData(
    given_name="Bo",
    family_name="Lind",
    sex=Sex.MALE,
    birth_date=date(1995, 3, 1),
    height_cm=175,
    meets_before=3,
)


def enter(desk: Desk, person: AthleteData, kg: str, meet: MeetData = MEET) -> int:
    athlete_id = add_athlete(desk, person).value
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms(kg))])
    entry = EntryData(
        athlete_id=athlete_id,
        meet_id=add_meet(desk, meet).value,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="83",
    )
    return enter_athlete(desk, entry).value


def concerns(desk: Desk) -> tuple[Concern, ...]:
    return read_today(desk).concerns


def test_put_off_it_rests_until_its_day_with_its_reason(desk: Desk) -> None:
    enter(desk, BO, "85.5")
    (start,) = concerns(desk)
    assert start.matter.kind is Kind.START_DOWN
    put_off(desk, [start], TODAY + timedelta(days=3), " after the holidays ")
    (resting,) = concerns(desk)
    assert resting.put_off is not None
    assert resting.put_off.reason == "after the holidays"
    bring_back(desk, [resting])
    assert concerns(desk)[0].put_off is None
    undo(desk)
    assert concerns(desk)[0].put_off is not None
    undo(desk)
    assert concerns(desk)[0].put_off is None


def test_what_rests_comes_last_and_only_that_rests(desk: Desk) -> None:
    enter(desk, BO, "85.5")
    enter(desk, AthleteData(given_name="Cem", family_name="", sex=Sex.MALE,
                            birth_date=date(1990, 1, 1), meets_before=2), "86")  # fmt: skip
    first, second = concerns(desk)
    put_off(desk, [first], TODAY + timedelta(days=3), "travelling")
    after = concerns(desk)
    assert [each.athlete.id for each in after] == [second.athlete.id, first.athlete.id]
    assert [each.put_off is None for each in after] == [True, False]


def test_it_comes_back_on_its_day(desk: Desk) -> None:
    enter(desk, BO, "85.5")
    (start,) = concerns(desk)
    put_off(desk, [start], TODAY + timedelta(days=1), "tomorrow")
    later = replace(desk, now=lambda: desk.now() + timedelta(days=1))
    assert [each.put_off for each in concerns(later)] == [None]


@pytest.mark.parametrize(
    ("until", "reason", "field"),
    [
        (TODAY, "later", "until"),
        (TODAY + LONGEST_SNOOZE + timedelta(days=1), "later", "until"),
        (TODAY + timedelta(days=1), "  ", "reason"),
        (TODAY + timedelta(days=1), "x" * 201, "reason"),
    ],
)
def test_what_cannot_be_put_off_is_said_at_its_field(
    desk: Desk, until: date, reason: str, field: str
) -> None:
    enter(desk, BO, "85.5")
    (start,) = concerns(desk)
    with pytest.raises(InvalidInput) as refused:
        put_off(desk, [start], until, reason)
    assert refused.value.field == field
    assert concerns(desk)[0].put_off is None


def test_a_division_that_changes_by_the_age_rule_is_said(desk: Desk) -> None:
    """IPF juniors turn 23 in the calendar year at the latest: born 2003, no junior in 2027."""
    junior = AthleteData(
        given_name="Ida", family_name="Berg", sex=Sex.MALE, birth_date=date(2003, 6, 1),
        meets_before=2,
    )  # fmt: skip
    athlete_id = add_athlete(desk, junior).value
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms(80))])
    born_later = AthleteData(
        given_name="Ida", family_name="Berg", sex=Sex.MALE, birth_date=date(2004, 6, 1),
        meets_before=2,
    )  # fmt: skip
    edit_athlete(desk, athlete_id, 1, born_later)
    entry = EntryData(
        athlete_id=athlete_id,
        meet_id=add_meet(desk, MEET).value,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("junior",),
        weight_class="83",
    )
    enter_athlete(desk, entry)
    assert concerns(desk) == ()
    edit_athlete(desk, athlete_id, 2, junior)
    (division,) = concerns(desk)
    assert division.matter.kind is Kind.DIVISION
    assert division.matter.why.code == "attention.division_changes"


def test_a_way_down_is_agreed_on_from_todays_weight_to_the_limit(desk: Desk) -> None:
    entry_id = enter(desk, BO, "85.5")
    agreed = agree_on_way_down(desk, entry_id).value
    assert (agreed.from_weight.kg, agreed.to_weight.kg) == (85.5, 83)
    assert (agreed.agreed_on, agreed.arrive_on) == (TODAY, TODAY + timedelta(weeks=11))
    assert concerns(desk) == ()
    (line,) = read_today(desk).board
    assert line.plan is not None
    assert line.line is not None
    assert line.line.off_kg == pytest.approx(0)
    let_go_of_way_down(desk, line.plan)
    assert [each.matter.kind for each in concerns(desk)] == [Kind.START_DOWN]
    undo(desk)
    assert concerns(desk) == ()


@pytest.mark.parametrize(
    ("kg", "weeks", "code"),
    [
        ("82", 12, "weight_plan.none"),  # in the class
        ("86.5", 4, "weight_plan.none"),  # not in time
        ("92", 20, "weight_plan.none"),  # too far
    ],
)
def test_where_there_is_no_way_down_none_is_agreed_on(
    desk: Desk, kg: str, weeks: int, code: str
) -> None:
    meet = MeetData(
        name="Open", starts_on=TODAY + timedelta(weeks=weeks), rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )  # fmt: skip
    entry_id = enter(desk, BO, kg, meet)
    with pytest.raises(Trouble) as refused:
        agree_on_way_down(desk, entry_id)
    assert refused.value.text.code == code
    assert dict(refused.value.text.values)["name"] == "Bo Lind"
    assert read_today(desk).board[0].plan is None


def test_a_plan_that_a_guard_bars_later_is_in_force_no_longer(desk: Desk) -> None:
    entry_id = enter(desk, BO, "85.5")
    agree_on_way_down(desk, entry_id)
    (line,) = read_today(desk).board
    edit_athlete(
        desk,
        line.athlete.id,
        line.athlete.version,
        AthleteData(
            given_name="Bo", family_name="Lind", sex=Sex.MALE, birth_date=None, meets_before=3
        ),
    )
    (barred,) = read_today(desk).board
    assert barred.plan is None
    assert text("class_fit.age_unknown") in dict(concerns(desk)[0].matter.why.values).values()


def test_a_task_list_that_cannot_be_read_is_said_and_stops_nothing_else(
    desk: Desk, tmp_path: Path
) -> None:
    enter(desk, BO, "85.5")
    folder = tmp_path / "tasks"
    folder.mkdir()
    (folder / "usual.toml").write_text("tasks = 3", encoding="utf-8")
    faulty = replace(desk, task_lists=read_task_lists(folder))
    today = read_today(faulty)
    assert [each.matter.kind for each in today.concerns] == [Kind.START_DOWN]
    assert today.fault is not None
    assert dict(today.fault.values)["file"] == "usual.toml"


def test_putting_off_one_task_leaves_the_others(desk: Desk) -> None:
    """Sixty and 56 days before a meet in six weeks both tasks are overdue."""
    meet = replace(MEET, starts_on=TODAY + timedelta(weeks=6))
    enter(desk, BO, "80", meet)
    tasks = [each for each in concerns(desk) if each.matter.kind is Kind.TASK]
    assert len(tasks) >= 2
    put_off(desk, tasks[:1], TODAY + timedelta(days=3), "the physician calls back")
    after = [each for each in concerns(desk) if each.matter.kind is Kind.TASK]
    assert [each.put_off is not None for each in after].count(True) == 1
    assert len(after) == len(tasks)


def test_an_odd_reading_of_another_day_is_another_matter(desk: Desk) -> None:
    enter(desk, BO, "80")
    athlete_id = next(line.athlete.id for line in read_today(desk).board)
    usual = [
        ReadingData(athlete_id=athlete_id, on=TODAY - timedelta(days=ago), weight=kilograms(80))
        for ago in range(1, 30)
        if ago != 5
    ]
    odd = ReadingData(athlete_id=athlete_id, on=TODAY - timedelta(days=5), weight=kilograms(95))
    add_readings(desk, [*usual, odd])
    (first,) = [each for each in concerns(desk) if each.matter.kind is Kind.ODD_READING]
    put_off(desk, [first], TODAY + timedelta(days=7), "typed wrongly, asked")
    add_readings(desk, [replace(odd, on=TODAY, weight=kilograms(66))])
    found = [each for each in concerns(desk) if each.matter.kind is Kind.ODD_READING]
    assert sorted(each.put_off is None for each in found) == [False, True]


def test_what_comes_back_says_why_it_rested(desk: Desk) -> None:
    enter(desk, BO, "85.5")
    put_off(desk, [*concerns(desk)], TODAY + timedelta(days=1), "after the holidays")
    later = replace(desk, now=lambda: desk.now() + timedelta(days=1))
    (back,) = concerns(later)
    assert back.put_off is None
    assert back.came_back is not None
    assert back.came_back.reason == "after the holidays"
