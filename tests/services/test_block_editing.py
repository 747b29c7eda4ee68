"""Blocks, their exercises and days: kept, refused in words, copied, and taken back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import (
    BlockData,
    ExerciseData,
    LoggedSet,
    LoggedSetData,
    Purpose,
)
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_copying import copy_block
from coachdesk.services.block_editing import (
    add_block,
    add_exercise,
    delete_blocks,
    delete_exercises,
    edit_block,
    edit_exercise,
    move_exercise,
    note_day,
    set_maxima,
)
from coachdesk.services.block_reading import block_page, blocks_of
from coachdesk.services.desk import Desk
from coachdesk.services.session_logging import Lifted, log_planned
from coachdesk.services.training import log_sets
from coachdesk.services.undo import undo
from tests.conftest import Results
from tests.services.blocks import MONDAY, Written, athlete, block_data


@pytest.fixture
def block(desk: Desk) -> Written:
    return Written.on(desk, athlete(desk))


def _names(block: Written) -> list[tuple[int, str]]:
    return [(each.day, each.variation or each.lift) for each in block.page.exercises]


def test_blocks_are_listed_as_they_start(block: Written) -> None:
    later = BlockData(
        athlete_id=block.athlete_id,
        name="Peak",
        purpose=Purpose.PEAK,
        starts_on=MONDAY + timedelta(days=28),
        weeks=3,
    )
    add_block(block.desk, later)
    add_block(block.desk, replace(later, name="Before", starts_on=MONDAY - timedelta(days=28)))
    names = [each.name for each in blocks_of(block.desk, block.athlete_id)]
    assert names == ["Before", "Base", "Peak"]


def test_the_days_of_a_block_have_dates(block: Written) -> None:
    assert block.page.day_of(1, 1) == MONDAY
    assert block.page.day_of(2, 3) == date(2026, 11, 25)


def test_weeks_that_hold_a_plan_or_a_note_do_not_go_unseen(block: Written) -> None:
    block.type(block.squat_id, 3, "5x3")
    seen = block.page.block
    with pytest.raises(InvalidInput) as fault:
        edit_block(block.desk, seen, block_data(seen, weeks=2))
    assert fault.value.field == "weeks"
    note_day(block.desk, block.block_id, 4, 1, missed=False, note="travels")
    with pytest.raises(InvalidInput):
        edit_block(block.desk, seen, block_data(seen, weeks=3))
    note_day(block.desk, block.block_id, 4, 1, missed=False, note=" ")
    edit_block(block.desk, seen, block_data(seen, weeks=3))
    assert block.page.block.weeks == 3


def test_a_block_stays_its_athletes(block: Written) -> None:
    seen = block.page.block
    other = athlete(block.desk, "Mia Berg")
    edit_block(block.desk, seen, block_data(seen, athlete_id=other, name="Base 2"))
    assert (block.page.block.name, block.page.block.athlete_id) == ("Base 2", block.athlete_id)


def test_a_block_that_was_changed_elsewhere_is_not_overwritten(block: Written) -> None:
    seen = block.page.block
    edit_block(block.desk, seen, block_data(seen, name="Base 2"))
    with pytest.raises(Trouble):
        edit_block(block.desk, seen, block_data(seen, name="Base 3"))


def test_a_deleted_block_leaves_what_was_lifted_and_comes_back_whole(block: Written) -> None:
    block.type(block.squat_id, 1, "5x3 80%")
    (planned,) = block.page.cell(block.squat_id, 1)
    log_planned(block.desk, planned.id, Lifted(on=MONDAY, weight=kilograms(120), reps=3))
    delete_blocks(block.desk, [block.page.block])
    with block.desk.reading() as reader:
        (logged,) = reader.list(LoggedSet)
    assert (logged.block_id, logged.planned_set_id) == (None, None)
    undo(block.desk)
    assert len(block.page.logged[planned.id]) == 1


def test_a_maximum_is_said_changed_and_taken_back(block: Written) -> None:
    set_maxima(block.desk, block.block_id, {Lift.BENCH: kilograms(90)})
    set_maxima(block.desk, block.block_id, {Lift.BENCH: kilograms("92.5")})
    assert block.page.maxima[Lift.BENCH].weight == kilograms("92.5")
    assert not set_maxima(block.desk, block.block_id, {Lift.BENCH: kilograms("92.5")}).changes
    set_maxima(block.desk, block.block_id, {Lift.BENCH: None})
    assert set(block.page.maxima) == {Lift.SQUAT}
    with pytest.raises(InvalidInput) as fault:
        set_maxima(block.desk, block.block_id, {Lift.BENCH: kilograms(800)})
    assert fault.value.field == "maximum_bench"


def test_exercises_stand_in_the_order_they_are_put_in(block: Written) -> None:
    for lift in (Lift.BENCH, Lift.DEADLIFT):
        add_exercise(block.desk, ExerciseData(block_id=block.block_id, day=1, place=0, lift=lift))
    assert _names(block) == [(1, "squat"), (1, "bench"), (1, "deadlift"), (3, "pause")]
    deadlift = block.page.exercises[2]
    move_exercise(block.desk, deadlift, day=1, place=1)
    assert _names(block) == [(1, "deadlift"), (1, "squat"), (1, "bench"), (3, "pause")]
    move_exercise(block.desk, block.page.exercises[0], day=3, place=9)
    assert _names(block) == [(1, "squat"), (1, "bench"), (3, "pause"), (3, "deadlift")]
    undo(block.desk)
    assert _names(block)[0] == (1, "deadlift")


def test_an_exercise_put_on_another_day_comes_last_there(block: Written) -> None:
    squat = block.exercise(block.squat_id)
    data = ExerciseData(block_id=block.block_id, day=3, place=0, lift=Lift.SQUAT, note="belt")
    edit_exercise(block.desk, squat, data)
    assert _names(block) == [(3, "pause"), (3, "squat")]
    assert block.exercise(block.squat_id).note == "belt"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"day": 8}, "day"),
        ({"day": 0}, "day"),
        ({"share": 0.0}, "share"),
        ({"share": 1.6}, "share"),
        ({"variation": " "}, "share"),
        ({"variation": "x" * 201}, "variation"),
        ({"note": "x" * 2001}, "note"),
    ],
)
def test_an_exercise_that_cannot_be_is_refused(
    block: Written, changes: dict[str, Any], field: str
) -> None:
    good = ExerciseData(
        block_id=block.block_id, day=1, place=0, lift=Lift.SQUAT, variation="box", share=0.8
    )
    with pytest.raises(InvalidInput) as fault:
        add_exercise(block.desk, replace(good, **changes))
    assert fault.value.field == field
    assert len(block.page.exercises) == 2


def test_a_deleted_exercise_takes_its_plan_along_and_comes_back_with_it(block: Written) -> None:
    block.type(block.squat_id, 2, "5x3")
    delete_exercises(block.desk, [block.exercise(block.squat_id)])
    assert not block.page.planned
    undo(block.desk)
    assert block.texts(block.squat_id)[1] == "5x3"


def test_a_day_is_missed_noted_and_cleared(block: Written) -> None:
    note_day(block.desk, block.block_id, 1, 3, missed=True, note="")
    note_day(block.desk, block.block_id, 1, 3, missed=True, note="flu")
    noted = block.page.days[1, 3]
    assert (noted.missed, noted.note) == (True, "flu")
    note_day(block.desk, block.block_id, 1, 3, missed=False, note="")
    assert not block.page.days
    for week, day, field in ((5, 1, "week"), (1, 8, "day")):
        with pytest.raises(InvalidInput) as fault:
            note_day(block.desk, block.block_id, week, day, missed=True, note="")
        assert fault.value.field == field


def test_what_was_lifted_in_the_block_without_a_plan_is_there_too(block: Written) -> None:
    def lifted(on: date) -> LoggedSetData:
        return LoggedSetData(
            athlete_id=block.athlete_id, on=on, lift=Lift.BENCH, weight=kilograms(80), reps=5
        )

    days = [MONDAY - timedelta(days=1), MONDAY, date(2026, 11, 24)]
    log_sets(block.desk, [lifted(on) for on in days])
    assert [each.on for each in block.page.loose] == days[1:]


def test_a_block_is_copied_whole_but_for_what_was_lifted(block: Written) -> None:
    cells = [
        TypedCell(block.squat_id, 1, "1x1 92% judged; 5x3 80%"),
        TypedCell(block.pause_id, 2, "3x5 100 (pause 2 s)"),
    ]
    type_cells(block.desk, block.block_id, cells)
    planned = block.page.cell(block.pause_id, 2)[0]
    day = date(2026, 11, 25)
    log_planned(block.desk, planned.id, Lifted(on=day, weight=kilograms(100), reps=5))
    note_day(block.desk, block.block_id, 1, 1, missed=True, note="")
    start = date(2027, 1, 4)
    new_id = copy_block(
        block.desk, block.block_id, to_athlete_id=block.athlete_id, starts_on=start
    ).value
    page = block_page(block.desk, new_id)
    assert (page.block.name, page.block.starts_on, page.block.weeks) == ("Base", start, 4)
    assert page.maxima[Lift.SQUAT].weight == kilograms(150)
    squat, pause = page.exercises
    assert page.cell_text(squat.id, 1) == "1x1 92% judged; 5x3 80%"
    assert (page.cell_text(pause.id, 2), pause.share) == ("3x5 100 (pause 2 s)", 0.9)
    assert not page.logged
    assert not page.loose
    assert not page.days
    undo(block.desk)
    assert len(blocks_of(block.desk, block.athlete_id)) == 1


def test_for_another_athlete_kilograms_become_per_cents(block: Written) -> None:
    """100 kg of a pause squat whose maximum is 0.9 x 150 kg are 74.1 %, to half a per cent 74."""
    other = athlete(block.desk, "Mia Berg")
    bench = add_exercise(
        block.desk, ExerciseData(block_id=block.block_id, day=1, place=0, lift=Lift.BENCH)
    ).value
    cells = [TypedCell(block.pause_id, 2, "3x5 100 (slow)"), TypedCell(bench, 1, "3x5 80 @8")]
    type_cells(block.desk, block.block_id, cells)
    new_id = copy_block(block.desk, block.block_id, to_athlete_id=other, starts_on=MONDAY).value
    page = block_page(block.desk, new_id)
    _, new_bench, pause = page.exercises
    assert page.cell_text(pause.id, 2) == "3x5 74% (slow)"
    assert page.cell_text(new_bench.id, 1) == "3x5 RPE 8"
    assert not page.maxima


def test_another_athlete_begins_with_what_is_known_of_their_lifts(block: Written) -> None:
    """A judged single of 220.5 lb, 100 kg, last week: no more than that and not far below, in
    steps of 5 lb."""
    other = athlete(block.desk, "Mia Berg", Unit.LB)
    single = LoggedSetData(
        athlete_id=other, on=MONDAY, lift=Lift.SQUAT, weight=pounds("220.5"), reps=1, rir=0.0
    )
    log_sets(block.desk, [single])
    new_id = copy_block(
        block.desk, block.block_id, to_athlete_id=other, starts_on=date(2026, 11, 30)
    ).value
    maxima = block_page(block.desk, new_id).maxima
    assert set(maxima) == {Lift.SQUAT}
    known = maxima[Lift.SQUAT].weight
    assert known.unit is Unit.LB
    assert known.number % 5 == 0
    assert 200 <= known.number <= 220


def test_an_earlier_meet_says_what_another_athlete_begins_with(
    block: Written, results: Results
) -> None:
    """A best of 140 kg half a year ago: about that, in steps of 2.5 kg."""
    other = athlete(block.desk, "Mia Berg")
    meet_id = results.meet("Harbour Open", date(2026, 5, 2))
    results.day(other, meet_id, (140, 80, 160))
    start = date(2026, 11, 30)
    copied = copy_block(block.desk, block.block_id, to_athlete_id=other, starts_on=start)
    maxima = block_page(block.desk, copied.value).maxima
    assert set(maxima) == set(Lift)
    known = maxima[Lift.SQUAT].weight.number
    assert known % Decimal("2.5") == 0
    assert 130 <= known <= 150


def test_a_copied_block_leads_to_the_meet_where_its_athlete_is_entered(
    block: Written, results: Results
) -> None:
    meet_id = results.meet("Harbour Open", date(2027, 2, 20))
    seen = block.page.block
    edit_block(block.desk, seen, block_data(seen, meet_id=meet_id))
    entered, other = athlete(block.desk, "Mia Berg"), athlete(block.desk, "Ida Holm")
    results.entry(entered, meet_id)
    leads_to = []
    for each in (entered, other):
        copied = copy_block(block.desk, block.block_id, to_athlete_id=each, starts_on=MONDAY)
        leads_to.append(block_page(block.desk, copied.value).meet)
    assert [meet and meet.name for meet in leads_to] == ["Harbour Open", None]


def test_a_block_that_is_gone_is_said_in_words(desk: Desk) -> None:
    with pytest.raises(Trouble):
        block_page(desk, 1)
