"""Tasks counted back from a meet, and kit checked round by round: by hand, common practice."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachdesk.app import paths
from coachdesk.domain.kit import parse_kit_list
from coachdesk.domain.kit_rounds import RoundState, Sight, kit_status
from coachdesk.domain.lifting import Event
from coachdesk.domain.meet import MeetData
from coachdesk.domain.readiness import KitCheckData, Task
from coachdesk.domain.tasks import TaskState, parse_task_list, task_statuses
from coachdesk.domain.toml_reader import FileFault

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 3, 27),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)
USUAL = parse_task_list((paths.resources() / "tasks" / "usual.toml").read_bytes(), "usual.toml")
KIT = parse_kit_list((paths.resources() / "kit" / "classic.toml").read_bytes(), "classic.toml")
TODAY = date(2027, 2, 10)


def days(meet: MeetData) -> dict[str, date]:
    return {each.code: each.due_on for each in task_statuses(USUAL, meet, (), TODAY)}


def test_days_are_counted_back_from_the_meet() -> None:
    """By hand: 60 days before 27 March is 26 January, 42 days 13 February, 7 days 20 March."""
    found = days(MEET)
    assert found["medicines_checked"] == date(2027, 1, 26)
    assert found["travel_and_bed"] == date(2027, 2, 13)
    assert found["openers_chosen"] == date(2027, 3, 20)
    assert found["entry_sent"] == date(2027, 2, 13)
    assert list(found.values()) == sorted(found.values())


def test_a_day_that_is_known_is_counted_from_instead() -> None:
    """By hand: a week before 1 March is 22 February; kit is shown on the day of inspection."""
    known = MeetData(
        name="Open",
        starts_on=MEET.starts_on,
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
        entry_deadline=date(2027, 3, 1),
        kit_inspection_on=date(2027, 3, 26),
    )
    found = days(known)
    assert found["entry_sent"] == date(2027, 2, 22)
    assert found["membership_runs"] == date(2027, 2, 15)
    assert found["kit_inspected"] == date(2027, 3, 26)


def test_without_inspection_there_is_nothing_to_show() -> None:
    codes = {each.code for each in task_statuses(USUAL, MEET, (), TODAY, inspects=False)}
    assert "kit_inspected" not in codes
    assert "entry_sent" in codes


def test_what_is_on_file_moves_finishes_and_adds() -> None:
    on_file = (
        Task(id=1, version=1, entry_id=1, code="entry_sent", due_on=date(2027, 2, 1)),
        Task(id=2, version=1, entry_id=1, code="travel_and_bed", done_on=date(2027, 2, 3)),
        Task(id=3, version=1, entry_id=1, words="Book the ferry", due_on=date(2027, 2, 12)),
    )
    found = {each.code or "own": each for each in task_statuses(USUAL, MEET, on_file, TODAY)}
    assert (found["entry_sent"].state, found["entry_sent"].usual_on) == (
        TaskState.OVERDUE,
        date(2027, 2, 13),
    )
    assert found["travel_and_bed"].state is TaskState.DONE
    assert (found["own"].state, found["own"].due_on) == (TaskState.DUE, date(2027, 2, 12))
    assert found["openers_chosen"].state is TaskState.LATER


def test_what_the_records_settle_need_not_be_ticked() -> None:
    settled = frozenset({"membership_runs"})
    found = {each.code: each for each in task_statuses(USUAL, MEET, (), TODAY, settled=settled)}
    assert (found["membership_runs"].state, found["membership_runs"].by_records) == (
        TaskState.DONE,
        True,
    )


@pytest.mark.parametrize(
    ("row", "key"),
    [
        ('code = "dance", days_before = 1', "code"),
        ('code = "entry_sent", days_before = -1', "days_before"),
        ('code = "entry_sent", days_before = 1, from = "moon"', "from"),
        ('code = "entry_sent", days_before = 1, from = "entry_deadline"', "from_days"),
        ('code = "entry_sent", days_before = 1, colour = 3', "colour"),
    ],
)
def test_a_faulty_list_is_refused_with_line_and_key(row: str, key: str) -> None:
    wrong = f'source = "common practice"\ntasks = [\n    {{ {row} }},\n]\n'
    with pytest.raises(FileFault) as fault:
        parse_task_list(wrong.encode(), "own.toml")
    assert (fault.value.file, fault.value.line) == ("own.toml", 3)
    assert fault.value.key.endswith(key)


def on(day: int) -> date:
    """So many days before the meet."""
    return MEET.starts_on - timedelta(days=day)


def test_rounds_come_are_due_and_pass() -> None:
    """Rounds two weeks, one week and three days before, the evening before, the morning."""
    states = {
        each.code: each.state
        for each in kit_status(KIT, Event.THREE_LIFT, MEET.starts_on, (), on(5)).rounds
    }
    assert states == {
        "two_weeks": RoundState.PASSED,
        "one_week": RoundState.DUE,
        "three_days": RoundState.LATER,
        "evening_before": RoundState.LATER,
        "morning": RoundState.LATER,
    }
    before = kit_status(KIT, Event.THREE_LIFT, MEET.starts_on, (), on(15))
    assert (before.current, before.is_due, before.come) == (None, False, ())


def test_a_round_is_complete_once_everything_was_looked_for() -> None:
    codes = tuple(item.code for item in KIT.items_for(Event.THREE_LIFT))
    check = KitCheckData(entry_id=1, round="one_week", present=codes[1:], missing=codes[:1])
    found = kit_status(KIT, Event.THREE_LIFT, MEET.starts_on, (check,), on(5))
    assert found.current is not None
    assert (found.current.state, found.is_due) == (RoundState.COMPLETE, False)
    assert [item.code for item in found.missing] == [codes[0]]


def test_the_last_look_decides_what_is_missing() -> None:
    first = KitCheckData(entry_id=1, round="two_weeks", missing=("belt", "singlet"))
    then = KitCheckData(entry_id=1, round="one_week", present=("belt",))
    found = kit_status(KIT, Event.THREE_LIFT, MEET.starts_on, (first, then), on(5))
    assert [item.code for item in found.missing] == ["singlet"]
    assert found.rounds[0].sights["belt"] is Sight.MISSING


def test_who_only_presses_packs_no_deadlift_socks() -> None:
    found = kit_status(KIT, Event.BENCH_ONLY, MEET.starts_on, (), on(5))
    assert "deadlift_socks" not in {item.code for item in found.items}
