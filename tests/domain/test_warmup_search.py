"""The search for the ladder, against trying every ladder there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, product

import pytest

from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import BarSet, Disc, weight_of
from coachdesk.domain.units import kilograms, pounds
from coachdesk.domain.warmup import warm_ups
from coachdesk.domain.warmup.practice import ideal_shares, set_count

Ladder = tuple[tuple[float, tuple[float, ...]], ...]
"""Weights [kg], each with its discs per side [kg], and nothing else."""

ROOMS = {
    "fives and tens": BarSet(
        kilograms(20),
        kilograms("2.5"),
        tuple(Disc(kilograms(disc)) for disc in ("25", "20", "10", "5")),
    ),
    "few pairs": BarSet(
        kilograms(20),
        kilograms(0),
        (
            Disc(kilograms(25), 2),
            Disc(kilograms(15), 1),
            Disc(kilograms(10), 2),
            Disc(kilograms("2.5"), 1),
        ),
    ),
    "only twenties": BarSet(kilograms(20), kilograms(0), (Disc(kilograms(20)),)),
    "pounds": BarSet(
        pounds(45), pounds(0), tuple(Disc(pounds(disc)) for disc in ("45", "25", "10"))
    ),
}


def every_weight(room: BarSet, most: float) -> dict[float, tuple[float, ...]]:
    """All weights [kg] up to `most` with the fewest discs, then the most of the largest."""
    found: dict[float, tuple[float, ...]] = {}
    kinds = sorted(room.discs, key=lambda disc: -disc.weight.grams)
    counts = [
        range(1 + (int(most / (2 * disc.weight.kg)) if disc.pairs is None else disc.pairs))
        for disc in kinds
    ]
    for picked in product(*counts):
        discs = [disc for disc, times in zip(kinds, picked, strict=True) for _ in range(times)]
        weight = weight_of(discs, room).kg
        pattern = tuple(disc.weight.kg for disc in discs)
        if weight <= most and (
            weight not in found
            or (len(pattern), [-disc for disc in pattern])
            < (len(found[weight]), [-disc for disc in found[weight]])
        ):
            found[weight] = pattern
    return found


def handled(before: Sequence[float], after: Sequence[float]) -> int:
    """Discs moved on a side: off from the outside, until what is left can stay."""
    kept = len(before)
    while list(before[:kept]) != list(after[:kept]):
        kept -= 1
    return len(before) - kept + len(after) - kept


def cost(ladder: Ladder, ideals: Sequence[float], opener: float) -> float:
    """The documented sum, written out anew."""
    total = 0.0
    for at, ((weight, discs), ideal) in enumerate(zip(ladder, ideals, strict=True)):
        total += (weight / opener - ideal) ** 2
        if at:
            before, discs_before = ladder[at - 1]
            jump = (weight - before) / opener - (ideal - ideals[at - 1])
            total += jump**2 + 0.0006 * handled(discs_before, discs)
    return total


def choices(weights: Sequence[float], ideal: float, opener: float) -> list[float]:
    """Weights within 6 % of the opener of the ideal, or else the nearest."""
    close = [weight for weight in weights if abs(weight - ideal * opener) <= 0.06 * opener]
    return close or [min(weights, key=lambda weight: abs(weight - ideal * opener))]


def last_choices(weights: Sequence[float], opener: float) -> list[float]:
    inside = [weight for weight in weights if 0.88 * opener <= weight <= 0.93 * opener]
    if inside:
        return inside
    usable = [weight for weight in weights if weight <= 0.95 * opener]
    return [min(usable, key=lambda weight: max(0.88 * opener - weight, weight - 0.93 * opener))]


def all_ladders(
    rungs: Sequence[Sequence[float]], patterns: dict[float, tuple[float, ...]]
) -> Iterator[tuple[tuple[int, ...], Ladder]]:
    """Every rising ladder with the most sets, and the rungs it stands on."""
    inner = range(1, len(rungs) - 1)
    for count in range(len(inner), -1, -1):
        found = [
            ((0, *kept, len(rungs) - 1), tuple((weight, patterns[weight]) for weight in weights))
            for kept in combinations(inner, count)
            for weights in product(rungs[0], *(rungs[at] for at in kept), rungs[-1])
            if list(weights) == sorted(set(weights))
        ]
        if found:
            yield from found
            return


@pytest.mark.parametrize("lift", [Lift.SQUAT, Lift.BENCH])
@pytest.mark.parametrize(
    ("name", "opener"),
    [
        (name, opener)
        for name in ROOMS
        for opener in (45, 60, 82.5, 107.5, 140, 182.5)
        if name != "only twenties" or opener > 80  # below it there is only the bare bar
    ],
)
def test_no_ladder_is_cheaper_than_the_one_found(name: str, lift: Lift, opener: float) -> None:
    room = ROOMS[name]
    patterns = every_weight(room, opener)
    weights = sorted(patterns)
    last = last_choices(weights, opener)
    bare = weights[0]
    span = round(0.905 * opener * 1000) - round(bare * 1000)
    ideals = ideal_shares(bare / opener, set_count(lift, round(opener * 1000), span))
    rungs = [[bare], *(choices(weights, ideal, opener) for ideal in ideals[1:-1]), last]
    best = min(
        cost(ladder, [ideals[at] for at in on], opener)
        for on, ladder in all_ladders(rungs, patterns)
    )
    usual = warm_ups(lift, opener=kilograms(opener), room=room).usual
    found = tuple(
        (one.weight.kg, tuple(disc.weight.kg for disc in one.discs_per_side)) for one in usual
    )
    stands = [
        cost(ladder, [ideals[at] for at in on], opener)
        for on, ladder in all_ladders(rungs, patterns)
        if ladder == found
    ]
    assert min(stands) == pytest.approx(best)
