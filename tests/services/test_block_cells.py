"""A block's grid: typed, changed, copied, loaded with the discs at hand, and taken back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from coachdesk.domain.blocks.notation import read_prescriptions
from coachdesk.domain.disc_set import DiscSetData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.loading import Disc
from coachdesk.domain.text import text
from coachdesk.domain.training import PlannedSetData
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.services.block_cells import TypedCell, copy_week, type_cells
from coachdesk.services.block_editing import delete_exercises, edit_block, set_maxima
from coachdesk.services.block_reading import block_page
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import add_disc_set
from coachdesk.services.session_logging import Lifted, log_planned
from coachdesk.services.undo import redo, undo
from tests.services.blocks import Written, athlete, block_data
from tests.services.test_readiness import counted


@pytest.fixture
def block(desk: Desk) -> Written:
    return Written.on(desk, athlete(desk))


def _generate(block: Written, week: int, typed: str, *made: str) -> None:
    """Planned sets as the generator keeps them."""
    with block.desk.action(text("did.copy_block")) as work:
        sets = zip(read_prescriptions(typed, Unit.KG), made, strict=True)
        for place, (each, written) in enumerate(sets, start=1):
            work.insert(
                PlannedSetData(
                    exercise_id=block.squat_id,
                    week=week,
                    place=place,
                    sets=each.sets,
                    reps=each.reps,
                    percent=each.percent,
                    weight=each.weight,
                    made=written,
                )
            )


def test_several_cells_are_typed_in_one_step_and_taken_back_in_one(block: Written) -> None:
    cells = [
        TypedCell(block.squat_id, 1, "5x3 80%"),
        TypedCell(block.squat_id, 2, "1x3 85%\n4x3 80%"),
        TypedCell(block.pause_id, 1, "3x4 @7"),
    ]
    type_cells(block.desk, block.block_id, cells)
    assert block.texts(block.squat_id) == ["5x3 80%", "1x3 85%; 4x3 80%", "", ""]
    assert block.texts(block.pause_id) == ["3x4 RPE 7", "", "", ""]
    undo(block.desk)
    assert not block.page.planned
    redo(block.desk)
    assert block.texts(block.squat_id)[1] == "1x3 85%; 4x3 80%"


def test_one_fault_keeps_all_cells_as_they_were(block: Written) -> None:
    block.type(block.squat_id, 1, "5x3 80%")
    cells = [TypedCell(block.squat_id, 1, "5x5 75%"), TypedCell(block.squat_id, 3, "5xx")]
    with pytest.raises(InvalidInput) as fault:
        type_cells(block.desk, block.block_id, cells)
    assert fault.value.field == f"cell_{block.squat_id}_3"
    assert block.texts(block.squat_id) == ["5x3 80%", "", "", ""]


def test_a_week_beyond_the_block_has_no_cell(block: Written) -> None:
    with pytest.raises(InvalidInput) as fault:
        block.type(block.squat_id, 5, "5x3")
    assert fault.value.field == f"cell_{block.squat_id}_5"


def test_a_deleted_exercise_has_no_cell(block: Written) -> None:
    gone = block.exercise(block.pause_id)
    delete_exercises(block.desk, [gone])
    with pytest.raises(Trouble):
        block.type(gone.id, 1, "5x3")


def test_typing_the_same_again_is_no_change(block: Written) -> None:
    block.type(block.squat_id, 1, "5x3 80% @8")
    done = type_cells(
        block.desk, block.block_id, [TypedCell(block.squat_id, 1, "5 x 3 @80% 2 RIR")]
    )
    assert not done.changes


def test_of_a_cell_that_is_there_twice_the_last_counts(block: Written) -> None:
    block.type(block.squat_id, 1, "5x5")
    cells = [TypedCell(block.squat_id, 1, "5x3"), TypedCell(block.squat_id, 1, "5x2")]
    type_cells(block.desk, block.block_id, cells)
    assert block.texts(block.squat_id)[0] == "5x2"


def test_bare_weights_are_in_the_athletes_unit(desk: Desk) -> None:
    block = Written.on(desk, athlete(desk, unit=Unit.LB))
    block.type(block.squat_id, 1, "3x5 225; 1x1 110kg")
    assert [each.weight for each in block.page.cell(block.squat_id, 1)] == [
        pounds(225),
        kilograms(110),
    ]
    assert block.texts(block.squat_id)[0] == "3x5 225; 1x1 110 kg"


def test_logged_sets_stay_with_the_plan_they_were_logged_for(block: Written) -> None:
    """The second line is logged; the first one goes."""
    block.type(block.squat_id, 1, "1x3 85%; 4x3 80%")
    planned = block.page.cell(block.squat_id, 1)[1]
    lifted = Lifted(on=date(2026, 11, 16), weight=kilograms(120), reps=3, rir=2.0, sets=4)
    log_planned(block.desk, planned.id, lifted)
    block.type(block.squat_id, 1, "4x3 80%")
    page = block.page
    assert [each.id for each in page.cell(block.squat_id, 1)] == [planned.id]
    assert len(page.logged[planned.id]) == 4
    block.type(block.squat_id, 1, "")
    page = block.page
    assert not page.logged
    assert len(page.loose) == 4


def test_what_was_generated_and_what_was_changed_stays_visible(block: Written) -> None:
    _generate(block, 1, "5x3 80%", "5x3 80%")
    _generate(block, 2, "1x2 90%; 3x3 80%", "1x2 90%", "3x3 80%")
    block.type(block.squat_id, 3, "5x5")
    assert [block.page.is_changed(block.squat_id, week) for week in (1, 2, 3, 4)] == [False] * 4
    block.type(block.squat_id, 1, "4x3 80%")
    block.type(block.squat_id, 2, "3x3 80%")
    page = block.page
    assert [page.is_changed(block.squat_id, week) for week in (1, 2, 3)] == [True, True, False]
    assert page.made(block.squat_id, 1) == "5x3 80%"
    assert page.made(block.squat_id, 2) == "1x2 90%; 3x3 80%"


def test_a_generated_cell_that_was_emptied_stays_visible_until_it_is_as_made(
    block: Written,
) -> None:
    _generate(block, 2, "1x2 90%; 3x3 80%", "1x2 90%", "3x3 80%")
    block.type(block.squat_id, 2, "")
    assert block.page.cell(block.squat_id, 2) == ()
    assert block.page.is_changed(block.squat_id, 2)
    block.type(block.squat_id, 2, "5x5")
    assert block.page.is_changed(block.squat_id, 2)
    block.type(block.squat_id, 2, "")
    block.type(block.squat_id, 2, "1x2 90%; 3x3 80%")
    assert not block.page.is_changed(block.squat_id, 2)
    assert block.page.made(block.squat_id, 2) == "1x2 90%; 3x3 80%"


def test_a_week_is_copied_over_another(block: Written) -> None:
    cells = [
        TypedCell(block.squat_id, 1, "5x3 80%"),
        TypedCell(block.squat_id, 3, "1x1"),
        TypedCell(block.pause_id, 3, "3x4 @7"),
    ]
    type_cells(block.desk, block.block_id, cells)
    copy_week(block.desk, block.block_id, 1, 3)
    assert block.texts(block.squat_id) == ["5x3 80%", "", "5x3 80%", ""]
    assert block.texts(block.pause_id) == ["", "", "", ""]
    undo(block.desk)
    assert block.texts(block.squat_id)[2] == "1x1"


def test_notes_are_kept_with_their_sets_and_copied_with_the_week(block: Written) -> None:
    block.type(block.squat_id, 1, "1x1 90%; 3x3 80% (pause 2 s)")
    lifted = Lifted(on=date(2026, 11, 16), weight=kilograms(120), reps=3, sets=3)
    log_planned(block.desk, block.page.cell(block.squat_id, 1)[1].id, lifted)
    block.type(block.squat_id, 1, "3x3 80% (belt)")
    (kept,) = block.page.cell(block.squat_id, 1)
    assert kept.note == "belt"
    assert len(block.page.logged[kept.id]) == 3
    copy_week(block.desk, block.block_id, 1, 2)
    assert block.texts(block.squat_id)[:2] == ["3x3 80% (belt)"] * 2
    block.type(block.squat_id, 2, "3x3 80%")
    assert block.page.cell(block.squat_id, 2)[0].note == ""


def test_a_note_beside_a_generated_cell_is_no_change_of_it(block: Written) -> None:
    _generate(block, 1, "1x2 90%; 3x3 80%", "1x2 90%", "3x3 80%")
    block.type(block.squat_id, 1, "1x2 90% (calm); 3x3 80% (pause 2 s)")
    assert not block.page.is_changed(block.squat_id, 1)
    block.type(block.squat_id, 1, "1x2 90% (calm); 3x3 82.5% (pause 2 s)")
    assert block.page.is_changed(block.squat_id, 1)
    assert block.page.made(block.squat_id, 1) == "1x2 90%; 3x3 80%"


@pytest.mark.parametrize(
    ("weeks", "field"), [((2, 1), "from_week"), ((0, 1), "from_week"), ((1, 5), "to_week")]
)
def test_a_week_that_is_not_there_is_not_copied(
    block: Written, weeks: tuple[int, int], field: str
) -> None:
    block.type(block.squat_id, 1, "5x3")
    with pytest.raises(InvalidInput) as fault:
        copy_week(block.desk, block.block_id, *weeks)
    assert fault.value.field == field


def _bar(block: Written, exercise_id: int, typed: str) -> Mass | None:
    block.type(exercise_id, 1, typed)
    page = block.page
    return page.bar_weight(block.exercise(exercise_id), page.cell(exercise_id, 1)[0])


@pytest.mark.parametrize(
    ("typed", "on_the_bar"),
    [
        ("5x3 80%", "120"),  # 0.8 of 150 kg
        ("5x3 81%", "120"),  # 121.5: 120 and 122.5 can be loaded
        ("5x3 85%", "127.5"),
        ("5x3 101", "100"),
        ("5x3 5%", "20"),  # the bare bar
    ],
)
def test_the_bar_is_loaded_with_what_is_at_hand_never_above_the_plan(
    block: Written, typed: str, on_the_bar: str
) -> None:
    """By hand, with a bar of 20 kg and discs from 1.25 kg, two of each on the bar."""
    bar = _bar(block, block.squat_id, typed)
    assert bar is not None
    assert bar.grams == kilograms(on_the_bar).grams


def test_a_variation_has_its_share_of_the_lifts_maximum(block: Written) -> None:
    """0.8 x 0.9 x 150 kg = 108 kg, of which 107.5 kg can be loaded."""
    assert _bar(block, block.pause_id, "5x3 80%") == kilograms("107.5")


def test_without_a_maximum_or_a_weight_nothing_is_put_on_the_bar(block: Written) -> None:
    assert _bar(block, block.squat_id, "5x3 RPE 8") is None
    set_maxima(block.desk, block.block_id, {Lift.SQUAT: None})
    assert _bar(block, block.squat_id, "5x3 80%") is None


def test_the_athletes_own_discs_are_loaded(desk: Desk) -> None:
    """In pounds: 0.8 of 150 kg is 264.55 lb; a bar of 45 lb with pairs of 45, 25 and 10 makes
    45 + 2 x (45 + 45 + 10) = 245 lb, and 255 lb with 2 x (45 + 25 + 25 + 10), the nearest below."""
    block = Written.on(desk, athlete(desk, unit=Unit.LB))
    discs = tuple(Disc(pounds(each)) for each in (45, 25, 10))
    shed = DiscSetData(name="Shed", unit=Unit.LB, bar=pounds(45), collar=pounds(0), discs=discs)
    add_disc_set(desk, shed)
    assert _bar(block, block.squat_id, "5x3 80%") == pounds(255)


def test_the_discs_named_in_the_block_go_before_all_others(block: Written) -> None:
    """A bar of 15 kg with discs of 10 kg makes 15, 35, 55, 75, 95, 115 kg."""
    own = DiscSetData(
        name="Zoo", unit=Unit.KG, bar=kilograms(15), collar=kilograms(0),
        discs=(Disc(kilograms(10)),),
    )  # fmt: skip
    other = DiscSetData(
        name="Attic", unit=Unit.KG, bar=kilograms(20), collar=kilograms(0),
        discs=(Disc(kilograms(25)),),
    )  # fmt: skip
    chosen = add_disc_set(block.desk, own).value
    add_disc_set(block.desk, other)
    assert _bar(block, block.squat_id, "5x3 80%") == kilograms(120)
    seen = block.page.block
    edit_block(block.desk, seen, block_data(seen, disc_set_id=chosen))
    assert _bar(block, block.squat_id, "5x3 80%") == kilograms(115)


def test_pounds_are_exact(desk: Desk) -> None:
    """0.8 of 300 lb is 240 lb: 45 + 2 x (45 + 45 + 5 + 2.5), a step that floats would miss."""
    block = Written.on(desk, athlete(desk, unit=Unit.LB))
    set_maxima(desk, block.block_id, {Lift.SQUAT: pounds(300)})
    assert _bar(block, block.squat_id, "5x3 80%") == Mass(Decimal(240), Unit.LB)


def test_a_judged_single_of_the_plan_is_logged_as_one(block: Written) -> None:
    block.type(block.squat_id, 1, "1x1 92% judged")
    (planned,) = block.page.cell(block.squat_id, 1)
    called = Lifted(on=date(2026, 11, 16), weight=kilograms("137.5"), reps=1, result=Result.GOOD)
    log_planned(block.desk, planned.id, called)
    (logged,) = block.page.logged[planned.id]
    assert (logged.judged, logged.result, logged.lift) == (True, Result.GOOD, Lift.SQUAT)
    assert logged.block_id == block.block_id


def test_a_set_that_cannot_be_is_not_logged(block: Written) -> None:
    block.type(block.pause_id, 1, "3x4 70%")
    (planned,) = block.page.cell(block.pause_id, 1)
    day = date(2026, 11, 18)
    for lifted, field in (
        (Lifted(on=day, weight=kilograms(95), reps=4, sets=0), "sets"),
        (Lifted(on=day, weight=kilograms(95), reps=4, rir=2.2), "rir"),
        (Lifted(on=date(2026, 12, 2), weight=kilograms(95), reps=4), "on"),
        (Lifted(on=day, weight=kilograms(95), reps=4, result=Result.GOOD), "result"),
    ):
        with pytest.raises(InvalidInput) as fault:
            log_planned(block.desk, planned.id, lifted)
        assert fault.value.field == field
    assert not block.page.logged


def test_a_full_block_takes_as_many_statements_as_an_empty_one(block: Written) -> None:
    with counted(block.desk) as empty:
        block_page(block.desk, block.block_id)
    cells = [
        TypedCell(exercise_id, week, "1x1 90%; 3x3 80%")
        for exercise_id in (block.squat_id, block.pause_id)
        for week in (1, 2, 3, 4)
    ]
    type_cells(block.desk, block.block_id, cells)
    for planned in block.page.planned[block.squat_id, 1]:
        log_planned(
            block.desk,
            planned.id,
            Lifted(on=date(2026, 11, 16), weight=kilograms(120), reps=3, sets=3),
        )
    with counted(block.desk) as full:
        block_page(block.desk, block.block_id)
    assert len(full) == len(empty)
