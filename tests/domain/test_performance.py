"""Comparing performances: public results' printed points, and what equals them, by re-scoring."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.age_factors import AgeTable, age_factor
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.performance import (
    AgeFactor,
    Performance,
    Scale,
    applied_age_factor,
    lift_to_equal,
    points,
    rank_group,
    shares,
    total_to_equal,
    why_no_points,
)
from coachdesk.domain.scoring import Formula, printed
from coachdesk.domain.units import Mass, kilograms, pounds

DATA = Path(__file__).parents[1] / "data"
SEXES = {"M": Sex.MALE, "F": Sex.FEMALE}
EQUIPMENT = {"Raw": Equipment.CLASSIC, "Single-ply": Equipment.EQUIPPED}
EVENTS = {"SBD": Event.THREE_LIFT, "B": Event.BENCH_ONLY}
PRINTED = (Formula.DOTS, Formula.WILKS_1994, Formula.IPF_GL)

ANA = Performance(
    sex=Sex.FEMALE,
    event=Event.THREE_LIFT,
    equipment=Equipment.CLASSIC,
    bodyweight_kg=62.4,
    age_years=30,
    best_g={Lift.SQUAT: 130_000, Lift.BENCH: 75_000, Lift.DEADLIFT: 160_000},
)
BEN = Performance(
    sex=Sex.MALE,
    event=Event.THREE_LIFT,
    equipment=Equipment.CLASSIC,
    bodyweight_kg=91.3,
    age_years=47,
    best_g={Lift.SQUAT: 210_000, Lift.BENCH: 140_000, Lift.DEADLIFT: 245_000},
)


def _total(formula: Formula, *, with_age_factor: bool = False) -> Scale:
    return Scale(formula, None, with_age_factor)


def _public_results() -> list[dict[str, str]]:
    with (DATA / "scored_results.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _performance(row: dict[str, str]) -> Performance:
    """The row's total, shared out over the lifts, since only totals were published."""
    total_g = int(Decimal(row["total_kg"]) * 1000)
    event = EVENTS[row["event"]]
    if event is Event.BENCH_ONLY:
        best_g = {Lift.BENCH: total_g}
    else:
        squat_g, bench_g = total_g * 36 // 100, total_g * 23 // 100
        best_g = {
            Lift.SQUAT: squat_g,
            Lift.BENCH: bench_g,
            Lift.DEADLIFT: total_g - squat_g - bench_g,
        }
    return Performance(
        sex=SEXES[row["sex"]],
        event=event,
        equipment=EQUIPMENT[row["equipment"]],
        bodyweight_kg=float(row["bodyweight_kg"]),
        age_years=None,
        best_g=best_g,
    )


def test_points_are_those_printed_with_public_results() -> None:
    """Source: 520 public meet results with printed points (tests/data/scored_results.csv)."""
    rows = _public_results()
    assert len(rows) > 500
    for row in rows:
        performance = _performance(row)
        for formula in PRINTED:
            if row[formula]:
                found = points(performance, _total(formula))
                assert found is not None, row
                assert printed(found) == Decimal(row[formula]), (formula, row)


def test_the_bench_of_a_full_meet_is_scored_like_a_bench_press_meet() -> None:
    """Source: the bench-only rows of tests/data/scored_results.csv, with printed IPF GL points."""
    rows = [row for row in _public_results() if row["event"] == "B" and row["ipf_gl"]]
    assert len(rows) > 50
    for row in rows:
        alone = _performance(row)
        in_full = replace(
            alone,
            event=Event.THREE_LIFT,
            best_g={Lift.BENCH: alone.best_g[Lift.BENCH], Lift.SQUAT: 100_000},
        )
        found = points(in_full, Scale(Formula.IPF_GL, Lift.BENCH, with_age_factor=False))
        assert found is not None
        assert printed(found) == Decimal(row["ipf_gl"])


def test_the_age_factor_is_multiplied_on_and_named() -> None:
    """McCulloch 1.082 at 47, no factor at 30, Foster 1.13 at 16 (tables, recalled)."""
    plain = points(BEN, _total(Formula.DOTS))
    aged = points(BEN, _total(Formula.DOTS, with_age_factor=True))
    assert plain is not None
    assert aged == pytest.approx(plain * 1.082)
    assert applied_age_factor(BEN) == AgeFactor(1.082, 47, AgeTable.MC_CULLOCH)
    assert applied_age_factor(ANA) == AgeFactor(1.0, 30, None)
    assert applied_age_factor(replace(ANA, age_years=16)) == AgeFactor(1.13, 16, AgeTable.FOSTER)
    assert applied_age_factor(replace(ANA, age_years=13)) is None
    assert applied_age_factor(replace(ANA, age_years=None)) is None


@pytest.mark.parametrize(
    ("performance", "scale", "code"),
    [
        (replace(ANA, bodyweight_kg=None), _total(Formula.DOTS), "compare.no_score.bodyweight"),
        (replace(ANA, bodyweight_kg=34.9), _total(Formula.IPF_GL), "compare.no_score.too_light"),
        (
            replace(ANA, event=Event.PUSH_PULL),
            _total(Formula.IPF_GL),
            "compare.no_score.event",
        ),
        (ANA, Scale(Formula.IPF_GL, Lift.SQUAT, with_age_factor=False), "compare.no_score.event"),
        (
            replace(ANA, age_years=None),
            _total(Formula.DOTS, with_age_factor=True),
            "compare.no_score.birth_date",
        ),
        (
            replace(ANA, age_years=13),
            _total(Formula.DOTS, with_age_factor=True),
            "compare.no_score.age",
        ),
    ],
)
def test_where_there_are_no_points_the_reason_is_said(
    performance: Performance, scale: Scale, code: str
) -> None:
    assert points(performance, scale) is None
    assert why_no_points(performance, scale).code == code


