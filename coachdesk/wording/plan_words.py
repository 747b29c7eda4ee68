"""Totals, and what a plan of attempts leads to, in words: the same on screen and on the coach's
sheet."""

from __future__ import annotations

from coachdesk.domain.attempts import AttemptPlan, LiftPlan
from coachdesk.domain.plan_outlook import Checkpoint, DayOutlook
from coachdesk.domain.scoring import Formula, printed
from coachdesk.domain.strength.forecast import eight_in_ten
from coachdesk.domain.units import Mass, Percent
from coachdesk.wording.wording import Wording


def total_in_words(
    what: str, total: Mass | None, score: float | None, formula: Formula, words: Wording
) -> str:
    """A total and its score, as far as they are known."""
    if total is None:
        return words("meets.total.open", what=what)
    if score is None:
        return words("meets.total.no_score", what=what, total=total)
    points, name = words.number(printed(score)), words(f"formula.{formula}")
    return words("meets.total.scored", what=what, total=total, score=points, formula=name)


def outlook_lines(
    plan: AttemptPlan, score: float | None, formula: Formula, words: Wording
) -> tuple[str, ...]:
    """Expected total and its score, risk, first aim, caps and checkpoints; empty without
    chances."""
    outlook = plan.outlook
    if outlook is None:
        return ()
    lines = [_total_line(outlook, score, formula, words)]
    aim = words("plans.aim.unnamed") if plan.aim is None else words.say(plan.aim)
    if outlook.aim is not None and outlook.best_aim is not None:
        best = whole(outlook.best_aim)
        lines.append(words("plans.aim", aim=aim, chance=whole(outlook.aim), best=best))
    elif outlook.aim is not None:
        lines.append(words("plans.aim_all_good", aim=aim, chance=whole(outlook.aim)))
    if plan.caps:
        lines.append(words("plans.caps", caps=plan.caps))
    lines += [_checkpoint_line(point, words) for point in plan.checkpoints if point.even]
    return tuple(lines)


def source_line(plan: LiftPlan, words: Wording) -> str:
    """What a lift was planned on, and how wide that is where chances were worked out."""
    source = words("sheet.plan.source", source=plan.source)
    if plan.outlook is None:
        return source
    low, high = eight_in_ten(plan.expected, plan.outlook.spread)
    return f"{source} {words('sheet.plan.width', low=low, high=high)}"


def textbook_line(plan: AttemptPlan, words: Wording) -> str:
    """What the textbook pattern would lead to; empty where it was not worked out."""
    outlook = plan.textbook
    if outlook is None:
        return ""
    return words(
        "plans.textbook",
        total=outlook.expected_total,
        risk=tenths(outlook.no_total),
        all_good=whole(outlook.all_good or 0.0),
    )


def tenths(chance: float) -> Percent:
    """A chance (0 to 1) in per cent, to a tenth: for what is rare."""
    return Percent(100 * chance, 1)


def whole(chance: float) -> Percent:
    """A chance (0 to 1) in whole per cent."""
    return Percent(100 * chance, 0)


def chance_in_words(chance: float | None, words: Wording) -> str:
    """A chance in whole per cent; empty where none was worked out."""
    return "" if chance is None else words.show(whole(chance))


def _total_line(outlook: DayOutlook, score: float | None, formula: Formula, words: Wording) -> str:
    total = words.mass(outlook.expected_total)
    if score is not None:
        points, name = words.number(printed(score)), words(f"formula.{formula}")
        total = words("plans.total_scored", total=total, score=points, formula=name)
    risk = tenths(outlook.no_total)
    if outlook.all_good is None:
        return words("plans.outlook.number", total=total, risk=risk)
    return words("plans.outlook", total=total, risk=risk, all_good=whole(outlook.all_good))


def _checkpoint_line(point: Checkpoint, words: Wording) -> str:
    return words(
        "plans.checkpoint",
        lift=words(f"lift.{point.after}"),
        hopeful=_or_none(point.hopeful, words),
        even=_or_none(point.even, words),
        likely=_or_none(point.likely, words),
    )


def _or_none(mass: Mass | None, words: Wording) -> str:
    return words("plans.checkpoint.none") if mass is None else words.mass(mass)
