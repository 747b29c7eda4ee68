"""A whole day: stakes, numbers on the total, checkpoints, places, and what overruling costs."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from coachdesk.domain.attempts import Outcome, Steps
from coachdesk.domain.engine.aims import NineGood, Number
from coachdesk.domain.engine.belief import DayBelief, LiftBelief, Taken
from coachdesk.domain.engine.chain import (
    TotalPlan,
    TotalRequest,
    plan_number,
    plan_total_aim,
)
from coachdesk.domain.engine.day_plan import DayRequest, plan_day
from coachdesk.domain.engine.likelihood import WarmUp
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass, kilograms, pounds

EXPECTED = {Lift.SQUAT: 200, Lift.BENCH: 130, Lift.DEADLIFT: 230}
IN_KG = Steps(step=kilograms("2.5"), lightest=kilograms(25))
LIMITS = dict.fromkeys(Lift, Limits(steps=IN_KG))


def _day(lifts: tuple[Lift, ...] = tuple(Lift), sd: float = 0.03, rate: float = 0.025) -> DayBelief:
    return DayBelief.of(
        {
            lift: LiftBelief(kilograms(EXPECTED[lift]), sd, MissRate.learned(rate, 20))
            for lift in lifts
        }
    )


REQUEST = DayRequest(_day(), LIMITS)


def _number(day: DayBelief, number: float, made_kg: float = 0.0) -> TotalPlan:
    request = TotalRequest(day, LIMITS, made_kg=made_kg)
    return plan_number(request, kilograms(number))


def test_what_is_at_stake_is_what_the_other_lifts_bring() -> None:
    plan = plan_day(REQUEST)
    bests = {lift: each.outlook.expected_best_kg for lift, each in plan.lifts.items()}
    assert tuple(plan.lifts) == tuple(Lift)
    assert plan.stakes_kg[Lift.DEADLIFT] == 330
    assert plan.stakes_kg[Lift.BENCH] == pytest.approx(200 + bests[Lift.DEADLIFT])
    assert plan.stakes_kg[Lift.SQUAT] == pytest.approx(bests[Lift.BENCH] + bests[Lift.DEADLIFT])


def test_the_coach_may_set_the_stake() -> None:
    """Nothing at stake: a squat for fun opens heavier."""
    free = plan_day(replace(REQUEST, stakes_kg={Lift.SQUAT: 0.0}))
    usual = plan_day(REQUEST)
    openers = [plan.lifts[Lift.SQUAT].outlook.opener.weight.kg for plan in (usual, free)]
    assert openers[0] < openers[1]


def test_the_total_adds_up() -> None:
    plan = plan_day(REQUEST)
    assert float(plan.total.chance.sum()) + plan.no_total == pytest.approx(1)
    bests = sum(each.outlook.expected_best_kg for each in plan.lifts.values())
    assert plan.expected_total_kg == pytest.approx(bests, abs=0.3)
    risks = [each.outlook.no_lift for each in plan.lifts.values()]
    assert max(risks) < plan.no_total <= sum(risks)


def test_the_risk_of_no_total_can_be_capped() -> None:
    request = replace(REQUEST, day=_day(sd=0.045, rate=0.06))
    free = plan_day(request)
    capped = plan_day(replace(request, risk_cap=0.8 * free.no_total))
    assert capped.cap_met
    assert capped.no_total <= 0.8 * free.no_total
    assert capped.expected_total_kg < free.expected_total_kg
    assert plan_day(replace(request, risk_cap=1e-6)).cap_met is False


def test_nine_good_lifts_are_far_likelier_when_they_are_the_aim() -> None:
    floors = {Lift.SQUAT: 180, Lift.BENCH: 115, Lift.DEADLIFT: 205}
    aims = {lift: NineGood(kilograms(kg)) for lift, kg in floors.items()}
    nine, total = plan_day(replace(REQUEST, aims=aims)), plan_day(REQUEST)
    assert nine.total.all_good > 0.75
    assert total.total.all_good < 0.2
    assert nine.expected_total_kg > sum(floors.values()) - 1


def test_one_lift_may_have_an_aim_of_its_own() -> None:
    plan = plan_day(replace(REQUEST, aims={Lift.BENCH: Number(kilograms(130))}))
    assert plan.lifts[Lift.BENCH].aim is not None
    assert plan.lifts[Lift.SQUAT].aim is None


def test_a_day_goes_on_after_the_squat() -> None:
    day = _day().after(Lift.SQUAT, [Taken(kilograms(180), Outcome.EASY)])
    plan = plan_day(DayRequest(day, LIMITS, made_kg=195.0))
    assert tuple(plan.lifts) == (Lift.BENCH, Lift.DEADLIFT)
    assert plan.stakes_kg[Lift.DEADLIFT] == 195 + 130
    assert plan.expected_total_kg > 195 + 0.97 * 360


def test_attempts_taken_belong_to_the_lift_at_hand() -> None:
    request = replace(REQUEST, taken=(Taken(kilograms(180), Outcome.TECHNICAL),))
    plan = plan_day(request)
    assert plan.lifts[Lift.SQUAT].outlook.opener.weight == kilograms(180)
    assert plan.lifts[Lift.BENCH].outlook.opener.taken == pytest.approx(1)
    assert plan.no_total > plan_day(REQUEST).no_total


def test_a_number_is_likelier_when_it_is_the_aim() -> None:
    total = plan_day(REQUEST).total
    for number in (530, 552.5, 565):
        plan = _number(_day(), number)
        assert plan.chance >= total.at_least(number) - 0.02
        assert plan.chance >= plan.best_chance - 0.02
        assert plan.no_total < 0.03


def test_the_higher_the_number_the_smaller_its_chance() -> None:
    chances = [_number(_day(), number).best_chance for number in (520, 540, 560, 580)]
    assert all(one > other for one, other in pairwise(chances))


def test_checkpoints_say_where_the_day_should_stand() -> None:
    plan = _number(_day(), 552.5)
    assert [checkpoint.after for checkpoint in plan.checkpoints] == [Lift.SQUAT, Lift.BENCH]
    for checkpoint in plan.checkpoints:
        marks = [checkpoint.hopeful, checkpoint.even, checkpoint.likely]
        grams = [mark.grams for mark in marks if mark is not None]
        assert len(grams) == 3
        assert grams == sorted(grams)
    after_bench = plan.checkpoints[1].even
    assert after_bench is not None
    # By hand: what is left is an even chance of the deadlift, so about what is expected of it.
    assert 552.5 - after_bench.kg == pytest.approx(230, abs=2.5)


def test_checkpoints_hold_when_the_day_gets_there() -> None:
    """Planned anew from the even subtotal after the bench press, the chance is about even."""
    after_bench = _number(_day(), 552.5).checkpoints[1].even
    assert after_bench is not None
    rest = _number(_day((Lift.DEADLIFT,)), 552.5, after_bench.kg)
    assert rest.best_chance == pytest.approx(0.55, abs=0.1)


def test_the_last_lift_alone_is_planned_for_what_is_left() -> None:
    """A chain of one lift is that lift with a number of its own: 232.5 of 230 expected."""
    plan = _number(_day((Lift.DEADLIFT,)), 562.5, made_kg=330.0)
    assert plan.checkpoints == ()
    outlook = plan.lifts[Lift.DEADLIFT]
    assert outlook.at_least(232.5) == pytest.approx(plan.chance, abs=1e-9)
    assert outlook.opener.aim == pytest.approx(plan.chance)


def test_the_last_attempt_of_the_day_may_be_raised_after_a_miss() -> None:
    """235 is needed and 232.5 just failed: to repeat it cannot make the number."""
    taken = (Taken(kilograms(225), Outcome.GOOD), Taken(kilograms("232.5"), Outcome.STRENGTH))
    number = kilograms(565)
    request = TotalRequest(_day((Lift.DEADLIFT,)), LIMITS, made_kg=330.0, taken=taken)
    second = plan_number(request, number).lifts[Lift.DEADLIFT].opener.ways[0].then
    third = second.after(Outcome.STRENGTH)
    assert third is not None
    assert third.weight == kilograms(235)
    assert [note.code for note in third.notes] == ["engine.why.raised_after_miss"]


def test_a_good_squat_and_flying_warm_ups_raise_the_chance() -> None:
    before = _number(_day(), 552.5).best_chance
    flying = _number(_day().warmed_up(Lift.SQUAT, WarmUp.FLYING), 552.5).best_chance
    flat = _number(_day().warmed_up(Lift.SQUAT, WarmUp.FLAT), 552.5).best_chance
    assert flat < before < flying
    strong = _day().after(Lift.SQUAT, [Taken(kilograms(200), Outcome.EASY)])
    assert _number(strong, 552.5, 200.0).best_chance > before


def test_the_rest_of_a_lift_is_planned_on_the_day() -> None:
    taken = (Taken(kilograms(185), Outcome.GOOD), Taken(kilograms("197.5"), Outcome.STRENGTH))
    request = TotalRequest(_day(), LIMITS, taken=taken)
    plan = plan_number(request, kilograms(545))
    opener = plan.lifts[Lift.SQUAT].opener
    assert opener.weight == kilograms(185)
    assert opener.ways[0].then.weight == kilograms("197.5")
    assert plan.chance < _number(_day(), 545).chance


def test_the_risk_of_no_total_can_be_capped_on_the_way_to_a_number() -> None:
    request = TotalRequest(_day(), LIMITS)
    free = plan_number(request, kilograms("552.5"))
    capped = plan_number(replace(request, risk_cap=0.002), kilograms("552.5"))
    assert free.no_total > 0.002 >= capped.no_total
    assert capped.cap_met
    assert capped.chance <= free.chance


def test_a_fixed_opener_counts_in_the_chain() -> None:
    request = TotalRequest(
        _day(),
        LIMITS,
        fixed={Lift.SQUAT: {(): kilograms(170)}, Lift.DEADLIFT: {(): kilograms(200)}},
    )
    plan = plan_number(request, kilograms(545))
    assert plan.lifts[Lift.SQUAT].opener.weight == kilograms(170)
    assert plan.lifts[Lift.DEADLIFT].opener.weight == kilograms(200)
    assert plan.best_chance < _number(_day(), 545).best_chance


def test_a_place_is_any_chance_by_total() -> None:
    def chance(total_kg: np.ndarray) -> np.ndarray:
        return np.clip((total_kg - 520) / 50, 0, 1)

    plan = plan_total_aim(TotalRequest(_day(), LIMITS, chance))
    assert 0.3 < plan.chance < 0.7
    assert plan.chance == pytest.approx((plan.expected_total_kg - 520) / 50, abs=0.03)


def test_push_pull_and_pounds_go_the_same_way() -> None:
    steps = Steps(step=pounds(5), lightest=pounds(55))
    limits = dict.fromkeys(Lift, Limits(steps=steps))
    day = _day((Lift.BENCH, Lift.DEADLIFT))
    request = TotalRequest(day, limits)
    plan = plan_number(request, pounds(795))
    assert tuple(plan.lifts) == (Lift.BENCH, Lift.DEADLIFT)
    even = plan.checkpoints[0].even
    assert even is not None
    assert even.number % 5 == pytest.approx(0, abs=0.03) or even.number % 5 > 4.97
    # 795 lb are 360.6 kg, and both 5 lb and 2.5 kg are about 1.5 % of a bench press of 130 kg.
    assert plan.best_chance == pytest.approx(_number(day, 360).best_chance, abs=0.04)


@pytest.mark.parametrize(
    ("number", "made_kg", "code"),
    [
        (kilograms(640), 0.0, "engine.total_out_of_reach"),
        (kilograms(200), 200.0, "engine.number_made"),
    ],
)
def test_numbers_out_of_reach_or_made_are_refused(number: Mass, made_kg: float, code: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        _number(_day(), number.kg, made_kg)
    assert caught.value.field == "number"
    assert caught.value.text.code == code


def test_other_impossible_days_are_refused() -> None:
    with pytest.raises(InvalidInput) as cap:
        plan_day(replace(REQUEST, risk_cap=-0.1))
    assert cap.value.field == "risk_cap"
    with pytest.raises(InvalidInput) as capped:
        plan_total_aim(TotalRequest(_day(), LIMITS, np.ones_like, risk_cap=2.0))
    assert capped.value.field == "risk_cap"
    with pytest.raises(InvalidInput) as place:
        plan_total_aim(TotalRequest(_day(), LIMITS, np.zeros_like))
    assert place.value.field == "place"
