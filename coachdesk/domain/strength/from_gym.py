"""A forecast from the gym: judged singles or other sets, times what carries over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from math import hypot

from coachdesk.domain.strength.carry_over import CarryOver
from coachdesk.domain.strength.forecast import Forecast, Source, to_tenths
from coachdesk.domain.strength.gym import GymLevel, gym_level
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent


def from_gym(
    source: Source, seen: Sequence[Observation], carried: CarryOver, *, on: date, day: float
) -> Forecast:
    """The forecast for the day `on`, in the unit of the latest set; errors as `gym_level`.

    `day` is the day's own spread on the platform, a fraction.
    """
    level = gym_level(seen, noise=carried.day, forecast_for=on)
    return Forecast(
        source,
        to_tenths(level.maximum_kg * carried.factor, seen[0].logged.weight.unit),
        hypot(level.error, carried.sd),
        day,
        _origin(source, seen),
        (*_sets(level), _factor(carried)),
    )


def _origin(source: Source, seen: Sequence[Observation]) -> Text:
    """The best set, and how many training days there are beside it."""
    best = max(seen, key=lambda each: each.maximum_kg)
    if len(seen) == 1:
        return _set(best)
    first, best_set = min(each.on for each in seen), _set(best)
    if source is Source.JUDGED_SINGLES:
        return text("strength.judged_singles", count=len(seen), first=first, best=best_set)
    return text("strength.sets", count=len(seen), first=first, best=best_set)


def _sets(level: GymLevel) -> Iterator[Text]:
    """Each set with what it comes to and its share, the largest share first."""
    shared = sorted(zip(level.shares, level.observations, strict=True), key=lambda pair: -pair[0])
    for share, seen in shared:
        maximum = to_tenths(seen.maximum_kg, seen.logged.weight.unit)
        yield text("strength.share", set=_set(seen), maximum=maximum, share=Percent(100 * share, 0))


def _set(seen: Observation) -> Text:
    logged = seen.logged
    code = "expected_max.judged_single" if logged.judged else "expected_max.set"
    reserve = (
        text("expected_max.reserve_unknown")
        if logged.rir is None
        else text("expected_max.reserve", number=f"{logged.rir:g}")
    )
    return text(code, weight=logged.weight, count=logged.reps, reserve=reserve, day=logged.on)


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