def test_a_missing_lift_leaves_no_total_and_no_points() -> None:
    bombed = replace(ANA, best_g={Lift.SQUAT: 130_000, Lift.DEADLIFT: 160_000})
    assert bombed.total_g is None
    assert points(bombed, _total(Formula.DOTS)) is None
    assert shares(bombed) == {}
    squat = Scale(Formula.DOTS, Lift.SQUAT, with_age_factor=False)
    assert points(bombed, squat) == points(ANA, squat)


def test_the_shares_of_the_lifts_make_up_the_total() -> None:
    """130 + 75 + 160 = 365 kg."""
    found = shares(ANA)
    assert found[Lift.SQUAT].value == pytest.approx(100 * 130 / 365)
    assert sum(share.value for share in found.values()) == pytest.approx(100)
    bench_only = replace(ANA, event=Event.BENCH_ONLY, best_g={Lift.BENCH: 75_000})
    assert shares(bench_only) == {}


def test_a_formula_that_knows_no_equipment_keeps_it_apart() -> None:
    """DOTS and Wilks take sex and bodyweight alone; IPF GL has eight sets of constants."""
    equipped = replace(ANA, equipment=Equipment.EQUIPPED)
    bench_only = replace(ANA, event=Event.BENCH_ONLY)
    for formula in (Formula.DOTS, Formula.WILKS_1994, Formula.WILKS_2020):
        assert rank_group(ANA, _total(formula)) != rank_group(equipped, _total(formula))
        assert rank_group(ANA, _total(formula)) != rank_group(bench_only, _total(formula))
        bench = Scale(formula, Lift.BENCH, with_age_factor=False)
        assert rank_group(ANA, bench) == rank_group(bench_only, bench)
    everybody = {rank_group(each, _total(Formula.IPF_GL)) for each in (ANA, equipped, bench_only)}
    assert len(everybody) == 1


WEIGHTS = st.integers(min_value=8, max_value=120).map(lambda steps: steps * 2500)
PERFORMANCES = st.builds(
    Performance,
    sex=st.sampled_from(Sex),
    event=st.just(Event.THREE_LIFT),
    equipment=st.sampled_from(Equipment),
    bodyweight_kg=st.integers(min_value=4000, max_value=16000).map(lambda cents: cents / 100),
    age_years=st.integers(min_value=14, max_value=80),
    best_g=st.fixed_dictionaries(dict.fromkeys(Lift, WEIGHTS)),
)
STEPS = st.sampled_from([kilograms("2.5"), kilograms("0.5"), kilograms(1), pounds(5)])


@given(
    mine=PERFORMANCES,
    theirs=PERFORMANCES,
    formula=st.sampled_from(Formula),
    lift=st.sampled_from(Lift),
    step=STEPS,
)
def test_the_kilograms_needed_equal_the_other_and_one_step_less_does_not(
    mine: Performance, theirs: Performance, formula: Formula, lift: Lift, step: Mass
) -> None:
    """By scoring again what was answered."""
    scale = _total(formula, with_age_factor=True)
    target = points(theirs, scale)
    assert target is not None
    needed = lift_to_equal(mine, target, scale, lift, step=step)
    assert needed is not None
    assert (needed.number / step.number) % 1 == 0
    assert printed(_with(mine, lift, needed, scale)) >= printed(target)
    if needed.number > 0:
        less = Mass(needed.number - step.number, step.unit)
        assert printed(_with(mine, lift, less, scale)) < printed(target)


def _with(performance: Performance, lift: Lift, weight: Mass, scale: Scale) -> float:
    found = points(replace(performance, best_g={**performance.best_g, lift: weight.grams}), scale)
    assert found is not None
    return found


@given(
    mine=PERFORMANCES,
    theirs=PERFORMANCES,
    formula=st.sampled_from([Formula.DOTS, Formula.WILKS_1994, Formula.WILKS_2020]),
    lift=st.sampled_from(Lift),
)
def test_on_a_single_lift_it_is_that_lift_alone(
    mine: Performance, theirs: Performance, formula: Formula, lift: Lift
) -> None:
    scale = Scale(formula, lift, with_age_factor=False)
    target = points(theirs, scale)
    assert target is not None
    needed = total_to_equal(mine, target, scale, step=kilograms("2.5"))
    assert needed is not None
    assert printed(_with(mine, lift, needed, scale)) >= printed(target)
    assert lift_to_equal(mine, target, scale, lift, step=kilograms("2.5")) is None


def test_age_factors_count_on_both_sides() -> None:
    """Ben, 47, needs less than a lifter of his weight who is 30: 1.082 times less."""
    scale = _total(Formula.DOTS, with_age_factor=True)
    younger = replace(BEN, age_years=30)
    for step in (kilograms("0.5"), kilograms("2.5")):
        old = total_to_equal(BEN, 400, scale, step=step)
        young = total_to_equal(younger, 400, scale, step=step)
        assert old is not None
        assert young is not None
        factor = age_factor(47)
        assert factor is not None
        assert abs(old.kg * factor - young.kg) <= 2 * step.kg
