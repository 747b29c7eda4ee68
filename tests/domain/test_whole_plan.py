"""The plan of an entry as it is kept: wishes, what is fixed, and what cannot be planned."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from coachdesk.domain.attempts import AttemptPlan, Fix, Outcome, Steps, Turn
from coachdesk.domain.engine.belief import LiftBelief
from coachdesk.domain.engine.curve import chances_at
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.plan_basis import Basis, PlanRequest
from coachdesk.domain.engine.whole_plan import check_reach, free_outlook, whole_plan
from coachdesk.domain.engine_parameters import honest_sd
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.plan_outlook import cost_of
from coachdesk.domain.scoring import Formula, coefficient
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent, kilograms
from coachdesk.domain.wishes import DayAim, WishesData

EXPECTED = {Lift.SQUAT: 200, Lift.BENCH: 130, Lift.DEADLIFT: 230}


def _wishes(**wanted: Any) -> WishesData:
    return WishesData(entry_id=1, **wanted)


def _basis(expected: float) -> Basis:
    belief = LiftBelief(kilograms(expected), honest_sd(0.03), MissRate.learned(0.025, 20))
    return Basis(belief=belief, source=text("expected_max.coach"))


REQUEST = PlanRequest(
    rulebook="Rulebook",
    edition="2021",
    steps=Steps(step=kilograms("2.5"), lightest=kilograms(25)),
    record_step=kilograms("0.5"),
    first_meet=False,
    lifts={lift: _basis(expected) for lift, expected in EXPECTED.items()},
)


def _plan(request: PlanRequest = REQUEST) -> AttemptPlan:
    plan, faults = whole_plan(request)
    assert faults == {}
    return plan


def _turn(plan: AttemptPlan, lift: Lift, *seen: Outcome) -> Turn:
    found = plan.of(lift)
    assert found is not None
    turn = found.opener
    for outcome in seen:
        following = turn.after(outcome)
        assert following is not None
        turn = following
    return turn


def _number(weight: float) -> PlanRequest:
    return replace(REQUEST, wishes=_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(weight)))


def test_every_turn_has_its_chances() -> None:
    """They are those of the engine: what may be seen of a turn sums to the turn itself."""
    plan = _plan()
    for lift in Lift:
        turn = _turn(plan, lift)
        while turn.branches:
            taken = sum(following.taken or 0.0 for _seen, following in turn.ways)
            assert taken == pytest.approx(turn.taken)
            turn = turn.ways[0][1]


def test_the_plan_beats_the_textbook_by_its_own_figures() -> None:
    plan = _plan()
    assert plan.outlook is not None
    assert plan.textbook is not None
    assert plan.outlook.no_total < plan.textbook.no_total
    assert plan.outlook.expected_total.kg > plan.textbook.expected_total.kg


def test_an_attempt_that_is_chosen_stands_on_the_way_on_which_all_goes_well() -> None:
    chosen = {(Lift.SQUAT, 1): kilograms(185), (Lift.SQUAT, 3): kilograms(200)}
    plan = _plan(replace(REQUEST, chosen=chosen))
    opener = _turn(plan, Lift.SQUAT)
    assert (opener.weight, opener.fixed) == (kilograms(185), True)
    third = _turn(plan, Lift.SQUAT, Outcome.EASY, Outcome.GRIND)
    assert (third.weight, third.fixed) == (kilograms(200), True)
    assert not _turn(plan, Lift.SQUAT, Outcome.STRENGTH).fixed
    assert not _turn(plan, Lift.BENCH).fixed


def test_a_turn_fixed_after_one_outcome_leaves_the_others_alone() -> None:
    fix = Fix(Lift.DEADLIFT, (Outcome.TECHNICAL,), kilograms(215))
    plan = _plan(replace(REQUEST, fixes=(fix,)))
    turn = _turn(plan, Lift.DEADLIFT, Outcome.TECHNICAL)
    assert (turn.weight, turn.fixed) == (kilograms(215), True)
    assert plan.fixes == (fix,)
    assert not _turn(plan, Lift.DEADLIFT, Outcome.STRENGTH).fixed
    assert not _turn(plan, Lift.DEADLIFT).fixed


def test_a_fix_costs_something_and_the_free_plan_tells_how_much() -> None:
    request = replace(REQUEST, chosen={(Lift.SQUAT, 1): kilograms(195)})
    free, outlook = free_outlook(request), _plan(request).outlook
    assert outlook is not None
    assert free == _plan().outlook
    assert free.no_total < outlook.no_total


def test_overruling_is_priced_in_kilograms_points_and_risk() -> None:
    """IPF GL by the published constants: 0.13 points a kilogram at 93 kg."""
    request = replace(REQUEST, chosen={(Lift.SQUAT, 1): kilograms(195)})
    free, own = free_outlook(request), _plan(request).outlook
    a_kilogram = coefficient(
        Formula.IPF_GL,
        sex=Sex.MALE,
        bodyweight_kg=93.0,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
    )
    assert own is not None
    assert a_kilogram is not None
    cost = cost_of(free, own, a_kilogram)
    assert cost.kilograms > 1
    assert cost.no_total > 0.05
    assert cost.points == pytest.approx(a_kilogram * cost.kilograms)
    assert cost_of(free, free, a_kilogram).kilograms == 0


def test_the_way_on_which_all_goes_well_is_the_likeliest() -> None:
    """A light opener is likely to be easy: the plan's second is what follows then."""
    opener = _turn(_plan(), Lift.SQUAT)
    good = [turn for seen, turn in opener.ways if seen[0].is_good]
    likeliest = max(good, key=lambda turn: turn.taken or 0.0)
    assert opener.after(Outcome.GOOD) == likeliest


