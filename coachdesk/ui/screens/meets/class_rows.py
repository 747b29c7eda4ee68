"""The classes in reach of an entry in rows: what each takes, and the way to it week by week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.class_fit import ClassFit, Pace, PresentWeight, Verdict, weekly_marks
from coachdesk.domain.units import Mass, Percent, from_grams
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.services.class_choices import ClassChoice
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.weights.board_rows import ROLES
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class MarkRow:
    """What the scale should show on a day, on the way from today; `agreed` is what the line agreed
    on says of it."""

    day: date
    shown: str
    mark: str
    agreed: str


@dataclass(frozen=True, slots=True)
class ClassRow:
    """A class in words. `name` is the rulebook's, `label` says too whether it is the one entered
    or weighed now; `why` is what stands against it or could not be checked."""

    name: str
    label: str
    limit: str
    gap: str
    rate: str
    verdict: str
    role: str
    comfortable: str
    steady: str
    chance: str
    total: str
    why: tuple[Line, ...]
    marks: tuple[MarkRow, ...]
    may_enter: bool
    choice: ClassChoice


def class_row(
    choice: ClassChoice,
    present: PresentWeight,
    plan: WeightPlan | None,
    total: Mass | None,
    today: date,
    words: Wording,
) -> ClassRow:
    """A class in reach; `plan` is the way down agreed on, `total` what equals the reference."""
    fit = choice.fit
    limit = fit.weight_class.limit
    starts = dict(fit.latest_starts) if fit.verdict.has_way_down else {}
    holds = plan is not None and plan.weight_class == fit.weight_class.name
    return ClassRow(
        name=fit.weight_class.name,
        label=_label(choice, words),
        limit="" if limit is None else words.mass(limit),
        gap=""
        if fit.gap_kg is None or fit.gap_kg <= 0
        else words.mass(from_grams(round(fit.gap_kg * 1000))),
        rate=words.show(fit.rate) if fit.rate is not None and fit.verdict.has_way_down else "",
        verdict=_verdict(fit.verdict, words),
        role=ROLES[fit.verdict],
        comfortable=_start(starts.get(Pace.COMFORTABLE), today, words),
        steady=_start(starts.get(Pace.STEADY), today, words),
        chance=_chance(choice.chance, words),
        total="" if total is None else words.mass(total),
        why=_why(choice, words),
        marks=_marks(fit, present, plan if holds else None, today, words),
        may_enter=choice.may_enter,
        choice=choice,
    )


def _label(choice: ClassChoice, words: Wording) -> str:
    name = choice.fit.weight_class.name
    if choice.is_entered and choice.is_weighed_now:
        return words("weight.class.both", name=name)
    if choice.is_entered:
        return words("weight.class.entered", name=name)
    return words("weight.class.now", name=name) if choice.is_weighed_now else words.show(name)


def _verdict(verdict: Verdict, words: Wording) -> str:
    """In the table a no is short: the sentences below it say why."""
    return words("today.no_plan" if verdict is Verdict.NO_PLAN else f"verdict.{verdict}")


def _start(day: date | None, today: date, words: Wording) -> str:
    if day is None:
        return ""
    if day < today:
        return words("weight.start.passed")
    return words.short_day(day)


def _chance(chance: float | None, words: Wording) -> str:
    """Never quite none and never certain: the trend may turn."""
    if chance is None:
        return ""
    percent = round(chance * 100)
    if percent in {0, 100}:
        return words("weight.chance.under" if percent == 0 else "weight.chance.over")
    return words.show(Percent(percent, 0))


def _why(choice: ClassChoice, words: Wording) -> tuple[Line, ...]:
    fit = choice.fit
    lines = [Line(words.say(reason), "warn") for reason in fit.reasons]
    lines += [Line(words.say(note), "quiet") for note in fit.notes]
    return tuple(lines)


def _marks(
    fit: ClassFit,
    present: PresentWeight,
    plan: WeightPlan | None,
    today: date,
    words: Wording,
) -> tuple[MarkRow, ...]:
    return tuple(
        MarkRow(
            day=day,
            shown=words.day(day),
            mark=words.mass(mark),
            agreed=""
            if plan is None
            else words.mass(from_grams(round(plan.kg_on(day) * 10) * 100)),
        )
        for day, mark in weekly_marks(fit, present, today)
    )
