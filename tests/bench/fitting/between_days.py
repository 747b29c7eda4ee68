"""What recorded days say of a lifter from one day to another: noise, what lifts share, misses."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from coachdesk.domain.lifting import Lift
from tests.bench.fitting.recorded_days import Days, Floats, Ints

_LEAST_GAP, _MOST_SPAN = 7, 730
_QUARTILES_OF_A_NORMAL = 1.349


@dataclass(frozen=True, slots=True, eq=False)
class Noise:
    """The noise of a lifter's best about the line between the meets before and after.

    Robust standard deviations as fractions, of each lift and of the total, scaled to that of one
    day; `shared` is r by the closed form of `belief` from these, with the lifts' own shares of the
    total; `together` is r straight from the correlation of two lifts' noise, for each pair.
    """

    meets: int
    lifts: Floats
    total: float
    shared: float
    together: Floats


def noise(days: Days, equipment: int) -> Noise:
    """The day's noise among days with that equipment on which every lift was made."""
    best = np.where(days.made, days.weights_kg, 0.0).max(axis=2)
    chosen = (days.equipment == equipment) & (best > 0).all(axis=1)
    best, lifter, day = best[chosen], days.lifter[chosen], days.since_first[chosen]
    total = best.sum(axis=1)
    at = np.arange(1, len(best) - 1)
    at = at[
        (lifter[at - 1] == lifter[at])
        & (lifter[at + 1] == lifter[at])
        & (np.minimum(day[at] - day[at - 1], day[at + 1] - day[at]) >= _LEAST_GAP)
        & (day[at + 1] - day[at - 1] < _MOST_SPAN)
    ]
    later = ((day[at] - day[at - 1]) / (day[at + 1] - day[at - 1]))[:, None]
    height = np.log(np.column_stack([best, total]))
    off = height[at] - (1 - later) * height[at - 1] - later * height[at + 1]
    off /= np.sqrt(1.0 + later**2 + (1.0 - later) ** 2)
    spreads = _spread(off)
    parts = float(((best / total[:, None]).mean(axis=0) ** 2).sum())
    ratio = float((spreads[-1] / spreads[:-1].mean()) ** 2)
    together = [_together(off[:, one], off[:, other]) for one, other in _pairs()]
    return Noise(
        len(at), spreads[:-1], float(spreads[-1]), (ratio - parts) / (1 - parts), np.array(together)
    )


def _pairs() -> list[tuple[int, int]]:
    return list(combinations(range(len(Lift)), 2))


def _spread(values: Floats) -> Floats:
    low, high = np.quantile(values, (0.25, 0.75), axis=0)
    spread: Floats = (high - low) / _QUARTILES_OF_A_NORMAL
    return spread


def _together(one: Floats, other: Floats) -> float:
    """A correlation that a few wild days do not move (Gnanadesikan and Kettenring 1972)."""
    one, other = one / _spread(one), other / _spread(other)
    more, less = _spread(one + other) ** 2, _spread(one - other) ** 2
    return float((more - less) / (more + less))


@dataclass(frozen=True, slots=True, eq=False)
class Misses:
    """How far a missed opener foretells another, as correlations within an experience.

    `next_meet` of the same lift at the next meet, by lift; `same_day` of another lift that day, by
    pair of lifts.
    """

    next_meet: Floats
    same_day: Floats


def misses(days: Days, equipment: int) -> Misses:
    """Missed openers among days with that equipment."""
    chosen = days.where(days.equipment == equipment)
    taken = np.isfinite(chosen.weights_kg[:, :, 0])
    missed = np.where(taken, ~chosen.made[:, :, 0], np.nan)
    missed = missed - _averages(missed, chosen.experience)
    same = np.flatnonzero(chosen.lifter[1:] == chosen.lifter[:-1])
    return Misses(
        np.array([_correlation(missed[same, at], missed[same + 1, at]) for at in range(len(Lift))]),
        np.array([_correlation(missed[:, one], missed[:, other]) for one, other in _pairs()]),
    )


def _averages(values: Floats, group: Ints) -> Floats:
    """The average of each column within the group of a row."""
    averages = np.stack([np.nanmean(values[group == one], axis=0) for one in np.unique(group)])
    found: Floats = averages[np.searchsorted(np.unique(group), group)]
    return found


def _correlation(one: Floats, other: Floats) -> float:
    both = np.isfinite(one) & np.isfinite(other)
    return float(np.corrcoef(one[both], other[both])[0, 1])
