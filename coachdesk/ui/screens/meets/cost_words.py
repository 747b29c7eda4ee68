"""What the coach's own weights in a plan cost, in words. No Qt here."""

from __future__ import annotations

from coachdesk.domain.plan_outlook import DayOutlook, cost_of
from coachdesk.domain.units import Mass, from_grams
from coachdesk.services.plan_page import OpenPlan
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.wording.plan_words import tenths
from coachdesk.wording.wording import Wording


def cost_lines(opened: OpenPlan, free: DayOutlook | None, words: Wording) -> tuple[Line, ...]:
    """What they give away against the `free` plan; nothing where that cannot be said."""
    plan = None if opened.line.plan is None else opened.line.plan.plan
    if plan is None or plan.outlook is None or free is None:
        return ()
    if any(note.code == "plan.below_floor" for lift in plan.lifts for note in lift.notes):
        return (Line(words("plans.cost.below_floor"), "warn"),)
    a_kilogram = (opened.line.score or 0.0) / plan.outlook.expected_total.kg
    cost = cost_of(free, plan.outlook, a_kilogram)
    code = "plans.cost" if cost.kilograms >= 0 else "plans.cost.gain"
    return (
        Line(
            words(
                code,
                kilograms=_to_tenths(abs(cost.kilograms)),
                points=words.number(abs(cost.points), 2),
                risk=tenths(abs(cost.no_total)),
                way=words("plans.cost.more" if cost.no_total >= 0 else "plans.cost.less"),
            ),
            "warn" if cost.kilograms > 0 or cost.no_total > 0 else "quiet",
        ),
    )


def _to_tenths(kilograms: float) -> Mass:
    return from_grams(round(10 * kilograms) * 100)
