"""The ladder of weights: near an ideal one, and with few discs to change, found exactly.

The cost of a ladder is the sum over its sets of

    (share - ideal share)^2 + (jump - ideal jump)^2 + 0.0006 x discs moved on each side,

shares and jumps in parts of the opener: a disc moved is worth straying by 2.4 % of it. The weights
are ours. No set strays by more than 6 % where the discs make a weight that near, weights rise from
set to set, and no ladder with fewer sets is taken where one with more exists.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from coachdesk.domain.loading import BarSet, Disc, Loading, lightest, load, loadings
from coachdesk.domain.units import from_grams, kilograms
from coachdesk.domain.warmup.practice import LAST_AT_MOST, LAST_FROM, LAST_TO, LAST_WANTED

CHANGE_COST = 0.0006
FARTHEST = 0.06
_TOLD_APART = kilograms(1)
_TABLE_GRAMS = 320_000


@dataclass(frozen=True, slots=True)
class Step:
    """A weight that the room's discs make [g]; `pattern` numbers the discs from the inside out."""

    grams: int
    loading: Loading
    pattern: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Rung:
    """A place on the ladder: the share of the opener wanted there, and what could stand there."""

    ideal: float
    steps: tuple[Step, ...]


def loadable(room: BarSet, most_grams: int) -> tuple[Step, ...]:
    """The weights that the room's discs make up to `most_grams` [g], lightest first.

    Weights less than a kilogram apart are not told apart.
    """
    table = _table(room, -(-most_grams // _TABLE_GRAMS) * _TABLE_GRAMS)
    return tuple(step for step in table if step.grams <= most_grams)


def last_steps(room: BarSet, opener_grams: int) -> tuple[Step, ...]:
    """What the last single may weigh: all between 88 and 93 % of the opener, or else the nearest.

    The nearest is no heavier than 95 %, unless there is nothing but the bare bar.
    """
    inside = [step for step in loadable(room, opener_grams) if _off_last(step, opener_grams) <= 0]
    if inside:
        return tuple(inside)
    around = _around(room, round(opener_grams * LAST_WANTED))
    usable = [step for step in around if step.grams <= opener_grams * LAST_AT_MOST]
    return (min(usable or around, key=lambda step: _off_last(step, opener_grams)),)


@lru_cache(maxsize=20_000)
def disc_changes(before: tuple[int, ...], after: tuple[int, ...]) -> tuple[int, int]:
    """Discs taken off and put on, on each side, to come from one pattern to the other.

    A disc can only come off with all that are outside of it.
    """
    same = 0
    for one, other in zip(before, after, strict=False):
        if one != other:
            break
        same += 1
    return len(before) - same, len(after) - same


def near(steps: Sequence[Step], ideal: float, opener_grams: int) -> tuple[Step, ...]:
    """Those of `steps` within 6 % of the opener of where a set should be, or else the nearest."""
    wanted = ideal * opener_grams
    close = tuple(step for step in steps if abs(step.grams - wanted) <= FARTHEST * opener_grams)
    return close or (min(steps, key=lambda step: abs(step.grams - wanted)),)


def best_ladder(rungs: Sequence[Rung], opener_grams: int) -> tuple[Step, ...]:
    """The cheapest of the ladders with the most sets, from the first rung to the last.

    Rungs between them are left out only where weights could not rise otherwise.
    """
    return _best(rungs, opener_grams, may_skip=False) or _best(rungs, opener_grams, may_skip=True)


def ladder_cost(steps: Sequence[Step], ideals: Sequence[float], opener_grams: int) -> float:
    """What a ladder costs beside the ideal one of as many sets."""
    strays = [step.grams / opener_grams - ideal for step, ideal in zip(steps, ideals, strict=True)]
    cost = strays[0] ** 2
    for (before, after), (stray_before, stray) in zip(
        pairwise(steps), pairwise(strays), strict=True
    ):
        moved = sum(disc_changes(before.pattern, after.pattern))
        cost += stray**2 + (stray - stray_before) ** 2 + CHANGE_COST * moved
    return cost


def _off_last(step: Step, opener_grams: int) -> float:
    """How far [g] a step is outside of what the last single should weigh; not above 0 inside."""
    return max(LAST_FROM * opener_grams - step.grams, step.grams - LAST_TO * opener_grams)


@dataclass(slots=True)
class _Way:
    """The best way up to a step on a rung: how far it strays, rungs left out, cost, from where."""

    step: Step
    strays: float
    skipped: int
    cost: float
    before: _Way | None = None


def _best(rungs: Sequence[Rung], opener_grams: int, *, may_skip: bool) -> tuple[Step, ...]:
    """The best ladder by dynamic programming over rungs and steps; empty when there is none."""
    ways: list[list[_Way]] = []
    for at, rung in enumerate(rungs):
        here: list[_Way] = []
        reach = range(1, (at if may_skip else min(at, 1)) + 1)
        for step in rung.steps:
            strays = step.grams / opener_grams - rung.ideal
            way = None if at else _Way(step, strays, 0, strays * strays)
            for back in reach:
                way = _better(way, ways[at - back], step, strays, back - 1)
            if way is not None:
                here.append(way)
        ways.append(here)
    best = min(ways[-1], key=lambda way: (way.skipped, way.cost), default=None)
    return tuple(_steps(best))[::-1]


def _better(
    way: _Way | None, earlier: Sequence[_Way], step: Step, strays: float, skips: int
) -> _Way | None:
    """The better of `way` and the best one that comes to `step` from `earlier`."""
    for before in earlier:
        if before.step.grams >= step.grams:
            break
        skipped = before.skipped + skips
        turn = strays - before.strays
        cost = before.cost + strays * strays + turn * turn
        if way is not None and (skipped, cost) >= (way.skipped, way.cost):
            continue  # dearer before any disc is moved
        cost += CHANGE_COST * sum(disc_changes(before.step.pattern, step.pattern))
        if way is None or (skipped, cost) < (way.skipped, way.cost):
            way = _Way(step, strays, skipped, cost, before)
    return way


def _steps(way: _Way | None) -> Iterator[Step]:
    while way is not None:
        yield way.step
        way = way.before


@lru_cache(maxsize=16)
def _table(room: BarSet, most_grams: int) -> tuple[Step, ...]:
    """The weights that the discs make up to `most_grams` [g]; many openers ask for the same."""
    numbers = _numbers(room)
    found = loadings(room, most=from_grams(most_grams), apart=_TOLD_APART)
    return tuple(_step(loading, numbers) for loading in found)


def _around(room: BarSet, grams: int) -> list[Step]:
    """The heaviest weight not above `grams` [g] and the lightest not below it."""
    bare = lightest(room)
    wanted = bare if grams < bare.grams else from_grams(grams)
    answer = load(wanted, room)
    numbers = _numbers(room)
    found = (answer.exact, answer.below, answer.above)
    return [_step(loading, numbers) for loading in found if loading is not None]


def _numbers(room: BarSet) -> dict[Disc, int]:
    return {disc: number for number, disc in enumerate(room.discs)}


def _step(loading: Loading, numbers: dict[Disc, int]) -> Step:
    pattern = tuple(numbers[disc] for disc in loading.discs_per_side)
    return Step(loading.total.grams, loading, pattern)
