"""The best tree that fits on a handler's card.

Outcomes that lead to the same weight share a branch, and from there on the handler need not
remember which of them it was. Among the trees of at most so many lines, and over all openers, the
search finds the best: outcomes are merged with their neighbours only (easy with as planned, as
planned with a grind, strength with a technicality), good never with missed. So every plan by made
and missed alone is among them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product
from math import isfinite
from typing import TypeAlias

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.layout import FORBIDDEN, Layout
from coachdesk.domain.engine.quadrature import BoolArray, FloatArray, IntArray
from coachdesk.domain.engine.tree import Choice

Group: TypeAlias = tuple[int, ...]
"""Places in the sights that are not told apart."""

_NO_GAIN = 1e-9


@dataclass(frozen=True, slots=True)
class _Follow:
    """One way to go on after a group: a second, a grouping of its outcomes, what it is worth."""

    value: float
    lines: int
    second: int
    grouping: tuple[Group, ...]
    thirds: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Card:
    """A tree: its value, and the third each pair of outcomes leads to, as a place in the layout."""

    value: float
    choice: Choice
    thirds: IntArray


@dataclass(frozen=True, slots=True, eq=False)
class _Cuts:
    """How outcomes may be told apart: every run of neighbours, good apart from missed, and every
    way to cut them into such runs.

    `holds` [groups, outcomes] and `takes` [groupings, groups] are one where the first has the
    second, zero elsewhere; `places` are a grouping's groups as places in `groups`. Of `before` and
    `after` [pairs], which may stand beside each other, `apart` says whether one is good and one
    missed, and `cuts` [pairs, groupings] is one where the grouping has the pair.
    """

    groups: tuple[Group, ...]
    groupings: tuple[tuple[Group, ...], ...]
    places: tuple[tuple[int, ...], ...]
    holds: FloatArray
    takes: FloatArray
    before: IntArray
    after: IntArray
    apart: BoolArray
    cuts: IntArray


def best_card(layout: Layout, leaf: FloatArray, lines: int, *, taken: int = 0) -> Card | None:
    """The best tree of at most `lines` lines; None where the rules leave no way.

    `leaf` is the value of each third of `layout` times its chance. What was seen of the first
    `taken` attempts is past: all that it may have been leads to one weight.
    """
    bounds = opener_values(layout, leaf)
    best: Card | None = None
    for place in np.argsort(-bounds, kind="stable"):
        if bounds[place] < FORBIDDEN / 2 or (best and bounds[place] <= best.value + _NO_GAIN):
            break
        found = _opener_card(layout, leaf, int(place), lines, taken)
        if found is not None and (best is None or found.value > best.value + _NO_GAIN):
            best = found
    return best


def opener_values(layout: Layout, leaf: FloatArray) -> FloatArray:
    """The value of each opener when everything that can be told apart is."""
    row = np.maximum.reduceat(leaf + layout.third_legal, layout.third_starts)
    second = row.reshape(-1, len(layout.sights.second)).sum(axis=1) + layout.second_legal
    branch = np.maximum.reduceat(second, layout.second_starts)
    values: FloatArray = branch.reshape(-1, len(layout.sights.first)).sum(axis=1)
    return values


def _opener_card(
    layout: Layout, leaf: FloatArray, place: int, lines: int, taken: int
) -> Card | None:
    dense, entries = _dense(layout, leaf, place)
    first = layout.sights.first
    firsts, seconds = _cuts(first, past=taken > 0), _cuts(layout.sights.second, past=taken > 1)
    follows = dict(zip(firsts.groups, _follows(dense, firsts, seconds), strict=True))
    best: tuple[float, tuple[tuple[Group, _Follow], ...]] | None = None
    for grouping in firsts.groupings:
        good = [first[group[0]].is_good for group in grouping]
        for picked in _fitting([follows[group] for group in grouping], good, lines - 1):
            value = sum(follow.value for follow in picked)
            worth = value - _NO_GAIN * sum(follow.lines for follow in picked)
            if best is None or worth > best[0]:
                best = worth, tuple(zip(grouping, picked, strict=True))
    if best is None or best[0] < FORBIDDEN / 2:
        return None
    return _card(layout, place, best[1], entries)


def _fitting(
    options: Sequence[Sequence[_Follow]], good: Sequence[bool], lines: int
) -> Iterator[tuple[_Follow, ...]]:
    """The combinations that fit; two branches of good lifts, or of missed ones, that lead to the
    same weight would have to be one."""
    if sum(option[0].lines for option in options) > lines:
        return
    for picked in product(*options):
        if sum(follow.lines for follow in picked) <= lines:
            weights = {
                (follow.second, is_good) for follow, is_good in zip(picked, good, strict=True)
            }
            if len(weights) == len(picked):
                yield picked


def _dense(layout: Layout, leaf: FloatArray, place: int) -> tuple[FloatArray, IntArray]:
    """The values [first outcome, second, second outcome, third] of one opener, weights counted
    from the opener's; and where they stand in the layout."""
    firsts, seconds = len(layout.sights.first), len(layout.sights.second)
    opener = int(layout.openers[place])
    starts = np.append(layout.second_starts, len(layout.second))
    begin, end = int(starts[place * firsts]), int(starts[(place + 1) * firsts])
    row_starts = np.append(layout.third_starts, len(layout.third))
    thirds = np.arange(row_starts[begin * seconds], row_starts[end * seconds])
    parent = layout.row[thirds] // seconds
    shape = (
        firsts,
        int(layout.second[begin:end].max()) - opener + 1,
        seconds,
        int(layout.third[thirds].max()) - opener + 1,
    )
    dense, entries = np.full(shape, FORBIDDEN), np.full(shape, -1, np.intp)
    at = (
        layout.branch[parent] % firsts,
        layout.second[parent] - opener,
        layout.row[thirds] % seconds,
        layout.third[thirds] - opener,
    )
    dense[at] = leaf[thirds] + layout.third_legal[thirds] + layout.second_legal[parent]
    entries[at] = thirds
    return dense, entries


