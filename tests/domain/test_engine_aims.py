"""Ordered aims, risk caps and fixed attempts for one lift."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from coachdesk.domain.attempts import LiftPlan, Outcome, Steps, Turn, textbook_plan
from coachdesk.domain.engine.aims import (
    BiggestTotal,
    NineGood,
    Number,
    Place,
    Plan,
    Request,
    least,
    plan_aim,
)
from coachdesk.domain.engine.belief import LiftBelief, LiftGrid, Taken, one_lift
from coachdesk.domain.engine.evaluate import evaluate
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.rules import Limits, usual_limits
from coachdesk.domain.engine.tree import Node, choice_of, turn_of
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, kilograms, pounds

STEPS = Steps(step=kilograms("2.5"), lightest=kilograms(25))
LIMITS = Limits(steps=STEPS)


def _grid(expected: Mass | None = None, sd: float = 0.03, rate: float = 0.025) -> LiftGrid:
    return one_lift(LiftBelief(expected or kilograms(200), sd, MissRate.learned(rate, 20)))


REQUEST = Request(_grid(), LIMITS, 350.0)


def _refused(request: Request) -> tuple[str, str]:
    with pytest.raises(InvalidInput) as caught:
        plan_aim(request)
    return caught.value.field, caught.value.text.code


def _codes(plan: Plan) -> set[str]:
    return {note.code for node in plan.outlook.opener.all_nodes() for note in node.notes}


def test_first_timers_open_lighter_than_the_experienced() -> None:
    """Regression: 200 kg expected, 350 kg at stake. 86, 90 and 91 % of the day's expected maximum
    are what coaches call out (common practice: 85-92 %)."""
    openers = [
        plan_aim(replace(REQUEST, grid=_grid(sd=sd, rate=rate))).outlook.opener.weight.kg
        for sd, rate in ((0.045, 0.06), (0.03, 0.025), (0.025, 0.02))
    ]
    assert openers == [172.5, 180, 182.5]


def test_a_plan_in_pounds_is_the_plan_in_kilograms() -> None:
    """Five pounds are a smaller step than 2.5 kg, so the openers lie within a step."""
    steps = Steps(step=pounds(5), lightest=pounds(55))
    grid = _grid(pounds("440.924524"))
    plan = plan_aim(replace(REQUEST, grid=grid, limits=Limits(steps=steps)))
    assert plan.outlook.opener.weight.kg == pytest.approx(180, abs=2.5)
    assert all(steps.allows(node.weight) for node in plan.outlook.opener.all_nodes())


def test_a_number_gets_its_chance_without_risking_the_total() -> None:
    total, number = plan_aim(REQUEST), plan_aim(replace(REQUEST, aim=Number(kilograms("197.5"))))
    assert number.aim is not None
    assert number.best_aim is not None
    assert number.aim >= number.best_aim - 0.02
    assert number.aim == pytest.approx(number.outlook.at_least(197.5))
    assert number.aim > total.outlook.at_least(197.5)
    assert number.outlook.no_lift < 0.01
    assert number.outlook.opener.weight.kg <= 185


def test_a_surer_number_costs_less_of_the_total() -> None:
    """At 190 of 200 the way to the number is nearly the way to the total."""
    total = plan_aim(REQUEST).utility_kg
    cost = {
        kg: total - plan_aim(replace(REQUEST, aim=Number(kilograms(kg)))).utility_kg
        for kg in (190, 205)
    }
    assert 0 <= cost[190] < 1
    assert cost[205] >= 0


def test_the_tree_says_where_the_number_is_made_and_where_it_is_gone() -> None:
    plan = plan_aim(replace(REQUEST, aim=Number(kilograms(190))))
    assert plan.outlook.opener.aim == pytest.approx(plan.aim)
    assert "engine.why.aim_made" in _codes(plan)
    far = plan_aim(replace(REQUEST, aim=Number(kilograms("212.5")), grid=_grid(sd=0.04)))
    for node in far.outlook.opener.all_nodes():
        if any(note.code == "engine.why.aim_gone" for note in node.notes):
            assert node.aim is not None
            assert node.aim <= 0.005


def test_a_record_between_the_steps_is_tried_for() -> None:
    record = kilograms("198.5")
    limits = replace(LIMITS, record=record)
    plan = plan_aim(replace(REQUEST, limits=limits, aim=Number(record)))
    assert record in {node.weight for node in plan.outlook.opener.all_nodes()}
    without = plan_aim(replace(REQUEST, aim=Number(record)))
    assert (plan.aim or 0) > (without.aim or 0)


def test_nine_good_lifts_stay_light_but_not_below_the_floor() -> None:
    plan = plan_aim(replace(REQUEST, aim=NineGood(kilograms(185))))
    total = plan_aim(REQUEST)
    assert plan.outlook.nine_good > 0.85 > total.outlook.nine_good
    assert plan.aim == pytest.approx(plan.outlook.nine_good)
    assert plan.outlook.opener.aim == pytest.approx(plan.aim)
    thirds = []
    for node in plan.outlook.opener.all_nodes():
        if (
            node.number == 2
            and node.after(Outcome.GRIND)
            and node is plan.outlook.opener.after(Outcome.AS_PLANNED)
        ):
            thirds += [way.then.weight.kg for way in node.ways if way.outcomes[0].is_good]
    assert thirds
    assert min(thirds) >= 185


def test_a_place_is_any_chance_by_weight() -> None:
    """Needs 200 to win, 190 for half a chance of it: between the two plans by number."""

    def chance(best_kg: np.ndarray) -> np.ndarray:
        return np.where(best_kg >= 200, 1.0, np.where(best_kg >= 190, 0.5, 0.0))

    plan = plan_aim(replace(REQUEST, aim=Place(chance)))
    by_hand = 0.5 * plan.outlook.at_least(190) + 0.5 * plan.outlook.at_least(200)
    assert plan.aim == pytest.approx(by_hand)
    rivals = [plan_aim(replace(REQUEST, aim=Number(kilograms(kg)))) for kg in (190, 200)]
    for rival in rivals:
        other = 0.5 * rival.outlook.at_least(190) + 0.5 * rival.outlook.at_least(200)
        assert plan.aim is not None
        assert plan.aim >= other - 0.02


def test_risk_can_be_capped_at_a_cost() -> None:
    grid = _grid(sd=0.045, rate=0.06)
    free = plan_aim(replace(REQUEST, grid=grid, stake_kg=100.0))
    capped = plan_aim(replace(REQUEST, grid=grid, stake_kg=100.0, risk_cap=0.0014))
    assert free.outlook.no_lift > 0.0014 >= capped.outlook.no_lift
    assert capped.cap_met
    assert capped.outlook.opener.weight.grams < free.outlook.opener.weight.grams
    assert capped.utility_kg < free.utility_kg
    assert free.cap_met is None


def test_risk_can_be_capped_where_nothing_else_is_at_stake() -> None:
    request = replace(REQUEST, stake_kg=0.0, grid=_grid(sd=0.045, rate=0.06))
    assert plan_aim(request).outlook.no_lift > 0.003
    assert plan_aim(replace(request, risk_cap=0.003)).cap_met


def test_a_cap_that_cannot_be_met_is_said_and_met_as_far_as_it_goes() -> None:
    """Three technical misses in a row remain."""
    free = plan_aim(REQUEST)
    capped = plan_aim(replace(REQUEST, risk_cap=1e-6))
    assert capped.cap_met is False
    assert capped.outlook.no_lift <= free.outlook.no_lift


@pytest.mark.parametrize(
    ("need", "rung"), [(0.5, 1.0), (2.0, 2.0), (3.0, 4.0), (9.0, 8.0)], ids=str
)
def test_the_least_rung_that_is_enough_is_found(need: float, rung: float) -> None:
    assert least((1.0, 2.0, 4.0, 8.0), lambda tried: tried >= need) == rung


def test_the_coach_may_fix_the_opener_and_the_rest_is_planned_around_it() -> None:
    free = plan_aim(REQUEST)
    fixed = plan_aim(replace(REQUEST, fixed={(): kilograms(190)}))
    assert fixed.outlook.opener.weight == kilograms(190)
    assert fixed.utility_kg < free.utility_kg
    assert fixed.outlook.no_lift > free.outlook.no_lift


def test_the_coach_may_fix_any_node_against_the_engines_own_habits() -> None:
    """A raise after a technical miss, and a jump beyond a first meet's cap."""
    limits = usual_limits(STEPS, first_meet=True)
    fixed = {(Outcome.TECHNICAL,): kilograms(185), (Outcome.EASY,): kilograms(200)}
    plan = plan_aim(replace(REQUEST, limits=limits, fixed=fixed | {(): kilograms(180)}))
    opener = plan.outlook.opener
    raised, jumped = opener.after(Outcome.TECHNICAL), opener.after(Outcome.EASY)
    assert raised is not None
    assert jumped is not None
    assert (raised.weight, jumped.weight) == (kilograms(185), kilograms(200))
    assert any(note.code == "engine.why.raised_after_miss" for note in raised.notes)


