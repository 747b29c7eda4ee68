"""What the tabs of a block say, by hand: the calendar, the load, who is behind."""

from __future__ import annotations

from datetime import date

import pytest

from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Meet
from coachdesk.domain.training import Block, LoggedSetData, Purpose
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.block_editing import note_day, set_maxima
from coachdesk.services.desk import Desk
from coachdesk.services.session_logging import Lifted, log_planned
from coachdesk.services.training import log_sets
from coachdesk.ui.screens.blocks.calendar_rows import calendar
from coachdesk.ui.screens.blocks.load_rows import LoadRow, Measure
from coachdesk.ui.screens.blocks.open_block import OpenBlock
from coachdesk.ui.screens.blocks.presenter import BlocksPresenter
from coachdesk.wording.wording import Wording
from tests.services.blocks import MONDAY, Written, athlete

TODAY = date(2026, 11, 25)
VOLUME, INTENSITY, HEAVY = Measure


def block(block_id: int, starts_on: date, weeks: int) -> Block:
    return Block(
        id=block_id,
        version=1,
        athlete_id=1,
        name=f"Block {block_id}",
        purpose=Purpose.VOLUME,
        starts_on=starts_on,
        weeks=weeks,
    )


MEET = Meet(
    id=1,
    version=1,
    name="Harbour Open",
    starts_on=date(2027, 1, 30),
    rulebook="traditional_two_hour",
    time_zone="Europe/Berlin",
)


def test_blocks_on_the_way_to_a_meet(wording: Wording) -> None:
    """Wednesday, 25 November to Saturday, 30 January: 66 days, 9 whole weeks. No block holds
    21 December to 10 January and 25 to 29 January: 26 days, 3 whole weeks."""
    blocks = [
        block(3, date(2027, 1, 11), 2),
        block(2, date(2026, 11, 23), 4),
        block(1, date(2026, 11, 2), 3),
    ]
    shown = calendar(blocks, MEET, TODAY, wording)
    assert [(bar.id, bar.first, bar.last, bar.weeks, bar.left) for bar in shown.bars] == [
        (1, date(2026, 11, 2), date(2026, 11, 22), "3 weeks", "over"),
        (2, date(2026, 11, 23), date(2026, 12, 20), "4 weeks", "4 weeks"),
        (3, date(2027, 1, 11), date(2027, 1, 24), "2 weeks", "2 weeks"),
    ]
    assert (shown.first, shown.last) == (date(2026, 10, 26), date(2027, 2, 6))
    assert "9 weeks left." in shown.said
    assert shown.said.endswith("3 weeks on the way have no block yet.")


@pytest.mark.parametrize(
    ("today", "left"),
    [
        (date(2026, 11, 22), "2 weeks"),
        (date(2026, 11, 23), "2 weeks"),
        (date(2026, 11, 29), "2 weeks"),
        (date(2026, 11, 30), "1 week"),
        (date(2026, 12, 6), "1 week"),
        (date(2026, 12, 7), "over"),
    ],
)
def test_a_week_is_left_until_its_last_day(wording: Wording, today: date, left: str) -> None:
    """Two weeks from Monday, 23 November to Sunday, 6 December."""
    (bar,) = calendar([block(1, date(2026, 11, 23), 2)], None, today, wording).bars
    assert bar.left == left


def test_what_ended_twelve_weeks_ago_is_still_shown_and_older_is_not(wording: Wording) -> None:
    """Twelve weeks before 25 November are 2 September: the last day of one, the next of one."""
    blocks = [block(1, date(2026, 8, 26), 1), block(2, date(2026, 8, 27), 1)]
    shown = calendar(blocks, None, TODAY, wording)
    assert [(bar.id, bar.last) for bar in shown.bars] == [(2, date(2026, 9, 2))]
    assert shown.said.startswith("No meet ahead is on file")


def figures(row: LoadRow, measure: Measure) -> tuple[str, str]:
    return row.planned[measure].words, row.done[measure].words