def _follows(dense: FloatArray, firsts: _Cuts, seconds: _Cuts) -> list[list[_Follow]]:
    """For each group of first outcomes the ways to go on, each better for taking more lines."""
    sums = np.tensordot(firsts.holds, dense, axes=(1, 0)).transpose(0, 1, 3, 2) @ seconds.holds.T
    third, value = sums.argmax(axis=2), sums.max(axis=2)
    worth = value @ seconds.takes.T
    return _better_for_more(worth, _lines(third, seconds), third, seconds)


def _lines(third: IntArray, seconds: _Cuts) -> IntArray:
    """The lines of each [first group, second, grouping]: itself and its thirds, one for neighbours
    that lead to the same weight, though good and missed never share one."""
    differ = third[:, :, seconds.before] != third[:, :, seconds.after]
    lines: IntArray = 2 + (differ | seconds.apart) @ seconds.cuts
    return lines


def _better_for_more(
    worth: FloatArray, lines: IntArray, third: IntArray, seconds: _Cuts
) -> list[list[_Follow]]:
    """`worth` and `lines` by [first group, second, grouping], `third` by [.., group]."""
    found: list[list[_Follow]] = [[] for _ in worth]
    for most in range(2, int(lines.max()) + 1):
        fits = np.where(lines <= most, worth, -np.inf).reshape(len(worth), -1)
        bests = zip(fits.argmax(axis=1).tolist(), fits.max(axis=1).tolist(), strict=True)
        for first, (place, best) in enumerate(bests):
            if isfinite(best) and (not found[first] or best > found[first][-1].value + _NO_GAIN):
                second, at = divmod(place, len(seconds.groupings))
                thirds = tuple(third[first, second, seconds.places[at]].tolist())
                count = int(lines[first, second, at])
                found[first].append(_Follow(best, count, second, seconds.groupings[at], thirds))
    return found


def _card(
    layout: Layout,
    place: int,
    branches: Sequence[tuple[Group, _Follow]],
    entries: IntArray,
) -> Card:
    masses, opener = layout.weights.masses, int(layout.openers[place])
    first, second = layout.sights.first, layout.sights.second
    thirds = np.empty((len(first), len(second)), np.intp)
    ways = []
    for group, follow in branches:
        merged: dict[tuple[int, bool], list[Outcome]] = {}
        for outcomes, third in zip(follow.grouping, follow.thirds, strict=True):
            key = third, second[outcomes[0]].is_good
            merged.setdefault(key, []).extend(second[at] for at in outcomes)
            for one, other in product(group, outcomes):
                thirds[one, other] = entries[one, follow.second, other, third]
        following = tuple(
            (tuple(outcomes), Choice(3, masses[opener + third]))
            for (third, _), outcomes in merged.items()
        )
        choice = Choice(2, masses[opener + follow.second], following)
        ways.append((tuple(first[at] for at in group), choice))
    value = sum(follow.value for _, follow in branches)
    return Card(value, Choice(1, masses[opener], tuple(ways)), thirds)


@lru_cache(maxsize=64)
def _cuts(outcomes: tuple[Outcome, ...], *, past: bool) -> _Cuts:
    """The cuts of `outcomes`; all in one run where they are past."""
    groupings = ((tuple(range(len(outcomes))),),) if past else _groupings(outcomes)
    groups = sorted({group for grouping in groupings for group in grouping})
    pairs = sorted({pair for grouping in groupings for pair in pairwise(grouping)})
    good = {group: outcomes[group[0]].is_good for group in groups}
    return _Cuts(
        tuple(groups),
        groupings,
        tuple(tuple(map(groups.index, grouping)) for grouping in groupings),
        np.array([[float(at in group) for at in range(len(outcomes))] for group in groups]),
        np.array([[float(group in grouping) for group in groups] for grouping in groupings]),
        np.array([groups.index(before) for before, _ in pairs], np.intp),
        np.array([groups.index(after) for _, after in pairs], np.intp),
        np.array([good[before] is not good[after] for before, after in pairs], np.bool_),
        np.array([[pair in pairwise(way) for way in groupings] for pair in pairs], np.intp).reshape(
            len(pairs), len(groupings)
        ),
    )


def _groupings(outcomes: tuple[Outcome, ...]) -> tuple[tuple[Group, ...], ...]:
    """Every way to cut the outcomes into runs of neighbours, good apart from missed."""
    found = []
    for cuts in product((False, True), repeat=len(outcomes) - 1):
        runs: list[list[int]] = [[0]]
        for at, cut in enumerate(cuts, start=1):
            if cut:
                runs.append([at])
            else:
                runs[-1].append(at)
        if all(len({outcomes[at].is_good for at in run}) == 1 for run in runs):
            found.append(tuple(tuple(run) for run in runs))
    return tuple(found)