def test_a_finer_fix_goes_before_a_coarser_one() -> None:
    fixed = {
        (): kilograms(180),
        (Outcome.GOOD,): kilograms(190),
        (Outcome.GRIND,): kilograms(185),
        (Outcome.GOOD, Outcome.NO_LIFT): kilograms(195),
    }
    opener = plan_aim(replace(REQUEST, fixed=fixed)).outlook.opener
    for outcome, second_kg in ((Outcome.EASY, 190), (Outcome.GRIND, 185)):
        second = opener.after(outcome)
        assert second is not None
        assert second.weight.kg == second_kg
        third = second.after(Outcome.STRENGTH)
        assert third is not None
        assert third.weight.kg == 195


def test_a_node_of_the_tree_can_be_fixed_as_it_is_shown() -> None:
    opener = plan_aim(REQUEST).outlook.opener
    way = opener.ways[0]
    fixed: dict[tuple[Outcome, ...], Mass] = {(): opener.weight}
    fixed |= {(seen,): kilograms("197.5") for seen in way.outcomes}
    changed = plan_aim(replace(REQUEST, fixed=fixed)).outlook.opener
    for outcome in way.outcomes:
        then = changed.after(outcome)
        assert then is not None
        assert then.weight.kg == 197.5


def test_fixing_what_is_planned_costs_nothing() -> None:
    free = plan_aim(REQUEST)
    opener = free.outlook.opener
    fixed: dict[tuple[Outcome, ...], Mass] = {(): opener.weight}
    for way in opener.ways:
        fixed |= {(seen,): way.then.weight for seen in way.outcomes}
    assert plan_aim(replace(REQUEST, fixed=fixed)).utility_kg == pytest.approx(free.utility_kg)