def test_a_number_on_the_total_comes_first_with_checkpoints() -> None:
    plan = _plan(_number(555))
    assert plan.outlook is not None
    assert plan.outlook.aim is not None
    assert plan.outlook.best_aim is not None
    assert 0.3 < plan.outlook.aim <= plan.outlook.best_aim
    assert [point.after for point in plan.checkpoints] == [Lift.SQUAT, Lift.BENCH]


def test_a_number_out_of_reach_gives_way_to_the_biggest_total_and_says_so() -> None:
    plan = _plan(_number(900))
    assert [note.code for note in plan.notes] == ["plan.wish_given_up"]
    assert plan.outlook == _plan().outlook


@pytest.mark.parametrize(
    ("wish", "field"),
    [
        (_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(900)), "aim_weight"),
        (_wishes(aim=DayAim.NUMBER), "aim_weight"),
        (_wishes(aim=DayAim.LIFT_NUMBER, aim_weight=kilograms(200)), "aim_lift"),
        (
            _wishes(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.SQUAT, aim_weight=kilograms(20)),
            "aim_weight",
        ),
        (_wishes(risk_cap=1.5), "risk_cap"),
    ],
)
def test_what_cannot_be_wished_for_is_said_at_its_field(wish: WishesData, field: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        check_reach(replace(REQUEST, wishes=wish))
    assert refused.value.field == field


@pytest.mark.parametrize(
    ("wish", "code"),
    [
        # Bests so far: squat 210 and bench press 135, so 345 and any deadlift is more than 345.
        (_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(345)), "engine.number_made"),
        (
            _wishes(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.SQUAT, aim_weight=kilograms(210)),
            "engine.number_made",
        ),
        (
            _wishes(aim=DayAim.LIFT_RECORD, aim_lift=Lift.SQUAT, aim_weight=kilograms("209.5")),
            "engine.number_made",
        ),
        (_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(346)), "plan.aim_sure"),
        (
            _wishes(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.DEADLIFT, aim_weight=kilograms(150)),
            "plan.aim_sure_lift",
        ),
    ],
)
def test_an_aim_that_is_made_or_that_the_openers_bring_is_refused_at_its_field(
    wish: WishesData, code: str
) -> None:
    made = {Lift.SQUAT: kilograms(210), Lift.BENCH: kilograms(135)}
    request = replace(REQUEST, wishes=wish, made=made)
    with pytest.raises(InvalidInput) as refused:
        check_reach(request)
    assert (refused.value.field, refused.value.text.code) == ("aim_weight", code)
    plan = _plan(request)
    assert [note.code for note in plan.notes] == ["plan.wish_given_up"]
    assert plan.checkpoints == ()


