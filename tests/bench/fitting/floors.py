"""Openers missed although the strength for them was there: what no model is needed for."""

from __future__ import annotations

import numpy as np

from tests.bench.fitting.recorded_days import EQUIPMENT, EXPERIENCES, Bools, Days, Floats

_HEAVIER = (1.08, 1.15)


def missed_then_made(days: Days, lift: int) -> Floats:
    """The share of openers missed by lifters who made that weight or more later the same day.

    By [experience, equipment]. Were a lifter's strength the same all day, no miss rate could be
    smaller.
    """
    weights, made = days.weights_kg[:, lift], days.made[:, lift]
    taken = np.isfinite(weights[:, 0])
    later = ~made[:, 0] & made[:, 1:].any(axis=1)
    return _shares(days, taken, later)


def missed_by_far_stronger(days: Days, lift: int) -> Floats:
    """The share of missed openers among those of lifters who made 8 to 15 % more later that day."""
    weights, made = days.weights_kg[:, lift], days.made[:, lift]
    best = np.where(made, weights, 0.0).max(axis=1) / weights[:, 0]
    return _shares(days, (best >= _HEAVIER[0]) & (best <= _HEAVIER[1]), ~made[:, 0])


def _shares(days: Days, among: Bools, which: Bools) -> Floats:
    shares = np.empty((len(EXPERIENCES), len(EQUIPMENT)))
    for experience, equipment in np.ndindex(shares.shape):
        here = among & (days.experience == experience) & (days.equipment == equipment)
        shares[experience, equipment] = which[here].mean()
    return shares
