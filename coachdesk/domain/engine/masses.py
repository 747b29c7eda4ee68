"""How likely each way through three attempts is, apart from technical misses."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.belief import LiftGrid
from coachdesk.domain.engine.layout import Layout
from coachdesk.domain.engine.likelihood import chances, margins, miss_powers
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.quadrature import FloatArray, IntArray
from coachdesk.domain.engine_parameters import Parameters


@dataclass(frozen=True, slots=True, eq=False)
class Masses:
    """Chances by strength alone, in a column for each of the day's points.

    `reached` [rows, days] that the day comes to a third attempt by this row; `made` [thirds, days]
    that it does and the third is within the athlete's strength. Technical misses are a factor
    apart: see `MissFactors`.
    """

    reached: FloatArray
    made: FloatArray


def strength_masses(layout: Layout, grid: LiftGrid, parameters: Parameters) -> Masses:
    """The masses of every way in `layout`, given each of the day's points of `grid`."""
    seen = chances(margins(layout.weights.kg, grid.strengths_kg), parameters)
    first = np.stack([seen[outcome] for outcome in layout.sights.first])
    second = np.stack([seen[outcome] for outcome in layout.sights.second], axis=1)
    outcomes = len(layout.sights.first)
    opener = layout.openers[layout.branch // outcomes]
    before = first[layout.branch % outcomes, opener]
    rows = second.take(layout.second, axis=0)
    rows *= before[:, None, :]
    days = grid.given_day
    reached = (rows @ days.T).reshape(-1, len(days))
    within = seen[Outcome.GOOD][:, None, :] * days
    return Masses(reached, _made(layout, rows, within))


def _made(layout: Layout, rows: FloatArray, within: FloatArray) -> FloatArray:
    """The chance of each third, from the chances of what comes before.

    A second meets only the thirds in its reach, in products small enough that the linear algebra
    library starts no threads for them: waiting for those costs more than they save.
    """
    seconds, outcomes, strengths = rows.shape
    ahead = layout.third - layout.second[layout.row // outcomes]
    reach = int(ahead.max()) + 1
    beyond = np.zeros((reach, *within.shape[1:]))
    windows = sliding_window_view(np.concatenate([within, beyond]), reach, axis=0)
    flat = windows.transpose(0, 2, 3, 1).reshape(len(windows), strengths, -1)
    made = np.empty((seconds, outcomes, flat.shape[2]))
    for weight in np.unique(layout.second):
        here = layout.second == weight
        made[here] = rows[here] @ flat[weight]
    made = made.reshape(seconds * outcomes, reach, within.shape[1])
    thirds: FloatArray = made[layout.row, ahead]
    return thirds


@dataclass(frozen=True, slots=True, eq=False)
class MissFactors:
    """Chances of the technical part, in a column for each miss rate.

    Runs of two attempts with as many technical misses are of one `kind` (given by row). By kind:
    `reached` that two attempts went so, `made` that they did and the third is no technical miss.
    """

    kind: IntArray
    reached: FloatArray
    made: FloatArray


def miss_factors(layout: Layout, miss: MissRate) -> MissFactors:
    """The technical factors of the rows of `layout`."""
    powers = [
        miss_powers((first, second))
        for first in layout.sights.first
        for second in layout.sights.second
    ]
    kinds = sorted(set(powers))
    first, second = layout.outcomes_of_row
    pair = first * len(layout.sights.second) + second
    return MissFactors(
        np.array([kinds.index(power) for power in powers])[pair],
        np.array([miss.likelihoods(technical, clean) for technical, clean in kinds]),
        np.array([miss.likelihoods(technical, clean + 1) for technical, clean in kinds]),
    )
