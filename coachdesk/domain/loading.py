"""Which discs go on the bar.

The bar, its two collars and the discs may be in kilograms, in pounds or mixed. Sums are worked out
in whole numbers, never in floats: 1 lb is 453.59237 g exactly (1959 agreement), so a thousandth of
either unit is a whole number of 10^-8 g. How many discs a sleeve has room for is not considered.

Largest discs inside is a technical rule of the sport; fewest discs is what loaders do (common
practice). Discs for record attempts only (0.25 and 0.5 kg) belong in the set only while a record
is attempted; left in, they make weights look loadable that a rulebook's steps do not allow.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import chain, count, product, repeat
from math import gcd

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit, kilograms

HEAVIEST = kilograms(1000)
"""No bar, disc or load is heavier than this; a larger number is a slip of the keys."""

_DECIMALS = 3
"""Masses of bars and discs have at most this many decimals, in either unit."""

_PARTS_PER_GRAM = 10**8
"""Fine enough to write a thousandth of a pound, 0.45359237 g, as a whole number."""


@dataclass(frozen=True, slots=True)
class Disc:
    """A kind of disc: `pairs` of it are at hand, or as many as needed when None.

    The weight is above zero, at most `HEAVIEST`, with at most three decimals; `colour` is carried
    through untouched.
    Raises InvalidInput (fields `disc`, `pairs`).
    """

    weight: Mass
    pairs: int | None = None
    colour: str = ""

    def __post_init__(self) -> None:
        _check_above_zero(self.weight, "disc")
        if self.pairs is not None and self.pairs < 0:
            raise InvalidInput("pairs", text("loading.pairs_negative"))


@dataclass(frozen=True, slots=True)
class BarSet:
    """A bar with the discs that belong to it; `collar` is one of the two and may weigh nothing.

    Weights are at most `HEAVIEST` with at most three decimals, the bar's above zero. Raises
    InvalidInput (fields `bar`, `collar`).
    """

    bar: Mass
    collar: Mass
    discs: tuple[Disc, ...]

    def __post_init__(self) -> None:
        _check_above_zero(self.bar, "bar")
        _check(self.collar, "collar")


@dataclass(frozen=True, slots=True)
class Loading:
    """One way to load the bar.

    `discs_per_side` run from the inside out, largest first. `total` is the exact weight with bar
    and collars, in pounds when every part is, in kilograms otherwise. `difference` is total minus
    the weight asked for, to a thousandth of the unit it was asked in.
    """

    discs_per_side: tuple[Disc, ...]
    total: Mass
    difference: Mass


@dataclass(frozen=True, slots=True)
class LoadingAnswer:
    """The exact loading, or the nearest below and above when there is none.

    `above` is None too when the discs run out before the weight is reached.
    """

    exact: Loading | None = None
    below: Loading | None = None
    above: Loading | None = None

    @property
    def nearest(self) -> Loading:
        """The exact loading, or else the nearer one; the lighter when both are as near."""
        loadings = [one for one in (self.exact, self.below, self.above) if one is not None]
        return min(loadings, key=lambda one: abs(one.difference.grams))


def lightest(bar_set: BarSet) -> Mass:
    """The bar with its collars and no disc."""
    return weight_of((), bar_set)


def weight_of(discs_per_side: Sequence[Disc], bar_set: BarSet) -> Mass:
    """What the bar weighs with these discs on each side, exactly.

    In pounds when every part is in pounds, in kilograms otherwise.
    """
    sides = chain.from_iterable(repeat(disc.weight, 2) for disc in discs_per_side)
    parts = [
        part for part in (bar_set.bar, bar_set.collar, bar_set.collar, *sides) if part.number != 0
    ]
    unit = Unit.LB if all(part.unit is Unit.LB for part in parts) else Unit.KG
    return Mass(sum((part.in_unit(unit) for part in parts), Decimal(0)), unit)


def load(weight: Mass, bar_set: BarSet) -> LoadingAnswer:
    """The discs per side for `weight`: exact if it can be loaded, else nearest below and above.

    Each loading takes the fewest discs; among equals it has the most of the largest disc, then of
    the next one, and so on. Raises InvalidInput (field `weight`) for less than the bare bar or
    more than `HEAVIEST`.
    """
    if not (weight.number.is_finite() and weight.grams <= HEAVIEST.grams):
        raise InvalidInput("weight", text("loading.too_heavy", heaviest=HEAVIEST))
    bare = lightest(bar_set)
    both_sides = _parts(weight) - _parts(bare)
    if both_sides < 0:
        raise InvalidInput("weight", text("loading.lighter_than_bar", lightest=bare))
    discs_below, discs_above = _pairs_around(both_sides, bar_set.discs)
    below = _loading(discs_below, weight, bar_set)
    if discs_above is None:
        return LoadingAnswer(below=below)
    if discs_above == discs_below:
        return LoadingAnswer(exact=below)
    return LoadingAnswer(below=below, above=_loading(discs_above, weight, bar_set))


def loadings(bar_set: BarSet, *, most: Mass, apart: Mass) -> tuple[Loading, ...]:
    """The weights that the discs make, from the bare bar up to `most`, each in the fewest discs.

    Each is at least `apart` above the one before; what lies between them is left out. `most` is at
    most `HEAVIEST`; none when the bare bar is heavier.
    """
    room = _parts(most) - _parts(lightest(bar_set))
    if room < 0:
        return ()
    racks = _racks(bar_set.discs, 1 << room.bit_length())
    pairs = ((one + other, (one, other)) for one, other in product(*(rack.sums for rack in racks)))
    found: list[Loading] = []
    least, step = 0, _parts(apart)
    for total, sums in sorted(pair for pair in pairs if pair[0] <= room):
        if total >= least:
            least = total + step
            discs = _fewest(racks, sums)
            weight = weight_of(discs, bar_set)
            found.append(Loading(discs, weight, Mass(Decimal(0), weight.unit)))
    return tuple(found)


def _loading(discs: tuple[Disc, ...], weight: Mass, bar_set: BarSet) -> Loading:
    total = weight_of(discs, bar_set)
    parts_per_unit = weight.unit.grams * _PARTS_PER_GRAM
    difference = (_parts(total) - _parts(weight)) / parts_per_unit
    no_minus_zero = round(difference, _DECIMALS) + 0
    return Loading(discs, total, Mass(no_minus_zero, weight.unit))


def _check_above_zero(mass: Mass, field: str) -> None:
    _check(mass, field)
    if mass.number == 0:
        raise InvalidInput(field, text("loading.weighs_nothing"))


def _check(mass: Mass, field: str) -> None:
    if not (mass.number.is_finite() and mass.number >= 0):
        raise InvalidInput(field, text("loading.weight_negative"))
    if mass.grams > HEAVIEST.grams:
        raise InvalidInput(field, text("loading.too_heavy", heaviest=HEAVIEST))
    if round(mass.number, _DECIMALS) != mass.number:
        raise InvalidInput(field, text("loading.too_many_decimals", decimals=_DECIMALS))


def _parts(mass: Mass) -> int:
    return int((mass.number * mass.unit.grams * _PARTS_PER_GRAM).to_integral_value())


_Discs = tuple[Disc, ...]


def _pairs_around(wanted: int, discs: _Discs) -> tuple[_Discs, _Discs | None]:
    """The heaviest pairs of discs not above `wanted` and the lightest not below it, the fewest.

    They are a sum of kilogram pairs and a sum of pound pairs. For each sum of the unit that has
    fewer of them, the best partners of the other unit are looked up. No two partnerships weigh the
    same: 45359237 has no factor in common with 10, so they would be 100,000 lb apart.
    """
    heaviest = max((2 * _parts(disc.weight) for disc in discs), default=0)
    racks = few, many = _racks(discs, 1 << (wanted + heaviest).bit_length())
    below = [
        (one, many.sums[after - 1])
        for one in few.sums
        if (after := bisect_right(many.sums, wanted - one)) > 0
    ]
    above = [
        (one, many.sums[at])
        for one in few.sums
        if (at := bisect_left(many.sums, wanted - one)) < len(many.sums)
    ]

    lower = max(below, key=sum)
    upper = min(above, key=sum) if above else None
    discs_below = _fewest(racks, lower)
    if upper == lower:
        return discs_below, discs_below
    return discs_below, None if upper is None else _fewest(racks, upper)


def _fewest(racks: tuple[_Rack, _Rack], sums: tuple[int, ...]) -> _Discs:
    """The fewest discs that add up to a sum of each rack, largest first."""
    parts = (rack.fewest(wanted) for rack, wanted in zip(racks, sums, strict=True))
    return tuple(sorted(chain.from_iterable(parts), key=_heaviest_first))


@lru_cache(maxsize=8)
def _racks(discs: _Discs, limit: int) -> tuple[_Rack, _Rack]:
    """A rack for each unit, the one with fewer sums first; many weights are asked of the same."""
    kinds = [(2 * _parts(disc.weight), disc) for disc in discs]
    racks = (_Rack([kind for kind in kinds if kind[1].weight.unit is unit], limit) for unit in Unit)
    few, many = sorted(racks, key=lambda rack: len(rack.sums))
    return few, many


def _heaviest_first(disc: Disc) -> int:
    return -_parts(disc.weight)


class _Rack:
    """The discs of one unit: what pairs of them can add up to, and from which discs.

    Sums lie on a grid, the greatest common divisor of the disc sizes, so a set of sums fits into
    the bits of one integer: bit n stands for n grid cells.
    """

    def __init__(self, kinds: list[tuple[int, Disc]], limit: int) -> None:
        kinds = sorted(kinds, key=lambda kind: -kind[0])
        self._discs = [disc for _, disc in kinds]
        self._grid = gcd(*(size for size, _ in kinds)) or limit + 1
        self._cells = [size // self._grid for size, _ in kinds]
        self._counts = [
            limit // size if disc.pairs is None else min(disc.pairs, limit // size)
            for size, disc in kinds
        ]
        self._reach = self._reach_from_each(limit // self._grid)
        self._search = _FewestSearch(self._cells, self._counts, self._reach)
        self.sums = [
            cell * self._grid
            for cell, bit in enumerate(reversed(f"{self._reach[0]:b}"))
            if bit == "1"
        ]

    def _reach_from_each(self, last_cell: int) -> list[int]:
        """For each kind, the sums that it and all smaller kinds can make up to `last_cell`."""
        reach = [1]
        mask = (2 << last_cell) - 1
        for cells, most in zip(reversed(self._cells), reversed(self._counts), strict=True):
            sums = reach[-1]
            left, chunk = most, 1
            while left > 0:
                taken = min(chunk, left)
                sums |= sums << (cells * taken) & mask
                left, chunk = left - taken, chunk * 2
            reach.append(sums)
        return reach[::-1]

    def fewest(self, wanted: int) -> _Discs:
        """The fewest discs that add up to `wanted`, one of `sums`, largest first."""
        picked = self._search.run(wanted // self._grid)
        return tuple(
            disc for disc, times in zip(self._discs, picked, strict=False) for _ in range(times)
        )


class _FewestSearch:
    """Looks for a sum in one disc, then in two, and so on; remembers where it has failed.

    A kind of disc is tried in falling numbers, so that the first find has the most of the largest.
    """

    def __init__(self, cells: list[int], counts: list[int], reach: list[int]) -> None:
        self._cells = cells
        self._counts = counts
        self._reach = reach
        self._failed: dict[tuple[int, int], int] = {}

    def run(self, wanted: int) -> tuple[int, ...]:
        """How many of each kind; `wanted` must be within reach."""
        tries = (self._pick(0, wanted, discs) for discs in count(self._at_least(0, wanted)))
        return next(picked for picked in tries if picked is not None)

    def _pick(self, kind: int, wanted: int, discs: int) -> tuple[int, ...] | None:
        if wanted == 0:
            return ()
        if not self._reach[kind] >> wanted & 1 or self._failed.get((kind, wanted), 0) >= discs:
            return None
        if self._at_least(kind, wanted) > discs:
            return None
        most = min(self._counts[kind], wanted // self._cells[kind], discs)
        for times in range(most, -1, -1):
            rest = self._pick(kind + 1, wanted - times * self._cells[kind], discs - times)
            if rest is not None:
                return (times, *rest)
        self._failed[kind, wanted] = discs
        return None

    def _at_least(self, kind: int, wanted: int) -> int:
        """A number of discs that `wanted` cannot do with less than: largest first, overfilling."""
        discs = 0
        for cells, most in zip(self._cells[kind:], self._counts[kind:], strict=True):
            if wanted <= 0:
                break
            times = min(most, -(-wanted // cells))
            wanted -= times * cells
            discs += times
        return discs
