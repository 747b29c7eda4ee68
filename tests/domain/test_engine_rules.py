"""Which weights may be asked for next, by the rules and the coach's limits."""

from __future__ import annotations

import pytest

from coachdesk.domain.attempts import Steps
from coachdesk.domain.engine.rules import (
    Limits,
    Weights,
    record_weight,
    usual_limits,
    weights_between,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.units import Mass, kilograms, pounds

IN_KG = Steps(step=kilograms("2.5"), lightest=kilograms(25))
IN_LB = Steps(step=pounds(5), lightest=pounds(55))


def _next_good(weights: Weights, before: Mass) -> list[float]:
    at = weights.nearest(before.kg)
    return [
        float(mass.number) for mass in weights.masses[weights.after_good[at] : weights.cap[at] + 1]
    ]


def test_weights_stand_on_the_steps_and_never_below_the_bar() -> None:
    weights = weights_between(Limits(steps=IN_KG), 10, 41)
    assert [mass.kg for mass in weights.masses] == [25, 27.5, 30, 32.5, 35, 37.5, 40, 42.5]


def test_pounds_go_in_steps_of_pounds() -> None:
    weights = weights_between(Limits(steps=IN_LB), pounds(396).kg, pounds(404).kg)
    assert weights.masses == (pounds(395), pounds(400), pounds(405))
    assert _next_good(weights, pounds(395)) == [400, 405]


def test_a_good_lift_goes_up_and_a_missed_one_may_stay() -> None:
    weights = weights_between(Limits(steps=IN_KG, largest_jump=None), 100, 110)
    assert _next_good(weights, kilograms(105)) == [107.5, 110]


def test_a_first_meet_jumps_at_most_7_5_per_cent() -> None:
    """107.5 of 100 exactly; our own caution, no source."""
    weights = weights_between(usual_limits(IN_KG, first_meet=True), 100, 120)
    assert _next_good(weights, kilograms(100)) == [102.5, 105, 107.5]


def test_a_cap_never_forbids_one_step() -> None:
    """7.5 % of 25 kg is less than a step."""
    weights = weights_between(usual_limits(IN_KG, first_meet=True), 25, 40)
    assert _next_good(weights, kilograms(25)) == [27.5]


def test_later_meets_jump_as_far_as_recorded_ones() -> None:
    """95 of 100 recorded jumps are at most about 13 % (OpenPowerlifting snapshot 2024-08-23)."""
    weights = weights_between(usual_limits(IN_KG, first_meet=False), 100, 130)
    assert _next_good(weights, kilograms(100))[-1] == 112.5


def test_a_garment_sets_a_floor_and_the_coach_a_ceiling() -> None:
    limits = Limits(steps=IN_KG, floor=kilograms(181), ceiling=kilograms(191))
    weights = weights_between(limits, 150, 250)
    assert [mass.kg for mass in weights.masses] == [182.5, 185, 187.5, 190]


def test_nothing_between_floor_and_ceiling_is_said() -> None:
    limits = Limits(steps=IN_KG, floor=kilograms(191), ceiling=kilograms(190))
    with pytest.raises(InvalidInput) as caught:
        weights_between(limits, 150, 250)
    assert caught.value.field == "limits"


def test_a_record_is_beaten_by_one_record_step() -> None:
    half = kilograms("0.5")
    assert record_weight(kilograms(200), half) == kilograms("200.5")
    assert record_weight(kilograms("200.5"), half) == kilograms("201.0")
    assert record_weight(kilograms("200.3"), half) == kilograms("200.5")


def test_a_record_attempt_may_stand_between_the_steps() -> None:
    """After it the steps count again: 203 and a step is 205.5, so 207.5 is next."""
    limits = Limits(steps=IN_KG, record=kilograms(203), largest_jump=None)
    weights = weights_between(limits, 200, 210)
    assert _next_good(weights, kilograms(200)) == [202.5, 203, 205, 207.5, 210]
    assert _next_good(weights, kilograms("202.5")) == [203, 205, 207.5, 210]
    assert _next_good(weights, kilograms(203)) == [207.5, 210]
