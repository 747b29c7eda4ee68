"""Every way three attempts can be taken, laid out in flat arrays.

An opener leads, for each outcome, to the seconds that may follow; each of those, for each outcome,
to the thirds. The arrays list openers, seconds and thirds in this order, so that what follows one
of them lies together and a maximum or sum over it is one numpy call.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.likelihood import told_apart
from coachdesk.domain.engine.quadrature import FloatArray, IntArray
from coachdesk.domain.engine.rules import Limits, Weights

FORBIDDEN = -1e12
"""The value of what the rules forbid, where nothing else is left."""


@dataclass(frozen=True, slots=True)
class Sights:
    """What may be seen of the first and of the second attempt; one outcome each once it was."""

    first: tuple[Outcome, ...]
    second: tuple[Outcome, ...]


@dataclass(frozen=True, slots=True)
class Fixes:
    """Weights the coach has fixed, as indices: by what was seen before."""

    second: Mapping[Outcome, int]
    third: Mapping[tuple[Outcome, Outcome], int]

    @classmethod
    def of(cls, fixed: Mapping[tuple[Outcome, ...], int]) -> Fixes:
        """Fixes by the outcomes before them, which may be as coarse as good or no lift.

        A fix after finer outcomes goes before one after coarser ones.
        """
        second: dict[Outcome, int] = {}
        third: dict[tuple[Outcome, Outcome], int] = {}
        for before in sorted(fixed, key=_coarseness, reverse=True):
            for path in product(*((*told_apart(outcome), outcome) for outcome in before)):
                if len(path) == 1:
                    second[path[0]] = fixed[before]
                elif len(path) == 2:
                    third[path[0], path[1]] = fixed[before]
        return cls(second, third)


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """The ways, flat. All arrays hold indices.

    `openers` [openers] into the weights; `second` [seconds] into the weights, `branch` the opener
    and first outcome it follows (opener * outcomes + outcome); `third` [thirds] into the weights,
    `row` the second and second outcome it follows. `..._starts` are where each branch or row
    begins, `..._legal` false for the stand-in of a branch that allows nothing.
    """

    weights: Weights
    sights: Sights
    openers: IntArray
    second: IntArray
    branch: IntArray
    second_starts: IntArray
    second_legal: FloatArray
    third: IntArray
    row: IntArray
    third_starts: IntArray
    third_legal: FloatArray
    best_before: IntArray
    """The best weight made before the third, by row; -1 for none."""

    @property
    def outcomes_of_row(self) -> tuple[IntArray, IntArray]:
        """The first and second outcome of each row, as places in the sights."""
        seconds = len(self.sights.second)
        first = np.repeat(self.branch % len(self.sights.first), seconds)
        return first, np.tile(np.arange(seconds), len(self.second))


def lay_out(
    weights: Weights, openers: IntArray, sights: Sights, fixes: Fixes, limits: Limits
) -> Layout:
    """Every way from each of `openers` on that the rules and `limits` allow."""
    low, high = _second_ranges(weights, openers, sights.first, fixes, limits)
    branch, second, second_starts, second_legal = _spread(low.ravel(), high.ravel(), weights.free)
    first_of_second = branch % len(sights.first)
    low, high = _third_ranges(weights, second, first_of_second, sights, fixes, limits)
    row, third, third_starts, third_legal = _spread(low.ravel(), high.ravel(), weights.free)
    good_first = np.array([outcome.is_good for outcome in sights.first])[first_of_second]
    made_first = np.where(good_first, openers[branch // len(sights.first)], -1)
    good_second = np.array([outcome.is_good for outcome in sights.second])
    best_before = np.where(good_second[None, :], second[:, None], made_first[:, None]).ravel()
    return Layout(
        weights,
        sights,
        openers,
        second,
        branch,
        second_starts,
        second_legal,
        third,
        row,
        third_starts,
        third_legal,
        best_before,
    )


def _second_ranges(
    weights: Weights,
    openers: IntArray,
    sights: tuple[Outcome, ...],
    fixes: Fixes,
    limits: Limits,
) -> tuple[IntArray, IntArray]:
    shape = (len(openers), len(sights))
    low, high = np.empty(shape, np.intp), np.empty(shape, np.intp)
    for at, outcome in enumerate(sights):
        least = weights.after_good[openers] if outcome.is_good else openers
        most = openers if _repeats(outcome, limits) else weights.cap[openers]
        low[:, at], high[:, at] = _fixed(least, most, fixes.second.get(outcome))
    return low, high


def _third_ranges(
    weights: Weights,
    second: IntArray,
    first_of_second: IntArray,
    sights: Sights,
    fixes: Fixes,
    limits: Limits,
) -> tuple[IntArray, IntArray]:
    shape = (len(second), len(sights.second))
    low, high = np.empty(shape, np.intp), np.empty(shape, np.intp)
    on_board = np.array([outcome.is_good for outcome in sights.first])[first_of_second]
    for at, outcome in enumerate(sights.second):
        least = weights.after_good[second] if outcome.is_good else second
        most = weights.cap[second]
        if _repeats(outcome, limits):
            free = on_board & (outcome is Outcome.TECHNICAL)
            most = np.where(free, most, second)
        low[:, at], high[:, at] = least, most
        for place, before in enumerate(sights.first):
            fixed = fixes.third.get((before, outcome))
            if fixed is not None:
                here = first_of_second == place
                low[here, at], high[here, at] = _fixed(least[here], most[here], fixed)
    return low, high


def _repeats(outcome: Outcome, limits: Limits) -> bool:
    """Whether a weight missed so is taken again (on a technicality: until one is on the board)."""
    if outcome is Outcome.STRENGTH:
        return not limits.raise_after_strength
    return outcome is Outcome.TECHNICAL and limits.repeat_after_technical


def _fixed(least: IntArray, most: IntArray, fixed: int | None) -> tuple[IntArray, IntArray]:
    """A fixed weight overrules the coach's own limits, never the rules."""
    if fixed is None:
        return least, most
    only = np.full_like(least, fixed)
    return only, np.where(least <= fixed, only, only - 1)


def _spread(
    low: IntArray, high: IntArray, last: int
) -> tuple[IntArray, IntArray, IntArray, FloatArray]:
    """Each range from `low` to `high` in turn: parents, values, starts, and what is legal.

    An empty range leaves one stand-in that is not legal.
    """
    high = np.minimum(high, last)
    counts = np.maximum(high - low + 1, 1)
    starts = np.cumsum(counts) - counts
    parent = np.repeat(np.arange(len(counts)), counts)
    values = np.minimum(low[parent] + np.arange(len(parent)) - starts[parent], last)
    return parent, values, starts, np.where(high >= low, 0.0, FORBIDDEN)[parent]


def _coarseness(before: tuple[Outcome, ...]) -> int:
    return sum(len(told_apart(outcome)) for outcome in before)
