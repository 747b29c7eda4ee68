"""Attempts the coach fixes, and what that costs: the rest is planned anew around them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Protocol, TypeAlias

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.units import Mass

Fixed: TypeAlias = Mapping[tuple[Outcome, ...], Mass]
"""Weights the coach has fixed, by what was seen before: () for the opener, (GOOD,) for the second
after a good opener. Fixes after finer outcomes go before those after coarser ones."""


class Figures(Protocol):
    """What every plan of a day says of the total."""

    @property
    def expected_total_kg(self) -> float:
        """The expected total [kg] when there is one."""

    @property
    def no_total(self) -> float:
        """The chance of no total, 0 to 1."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What a plan around fixed attempts gives away against the free one; negative where it gains.

    `kilograms` [kg] of the expected total when there is one, the same in `points`, and the chance
    of `no_total` that it adds.
    """

    kilograms: float
    points: float
    no_total: float


def fix_node(path: Sequence[tuple[Outcome, ...]], weight: Mass) -> dict[tuple[Outcome, ...], Mass]:
    """A node of a tree fixed at `weight`; `path` holds the outcomes of each way leading to it."""
    return dict.fromkeys(product(*path), weight)


def cost_of(free: Figures, fixed: Figures, points_per_kg: float = 0.0) -> Cost:
    """What the plan `fixed` costs against the `free` one.

    `points_per_kg` is what a kilogram on the total is worth by the formula in use: for a given
    athlete every formula is a coefficient times the total.
    """
    kilograms = free.expected_total_kg - fixed.expected_total_kg
    return Cost(kilograms, points_per_kg * kilograms, fixed.no_total - free.no_total)
