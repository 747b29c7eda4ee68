"""A bodyweight's way in words: the line agreed on, the week past, the meet's scale."""

from __future__ import annotations

from coachdesk.domain.bodyweight import ScaleForecast
from coachdesk.domain.class_fit import ClassFit, WeekChange
from coachdesk.domain.units import Percent, from_grams
from coachdesk.domain.weight_plan import Standing, WeightPlanData
from coachdesk.wording.wording import Wording

_SURE, _NO_CHANCE = 99.5, 0.5
"""Chances [%] that are not told apart from certainty."""


def agreed_in_words(plan: WeightPlanData | None, line: Standing | None, words: Wording) -> str:
    """The way down agreed on, and how the weight stands to it; empty without one."""
    if plan is None:
        return ""
    agreed = words(
        "today.line.agreed",
        day=plan.agreed_on,
        mass=plan.from_weight,
        limit=plan.to_weight,
        arrive=plan.arrive_on,
    )
    if line is None:
        return agreed
    off = from_grams(round(abs(line.off_kg) * 10) * 100)
    code = "above" if line.off_kg > 0 else "below"
    now = words(f"today.line.{code}", off=off) if off.grams else words("today.line.exact")
    return f"{agreed} {now}"


def week_in_words(change: WeekChange | None, fit: ClassFit | None, words: Wording) -> str:
    """What changed since last week; empty where there is no telling."""
    if change is None or fit is None:
        return ""
    by = from_grams(round(abs(change.kg) * 100) * 10)
    said = words("today.week.fell" if change.kg < 0 else "today.week.rose", by=by)
    if not by.grams:
        said = words("today.week.same")
    if change.verdict is not fit.verdict:
        then = words(f"verdict.{change.verdict}")
        return f"{said} {words('today.week.verdict', then=then)}"
    if fit.verdict.has_way_down and change.rate is not None and change.rate != fit.rate:
        return f"{said} {words('today.week.rate', then=change.rate)}"
    return said


def scale_in_words(scale: ScaleForecast | None, chance: float | None, words: Wording) -> str:
    """What the meet's scale will show, and the chance of the class: for the coach alone."""
    if scale is None or chance is None:
        return ""
    low, high = (from_grams(round(kg * 10) * 100) for kg in (scale.low_kg, scale.high_kg))
    said = words("weight.scale", low=low, high=high)
    percent = chance * 100
    if percent > _SURE or percent < _NO_CHANCE:
        code = "weight.chance.sure" if percent > _SURE else "weight.chance.none"
        return f"{said} {words(code)}"
    return f"{said} {words('weight.chance', chance=Percent(percent, 0))}"
