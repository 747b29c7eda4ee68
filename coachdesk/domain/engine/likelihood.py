"""How likely it is to see an attempt go as it did, if the day's maximum were S.

With the margin m = (S - w) / S of an attempt at w, and t the chance of a miss that strength does
not explain (depth, commands, pause, nerves):

    no lift on a technicality    t
    no lift on strength          (1 - t) (1 - Phi(m / nu))
    good: easy, as planned, or a grind    (1 - t) Phi(m / nu) times their shares, which sum to one

The shares are an ordered probit of m: grind Phi((c1 - m) / b), easy Phi((m - c2) / b). What is seen
of a technical miss tells nothing about strength, on purpose: a call is no proof of a margin. So t
and S stay apart: any run of outcomes has the chance t^k (1 - t)^n times a function of S.

Parameters c1, c2, b and nu cannot be learned from results; see `parameters`.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from math import asin, sin

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.quadrature import FloatArray, normal_cdf
from coachdesk.domain.engine_parameters import Parameters

SEEN = (Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND, Outcome.STRENGTH, Outcome.TECHNICAL)
"""What a handler can tell apart and act on."""

JUDGED = (Outcome.GOOD, Outcome.STRENGTH, Outcome.TECHNICAL)
"""What the referees and the cause tell, without how a good lift moved."""

_LEAST = 1e-12

_PARTS = {
    Outcome.GOOD: (Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND),
    Outcome.NO_LIFT: (Outcome.STRENGTH, Outcome.TECHNICAL),
}


class WarmUp(StrEnum):
    """How the last warm-ups moved."""

    FLAT = "flat"
    AS_PLANNED = "as_planned"
    FLYING = "flying"


def told_apart(outcome: Outcome) -> tuple[Outcome, ...]:
    """What `outcome` may have been in full, when only made or missed is known."""
    return _PARTS.get(outcome, (outcome,))


def margins(weights_kg: FloatArray, strengths_kg: FloatArray) -> FloatArray:
    """m = (S - w) / S for each weight (rows) and strength (columns)."""
    return 1.0 - weights_kg[:, None] / strengths_kg[None, :]


def chances(margin: FloatArray, parameters: Parameters) -> Mapping[Outcome, FloatArray]:
    """The chance of each outcome by margin, without the factor t or 1 - t.

    None is quite zero: what was seen did happen, however little the belief expected it.
    """
    made = _possible(normal_cdf(margin / parameters.strength_spread.value), 2)
    blur = parameters.seen_spread.value
    grind = _possible(normal_cdf((parameters.grind_below.value - margin) / blur), 3)
    easy = _possible(normal_cdf((margin - parameters.easy_above.value) / blur), 3)
    nothing = np.ones_like(made)
    return {
        Outcome.GOOD: made,
        Outcome.EASY: made * easy,
        Outcome.AS_PLANNED: made * (1.0 - easy - grind),
        Outcome.GRIND: made * grind,
        Outcome.STRENGTH: 1.0 - made,
        Outcome.TECHNICAL: nothing,
        Outcome.PASSED: nothing,
    }


def _possible(chance: FloatArray, outcomes: int) -> FloatArray:
    """A chance kept off zero, in proportion to the `outcomes` that share one."""
    kept: FloatArray = (chance + _LEAST) / (1.0 + outcomes * _LEAST)
    return kept


def miss_powers(outcomes: tuple[Outcome, ...]) -> tuple[int, int]:
    """The exponents of t and of 1 - t in the chance of a run of outcomes."""
    technical = sum(outcome is Outcome.TECHNICAL for outcome in outcomes)
    passed = sum(outcome is Outcome.PASSED for outcome in outcomes)
    return technical, len(outcomes) - technical - passed


def warm_up_chances(deviation: FloatArray, parameters: Parameters) -> Mapping[WarmUp, FloatArray]:
    """The chance of each impression by the day's deviation S / expected - 1."""
    blur = parameters.warm_up_spread.value
    flat = normal_cdf((parameters.flat_below.value - deviation) / blur)
    flying = normal_cdf((deviation - parameters.flying_above.value) / blur)
    return {
        WarmUp.FLAT: flat,
        WarmUp.AS_PLANNED: 1.0 - flat - flying,
        WarmUp.FLYING: flying,
    }


def two_to_one(rate: float) -> float:
    """The chance that a good lift passes two to one, if the miss rate is t.

    Three referees who each give red with chance q, apart from one another, refuse a lift with
    chance t = 3 q^2 - 2 q^3, and pass it two to one with chance 3 q (1 - q)^2.
    """
    red = 0.5 - sin(asin(1.0 - 2.0 * rate) / 3.0)
    return 3.0 * red * (1.0 - red) ** 2 / (1.0 - rate) if rate < 1.0 else 1.0
