"""Athletes side by side: the result that counts for each, its points, and what equals another's.

Nothing is read here: `compare_days` reads once, and every choice is worked out from that.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from coachdesk.domain.attempts import Steps
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.performance import (
    AgeFactor,
    RankGroup,
    Scale,
    applied_age_factor,
    lift_to_equal,
    points,
    rank_group,
    shares,
    total_to_equal,
    why_no_points,
)
from coachdesk.domain.scoring import printed
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent, from_grams
from coachdesk.services.compare_days import CompareData, Day, DaysByAthlete
from coachdesk.services.meets import steps_of
from coachdesk.services.rulebooks import Rulebooks
from coachdesk.storage.compare_queries import ComparedAthlete


class Counted(StrEnum):
    """Which result counts: the best by score, the latest, or what is planned for the next meet,
    with all lifts good or with the openers alone."""

    BEST = "best"
    LATEST = "latest"
    ALL_GOOD = "all_good"
    OPENERS = "openers"

    @property
    def is_planned(self) -> bool:
        """Whether the meet is still to come."""
        return self in {Counted.ALL_GOOD, Counted.OPENERS}


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareChoice:
    """What is compared.

    `event` and `equipment` None take any; `first` and `last` are the first and last day, None
    without a bound. Where `equal_to` names an athlete, the kilograms are worked out that the
    others need to equal them, on the total and on `equal_on`, in steps of `step` or, None, of the
    rulebook of each one's meet.
    """

    scale: Scale
    counted: Counted = Counted.BEST
    event: Event | None = None
    equipment: Equipment | None = None
    first: date | None = None
    last: date | None = None
    equal_to: int | None = None
    equal_on: Lift = Lift.DEADLIFT
    step: Mass | None = None


@dataclass(frozen=True, slots=True)
class Progress:
    """What was gained since the meet before: kilograms [g] and points, None where one of the two
    days has none."""

    grams: int
    points: float | None
    since: Day


@dataclass(frozen=True, slots=True)
class Needed:
    """The weight that equals another's points, and how much more that is than what stands [g];
    below zero when there is some to spare, None when nothing stands."""

    weight: Mass
    more_g: int | None


@dataclass(frozen=True, slots=True)
class Equal:
    """What an athlete needs to equal another; None where it cannot be said."""

    total: Needed | None
    lift: Needed | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One athlete's result among those it may be ranked with.

    `grams` [g] is the total or lift compared. `why` says why there are no points. `group` is None
    where nothing was lifted or planned. `rank` counts from 1 in the group.
    """

    athlete: ComparedAthlete
    day: Day | None
    group: RankGroup | None
    grams: int | None
    points: float | None
    why: Text | None
    age_factor: AgeFactor | None
    shares: dict[Lift, Percent]
    progress: Progress | None
    rank: int | None = None
    equal: Equal | None = None


def compare(data: CompareData, choice: CompareChoice, rulebooks: Rulebooks) -> tuple[Line, ...]:
    """A line for each athlete, and for each kind of result that must be kept apart.

    Groups in the order of the trade's events, best points first; then results without points,
    then athletes without a result.
    """
    lines = [line for athlete in data.athletes for line in _lines(data, athlete, choice)]
    grouped: defaultdict[RankGroup, list[Line]] = defaultdict(list)
    for line in lines:
        if line.group is not None:
            grouped[line.group].append(line)
    steps = {key: steps_of(rulebook) for key, rulebook in rulebooks.books.items()}
    ranked = [
        line
        for group in sorted(grouped, key=_group_order)
        for line in _with_equals(_ranked(grouped[group]), choice, steps)
    ]
    return (*ranked, *(line for line in lines if line.group is None))


def _lines(data: CompareData, athlete: ComparedAthlete, choice: CompareChoice) -> list[Line]:
    """One line for each group the athlete has a result in, or one that says there is none."""
    candidates: defaultdict[RankGroup, list[Day]] = defaultdict(list)
    for day in _source(data, choice.counted).get(athlete.id, ()):
        if _counts(day, choice):
            candidates[rank_group(day.performance, choice.scale)].append(day)
    if not candidates:
        return [_line_without_result(athlete, choice)]
    return [
        _line(athlete, group, _pick(days, choice), data.lifted.get(athlete.id, ()), choice.scale)
        for group, days in candidates.items()
    ]


def _source(data: CompareData, counted: Counted) -> DaysByAthlete:
    match counted:
        case Counted.ALL_GOOD:
            return data.all_good
        case Counted.OPENERS:
            return data.openers
        case _:
            return data.lifted


def _counts(day: Day, choice: CompareChoice) -> bool:
    performance, lift = day.performance, choice.scale.lift
    return (
        (choice.first is None or choice.first <= day.on)
        and (choice.last is None or day.on <= choice.last)
        and (choice.equipment is None or performance.equipment is choice.equipment)
        and (choice.event is None or performance.event is choice.event)
        and (lift is None or lift in performance.event.lifts)
    )


