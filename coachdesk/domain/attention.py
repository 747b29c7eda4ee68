"""What needs the coach: matters with why, since when, by when, and where each is settled.

A matter stands from the day it can be done something about to the day it is too late; the list is
ranked by that day. Day counts without a source are our own caution or common practice, and say so
here or in `weight_limits`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.class_fit import ClassFit, Pace, Verdict
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.weight_class import WeightClass, class_for
from coachdesk.domain.weight_limits import ABOUT_TO_START, NO_WEIGHT, ODD_SHOWN
from coachdesk.domain.weight_plan import Standing

CLASS_WATCHED = timedelta(weeks=8)
"""How long before a meet somebody lighter than the class entered is spoken of (our own caution)."""
WEIGHT_WATCHED = timedelta(weeks=16)
"""How long before a meet readings are missed (common practice: the way down takes months)."""
DEADLINE_WATCHED = timedelta(days=14)
MEMBERSHIP_WATCHED = timedelta(weeks=12)
INSPECTION_WATCHED = timedelta(days=7)
OPENER_WATCHED = timedelta(days=7)
JUDGED_WATCHED = timedelta(days=21)
"""A first-timer takes a judged single three weeks out (common practice)."""


class Kind(StrEnum):
    """What a matter is about, gravest first."""

    CLASS = "class"
    START_DOWN = "start_down"
    BEHIND = "behind"
    DIVISION = "division"
    ENTRY_CLOSES = "entry_closes"
    MEMBERSHIP = "membership"
    INSPECTION = "inspection"
    OPENER = "opener"
    JUDGED_SINGLE = "judged_single"
    KIT_CHECK = "kit_check"
    TASK = "task"
    NO_WEIGHT = "no_weight"
    ODD_READING = "odd_reading"


class Place(StrEnum):
    """Where a matter is settled."""

    ENTRY = "entry"
    WEIGHT = "weight"
    PLANS = "plans"
    KIT = "kit"
    PROFILE = "profile"
    READINGS = "readings"
    SETS = "sets"


_PLACES = {
    Kind.CLASS: Place.WEIGHT,
    Kind.START_DOWN: Place.WEIGHT,
    Kind.BEHIND: Place.WEIGHT,
    Kind.DIVISION: Place.ENTRY,
    Kind.ENTRY_CLOSES: Place.KIT,
    Kind.MEMBERSHIP: Place.PROFILE,
    Kind.INSPECTION: Place.KIT,
    Kind.OPENER: Place.PLANS,
    Kind.JUDGED_SINGLE: Place.SETS,
    Kind.KIT_CHECK: Place.KIT,
    Kind.TASK: Place.KIT,
    Kind.NO_WEIGHT: Place.READINGS,
    Kind.ODD_READING: Place.READINGS,
}


_GRAVITY = {kind: place for place, kind in enumerate(Kind)}


@dataclass(frozen=True, slots=True)
class Matter:
    """Something that needs the coach: why, `since` when, and the day it is settled `by`.

    `about` tells it from others of its kind, from day to day: the task, the round, the reading.
    """

    kind: Kind
    why: Text
    since: date
    by: date
    about: str = ""

    @property
    def place(self) -> Place:
        """Where it is settled."""
        return _PLACES[self.kind]

    def rank(self) -> tuple[date, int]:
        """What comes first: the sooner, and of the same day the graver."""
        return self.by, _GRAVITY[self.kind]


@dataclass(frozen=True, slots=True)
class Due:
    """Something to be done by a day, in words; `about` is what it is called on file."""

    what: Text
    by: date
    about: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryFacts:
    """What the matters of an entry depend on.

    `present` and `fit` stand for the class entered; `classes` are those of the athlete, ascending.
    `line` is how the weight stands to the agreed way down, None without one. `no_opener` and
    `no_judged` are lifts, in words; `closed_divisions` say, by key, why a division is not open on
    the day; `rounds` and `tasks` are due and not done; `entry_sent` and `inspected` are done.
    """

    starts_on: date
    weigh_in_on: date
    weight: Bodyweight | None
    fit: ClassFit | None
    classes: Sequence[WeightClass] = ()
    entered: str | None = None
    line: Standing | None = None
    has_plan: bool = False
    is_weighed_in: bool = False
    first_meet: bool = False
    entry_deadline: date | None = None
    kit_inspection_on: date | None = None
    member_until: date | None = None
    entry_sent: bool = False
    inspected: bool = False
    no_opener: tuple[Text, ...] = ()
    no_judged: tuple[Text, ...] = ()
    closed_divisions: tuple[tuple[str, Text], ...] = ()
    rounds: tuple[Due, ...] = field(default=())
    tasks: tuple[Due, ...] = field(default=())


def matters_of(facts: EntryFacts, today: date) -> tuple[Matter, ...]:
    """What needs the coach about an entry, ranked."""
    found = [*_of_class(facts, today), *_of_papers(facts, today), *_of_getting_ready(facts, today)]
    return tuple(sorted(found, key=Matter.rank))


def weight_matters(
    weight: Bodyweight | None, first_meet_on: date, today: date
) -> tuple[Matter, ...]:
    """What needs the coach about the readings of an athlete whose next meet is on a day.

    A matter of the athlete, however many entries there are.
    """
    found = []
    if weight is None:
        if first_meet_on - today <= WEIGHT_WATCHED:
            found.append(Matter(Kind.NO_WEIGHT, text("attention.never_weighed"), today, today))
        return tuple(found)
    due = weight.latest_on + timedelta(days=NO_WEIGHT.value)
    if due < today and first_meet_on - today <= WEIGHT_WATCHED:
        days = (today - weight.latest_on).days
        found.append(Matter(Kind.NO_WEIGHT, text("attention.no_weight", count=days), due, due))
    for odd in weight.odd:
        gone_on = odd.on + timedelta(days=ODD_SHOWN.value)
        if odd.on <= today <= gone_on:
            why = text(
                "attention.odd",
                day=odd.on,
                shown=from_grams(round(odd.shown_kg * 1000)),
                expected=from_grams(round(odd.expected_kg * 10) * 100),
            )
            found.append(Matter(Kind.ODD_READING, why, odd.on, gone_on, str(odd.on)))
    return tuple(found)


def _of_class(facts: EntryFacts, today: date) -> Iterator[Matter]:
    fit = facts.fit
    if fit is None or facts.is_weighed_in or facts.weight is None:
        return
    if fit.verdict in {Verdict.NOT_IN_TIME, Verdict.NO_PLAN}:
        by = _deadline(facts, today)
        why = _out_of_reach(fit)
        about = " ".join([why.code, *(reason.code for reason in fit.reasons)])
        yield Matter(Kind.CLASS, why, _above_since(facts, fit, today), by, about)
    elif fit.verdict is Verdict.IN_CLASS:
        yield from _lighter(facts, today)
    elif not facts.has_plan:
        yield from _start_down(fit, today)
    elif facts.line is not None and facts.line.behind_since is not None:
        off = from_grams(round(facts.line.off_kg * 10) * 100)
        why = text("attention.behind", off=off, weight_class=fit.weight_class.name)
        yield Matter(Kind.BEHIND, why, facts.line.behind_since, today)


def _start_down(fit: ClassFit, today: date) -> Iterator[Matter]:
    """From four weeks before the latest comfortable start until a way down is agreed on."""
    starts = dict(fit.latest_starts)
    since = starts[Pace.COMFORTABLE] - timedelta(days=ABOUT_TO_START.value)
    ahead = [(pace, day) for pace, day in fit.latest_starts if day >= today]
    if today < since or not ahead or fit.rate is None:
        return
    pace, by = ahead[0]
    why = text(
        "attention.start_down",
        weight_class=fit.weight_class.name,
        day=by,
        pace=text(f"pace.{pace}"),
        rate=fit.rate,
    )
    yield Matter(Kind.START_DOWN, why, since, by)


def _out_of_reach(fit: ClassFit) -> Text:
    if fit.verdict is Verdict.NOT_IN_TIME:
        return text("attention.not_in_time", weight_class=fit.weight_class.name)
    return text(
        "attention.no_plan",
        weight_class=fit.weight_class.name,
        why=fit.reasons[0] if fit.reasons else text("verdict.no_plan"),
    )


def _lighter(facts: EntryFacts, today: date) -> Iterator[Matter]:
    """Somebody who weighs in the class below lifts there, whatever was entered."""
    level_kg = None if facts.weight is None else facts.weight.level_kg(today)
    if facts.entered is None or level_kg is None or facts.starts_on - today > CLASS_WATCHED:
        return
    weighed = class_for(from_grams(round(level_kg * 1000)), facts.classes)
    if weighed.name != facts.entered:
        why = text("attention.lighter", now=weighed.name, entered=facts.entered)
        since = max(facts.starts_on - CLASS_WATCHED, _first_day(facts.weight, today, weighed.holds))
        yield Matter(Kind.CLASS, why, since, _deadline(facts, today), why.code)


def _above_since(facts: EntryFacts, fit: ClassFit, today: date) -> date:
    """The day after the last chance to begin, or else the first day above the limit."""
    starts = [day for _, day in fit.latest_starts]
    if starts:
        return min(max(starts) + timedelta(days=1), today)
    return _first_day(facts.weight, today, lambda mass: not fit.weight_class.holds(mass))


def _first_day(weight: Bodyweight | None, today: date, holds: Callable[[Mass], bool]) -> date:
    """The first of the days up to now of whose level something holds."""
    day = today
    while weight is not None:
        level_kg = weight.level_kg(day - timedelta(days=1))
        if level_kg is None or not holds(from_grams(round(level_kg * 1000))):
            break
        day -= timedelta(days=1)
    return day


def _deadline(facts: EntryFacts, today: date) -> date:
    """The day by which a class can be changed: when entries close, else the weigh-in."""
    deadline = facts.entry_deadline
    return deadline if deadline is not None and deadline >= today else facts.weigh_in_on


def _of_papers(facts: EntryFacts, today: date) -> Iterator[Matter]:
    for division, why in facts.closed_divisions:
        yield Matter(Kind.DIVISION, why, today, _deadline(facts, today), division)
    deadline, until = facts.entry_deadline, facts.member_until
    if deadline is not None and not facts.entry_sent:
        since = deadline - DEADLINE_WATCHED
        if since <= today <= facts.starts_on:
            code = "attention.entry_closes" if deadline >= today else "attention.entry_closed"
            yield Matter(Kind.ENTRY_CLOSES, text(code, day=deadline), since, deadline)
    if until is not None and until < facts.starts_on:
        since = facts.starts_on - MEMBERSHIP_WATCHED
        if since <= today:
            by = min(until, deadline or until)
            yield Matter(Kind.MEMBERSHIP, text("attention.membership", day=until), since, by)
    inspection = facts.kit_inspection_on
    if inspection is not None and not facts.inspected:
        since = inspection - INSPECTION_WATCHED
        if since <= today <= inspection:
            why = text("attention.inspection", day=inspection)
            yield Matter(Kind.INSPECTION, why, since, inspection)


def _of_getting_ready(facts: EntryFacts, today: date) -> Iterator[Matter]:
    day_before = facts.starts_on - timedelta(days=1)
    since = facts.starts_on - OPENER_WATCHED
    if facts.no_opener and since <= today:
        why = text("attention.opener", lifts=facts.no_opener)
        yield Matter(Kind.OPENER, why, since, day_before)
    since = facts.starts_on - JUDGED_WATCHED
    if facts.no_judged and facts.first_meet and since <= today:
        why = text("attention.judged_single", lifts=facts.no_judged)
        yield Matter(Kind.JUDGED_SINGLE, why, since, facts.starts_on - OPENER_WATCHED)
    for kind, listed in ((Kind.KIT_CHECK, facts.rounds), (Kind.TASK, facts.tasks)):
        for due in listed:
            why = text(f"attention.{kind}", what=due.what)
            yield Matter(kind, why, due.by, due.by, due.about)