def test_the_load_of_a_block(desk: Desk, wording: Wording) -> None:
    """Squat, maximum 150 kg. Week 1: 25 repetitions at 70 % with 105 kg, one at 90 % with 135 kg,
    and twelve pause squats at 80 % of 135 kg: 108 kg, of which 107.5 are loaded; 72 % of 150.

    Squat: 25 x 105 + 135 + 12 x 107.5 = 4050 kg; (25 x 70 + 90 + 12 x 72) / 38 = 71.2 %; one heavy.
    Done: 25 x 107.5 = 2687.5 kg at 71.7 %. Bench, week 2, without a maximum: 3 x 60 = 180 kg.
    """
    written = Written.on(desk, athlete(desk))
    written.type(written.squat_id, 1, "5x5 70%; 1x1 90%")
    written.type(written.pause_id, 1, "3x4 80%")
    written.type(written.squat_id, 2, "4x6 RPE 8")
    planned = written.page.cell(written.squat_id, 1)[0]
    log_planned(desk, planned.id, Lifted(on=MONDAY, weight=kilograms(107.5), reps=5, sets=5))
    bench = LoggedSetData(
        athlete_id=written.athlete_id, on=TODAY, lift=Lift.BENCH, weight=kilograms(60), reps=3
    )
    log_sets(desk, [bench])
    opened = OpenBlock(desk, wording, written.page)

    first, second, third, _ = opened.load(None)
    assert [each.head for each in (first, second, third)] == ["Week 1", "Week 2 (now)", "Week 3"]
    assert figures(first, VOLUME) == ("4050", "2688")
    assert figures(first, INTENSITY) == ("71 %", "72 %")
    assert figures(first, HEAVY) == ("1", "0")
    assert second.open == "24 repetitions without a weight"
    assert figures(second, VOLUME) == ("", "180")
    assert figures(second, INTENSITY) == ("", "")
    assert figures(third, VOLUME) == ("", "")
    assert third.open == first.open == ""

    squat, bench_rows = opened.load(Lift.SQUAT), opened.load(Lift.BENCH)
    assert figures(squat[0], VOLUME) == ("4050", "2688")
    assert figures(squat[1], VOLUME) == ("", "")
    assert figures(bench_rows[0], VOLUME) == ("", "")
    assert figures(bench_rows[1], VOLUME) == ("", "180")


def test_the_load_is_in_the_athletes_unit(desk: Desk, wording: Wording) -> None:
    """Five fives at 70 % of 300 lb: 25 x 210 lb, which a bar of 45 lb with 45, 35 and 2.5 makes."""
    written = Written.on(desk, athlete(desk, unit=Unit.LB))
    set_maxima(desk, written.block_id, {Lift.SQUAT: pounds(300)})
    written.type(written.squat_id, 1, "5x5 70%")
    row = OpenBlock(desk, wording, written.page).load(None)[0]
    assert row.planned[VOLUME].words == "5250"


def test_who_is_behind_most_comes_first_and_is_counted_in_words(
    desk: Desk, wording: Wording
) -> None:
    """Mondays and Wednesdays: the 16th, the 18th and the 23rd are over. Cy did all, Bo missed one
    and is silent on one, Ana is silent on two of two Mondays, Di has no plan."""
    ana, bo, cy = (Written.on(desk, athlete(desk, f"{name} Ruiz")) for name in ("Ana", "Bo", "Cy"))
    athlete(desk, "Di Ruiz")
    for each in (bo, cy):
        each.type(each.pause_id, 1, "3x4 80%")
    for each in (ana, bo, cy):
        each.type(each.squat_id, 1, "5x3 80%")
        each.type(each.squat_id, 2, "5x3 80%")
    note_day(desk, bo.block_id, 1, 3, missed=True, note="")
    days = [(bo, 16), (cy, 16), (cy, 18), (cy, 23)]
    log_sets(
        desk,
        [
            LoggedSetData(
                athlete_id=who.athlete_id,
                on=date(2026, 11, day),
                lift=Lift.SQUAT,
                weight=kilograms(120),
                reps=3,
            )
            for who, day in days
        ],
    )
    presenter = BlocksPresenter(desk, wording)
    presenter.load()
    shown = [(row.name, row.sessions, row.latest_on) for row in presenter.team().rows]
    assert shown == [
        ("Ana Ruiz", "2 of 2", None),
        ("Bo Ruiz", "2 of 3 (1 missed)", date(2026, 11, 16)),
        ("Cy Ruiz", "all 3 done", date(2026, 11, 23)),
        ("Di Ruiz", "nothing planned", None),
    ]
