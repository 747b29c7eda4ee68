"""Predictions held against what happened: by cells, by decile, by the size of the jump."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

import numpy as np

from coachdesk.domain.engine_parameters import Experience
from coachdesk.domain.lifting import Equipment
from tests.bench.fitting.recorded_days import (
    EQUIPMENT,
    EXPERIENCES,
    JUMPS,
    NONE,
    Bools,
    Floats,
    Ints,
    Lines,
)
from tests.bench.fitting.scoring import log_likelihood

LARGE_CELL = 1000
POINTS, ERRORS = 0.03, 3.0
"""How far a large cell may be off, and in standard errors a small one."""

_JUMP_ENDS = (0.0, 0.0301, 0.0401, 0.0501, 0.0601, 0.0701, 0.0851, 0.1251, 1.0)
JUMP_NAMES = (
    "none (after a miss)", "to 3 %", "3-4 %", "4-5 %", "5-6 %", "6-7 %", "7-8.5 %", "8.5-12.5 %",
    "above 12.5 %",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Compared:
    """Some attempts: how many, the share made, and the share predicted."""

    count: int
    made: float
    predicted: float

    @property
    def off(self) -> float:
        """Predicted less made."""
        return self.predicted - self.made

    @property
    def error(self) -> float:
        """The standard error of the share made, were the prediction true."""
        return sqrt(self.predicted * (1.0 - self.predicted) / self.count)

    @property
    def allowed(self) -> float:
        """How far it may be off."""
        return POINTS if self.count >= LARGE_CELL else ERRORS * self.error

    @property
    def holds(self) -> bool:
        """Whether it lies as close as it should."""
        return abs(self.off) <= self.allowed


@dataclass(frozen=True, slots=True)
class Cell:
    """Who and which attempt; `before` is whether the attempt before was good, None for either."""

    attempt: int
    before: bool | None
    equipment: Equipment
    experience: Experience


def compare(lines: Lines, predicted: Floats, chosen: Bools) -> Compared:
    """The attempts of the lines `chosen`."""
    count = int(lines.count[chosen].sum())
    return Compared(
        count,
        float(lines.made[chosen].sum() / count),
        float(lines.count[chosen] @ predicted[chosen] / count),
    )


def cells(lines: Lines, predicted: Floats) -> Iterator[tuple[Cell, Compared]]:
    """Every cell of attempt, experience and equipment, and by made or missed before."""
    for attempt in (1, 2, 3):
        for before in (None,) if attempt == 1 else (None, True, False):
            for equipment in range(len(EQUIPMENT)):
                for experience in range(len(EXPERIENCES)):
                    chosen = (lines.attempt == attempt) & (lines.equipment == equipment)
                    chosen &= lines.experience == experience
                    if before is not None:
                        chosen &= lines.before == before
                    cell = Cell(attempt, before, EQUIPMENT[equipment], EXPERIENCES[experience])
                    yield cell, compare(lines, predicted, chosen)


def log_loss(lines: Lines, predicted: Floats) -> float:
    """The mean of minus the logarithm of the chance given to what happened, per attempt."""
    return -log_likelihood(lines, predicted) / int(lines.count.sum())


def cell_averages(lines: Lines, of: Lines) -> Floats:
    """The share made in each line's cell of `of`, by the finest cells of the comparison."""
    keys = _keys(of)
    averages = np.empty(len(lines.count))
    for key in np.unique(_keys(lines), axis=0):
        there = (keys == key).all(axis=1)
        here = (_keys(lines) == key).all(axis=1)
        averages[here] = of.made[there].sum() / of.count[there].sum()
    return averages


def _keys(lines: Lines) -> Ints:
    return np.stack([lines.attempt, lines.before, lines.equipment, lines.experience], axis=1)


def deciles(lines: Lines, predicted: Floats) -> list[Compared]:
    """Attempts in ten groups of (nearly) one size, from the least likely to the likeliest."""
    order = np.argsort(predicted, kind="stable")
    middle = (np.cumsum(lines.count[order]) - lines.count[order] / 2) / lines.count.sum()
    group = np.empty(len(order), np.intp)
    group[order] = np.minimum((10 * middle).astype(np.intp), 9)
    return [compare(lines, predicted, group == one) for one in range(10)]


def by_jump(lines: Lines, predicted: Floats, attempt: int) -> Iterator[tuple[str, Compared]]:
    """The attempts of one number by how large the jump to them was."""
    jump = np.where(lines.last_jump == NONE, -1.0, JUMPS[lines.last_jump])
    size = np.searchsorted(_JUMP_ENDS, jump)
    for at, name in enumerate(JUMP_NAMES):
        chosen = (lines.attempt == attempt) & (size == at)
        if chosen.any():
            yield name, compare(lines, predicted, chosen)