def test_on_the_day_the_tree_goes_on_from_what_was_seen() -> None:
    taken = (Taken(kilograms(180), Outcome.EASY),)
    plan = plan_aim(replace(REQUEST, taken=taken))
    opener = plan.outlook.opener
    assert opener.weight == kilograms(180)
    assert [way.outcomes for way in opener.ways] == [(Outcome.EASY,)]
    second = opener.after(Outcome.EASY)
    assert second is not None
    assert second.taken == pytest.approx(1)
    assert second.weight.kg >= 190
    assert plan.outlook.no_lift == 0


def test_a_two_to_one_pass_makes_the_rest_more_careful() -> None:
    """Bayes: the miss rate is higher, and so is the risk of missing the rest."""
    grid = _grid(rate=0.06)
    plans = [
        plan_aim(
            replace(
                REQUEST,
                grid=grid,
                taken=(Taken(kilograms(180), Outcome.GOOD, two_to_one=two_to_one),),
            )
        )
        for two_to_one in (False, True)
    ]
    goods = [plan.outlook.opener.ways[0].then.good for plan in plans]
    assert goods[0] > goods[1]
    assert plans[0].utility_kg > plans[1].utility_kg


def test_a_passed_attempt_is_gone_and_tells_nothing() -> None:
    taken = (Taken(kilograms(180), Outcome.PASSED),)
    plan = plan_aim(replace(REQUEST, taken=taken))
    second = plan.outlook.opener.after(Outcome.PASSED)
    assert second is not None
    assert second.weight.kg <= 182.5
    assert plan.outlook.no_lift > plan_aim(REQUEST).outlook.no_lift


