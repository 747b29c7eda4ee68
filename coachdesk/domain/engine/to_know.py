"""What the coach should know of a plan besides its weights: its aim and caps, and each lift's
cautions."""

from __future__ import annotations

from itertools import pairwise

from coachdesk.domain.attempts import LARGEST_JUMP_FIRST_MEET
from coachdesk.domain.engine.plan_basis import PlanRequest
from coachdesk.domain.engine.rules import record_weight
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent
from coachdesk.domain.wishes import DayAim


def aim_of(request: PlanRequest) -> Text | None:
    """The first aim by name, None for the biggest total."""
    wishes = request.wishes
    number, lift = wishes.aim_weight, text(f"lift.{wishes.aim_lift}")
    match wishes.aim:
        case DayAim.NUMBER if number is not None:
            return text("plan.aim.number", number=number)
        case DayAim.LIFT_NUMBER if number is not None:
            return text("plan.aim.lift_number", number=number, lift=lift)
        case DayAim.LIFT_RECORD if number is not None:
            weight = record_weight(number, request.record_step)
            return text("plan.aim.lift_record", weight=weight, standing=number, lift=lift)
        case DayAim.NINE_GOOD if number is not None:
            return text("plan.aim.nine_good_of", number=number)
        case DayAim.NINE_GOOD:
            return text("plan.aim.nine_good")
        case _:
            return None


def caps_of(request: PlanRequest) -> tuple[Text, ...]:
    """The coach's caps by name."""
    caps = (
        ("plan.cap.risk", request.wishes.risk_cap),
        ("plan.cap.jump", request.wishes.largest_jump),
    )
    return tuple(text(code, most=Percent(100 * cap)) for code, cap in caps if cap is not None)


def first_meet_notes(request: PlanRequest) -> tuple[Text, ...]:
    """What a first meet means for the plan, and which lifts lack a judged single."""
    if not request.first_meet:
        return ()
    lacking = tuple(text(f"lift.{lift}") for lift in request.lifts if lift not in request.judged)
    single = (text("plan.no_judged_single", lifts=lacking),) if lacking else ()
    return (text("plan.first_meet"), *single)


def to_know(request: PlanRequest, lift: Lift) -> tuple[Text, ...]:
    """Chosen weights that are bold, a first meet's jumps, a suit or shirt without a floor, or too
    lightly loaded at a turn the coach has chosen or fixed."""
    basis, said = request.lifts[lift], []
    weights = [request.chosen[lift, n] for n in (1, 2, 3) if (lift, n) in request.chosen]
    for before, after in pairwise(weights):
        most = LARGEST_JUMP_FIRST_MEET
        if request.first_meet and after.grams > before.grams * (1 + most):
            percent = Percent(float(100 * most))
            said.append(text("attempts.jump_first_meet", weight=after, before=before, most=percent))
    third, expected = request.chosen.get((lift, 3)), basis.belief.expected
    if third is not None and third.grams > expected.grams:
        said.append(text("attempts.third_chosen_above", third=third, expected=expected))
    if request.equipped and lift is not Lift.DEADLIFT and basis.floor is None:
        said.append(text("plan.no_floor"))
    if basis.floor is not None:
        own = [fix.weight for fix in request.fixes if fix.lift is lift]
        light = {each for each in (*weights, *own) if each.grams < basis.floor.grams}
        said += [
            text("plan.below_floor", weight=weight, floor=basis.floor)
            for weight in sorted(light, key=lambda mass: mass.grams)
        ]
    return tuple(said)
