"""Does an athlete fit a weight class in time, at what pace, and when must the way down begin?

Present weight is the level of the trend (`bodyweight`), and the way down a straight line to a week
before weigh-in, in per cent of present bodyweight a week. Every limit stands in `weight_limits`
with its source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from coachdesk.domain.athlete import LossBar
from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.division import age_on
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent, from_grams
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_limits import (
    ADULT,
    ARRIVE_EARLY,
    COMFORTABLE_PACE,
    HARD_PACE,
    LARGEST_LOSS,
    LOWEST_BODY_MASS_INDEX,
    STEADY_PACE,
)

ADULT_YEARS = int(ADULT.value)
EARLY = timedelta(days=ARRIVE_EARLY.value)


class Pace(StrEnum):
    """How fast an athlete comes down."""

    COMFORTABLE = "comfortable"
    STEADY = "steady"
    HARD = "hard"

    @property
    def percent_a_week(self) -> float:
        """The fastest loss that still counts as this pace [% of present bodyweight a week]."""
        return _FASTEST[self].value


_FASTEST = {
    Pace.COMFORTABLE: COMFORTABLE_PACE,
    Pace.STEADY: STEADY_PACE,
    Pace.HARD: HARD_PACE,
}


class Verdict(StrEnum):
    """What to make of a class for an athlete."""

    IN_CLASS = "in_class"
    COMFORTABLE = "comfortable"
    STEADY = "steady"
    HARD = "hard"
    NOT_IN_TIME = "not_in_time"
    NO_PLAN = "no_plan"

    @property
    def has_way_down(self) -> bool:
        """Whether the program draws up a way down."""
        return self in {Verdict.COMFORTABLE, Verdict.STEADY, Verdict.HARD}


@dataclass(frozen=True, slots=True)
class PresentWeight:
    """The present level [kg], how many readings its last week has and when the last one was."""

    kg: float
    readings: int
    latest_on: date

    @property
    def mass(self) -> Mass:
        """The level as a mass, to 0.01 kg as on a meet's scale."""
        return from_grams(round(self.kg * 100) * 10)


@dataclass(frozen=True, slots=True)
class Person:
    """What the guards need to know about an athlete."""

    birth_date: date | None
    height_cm: int | None
    loss_bar: LossBar
    first_meet: bool


@dataclass(frozen=True, slots=True)
class ClassFit:
    """How an athlete stands to one class.

    `gap_kg` [kg] is positive above the limit, None in an unlimited class. `weeks` are left to
    `arrive_on`, a week before weigh-in. `rate` is needed a week. `latest_starts` holds the last
    day to begin at each pace, slowest first. `reasons` say why there is no plan, `notes` what
    could not be checked.
    """

    weight_class: WeightClass
    verdict: Verdict
    gap_kg: float | None
    weeks: float
    arrive_on: date
    rate: Percent | None = None
    latest_starts: tuple[tuple[Pace, date], ...] = ()
    reasons: tuple[Text, ...] = ()
    notes: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class WeekChange:
    """What a week has changed: the level now less the level then [kg], and how it stood then."""

    kg: float
    verdict: Verdict
    rate: Percent | None


def present_weight(bodyweight: Bodyweight | None, on: date) -> PresentWeight | None:
    """Where the weight stands on the day `on`; None without readings that still say so."""
    if bodyweight is None or not bodyweight.tells_of(on):
        return None
    level_kg = bodyweight.level_kg(on)
    if level_kg is None:
        return None
    return PresentWeight(level_kg, bodyweight.readings, bodyweight.latest_on)


def class_fit(
    weight_class: WeightClass,
    *,
    present: PresentWeight,
    today: date,
    weigh_in_on: date,
    person: Person,
    chosen: bool,
) -> ClassFit:
    """How the athlete stands to `weight_class`, with every guard.

    `chosen` is the coach's explicit choice to come down to it: without it a first-timer stays in
    the class weighed now. The pace is linear, in per cent of present bodyweight a week.
    """
    arrive_on = weigh_in_on - EARLY
    weeks = (arrive_on - today).days / 7
    limit = weight_class.limit
    gap_kg = None if limit is None else present.mass.kg - limit.kg
    if gap_kg is None or weight_class.holds(present.mass):
        return ClassFit(weight_class, Verdict.IN_CLASS, gap_kg, weeks, arrive_on)
    gap_percent = gap_kg / present.kg * 100
    reasons = _reasons_against(weight_class, gap_percent, today, person, chosen=chosen)
    if reasons:
        return ClassFit(weight_class, Verdict.NO_PLAN, gap_kg, weeks, arrive_on, reasons=reasons)
    rate = gap_percent / weeks if weeks > 0 else math.inf
    fastest = Pace.STEADY if person.first_meet else Pace.HARD
    return ClassFit(
        weight_class,
        _verdict(rate, fastest),
        gap_kg,
        weeks,
        arrive_on,
        rate=Percent(rate, 2) if math.isfinite(rate) else None,
        latest_starts=tuple(
            (pace, arrive_on - timedelta(days=_whole_days(gap_percent, pace)))
            for pace in Pace
            if pace.percent_a_week <= fastest.percent_a_week
        ),
        notes=() if person.height_cm else (text("class_fit.no_height"),),
    )


def weekly_marks(
    fit: ClassFit, present: PresentWeight, today: date
) -> tuple[tuple[date, Mass], ...]:
    """The way down week by week: what the scale should show, on a straight line to the limit.

    Empty where there is no way down. The last mark is the limit on the day to arrive.
    """
    if not fit.verdict.has_way_down or fit.gap_kg is None:
        return ()
    days = (fit.arrive_on - today).days
    marks = [*range(7, days, 7), days]
    return tuple(
        (
            today + timedelta(days=day),
            from_grams(round((present.kg - fit.gap_kg * day / days) * 10) * 100),
        )
        for day in marks
    )


def _whole_days(gap_percent: float, pace: Pace) -> int:
    """Days the way down takes at a pace, rounded up but for the last digits of a float."""
    return math.ceil(round(gap_percent / pace.percent_a_week * 7, 6))


def _verdict(rate: float, fastest: Pace) -> Verdict:
    for pace in Pace:
        if rate <= pace.percent_a_week <= fastest.percent_a_week:
            return Verdict(pace.value)
    return Verdict.NOT_IN_TIME


def _reasons_against(
    weight_class: WeightClass, gap_percent: float, today: date, person: Person, *, chosen: bool
) -> tuple[Text, ...]:
    reasons: list[Text] = []
    if person.birth_date is None:
        reasons.append(text("class_fit.age_unknown"))
    elif age_on(person.birth_date, today) < ADULT_YEARS:
        reasons.append(text("class_fit.minor"))
    if person.loss_bar is not LossBar.NONE:
        reasons.append(text(f"class_fit.bar.{person.loss_bar}"))
    limit = weight_class.limit
    if person.height_cm and limit is not None:
        index = limit.kg / (person.height_cm / 100) ** 2
        if index < LOWEST_BODY_MASS_INDEX.value:
            reasons.append(text("class_fit.too_light", index=index))
    if gap_percent > LARGEST_LOSS.value:
        reasons.append(
            text("class_fit.too_far", gap=Percent(gap_percent), most=Percent(LARGEST_LOSS.value))
        )
    if person.first_meet and not chosen:
        reasons.append(text("class_fit.first_meet"))
    return tuple(reasons)
