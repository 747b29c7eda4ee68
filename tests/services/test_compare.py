"""Comparing athletes as a coach would: what counts, what is kept apart, what equals what."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from coachdesk.domain.athlete import Athlete, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import AttemptData
from coachdesk.domain.performance import Scale, points
from coachdesk.domain.scoring import Formula, printed
from coachdesk.domain.units import Mass, kilograms
from coachdesk.services.compare import CompareChoice, Counted, Line, compare
from coachdesk.services.compare_days import read_compare_data
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import choose_opener, record_attempts
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_readings, edit_athlete

if TYPE_CHECKING:
    from tests.conftest import Results

DOTS = Scale(Formula.DOTS, None, with_age_factor=False)
SPRING, AUTUMN, WINTER = date(2026, 5, 2), date(2026, 10, 3), date(2026, 12, 12)


def lines_of(desk: Desk, choice: CompareChoice) -> tuple[Line, ...]:
    return compare(read_compare_data(desk), choice, desk.rulebooks)


def one(desk: Desk, choice: CompareChoice) -> Line:
    (line,) = lines_of(desk, choice)
    return line


def test_ranks_go_by_points_and_the_points_are_those_of_public_results(
    desk: Desk, results: Results
) -> None:
    """Source: tests/data/scored_results.csv, women, classic, three lifts: bodyweight, total and
    printed DOTS points of public meet results."""
    meet_id = results.meet("Harbour Open", SPRING)
    public = [("40.73", 255.0, "373.15"), ("40.4", 120.0, "176.75")]
    for number, (bodyweight, total_kg, _) in enumerate(reversed(public)):
        lifts = (total_kg - 80, 30, 50)
        results.day(results.athlete(f"Ana {number}"), meet_id, lifts, bodyweight=bodyweight)
    lines = lines_of(desk, CompareChoice(scale=DOTS))
    assert [line.rank for line in lines] == [1, 2]
    found = [None if line.points is None else printed(line.points) for line in lines]
    assert found == [Decimal(score) for _, _, score in public]


def test_best_goes_by_points_and_latest_by_date(desk: Desk, results: Results) -> None:
    """400 kg at 60 kg is worth more than 405 kg at 75 kg by DOTS."""
    ana = results.athlete("Ana Ruiz")
    spring = results.meet("Harbour Open", SPRING)
    autumn = results.meet("Autumn Cup", AUTUMN)
    results.day(ana, spring, (150, 80, 170), bodyweight="60")
    results.day(ana, autumn, (150, 80, 175), bodyweight="75")
    best = one(desk, CompareChoice(scale=DOTS))
    latest = one(desk, CompareChoice(scale=DOTS, counted=Counted.LATEST))
    assert best.day is not None
    assert latest.day is not None
    assert (best.day.meet, best.grams) == ("Harbour Open", 400_000)
    assert (latest.day.meet, latest.grams) == ("Autumn Cup", 405_000)
    assert latest.progress is not None
    assert latest.progress.grams == 5000
    assert latest.progress.since.meet == "Harbour Open"
    assert latest.progress.points == pytest.approx((latest.points or 0) - (best.points or 0))
    assert best.progress is None


def test_only_days_in_the_range_count_both_ends_included(desk: Desk, results: Results) -> None:
    ana = results.athlete("Ana Ruiz")
    for name, on, kg in (("One", SPRING, 150), ("Two", AUTUMN, 100)):
        results.day(ana, results.meet(name, on), (kg, 80, 170), bodyweight="60")
    choice = CompareChoice(scale=DOTS, first=SPRING + timedelta(days=1), last=AUTUMN)
    assert one(desk, choice).grams == 350_000
    assert one(desk, replace(choice, first=SPRING)).grams == 400_000
    empty = one(desk, replace(choice, last=AUTUMN - timedelta(days=1)))
    assert empty.day is None
    assert empty.why is not None
    assert empty.why.code == "compare.no_result.lifted"


def test_a_bomb_out_has_no_total_but_its_lifts_count(desk: Desk, results: Results) -> None:
    ana = results.athlete("Ana Ruiz")
    entry_id = results.entry(ana, results.meet("Harbour Open", SPRING), bodyweight="60")
    results.lift(entry_id, Lift.SQUAT, [(120, True)])
    results.lift(entry_id, Lift.BENCH, [(80, False), (80, False), (80, False)])
    results.lift(entry_id, Lift.DEADLIFT, [(150, True)])
    line = one(desk, CompareChoice(scale=DOTS))
    assert (line.grams, line.points, line.rank) == (None, None, None)
    assert line.why is not None
    assert line.why.code == "compare.no_total.bombed"
    assert line.shares == {}
    squat = one(desk, CompareChoice(scale=replace(DOTS, lift=Lift.SQUAT)))
    assert squat.grams == 120_000
    bench = one(desk, CompareChoice(scale=replace(DOTS, lift=Lift.BENCH)))
    assert bench.why is not None
    assert bench.why.code == "compare.no_score.no_lift"


def test_the_latest_meet_counts_even_when_it_was_a_bomb_out(desk: Desk, results: Results) -> None:
    ana = results.athlete("Ana Ruiz")
    results.day(ana, results.meet("Harbour Open", SPRING), (120, 60, 150), bodyweight="60")
    entry_id = results.entry(ana, results.meet("Autumn Cup", AUTUMN), bodyweight="60")
    results.lift(entry_id, Lift.SQUAT, [(125, False)] * 3)
    latest = one(desk, CompareChoice(scale=DOTS, counted=Counted.LATEST))
    assert latest.why is not None
    assert latest.why.code == "compare.no_total.bombed"
    assert one(desk, CompareChoice(scale=DOTS)).grams == 330_000


def test_equipment_and_event_are_kept_apart_where_the_formula_needs_it(
    desk: Desk, results: Results
) -> None:
    meet_id = results.meet("Harbour Open", SPRING)
    ana, bea = results.athlete("Ana Ruiz"), results.athlete("Bea Lind")
    results.day(ana, meet_id, (120, 60, 150), bodyweight="60")
    results.day(ana, meet_id, (65,), bodyweight="60", event=Event.BENCH_ONLY)
    results.day(bea, meet_id, (180, 90, 160), bodyweight="60", equipment=Equipment.EQUIPPED)
    lines = lines_of(desk, CompareChoice(scale=DOTS))
    assert [(line.athlete.id, line.group, line.rank) for line in lines] == [
        (ana, (Equipment.CLASSIC, Event.THREE_LIFT), 1),
        (bea, (Equipment.EQUIPPED, Event.THREE_LIFT), 1),
        (ana, (Equipment.CLASSIC, Event.BENCH_ONLY), 1),
    ]
    together = lines_of(desk, CompareChoice(scale=replace(DOTS, formula=Formula.IPF_GL)))
    assert sorted(line.athlete.id for line in together) == [ana, bea]
    assert {line.rank for line in together} == {1, 2}
    only = lines_of(
        desk, CompareChoice(scale=DOTS, event=Event.BENCH_ONLY, equipment=Equipment.CLASSIC)
    )
    assert [(line.athlete.id, line.grams) for line in only] == [(ana, 65_000), (bea, None)]


def test_the_age_is_the_one_the_division_goes_by(desk: Desk, results: Results) -> None:
    """IPF divisions go by the calendar year, so she is 40 all through 2026 although her birthday
    is still to come; the traditional rulebook with a day-before weigh-in goes by the day.
    McCulloch from 40: 1.000 at 40; 41 is 1.010 (tables, recalled)."""
    ana = results.athlete("Ana Ruiz", born=date(1985, 12, 31))
    for rulebook, on, age in (
        ("ipf_2021", SPRING, 41),
        ("traditional_day_before", AUTUMN, 40),
    ):
        results.day(
            ana, results.meet(rulebook, on, rulebook=rulebook), (120, 60, 150), bodyweight="60"
        )
        aged = replace(DOTS, with_age_factor=True)
        line = one(desk, CompareChoice(scale=aged, counted=Counted.LATEST))
        assert line.age_factor is not None
        assert line.age_factor.age_years == age
        plain = one(desk, CompareChoice(scale=DOTS, counted=Counted.LATEST))
        assert plain.age_factor is None
        assert line.points == pytest.approx((plain.points or 0) * line.age_factor.factor)


def test_without_a_birth_date_there_is_no_age_adjusted_score(desk: Desk, results: Results) -> None:
    ana = results.athlete("Ana Ruiz")
    results.day(ana, results.meet("Harbour Open", SPRING), (120, 60, 150), bodyweight="60")
    with desk.reading() as reader:
        athlete = reader.get(Athlete, ana)
    edit_athlete(desk, ana, athlete.version, replace(athlete, birth_date=None))
    line = one(desk, CompareChoice(scale=replace(DOTS, with_age_factor=True)))
    assert line.points is None
    assert line.why is not None
    assert line.why.code == "compare.no_score.birth_date"


@pytest.mark.parametrize("formula", list(Formula))
@pytest.mark.parametrize("step", [None, kilograms("0.5")])
def test_the_kilograms_needed_are_the_least_that_equal_the_other(
    desk: Desk, results: Results, formula: Formula, step: Mass | None
) -> None:
    """By scoring again: the answer equals the other's printed points, one step less does not."""
    meet_id = results.meet("Harbour Open", SPRING)
    ana = results.athlete("Ana Ruiz")
    bo = results.athlete("Bo Berg", sex=Sex.MALE)
    results.day(ana, meet_id, (150, 80, 170), bodyweight="61.3")
    results.day(bo, meet_id, (190, 120, 210), bodyweight="92.75")
    scale = replace(DOTS, formula=formula)
    choice = CompareChoice(scale=scale, equal_to=ana, equal_on=Lift.BENCH, step=step)
    by_id = {line.athlete.id: line for line in lines_of(desk, choice)}
    target, line = by_id[ana].points, by_id[bo]
    assert by_id[ana].equal is None
    assert target is not None
    assert line.day is not None
    assert line.equal is not None
    assert line.equal.lift is not None
    assert line.equal.total is not None
    more = line.equal.lift.more_g
    assert more is not None
    for more_g, reaches in ((more, True), (more - (step or kilograms("2.5")).grams, False)):
        raised = {**line.day.performance.best_g}
        raised[Lift.BENCH] += more_g
        again = points(replace(line.day.performance, best_g=raised), scale)
        assert again is not None
        assert (printed(again) >= printed(target)) is reaches
    total_g = line.day.performance.total_g
    assert total_g is not None
    assert line.equal.total.weight.grams == total_g + (line.equal.total.more_g or 0)
    assert line.equal.total.more_g == line.equal.lift.more_g