def test_a_record_is_beaten_by_the_record_step() -> None:
    """Weights off the steps are allowed for a record alone (IPF Technical Rules, recalled)."""
    wish = _wishes(aim=DayAim.LIFT_RECORD, aim_lift=Lift.SQUAT, aim_weight=kilograms(202))
    plan = _plan(replace(REQUEST, wishes=wish))
    squat = plan.of(Lift.SQUAT)
    assert squat is not None
    assert kilograms("202.5") in {turn.weight for turn in _all_turns(squat.opener)}


def test_nine_good_lifts_bring_at_least_the_total_that_was_asked_for() -> None:
    wish = _wishes(aim=DayAim.NINE_GOOD, aim_weight=kilograms(520))
    plan = _plan(replace(REQUEST, wishes=wish))
    assert plan.outlook is not None
    assert plan.outlook.aim == plan.outlook.all_good
    assert plan.outlook.aim is not None
    assert plan.outlook.aim > 0.6
    least = sum(lift.when_all_good.kg for lift in plan.lifts)
    assert least >= 520 - 3 * 2.5


def test_the_risk_is_capped_as_far_as_it_can_be() -> None:
    capped = _plan(replace(REQUEST, wishes=_wishes(risk_cap=0.002))).outlook
    assert capped is not None
    assert capped.cap_met
    assert capped.no_total <= 0.002


@pytest.mark.parametrize(
    ("wish", "aim"),
    [
        (_wishes(), None),
        (
            _wishes(aim=DayAim.NUMBER, aim_weight=kilograms(555)),
            text("plan.aim.number", number=kilograms(555)),
        ),
        (
            _wishes(aim=DayAim.LIFT_RECORD, aim_lift=Lift.SQUAT, aim_weight=kilograms(202)),
            text(
                "plan.aim.lift_record",
                weight=kilograms("202.5"),
                standing=kilograms(202),
                lift=text("lift.squat"),
            ),
        ),
        (_wishes(aim=DayAim.NINE_GOOD), text("plan.aim.nine_good")),
        (_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(900)), None),
    ],
)
def test_a_plan_names_the_aim_it_was_made_for_and_the_caps(
    wish: WishesData, aim: Text | None
) -> None:
    plan = _plan(replace(REQUEST, wishes=replace(wish, risk_cap=0.02)))
    assert plan.aim == aim
    assert plan.caps == (text("plan.cap.risk", most=Percent(2.0)),)


def test_a_lift_that_cannot_be_planned_is_left_out_and_said() -> None:
    """A squat opener above the day's maximum; the other lifts are planned all the same."""
    request = replace(REQUEST, chosen={(Lift.SQUAT, 1): kilograms(210)})
    plan, faults = whole_plan(request)
    assert {lift: error.field for lift, error in faults.items()} == {Lift.SQUAT: "opener"}
    assert [lift.lift for lift in plan.lifts] == [Lift.BENCH, Lift.DEADLIFT]
    assert plan.outlook is None


