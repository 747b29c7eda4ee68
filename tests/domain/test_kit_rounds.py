"""How far kit is checked: which round is due, which has passed, and what is missing now."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from coachdesk.domain.kit import parse_kit_list
from coachdesk.domain.kit_rounds import KitStatus, RoundState, Sight, kit_status
from coachdesk.domain.lifting import Event
from coachdesk.domain.readiness import KitCheckData

FILE = Path(__file__).parents[2] / "resources" / "kit" / "classic.toml"
CLASSIC = parse_kit_list(FILE.read_bytes(), FILE.name)
MEET_ON = date(2026, 12, 12)
CODES = tuple(item.code for item in CLASSIC.items_for(Event.THREE_LIFT))


def check(
    round_code: str, *, missing: tuple[str, ...] = (), unseen: tuple[str, ...] = ()
) -> KitCheckData:
    present = tuple(code for code in CODES if code not in {*missing, *unseen})
    return KitCheckData(entry_id=1, round=round_code, present=present, missing=missing)


def status(days_before: int, *checks: KitCheckData, event: Event = Event.THREE_LIFT) -> KitStatus:
    return kit_status(CLASSIC, event, MEET_ON, checks, MEET_ON - timedelta(days=days_before))


@pytest.mark.parametrize(
    ("days_before", "due"),
    [(15, None), (14, "two_weeks"), (8, "two_weeks"), (7, "one_week"), (0, "morning")],
)
def test_the_round_due_is_the_one_whose_day_came_last(days_before: int, due: str | None) -> None:
    now = status(days_before)
    assert now.is_due is (due is not None)
    assert (None if now.current is None else now.current.code) == due


def test_a_round_with_a_piece_left_is_not_complete() -> None:
    now = status(14, check("two_weeks", unseen=("chalk",)))
    assert now.is_due
    assert now.rounds[0].count(Sight.NOT_LOOKED) == 1


def test_what_was_missing_and_is_found_in_a_later_round_is_missing_no_more() -> None:
    first = check("two_weeks", missing=("belt", "talc"))
    second = check("one_week", unseen=("talc",))
    assert [item.code for item in status(7, first, second).missing] == ["talc"]


def test_what_got_lost_again_is_missing() -> None:
    first, second = check("two_weeks"), check("one_week", missing=("belt",))
    assert [item.code for item in status(7, first, second).missing] == ["belt"]


def test_only_what_the_event_needs_counts() -> None:
    now = status(14, check("two_weeks", missing=("squat_shoes",)), event=Event.BENCH_ONLY)
    assert not now.missing
    assert "squat_shoes" not in now.rounds[0].sights
    assert now.rounds[0].state is RoundState.COMPLETE
