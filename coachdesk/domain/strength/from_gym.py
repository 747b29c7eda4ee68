"""A forecast from the gym: judged singles or other sets, times what carries over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from math import hypot

from coachdesk.domain.strength.carry_over import CarryOver
from coachdesk.domain.strength.forecast import Forecast, Source, to_tenths
from coachdesk.domain.strength.gym import gym_level, shares
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.text import Text, text
from coachdesk.domain.trend_filter import Dynamics
from coachdesk.domain.units import Percent

_NAMED = 12
"""A training block of two days a week; the days before count little."""


def from_gym(
    source: Source,
    seen: Sequence[Observation],
    carried: CarryOver,
    *,
    on: date,
    day: float,
    going_on: Dynamics,
) -> Forecast:
    """The forecast for the day `on`, in the unit of the latest set; errors as `gym_level`.

    `day` is the day's own spread on the platform, a fraction; `going_on` says how strength goes on.
    """
    level = gym_level(seen, noise=carried.day, forecast_for=on, going_on=going_on)
    counted = shares(seen, noise=carried.day, forecast_for=on, going_on=going_on)
    return Forecast(
        source,
        to_tenths(level.maximum_kg * carried.factor, seen[0].weight.unit),
        hypot(level.error, carried.sd),
        day,
        _origin(source, seen),
        (*_sets(seen, counted), _factor(carried)),
    )


def _origin(source: Source, seen: Sequence[Observation]) -> Text:
    """The best set, and how many training days there are beside it."""
    best = max(seen, key=lambda each: each.maximum_kg)
    if len(seen) == 1:
        return set_in_words(best)
    first, best_set = min(each.on for each in seen), set_in_words(best)
    if source is Source.JUDGED_SINGLES:
        return text("strength.judged_singles", count=len(seen), first=first, best=best_set)
    return text("strength.sets", count=len(seen), first=first, best=best_set)


def _sets(seen: Sequence[Observation], counted: Sequence[float]) -> Iterator[Text]:
    """The sets that count most, each with what it comes to and its share, the largest share first;
    and what all others count together."""
    shared = sorted(zip(counted, seen, strict=True), key=lambda pair: -pair[0])
    named = shared if len(shared) <= _NAMED + 1 else shared[:_NAMED]
    for share, each in named:
        maximum = to_tenths(each.maximum_kg, each.weight.unit)
        yield text(
            "strength.share", set=set_in_words(each), maximum=maximum, share=Percent(100 * share, 0)
        )
    others = shared[len(named) :]
    if others:
        rest = Percent(100 * sum(share for share, _ in others), 0)
        yield text("strength.share.others", count=len(others), share=rest)


def set_in_words(seen: Observation) -> Text:
    """The set of a training day, with its reserve and the day."""
    code = "expected_max.judged_single" if seen.judged else "expected_max.set"
    reserve = (
        text("expected_max.reserve_unknown")
        if seen.rir is None
        else text("expected_max.reserve", number=Decimal(f"{seen.rir:g}"))
    )
    return text(code, weight=seen.weight, count=seen.reps, reserve=reserve, day=seen.on)


def _factor(carried: CarryOver) -> Text:
    factor, error = Percent(100 * carried.factor), Percent(100 * carried.sd)
    if not carried.meets:
        return text("strength.carry_over.usual", factor=factor, error=error)
    return text(
        "strength.carry_over.own",
        factor=factor,
        error=error,
        attempts=carried.attempts,
        count=carried.meets,
    )
