"""What a total is worth in another class, by the rulebook's formula and step."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from coachdesk.domain.athlete import ReadingData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Entry
from coachdesk.domain.scoring import Formula, printed, score, total_for_score
from coachdesk.domain.units import kilograms
from coachdesk.services.class_choices import class_choices
from coachdesk.services.desk import Desk
from coachdesk.services.equal_totals import EqualTotals, equal_totals
from coachdesk.services.meet_weights import meet_weights
from coachdesk.services.meets import edit_entry
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_readings
from tests.conftest import Results

TODAY = date(2026, 11, 25)
STEP_KG = 2.5


def points(total_kg: float, bodyweight_kg: float) -> float:
    found = score(
        Formula.DOTS,
        sex=Sex.MALE,
        bodyweight_kg=bodyweight_kg,
        total_kg=total_kg,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
    )
    assert found is not None
    return found


@pytest.fixture
def athlete_id(results: Results) -> int:
    return results.athlete("Bo Berg", sex=Sex.MALE)


@pytest.fixture
def entry_id(results: Results, desk: Desk, athlete_id: int) -> int:
    """Entered to the 82.5 kg class of a meet scored by DOTS, 83.4 kg at present."""
    meet_id = results.meet("Harbour Open", date(2027, 3, 20))
    entry_id = results.entry(athlete_id, meet_id)
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms("83.4"))])
    with desk.reading() as reader:
        seen = reader.get(Entry, entry_id)
    edit_entry(desk, entry_id, seen.version, replace(seen, weight_class="82.5"))
    return entry_id


def worked_out(desk: Desk, entry_id: int) -> EqualTotals | None:
    with desk.reading() as reader:
        meet_id = reader.get(Entry, entry_id).meet_id
    read = meet_weights(desk, meet_id)
    state = read.state(entry_id)
    found = class_choices(state, read.rulebook, read.today)
    classes = [choice.fit.weight_class for choice in found]
    assert read.rulebook.best_lifter is Formula.DOTS
    assert read.rulebook.smallest_step.kg == STEP_KG
    return equal_totals(desk, state, read.rulebook, classes)


def test_there_and_back_the_score_is_the_same(
    desk: Desk, results: Results, athlete_id: int, entry_id: int
) -> None:
    """The total for a class scores what the last total did at that day's weight, and a step less
    does not; turned round, `total_for_score` gives a total within that step."""
    results.day(athlete_id, results.meet("Lake Cup", date(2026, 5, 9)), (200, 130, 250),
                bodyweight="81.9")  # fmt: skip
    equal = worked_out(desk, entry_id)
    assert equal is not None
    assert equal.reference.total.kg == 580
    assert equal.reference.lifted_on == date(2026, 5, 9)
    assert equal.reference.points == pytest.approx(points(580, 81.9))
    assert list(equal.by_class) == ["82.5", "90", "100"]
    for name, total in equal.by_class.items():
        wanted = printed(equal.reference.points)
        assert printed(points(total.kg, float(name))) >= wanted
        assert printed(points(total.kg - STEP_KG, float(name))) < wanted
        back = total_for_score(
            Formula.DOTS,
            equal.reference.points,
            sex=Sex.MALE,
            bodyweight_kg=float(name),
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
        )
        assert back is not None
        assert back <= total.kg + 0.01
        assert total.kg - back < STEP_KG + 0.01


def test_the_latest_total_counts_of_those_at_a_known_weight_in_the_same_event(
    desk: Desk, results: Results, athlete_id: int, entry_id: int
) -> None:
    def day(name: str, on: date, best_kg: tuple[float, ...], **more: object) -> None:
        results.day(athlete_id, results.meet(name, on), best_kg, **more)  # type: ignore[arg-type]

    day("Old Cup", date(2025, 5, 9), (210, 140, 260), bodyweight="82")
    day("Lake Cup", date(2026, 3, 9), (200, 130, 250), bodyweight="81.9")
    day("Moor Cup", date(2026, 5, 9), (205, 130, 250))
    day("Bench Cup", date(2026, 6, 9), (150,), bodyweight="82", event=Event.BENCH_ONLY)
    day("Suit Cup", date(2026, 7, 9), (250, 170, 260), bodyweight="82",
        equipment=Equipment.EQUIPPED)  # fmt: skip
    bombed = results.entry(athlete_id, results.meet("Sea Cup", date(2026, 8, 9)), bodyweight="82")
    results.lift(bombed, Lift.SQUAT, [(200, False), (200, False), (200, False)])
    equal = worked_out(desk, entry_id)
    assert equal is not None
    assert equal.reference.lifted_on == date(2026, 3, 9)


def test_the_plan_on_file_comes_before_the_last_total(
    desk: Desk, results: Results, athlete_id: int, entry_id: int
) -> None:
    """It is scored at the present bodyweight."""
    results.day(athlete_id, results.meet("Lake Cup", date(2026, 5, 9)), (200, 130, 250),
                bodyweight="81.9")  # fmt: skip
    with desk.reading() as reader:
        seen = reader.get(Entry, entry_id)
    own = {
        f"expected_{lift}": kilograms(kg) for lift, kg in zip(Lift, (205, 135, 255), strict=True)
    }
    edit_entry(desk, entry_id, seen.version, replace(seen, **own))  # type: ignore[arg-type]
    plan_meet(desk, seen.meet_id)
    equal = worked_out(desk, entry_id)
    assert equal is not None
    assert equal.reference.lifted_on is None
    assert equal.reference.bodyweight.kg == pytest.approx(83.4, abs=0.01)
    assert 540 < equal.reference.total.kg < 600
    assert equal.reference.points == pytest.approx(
        points(equal.reference.total.kg, equal.reference.bodyweight.kg)
    )


def test_without_any_total_there_is_nothing_to_measure_by(desk: Desk, entry_id: int) -> None:
    assert worked_out(desk, entry_id) is None


def test_a_class_without_a_limit_has_no_total(
    desk: Desk, results: Results, athlete_id: int, entry_id: int
) -> None:
    results.day(athlete_id, results.meet("Lake Cup", date(2026, 5, 9)), (200, 130, 250),
                bodyweight="81.9")  # fmt: skip
    with desk.reading() as reader:
        meet_id = reader.get(Entry, entry_id).meet_id
    read = meet_weights(desk, meet_id)
    classes = read.rulebook.classes(Sex.MALE, read.meet.starts_on, ("open",))
    equal = equal_totals(desk, read.state(entry_id), read.rulebook, classes)
    assert equal is not None
    assert {each.name for each in classes} - set(equal.by_class) == {classes[-1].name}
    assert classes[-1].limit is None