def _pick(days: Sequence[Day], choice: CompareChoice) -> Day:
    """The best by points, else by kilograms, the earlier of equals; or the nearest to today."""
    if choice.counted is not Counted.BEST:
        return days[0]

    def order(day: Day) -> tuple[float, int, int]:
        scored = points(day.performance, choice.scale)
        grams = day.performance.grams(choice.scale.lift)
        return (-1 if scored is None else scored, grams or 0, -day.on.toordinal())

    return max(days, key=order)


def _line(
    athlete: ComparedAthlete, group: RankGroup, day: Day, lifted: Iterable[Day], scale: Scale
) -> Line:
    grams = day.performance.grams(scale.lift)
    scored = points(day.performance, scale)
    why = None
    if grams is None:
        why = day.why_not(scale.lift)
    elif scored is None:
        why = why_no_points(day.performance, scale)
    return Line(
        athlete=athlete,
        day=day,
        group=group,
        grams=grams,
        points=scored,
        why=why,
        age_factor=applied_age_factor(day.performance) if scale.with_age_factor else None,
        shares=shares(day.performance),
        progress=_progress(day, lifted, scale),
    )


def _line_without_result(athlete: ComparedAthlete, choice: CompareChoice) -> Line:
    code = "compare.no_result.planned" if choice.counted.is_planned else "compare.no_result.lifted"
    return Line(
        athlete=athlete,
        day=None,
        group=None,
        grams=None,
        points=None,
        why=text(code),
        age_factor=None,
        shares={},
        progress=None,
    )


def _progress(day: Day, lifted: Iterable[Day], scale: Scale) -> Progress | None:
    """Against the latest day before with something to compare, in the same event and equipment."""
    grams = day.performance.grams(scale.lift)
    if grams is None:
        return None
    for before in lifted:
        then_g = before.performance.grams(scale.lift)
        if (
            before.on < day.on
            and then_g is not None
            and before.performance.equipment is day.performance.equipment
            and (scale.lift is not None or before.performance.event is day.performance.event)
        ):
            now, then = points(day.performance, scale), points(before.performance, scale)
            gained = None if now is None or then is None else now - then
            return Progress(grams - then_g, gained, before)
    return None


def _group_order(group: RankGroup) -> tuple[int, int]:
    equipment, event = group
    return (
        -1 if event is None else list(Event).index(event),
        -1 if equipment is None else list(Equipment).index(equipment),
    )


def _ranked(lines: Iterable[Line]) -> list[Line]:
    """By points as they are printed; equal points share a rank. Lines without points come last."""
    scored = [line for line in lines if line.points is not None]
    scored.sort(key=lambda line: -_points(line))
    ranked: list[Line] = []
    for at, line in enumerate(scored, start=1):
        ties = bool(ranked) and printed(_points(ranked[-1])) == printed(_points(line))
        ranked.append(replace(line, rank=ranked[-1].rank if ties else at))
    unscored = [line for line in lines if line.points is None]
    return ranked + sorted(unscored, key=lambda line: -(line.grams or 0))


def _points(line: Line) -> float:
    return -1.0 if line.points is None else line.points


def _with_equals(lines: list[Line], choice: CompareChoice, steps: dict[str, Steps]) -> list[Line]:
    """With what each needs to equal the athlete chosen, where that one is in the group."""
    target = next(
        (
            line.points
            for line in lines
            if line.athlete.id == choice.equal_to and line.points is not None
        ),
        None,
    )
    if target is None:
        return lines
    return [
        line
        if line.athlete.id == choice.equal_to
        else replace(line, equal=_equal(line, target, choice, steps))
        for line in lines
    ]


def _equal(line: Line, target: float, choice: CompareChoice, steps: dict[str, Steps]) -> Equal:
    if line.day is None:
        return Equal(None, None)
    performance, rules = line.day.performance, steps.get(line.day.rulebook)
    step = choice.step or (None if rules is None else rules.step)
    if step is None:
        return Equal(None, None)
    lightest = from_grams(0) if rules is None else rules.lightest
    total = total_to_equal(performance, target, choice.scale, step=step)
    lift = lift_to_equal(performance, target, choice.scale, choice.equal_on, step=step)
    return Equal(
        None if total is None else _needed(total, line.grams),
        None
        if lift is None
        else _needed(
            max(lift, lightest, key=lambda mass: mass.grams),
            performance.best_g.get(choice.equal_on),
        ),
    )


def _needed(weight: Mass, stands_g: int | None) -> Needed:
    return Needed(weight, None if stands_g is None else weight.grams - stands_g)
