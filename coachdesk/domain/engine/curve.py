"""The chance that a weight goes up at the first try, over a range of weights."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from coachdesk.domain.attempts import LiftPlan, Outcome
from coachdesk.domain.engine.belief import LiftBelief, one_lift
from coachdesk.domain.engine.likelihood import chances, margins
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine_parameters import DEFAULT, Parameters


def chances_at(
    plan: LiftPlan, weights_kg: Sequence[float], parameters: Parameters = DEFAULT
) -> tuple[float, ...]:
    """The chance, 0 to 1, that each of `weights_kg` [kg] is good as the lift's first attempt, by
    the belief the plan was made with; empty for a plan without chances."""
    if plan.outlook is None:
        return ()
    belief = LiftBelief(plan.expected, plan.outlook.spread, MissRate.known(plan.outlook.miss))
    grid = one_lift(belief, parameters)
    made = chances(margins(np.array(weights_kg), grid.strengths_kg), parameters)[Outcome.GOOD]
    return tuple(((1.0 - plan.outlook.miss) * (made @ grid.chance)).tolist())
