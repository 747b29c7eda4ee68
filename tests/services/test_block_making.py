"""Blocks laid out to a meet or started from a template, and what they come to."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.loading import load
from coachdesk.domain.training import BlockData, Purpose
from coachdesk.domain.units import kilograms
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block
from coachdesk.services.block_generating import keep, propose
from coachdesk.services.block_load import block_load
from coachdesk.services.block_reading import BlockPage, block_page, blocks_of
from coachdesk.services.block_templates import start_from_template, templates
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.session_logging import Lifted, log_planned
from coachdesk.services.undo import undo
from coachdesk.wording.wording import Wording
from tests.conftest import Results

MAXIMA = {Lift.SQUAT: kilograms(180), Lift.BENCH: kilograms(117.5), Lift.DEADLIFT: kilograms(212.5)}
MEET_ON = date(2027, 3, 6)


def athlete(desk: Desk, *, meets_before: int, born: date | None = date(1995, 5, 5)) -> int:
    data = AthleteData(
        given_name="Ada", family_name="", sex=Sex.FEMALE, birth_date=born, meets_before=meets_before
    )
    return add_athlete(desk, data).value


@pytest.fixture
def entered(results: Results) -> tuple[int, int]:
    """An adult who has lifted before, entered in a meet on a Saturday."""
    athlete_id = athlete(results.desk, meets_before=4)
    meet_id = results.meet("Spring Cup", MEET_ON)
    results.entry(athlete_id, meet_id)
    return athlete_id, meet_id


def codes(desk: Desk, athlete_id: int, meet_id: int, days: int = 3) -> set[str]:
    return {said.code for said in propose(desk, athlete_id, meet_id, days, MAXIMA).cautions}


def generated(desk: Desk, wording: Wording, entered: tuple[int, int]) -> tuple[BlockPage, ...]:
    kept = keep(desk, propose(desk, *entered, 4, MAXIMA), wording.say)
    return tuple(block_page(desk, block_id) for block_id in kept.value)


def test_a_proposal_goes_on_file_as_it_was_shown(
    desk: Desk, wording: Wording, entered: tuple[int, int]
) -> None:
    proposal = propose(desk, *entered, 4, MAXIMA)
    assert blocks_of(desk, entered[0]) == ()
    pages = generated(desk, wording, entered)
    assert [page.block.purpose for page in pages] == [each.purpose for each in proposal.blocks]
    assert all(page.meet and page.meet.id == entered[1] for page in pages)
    assert {lift: each.weight for lift, each in pages[0].maxima.items()} == MAXIMA
    undo(desk)
    assert blocks_of(desk, entered[0]) == ()


def test_generated_weights_can_be_loaded(
    desk: Desk, wording: Wording, entered: tuple[int, int]
) -> None:
    for page in generated(desk, wording, entered):
        for exercise in page.exercises:
            for week in range(1, page.block.weeks + 1):
                for planned in page.cell(exercise.id, week):
                    weight = page.bar_weight(exercise, planned)
                    asked = page.full_weight(exercise, planned)
                    assert weight is not None
                    assert asked is not None
                    assert load(weight, page.bar_set).exact is not None
                    assert 0 <= asked.grams - weight.grams < 2500


def test_what_was_generated_and_what_was_changed_can_be_told(
    desk: Desk, wording: Wording, entered: tuple[int, int]
) -> None:
    page = generated(desk, wording, entered)[-1]
    exercise = page.exercises[0]
    assert not page.is_changed(exercise.id, 1)
    type_cells(desk, page.block.id, [TypedCell(exercise.id, 1, "2x2 75%")])
    assert block_page(desk, page.block.id).is_changed(exercise.id, 1)


def test_blocks_on_the_same_days_are_said_and_stay(
    desk: Desk, wording: Wording, entered: tuple[int, int]
) -> None:
    old = BlockData(
        athlete_id=entered[0],
        name="Old plan",
        purpose=Purpose.GENERAL,
        starts_on=MEET_ON - timedelta(weeks=3),
        weeks=2,
    )
    add_block(desk, old)
    proposal = propose(desk, *entered, 3, MAXIMA)
    assert [each.name for each in proposal.overlapping] == ["Old plan"]
    keep(desk, proposal, wording.say)
    assert "Old plan" in {each.name for each in blocks_of(desk, entered[0])}


def test_a_later_start_leaves_the_days_before(desk: Desk, entered: tuple[int, int]) -> None:
    later = MEET_ON - timedelta(weeks=4)
    proposal = propose(desk, *entered, 3, MAXIMA, starts_from=later)
    assert proposal.blocks[0].starts_on >= later


def test_minors_unknown_ages_and_first_meets_are_planned_lighter(
    desk: Desk, entered: tuple[int, int]
) -> None:
    assert not {"generated.minor", "generated.first_meet"} & codes(desk, *entered)
    young = athlete(desk, born=date(2010, 1, 1), meets_before=2)
    first = athlete(desk, meets_before=0)
    unknown = athlete(desk, born=None, meets_before=2)
    for athlete_id, code in (
        (young, "generated.minor"),
        (first, "generated.first_meet"),
        (unknown, "generated.age_unknown"),
    ):
        assert code in codes(desk, athlete_id, entered[1])
        blocks = propose(desk, athlete_id, entered[1], 3, MAXIMA).blocks
        percents = [
            each.percent or 0
            for block in blocks
            for exercise in block.exercises
            for several in exercise.sets.values()
            for each in several
        ]
        assert max(percents) < 90


def test_a_lift_without_a_maximum_is_said(desk: Desk, entered: tuple[int, int]) -> None:
    proposal = propose(desk, *entered, 3, {Lift.SQUAT: kilograms(180)})
    assert sum(said.code == "generated.no_maximum" for said in proposal.cautions) == 2


def test_wrong_numbers_are_at_their_field(desk: Desk, entered: tuple[int, int]) -> None:
    with pytest.raises(InvalidInput) as days:
        propose(desk, *entered, 7, MAXIMA)
    with pytest.raises(InvalidInput) as maximum:
        propose(desk, *entered, 3, {Lift.BENCH: kilograms(4000)})
    assert (days.value.field, maximum.value.field) == ("days_a_week", "maximum_bench")


def test_every_template_starts_a_block(
    desk: Desk, wording: Wording, entered: tuple[int, int]
) -> None:
    for template in templates(desk):
        done = start_from_template(
            desk, entered[0], template, date(2026, 11, 30), MAXIMA, wording.say
        )
        page = block_page(desk, done.value)
        assert (page.block.name, page.block.weeks) == (template.name, template.weeks)
        assert set(page.maxima) == set(template.lifts)
        assert len(page.exercises) == len(template.exercises)


def test_load_planned_and_done(desk: Desk, wording: Wording, entered: tuple[int, int]) -> None:
    """By hand: 3x8 at 62 % of 180 kg is 111.6, on the bar 110; two sets of it are done."""
    base = next(each for each in templates(desk) if each.key == "base_three_days")
    start = date(2026, 11, 23)
    block_id = start_from_template(desk, entered[0], base, start, MAXIMA, wording.say).value
    page = block_page(desk, block_id)
    squat = page.exercises[0]
    planned = page.cell(squat.id, 1)[0]
    log_planned(desk, planned.id, Lifted(on=start, weight=kilograms(110), reps=8, sets=2))
    found = block_load(block_page(desk, block_id))
    done = found.done[1, Lift.SQUAT]
    assert (done.reps, done.volume_kg, done.heavy) == (16, 1760, 0)
    assert done.intensity == pytest.approx(100 * 110 / 180)
    assert found.planned[1, Lift.SQUAT].volume_kg == pytest.approx(24 * 110)
    assert found.planned[1, Lift.SQUAT].open_reps == 18
    assert found.done_weeks[0] == done
    assert found.lifts == (Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT)
