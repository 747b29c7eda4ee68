"""One day's lifting as it is compared with another's: kilograms, points, and what equals them.

Points are `scoring.score` of the total, or of one lift taken as an event of its own, times the
age factor where one is wanted. Which performances may be ranked together is `rank_group`'s
matter: DOTS and the Wilks formulas know neither equipment nor event, IPF GL has constants for
each.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TypeAlias

from coachdesk.domain.age_factors import AgeTable, age_factor, age_table
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.scoring import Formula, coefficient, kilograms_needed
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent, from_grams

_ALONE = {
    Lift.SQUAT: Event.SQUAT_ONLY,
    Lift.BENCH: Event.BENCH_ONLY,
    Lift.DEADLIFT: Event.DEADLIFT_ONLY,
}

RankGroup: TypeAlias = tuple[Equipment | None, Event | None]
"""Performances of one group may be ranked together; None where any may."""

_ORDINARY_KG = 80.0
"""Every formula has constants for this bodyweight if it has any for the event."""


@dataclass(frozen=True, slots=True)
class Performance:
    """What somebody lifted on a day, or is meant to.

    `best_g` [g] holds the best of each lift that counts, lifts without one left out, and
    `total_g` [g] is their sum when no lift of the event is missing; `bodyweight_kg` [kg] and
    `age_years` [years] are None when not known.
    """

    sex: Sex
    event: Event
    equipment: Equipment
    bodyweight_kg: float | None
    age_years: int | None
    best_g: Mapping[Lift, int]

    total_g: int | None = field(init=False)

    def __post_init__(self) -> None:
        found = [self.best_g.get(lift) for lift in self.event.lifts]
        total_g = None if None in found else sum(filter(None, found))
        object.__setattr__(self, "total_g", total_g)

    def grams(self, lift: Lift | None) -> int | None:
        """The total [g], or the best [g] of `lift`; None without one."""
        return self.total_g if lift is None else self.best_g.get(lift)


@dataclass(frozen=True, slots=True)
class AgeFactor:
    """The age factor that was applied, at which age [years], and the table it stands in."""

    factor: float
    age_years: int
    table: AgeTable | None


@dataclass(frozen=True, slots=True)
class Scale:
    """How performances are scored: by `formula`, on one `lift` or the total (None), and with the
    age factor or without."""

    formula: Formula
    lift: Lift | None
    with_age_factor: bool


def applied_age_factor(performance: Performance) -> AgeFactor | None:
    """The age factor of a performance; None when the age is not known or has no factor."""
    age_years = performance.age_years
    factor = None if age_years is None else age_factor(age_years)
    if age_years is None or factor is None:
        return None
    return AgeFactor(factor, age_years, age_table(age_years))


def points(performance: Performance, scale: Scale) -> float | None:
    """The points of a performance, unrounded; None when there are none (see `why_no_points`)."""
    grams = performance.grams(scale.lift)
    factor = _factor(performance, scale)
    if grams is None or factor is None:
        return None
    per_kg = _coefficient(performance, scale, performance.bodyweight_kg)
    return None if per_kg is None else per_kg * (grams / 1000) * factor


def why_no_points(performance: Performance, scale: Scale) -> Text:
    """Why a performance with something lifted has no points, in words."""
    if _coefficient(performance, scale, _ORDINARY_KG) is None:
        event = _event(performance, scale)
        return text("compare.no_score.event", event=text(f"event.{event}"))
    if performance.bodyweight_kg is None:
        return text("compare.no_score.bodyweight")
    if _coefficient(performance, scale, performance.bodyweight_kg) is None:
        return text("compare.no_score.too_light")
    if performance.age_years is None:
        return text("compare.no_score.birth_date")
    return text("compare.no_score.age", age=performance.age_years)


def rank_group(performance: Performance, scale: Scale) -> RankGroup:
    """What keeps performances apart: equipment and, on the total, the event, unless the formula
    has constants for each of them."""
    if scale.formula is Formula.IPF_GL:
        return (None, None)
    return (performance.equipment, performance.event if scale.lift is None else None)


def shares(performance: Performance) -> dict[Lift, Percent]:
    """The share of each lift in the total [%]; empty without a total of several lifts."""
    total_g = performance.total_g
    if total_g is None or len(performance.event.lifts) == 1:
        return {}
    return {
        lift: Percent(100 * performance.best_g[lift] / total_g) for lift in performance.event.lifts
    }


def total_to_equal(
    performance: Performance, target: float, scale: Scale, *, step: Mass
) -> Mass | None:
    """The least weight that equals `target` points: a total, or the lift of the scale.

    A multiple of `step`; None when the performance cannot be scored.
    """
    return _needed(performance, target, scale, step=step, in_hand=from_grams(0))


def lift_to_equal(
    performance: Performance, target: float, scale: Scale, lift: Lift, *, step: Mass
) -> Mass | None:
    """The least `lift` that makes the total equal `target` points when the other lifts stay.

    A multiple of `step`, zero when the others suffice; None when the performance has no total,
    does not have the lift, or cannot be scored.
    """
    total_g = performance.total_g
    if total_g is None or lift not in performance.event.lifts or scale.lift is not None:
        return None
    others = from_grams(total_g - performance.best_g[lift])
    return _needed(performance, target, scale, step=step, in_hand=others)


def _needed(
    performance: Performance, target: float, scale: Scale, *, step: Mass, in_hand: Mass
) -> Mass | None:
    factor = _factor(performance, scale)
    if factor is None:
        return None
    return kilograms_needed(
        scale.formula,
        target,
        sex=performance.sex,
        bodyweight_kg=performance.bodyweight_kg,
        event=_event(performance, scale),
        equipment=performance.equipment,
        step=step,
        in_hand=in_hand,
        age_factor=factor,
    )


def _event(performance: Performance, scale: Scale) -> Event:
    return performance.event if scale.lift is None else _ALONE[scale.lift]


def _factor(performance: Performance, scale: Scale) -> float | None:
    if not scale.with_age_factor:
        return 1.0
    return None if performance.age_years is None else age_factor(performance.age_years)


def _coefficient(
    performance: Performance, scale: Scale, bodyweight_kg: float | None
) -> float | None:
    return _known_coefficient(
        scale.formula,
        performance.sex,
        bodyweight_kg,
        _event(performance, scale),
        performance.equipment,
    )


@lru_cache(maxsize=65536)
def _known_coefficient(
    formula: Formula, sex: Sex, bodyweight_kg: float | None, event: Event, equipment: Equipment
) -> float | None:
    return coefficient(
        formula, sex=sex, bodyweight_kg=bodyweight_kg, event=event, equipment=equipment
    )