def test_the_textbook_pattern_is_evaluated_with_the_same_figures() -> None:
    textbook: LiftPlan = textbook_plan(
        Lift.SQUAT,
        expected=kilograms(200),
        source=text("expected_max.coach"),
        steps=STEPS,
        first_meet=False,
    )
    plan = plan_aim(REQUEST)
    outlook = evaluate(choice_of(textbook.opener), REQUEST.grid)
    assert [node.number for node in outlook.opener.all_nodes()].count(3) == 4
    assert outlook.expected_best_kg < plan.outlook.expected_best_kg
    assert float(outlook.by_best.sum()) + outlook.no_lift == pytest.approx(1)


def test_a_tree_becomes_what_sheets_hold_and_comes_back() -> None:
    plan = plan_aim(REQUEST)
    turn = turn_of(plan.outlook.opener)
    again = evaluate(choice_of(turn), REQUEST.grid)
    assert again.no_lift == pytest.approx(plan.outlook.no_lift)
    assert again.expected_best_kg == pytest.approx(plan.outlook.expected_best_kg)
    printed = LiftPlan(Lift.SQUAT, kilograms(200), text("expected_max.coach"), turn)
    assert [mass.kg for mass in printed.good_path] == [180, 195, 202.5]


def test_sheets_read_a_fine_tree_by_made_and_missed() -> None:
    turn = turn_of(plan_aim(REQUEST).outlook.opener)
    missed: Turn | None = turn.after(Outcome.NO_LIFT)
    assert missed is not None
    assert missed.weight == turn.weight


def test_chances_along_the_tree_add_up() -> None:
    def check(node: Node) -> None:
        assert sum(way.chance for way in node.ways) == pytest.approx(1 if node.ways else 0)
        goods = sum(way.chance for way in node.ways if way.outcomes[0].is_good)
        assert not node.ways or goods == pytest.approx(node.good)
        for way in node.ways:
            assert way.then.taken == pytest.approx(node.taken * way.chance)
            check(way.then)

    check(plan_aim(REQUEST).outlook.opener)


def test_unusual_plans_say_why() -> None:
    shaky = plan_aim(replace(REQUEST, grid=_grid(sd=0.06, rate=0.06)))
    assert "engine.why.low_opener" in _codes(shaky)
    sure = plan_aim(replace(REQUEST, grid=_grid(sd=0.01, rate=0.01)))
    assert "engine.why.high_opener" in _codes(sure)
    equipped = plan_aim(replace(REQUEST, limits=replace(LIMITS, floor=kilograms(186))))
    assert equipped.outlook.opener.weight == kilograms("187.5")
    assert "engine.why.floor" in _codes(equipped)
    first = plan_aim(
        replace(REQUEST, grid=_grid(sd=0.07), limits=usual_limits(STEPS, first_meet=True))
    )
    assert "engine.why.jump_capped" in _codes(first)