def test_nobody_needs_less_than_the_bar_weighs(desk: Desk, results: Results) -> None:
    """Bar with collars 25 kg (IPF 2007)."""
    meet_id = results.meet("Harbour Open", SPRING)
    ana, bea = results.athlete("Ana Ruiz"), results.athlete("Bea Lind")
    results.day(ana, meet_id, (60, 30, 70), bodyweight="61")
    results.day(bea, meet_id, (150, 80, 170), bodyweight="61")
    lines = lines_of(desk, CompareChoice(scale=DOTS, equal_to=ana, equal_on=Lift.BENCH))
    (equal,) = (line.equal for line in lines if line.athlete.id == bea)
    assert equal is not None
    assert equal.lift is not None
    assert equal.lift.weight == kilograms(25)
    assert equal.lift.more_g == -55_000
    assert equal.total is not None
    assert (equal.total.more_g or 0) < 0


def test_what_is_ahead_counts_the_plan_or_the_openers_at_the_present_weight(
    desk: Desk, results: Results
) -> None:
    ana = results.athlete("Ana Ruiz")
    results.day(ana, results.meet("Harbour Open", SPRING), (120, 60, 150), bodyweight="64")
    meet_id = results.meet("Winter Cup", WINTER)
    entry_id = results.entry(ana, meet_id)
    choice = CompareChoice(scale=DOTS, counted=Counted.ALL_GOOD)
    unplanned = one(desk, choice)
    assert unplanned.why is not None
    assert unplanned.why.code == "compare.no_total.not_planned"
    plan_meet(desk, meet_id)
    choose_opener(desk, entry_id, Lift.SQUAT, kilograms(100))
    without_weight = one(desk, choice)
    assert without_weight.why is not None
    assert without_weight.why.code == "compare.no_score.bodyweight"
    today = desk.today()
    add_readings(
        desk,
        [
            ReadingData(athlete_id=ana, on=today - timedelta(days=ago), weight=kilograms(weight))
            for ago, weight in enumerate(("61.2", "61.4", "61.6"))
        ],
    )
    planned = one(desk, choice)
    openers = one(desk, replace(choice, counted=Counted.OPENERS))
    with desk.reading() as reader:
        plan = read_meet(reader, meet_id, today).plans[entry_id].plan
    assert planned.grams == sum(lift.when_all_good.grams for lift in plan.lifts)
    assert planned.day is not None
    assert planned.day.performance.bodyweight_kg == pytest.approx(61.4, abs=0.05)
    assert planned.progress is not None
    assert planned.progress.grams == planned.grams - 330_000
    assert openers.day is not None
    assert openers.day.performance.best_g[Lift.SQUAT] == 100_000
    assert openers.grams is not None
    assert openers.grams < 310_000
    assert openers.points is not None
    assert planned.points is not None
    assert openers.points < planned.points


