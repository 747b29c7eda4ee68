"""What the coach's own weights in a plan cost, in words. No Qt here."""

from __future__ import annotations

from coachdesk.domain.plan_outlook import DayOutlook, cost_of
from coachdesk.domain.units import Mass, Percent, from_grams
from coachdesk.services.plan_page import OpenPlan
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.wording.plan_words import tenths, whole
from coachdesk.wording.wording import Wording


def cost_lines(opened: OpenPlan, free: DayOutlook | None, words: Wording) -> tuple[Line, ...]:
    """What they give away against the `free` plan; nothing where that cannot be said."""
    plan = None if opened.line.plan is None else opened.line.plan.plan
    if plan is None or plan.outlook is None or free is None:
        return ()
    if any(note.code == "plan.below_floor" for lift in plan.lifts for note in lift.notes):
        return (Line(words("plans.cost.below_floor"), "warn"),)
    own = plan.outlook
    said = [_average(opened, free, own, words)]
    said.append(_becomes("no_total", tenths(free.no_total), tenths(own.no_total), words))
    if free.aim is not None and own.aim is not None:
        said.append(_becomes("aim", whole(free.aim), whole(own.aim), words))
    costs = own.no_total > free.no_total or own.average_kg < free.average_kg
    return (Line(" ".join(said), "warn" if costs else "quiet"),)


def _average(opened: OpenPlan, free: DayOutlook, own: DayOutlook, words: Wording) -> str:
    a_kilogram = (opened.line.score or 0.0) / own.expected_total.kg
    cost = cost_of(free, own, a_kilogram)
    kilograms = _to_tenths(abs(cost.kilograms))
    if not kilograms.grams:
        return words("plans.cost.even")
    code = "plans.cost" if cost.kilograms > 0 else "plans.cost.gain"
    return words(code, kilograms=kilograms, points=words.number(abs(cost.points), 2))


def _becomes(what: str, was: Percent, now: Percent, words: Wording) -> str:
    """A chance before and after, as far as the figures shown tell them apart."""
    if words.show(was) == words.show(now):
        return words(f"plans.cost.{what}.same", now=now)
    return words(f"plans.cost.{what}", was=was, now=now)


def _to_tenths(kilograms: float) -> Mass:
    return from_grams(round(10 * kilograms) * 100)