@pytest.mark.parametrize(
    ("wish", "why"),
    [
        (
            _wishes(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.SQUAT, aim_weight=kilograms(205)),
            "plan.aim_lift_missing",
        ),
        (_wishes(aim=DayAim.NUMBER, aim_weight=kilograms(555)), "plan.aim_total_missing"),
        (_wishes(aim=DayAim.NINE_GOOD, aim_weight=kilograms(500)), "plan.aim_total_missing"),
    ],
)
def test_an_aim_that_needs_a_lift_that_cannot_be_planned_says_so(
    wish: WishesData, why: str
) -> None:
    request = replace(REQUEST, chosen={(Lift.SQUAT, 1): kilograms(210)}, wishes=wish)
    plan, faults = whole_plan(request)
    assert set(faults) == {Lift.SQUAT}
    assert [lift.lift for lift in plan.lifts] == [Lift.BENCH, Lift.DEADLIFT]
    assert [note.code for note in plan.notes] == ["plan.wish_given_up"]
    assert ("why", text(why)) in plan.notes[0].values
    assert plan.outlook is None


def test_an_aim_on_another_lift_is_followed_although_one_is_missing() -> None:
    wish = _wishes(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.BENCH, aim_weight=kilograms(130))
    request = replace(REQUEST, chosen={(Lift.SQUAT, 1): kilograms(210)}, wishes=wish)
    plan, _faults = whole_plan(request)
    assert plan.notes == ()
    assert _turn(plan, Lift.BENCH).aim is not None


@pytest.mark.parametrize(
    ("judged", "lacking"),
    [
        (frozenset[Lift](), (Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT)),
        (frozenset({Lift.SQUAT}), (Lift.BENCH, Lift.DEADLIFT)),
        (frozenset(Lift), ()),
    ],
)
def test_a_first_meet_names_the_lifts_without_a_judged_single(
    judged: frozenset[Lift], lacking: tuple[Lift, ...]
) -> None:
    first, *rest = _plan(replace(REQUEST, first_meet=True, judged=judged)).notes
    assert first.code == "plan.first_meet"
    names = tuple(text(f"lift.{lift}") for lift in lacking)
    assert rest == ([text("plan.no_judged_single", lifts=names)] if lacking else [])
    assert _plan(replace(REQUEST, judged=judged)).notes == ()


def test_a_garment_has_a_floor() -> None:
    lifts = {**REQUEST.lifts, Lift.BENCH: replace(_basis(130), floor=kilograms(125))}
    plan = _plan(replace(REQUEST, lifts=lifts))
    opener = _turn(plan, Lift.BENCH)
    assert opener.weight == kilograms(125)
    assert [note.code for note in opener.notes] == ["engine.why.floor"]


@pytest.mark.parametrize("seen", [(), (Outcome.TECHNICAL,)])
def test_a_turn_fixed_below_a_garments_floor_is_warned_of_as_a_chosen_opener_is(
    seen: tuple[Outcome, ...],
) -> None:
    lifts = {**REQUEST.lifts, Lift.BENCH: replace(_basis(130), floor=kilograms(120))}
    request = replace(REQUEST, lifts=lifts)
    fix = Fix(Lift.BENCH, seen, kilograms("117.5"))
    chosen = {(Lift.BENCH, 1): kilograms("117.5")}
    told = []
    for changed in (replace(request, fixes=(fix,)), replace(request, chosen=chosen)):
        bench = _plan(changed).of(Lift.BENCH)
        assert bench is not None
        told.append([note for note in bench.notes if note.code == "plan.below_floor"])
    assert told[0]
    assert told[0] == told[1]


def test_the_curve_falls_with_the_weight_and_agrees_with_the_opener() -> None:
    squat = _plan().of(Lift.SQUAT)
    assert squat is not None
    weights = [150.0, squat.opener.weight.kg, 195.0, 210.0]
    curve = chances_at(squat, weights)
    assert list(curve) == sorted(curve, reverse=True)
    assert curve[1] == pytest.approx(squat.opener.good, abs=1e-6)


def _all_turns(turn: Turn) -> list[Turn]:
    return [turn, *(each for _seen, then in turn.ways for each in _all_turns(then))]
