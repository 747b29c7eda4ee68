"""The attempt engine: what to call for at every turn the day can take.

Build a `LiftBelief` for each lift (the expected maximum, its spread as `honest_sd` gives it, a
`MissRate`), link them in a `DayBelief`, say what the rules and the coach allow (`usual_limits`),
and plan: `plan_day` by aims on the lifts, `plan_number` or `plan_total_aim` for one on the total,
`plan_aim` for one lift, `plan_lift` for one lift under any utility. `evaluate` says what any given
plan is worth. Plans are trees (`Node`); `turn_of` makes of them what sheets and snapshots hold.

All weights in and out are `Mass` or kilograms (`..._kg`), chances and spreads fractions. Impossible
input raises InvalidInput with the field it belongs to. The engine needs numpy, so import it where a
plan is made, not where the program starts.
"""

from __future__ import annotations

from coachdesk.domain.engine.aims import (
    Aim,
    BiggestTotal,
    NineGood,
    Number,
    Place,
    Plan,
    Request,
    plan_aim,
)
from coachdesk.domain.engine.belief import (
    DayBelief,
    LiftBelief,
    LiftGrid,
    Taken,
    one_lift,
)
from coachdesk.domain.engine.chain import (
    TotalPlan,
    TotalRequest,
    at_least,
    plan_number,
    plan_total_aim,
)
from coachdesk.domain.engine.day_plan import DayPlan, DayRequest, plan_day
from coachdesk.domain.engine.evaluate import Outlook, evaluate
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.likelihood import WarmUp
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.plan_lift import Utility, kilograms_at_stake, plan_lift
from coachdesk.domain.engine.rules import Limits, record_weight, usual_limits
from coachdesk.domain.engine.total import TotalOutlook, total_outlook
from coachdesk.domain.engine.tree import Choice, Node, Way, choice_of, turn_of
from coachdesk.domain.engine_parameters import (
    DEFAULT,
    Experience,
    Parameter,
    Parameters,
    Status,
    honest_sd,
)

__all__ = [
    "DEFAULT",
    "Aim",
    "BiggestTotal",
    "Choice",
    "DayBelief",
    "DayPlan",
    "DayRequest",
    "Experience",
    "Fixed",
    "LiftBelief",
    "LiftGrid",
    "Limits",
    "MissRate",
    "NineGood",
    "Node",
    "Number",
    "Outlook",
    "Parameter",
    "Parameters",
    "Place",
    "Plan",
    "Request",
    "Status",
    "Taken",
    "TotalOutlook",
    "TotalPlan",
    "TotalRequest",
    "Utility",
    "WarmUp",
    "Way",
    "at_least",
    "choice_of",
    "evaluate",
    "honest_sd",
    "kilograms_at_stake",
    "one_lift",
    "plan_aim",
    "plan_day",
    "plan_lift",
    "plan_number",
    "plan_total_aim",
    "record_weight",
    "total_outlook",
    "turn_of",
    "usual_limits",
]
