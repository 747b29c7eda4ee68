"""Where the plans of several lifts lead together: the total, linked by the day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from coachdesk.domain.engine.belief import DayBelief
from coachdesk.domain.engine.evaluate import Outlook
from coachdesk.domain.engine.quadrature import FloatArray
from coachdesk.domain.lifting import Lift


@dataclass(frozen=True, slots=True, eq=False)
class TotalOutlook:
    """What may become of the total.

    `totals_kg` [kg] ascending and the `chance` of each; `no_total` the chance of none, which makes
    the sum one; `all_good` the chance that every attempt is good.
    """

    totals_kg: FloatArray
    chance: FloatArray
    no_total: float
    all_good: float

    @property
    def expected_kg(self) -> float:
        """The expected total [kg] when there is one; 0 when there can be none."""
        made = float(self.chance.sum())
        return float(self.chance @ self.totals_kg) / made if made > 0.0 else 0.0

    def at_least(self, number_kg: float) -> float:
        """The chance of a total of at least `number_kg` [kg]."""
        return float(self.chance[self.totals_kg >= number_kg - 1e-6].sum())


def total_outlook(
    day: DayBelief, outlooks: Mapping[Lift, Outlook], made_kg: float = 0.0
) -> TotalOutlook:
    """The total when each lift follows its own plan.

    `outlooks` are the plans of the lifts of `day`, evaluated under it; `made_kg` [kg] the bests of
    lifts done before.
    """
    totals = np.array([made_kg])
    joint = np.empty(0)
    good = np.empty(0)
    before = None
    for lift, grid in day.lifts.items():
        outlook, miss = outlooks[lift], grid.belief.miss
        if before is None:
            joint, good = outlook.chance, outlook.all_good
            totals = made_kg + outlook.best_kg
        else:
            prior = day.day[:, None] * np.array(miss.chances)
            given = outlook.chance / np.where(prior > 0.0, prior, 1.0)[:, :, None]
            carried = before.carried_to(miss)
            moved = np.einsum("dkt,kl->dlt", joint, carried)
            joint = (moved[:, :, :, None] * given[:, :, None, :]).reshape(*prior.shape, -1)
            totals = (totals[:, None] + outlook.best_kg).ravel()
            good = (good @ carried) * outlook.all_good / np.where(prior > 0.0, prior, 1.0)
            totals, joint = _merged(totals, joint)
        before = miss
    chance = joint.sum(axis=(0, 1))
    return TotalOutlook(totals, chance, max(0.0, 1.0 - float(chance.sum())), float(good.sum()))


def _merged(totals_kg: FloatArray, joint: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Equal totals counted together."""
    grams, place = np.unique(np.rint(1000 * totals_kg), return_inverse=True)
    together = (place[:, None] == np.arange(len(grams))).astype(float)
    return grams / 1000, joint @ together