@pytest.mark.parametrize(
    ("request_", "field", "code"),
    [
        (replace(REQUEST, stake_kg=-1.0), "stake", "engine.stake"),
        (replace(REQUEST, risk_cap=1.5), "risk_cap", "engine.risk_cap"),
        (replace(REQUEST, aim=Number(kilograms(20))), "number", "attempts.below_bar"),
        (replace(REQUEST, aim=Number(kilograms(260))), "number", "engine.number_out_of_reach"),
        (replace(REQUEST, aim=NineGood(kilograms(10))), "floor", "attempts.below_bar"),
        (replace(REQUEST, aim=NineGood(kilograms(260))), "floor", "engine.floor_out_of_reach"),
        (replace(REQUEST, aim=Place(np.zeros_like)), "place", "engine.place_out_of_reach"),
        (replace(REQUEST, fixed={(): kilograms(205)}), "opener", "attempts.opener_above_expected"),
        (replace(REQUEST, fixed={(): kilograms(181)}), "weight", "attempts.off_step"),
        (replace(REQUEST, fixed={(Outcome.GOOD,): kilograms(20)}), "weight", "attempts.below_bar"),
        (
            replace(REQUEST, fixed={(): kilograms(180), (Outcome.GOOD,): kilograms(175)}),
            "limits",
            "engine.no_way",
        ),
        (
            replace(REQUEST, limits=replace(LIMITS, floor=kilograms(190), ceiling=kilograms(180))),
            "limits",
            "engine.no_weights",
        ),
        (
            replace(REQUEST, limits=replace(LIMITS, floor=kilograms(190), ceiling=kilograms(190))),
            "limits",
            "engine.no_way",
        ),
        (replace(REQUEST, grid=_grid(kilograms(20))), "expected", "attempts.below_bar"),
    ],
)
def test_impossible_input_gets_a_sentence_beside_its_field(
    request_: Request, field: str, code: str
) -> None:
    assert _refused(request_) == (field, code)


def test_a_number_already_made_and_a_finished_lift_are_refused() -> None:
    made = (Taken(kilograms(190), Outcome.GOOD),)
    assert _refused(replace(REQUEST, taken=made, aim=Number(kilograms(190)))) == (
        "number",
        "engine.number_made",
    )
    over = tuple(Taken(kilograms(kg), Outcome.GOOD) for kg in (180, 190, 195))
    assert _refused(replace(REQUEST, taken=over)) == ("taken", "engine.lift_over")


def test_what_nobody_expected_is_planned_from_all_the_same() -> None:
    """Half of the expected maximum missed on strength; and far more than it made with ease."""
    weak = plan_aim(replace(REQUEST, taken=(Taken(kilograms(100), Outcome.STRENGTH),)))
    assert weak.outlook.opener.ways[0].then.weight == kilograms(100)
    strong = plan_aim(replace(REQUEST, taken=(Taken(kilograms(240), Outcome.EASY),)))
    assert strong.outlook.opener.ways[0].then.weight.kg > 240
    assert strong.outlook.no_lift == 0


def test_what_cannot_have_been_by_the_coachs_own_figures_is_said() -> None:
    never = one_lift(LiftBelief(kilograms(200), 0.03, MissRate.known(0.0)))
    missed = (Taken(kilograms(180), Outcome.TECHNICAL),)
    assert _refused(replace(REQUEST, grid=never, taken=missed)) == ("taken", "engine.impossible")
    with pytest.raises(InvalidInput) as caught:
        evaluate(plan_aim(REQUEST).card.choice, never, taken=missed)
    assert caught.value.field == "taken"


def test_nothing_is_planned_for_an_athlete_who_is_hurt() -> None:
    hurt = (Taken(kilograms(180), Outcome.GOOD, pain=True),)
    assert _refused(replace(REQUEST, taken=hurt)) == ("taken", "engine.pain")


def test_the_biggest_total_is_the_aim_unless_another_is_given() -> None:
    assert isinstance(REQUEST.aim, BiggestTotal)
    assert plan_aim(REQUEST).aim is None