def test_nothing_planned_is_said(desk: Desk, results: Results) -> None:
    results.athlete("Ana Ruiz")
    line = one(desk, CompareChoice(scale=DOTS, counted=Counted.OPENERS))
    assert line.why is not None
    assert line.why.code == "compare.no_result.planned"


def test_equal_points_share_a_rank(desk: Desk, results: Results) -> None:
    meet_id = results.meet("Harbour Open", SPRING)
    for name, bench in (("Ana Ruiz", 60), ("Bea Lind", 60), ("Cora Adler", 50)):
        results.day(results.athlete(name), meet_id, (120, bench, 150), bodyweight="60")
    assert [line.rank for line in lines_of(desk, CompareChoice(scale=DOTS))] == [1, 1, 3]


def test_a_meet_under_way_has_no_total_yet(desk: Desk, results: Results) -> None:
    entry_id = results.entry(
        results.athlete("Ana Ruiz"), results.meet("Today's Meet", desk.today()), bodyweight="60"
    )
    results.lift(entry_id, Lift.SQUAT, [(100, True)])
    line = one(desk, CompareChoice(scale=DOTS))
    assert line.why is not None
    assert line.why.code == "compare.no_total.unfinished"


def test_the_weigh_in_and_the_thirds_chosen_come_before_averages_and_plans(
    desk: Desk, results: Results
) -> None:
    ana = results.athlete("Ana Ruiz")
    add_readings(desk, [ReadingData(athlete_id=ana, on=desk.today(), weight=kilograms("61.4"))])
    entry_id = results.entry(ana, results.meet("Winter Cup", WINTER), bodyweight="60.2")
    chosen = {Lift.SQUAT: 120, Lift.BENCH: 60, Lift.DEADLIFT: 150}
    record_attempts(
        desk,
        [
            AttemptData(entry_id=entry_id, lift=lift, number=3, weight=kilograms(weight))
            for lift, weight in chosen.items()
        ],
    )
    line = one(desk, CompareChoice(scale=DOTS, counted=Counted.ALL_GOOD))
    assert line.grams == 330_000
    assert line.day is not None
    assert line.day.performance.bodyweight_kg == pytest.approx(60.2)
