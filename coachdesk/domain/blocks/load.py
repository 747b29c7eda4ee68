"""What the sets of a block come to, by week and lift: planned and done.

Volume load is sets times repetitions times weight [kg] (common practice). Average intensity is the
weight as a per cent of the training maximum of the competition lift, a mean over repetitions
(common practice). Heavy lifts are repetitions at or above `HEAVY`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass

HEAVY = 90.0
"""Per cent of the training maximum from which a lift counts as heavy (common practice)."""
_SLACK = 1e-6
_DAYS = 7


@dataclass(frozen=True, slots=True)
class Portion:
    """Equal repetitions of a lift in a week of a block, from 1.

    `weight` is None where it is left open; `percent` [%] of the training maximum, None where
    neither it nor a weight and a maximum are known.
    """

    week: int
    lift: Lift
    reps: int
    weight: Mass | None
    percent: float | None


@dataclass(frozen=True, slots=True)
class Load:
    """What portions come to.

    `reps` repetitions; `open_reps` those of them without a weight, which are in no other figure;
    `volume_kg` [kg]; `intensity` [%], None where no per cent is known; `heavy` lifts.
    """

    reps: int = 0
    open_reps: int = 0
    volume_kg: float = 0.0
    intensity: float | None = None
    heavy: int = 0


def loads(portions: Iterable[Portion]) -> dict[tuple[int, Lift], Load]:
    """What every week and lift comes to; no entry where there is nothing."""
    sorted_out: dict[tuple[int, Lift], list[Portion]] = {}
    for each in portions:
        sorted_out.setdefault((each.week, each.lift), []).append(each)
    return {key: load_of(found) for key, found in sorted_out.items()}


def load_of(portions: Iterable[Portion]) -> Load:
    """What portions of whatever weeks and lifts come to together."""
    several = tuple(portions)
    known = [(each.percent, each.reps) for each in several if each.percent is not None]
    counted = sum(reps for _, reps in known)
    return Load(
        reps=sum(each.reps for each in several),
        open_reps=sum(each.reps for each in several if each.weight is None),
        volume_kg=sum(each.weight.kg * each.reps for each in several if each.weight is not None),
        intensity=sum(percent * reps for percent, reps in known) / counted if counted else None,
        heavy=sum(reps for percent, reps in known if percent >= HEAVY - _SLACK),
    )


def percent_of(weight: Mass | None, lift: Lift, maxima: Mapping[Lift, Mass]) -> float | None:
    """A weight as a per cent of the training maximum of its lift, where both are known."""
    maximum = maxima.get(lift)
    if weight is None or maximum is None:
        return None
    return 100 * weight.grams / maximum.grams


def week_of(starts_on: date, weeks: int, on: date) -> int:
    """The week of a block that a day belongs to; a day outside counts to the nearest week."""
    return min(max((on - starts_on) // timedelta(days=_DAYS) + 1, 1), weeks)
