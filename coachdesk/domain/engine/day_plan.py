"""The plan of a day lift by lift: stakes down the chain, aims on lifts, the total they lead to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from coachdesk.domain.engine.aims import Aim, BiggestTotal, Plan, Request, least, plan_aim
from coachdesk.domain.engine.belief import DayBelief, Taken
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.engine.total import TotalOutlook, total_outlook
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text

_CAUTION = tuple(4.0**n for n in range(6))


@dataclass(frozen=True, slots=True, eq=False)
class DayRequest:
    """What to plan a day for, or what is left of it.

    `day` is the belief about the lifts to come, the one at hand first; `made_kg` [kg] the bests of
    the lifts done; `taken` the attempts of the lift at hand. `aims` are the first aims by lift (the
    total where none is given), `stakes_kg` [kg] the coach's own stakes. `risk_cap` is the most the
    chance of no total may be, None for no cap.
    """

    day: DayBelief
    limits: Mapping[Lift, Limits]
    aims: Mapping[Lift, Aim] = field(default_factory=dict)
    made_kg: float = 0.0
    taken: Sequence[Taken] = ()
    fixed: Mapping[Lift, Fixed] = field(default_factory=dict)
    stakes_kg: Mapping[Lift, float] = field(default_factory=dict)
    risk_cap: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class DayPlan:
    """A plan for each lift, the stakes they were made with [kg], and the total they lead to.

    `cap_met` says whether the risk cap could be met, None without one.
    """

    lifts: Mapping[Lift, Plan]
    stakes_kg: Mapping[Lift, float]
    total: TotalOutlook
    cap_met: bool | None = None

    @property
    def expected_total_kg(self) -> float:
        """The expected total [kg] when there is one."""
        return self.total.expected_kg

    @property
    def no_total(self) -> float:
        """The chance of no total, 0 to 1."""
        return self.total.no_total


def plan_day(request: DayRequest) -> DayPlan:
    """The plan of a day by aims on its lifts.

    A lift without a good attempt loses the total: what is at stake is what the other lifts bring,
    as planned for those that follow and as expected for those before. Raises InvalidInput: field
    "risk_cap" outside 0 to 1, and what `plan_aim` raises.
    """
    cap = request.risk_cap
    if cap is not None and not 0.0 <= cap <= 1.0:
        raise InvalidInput("risk_cap", text("engine.risk_cap"))
    careful = cache(lambda caution: _planned(request, caution))
    if cap is None:
        return careful(1.0)
    chosen = careful(least(_CAUTION, lambda caution: careful(caution).no_total <= cap))
    return replace(chosen, cap_met=chosen.no_total <= cap)


def _planned(request: DayRequest, caution: float) -> DayPlan:
    """The plan with stakes `caution` times as high."""
    lifts = request.day.lifts
    brings = {lift: grid.belief.expected.kg for lift, grid in lifts.items()}
    plans: dict[Lift, Plan] = {}
    stakes: dict[Lift, float] = {}
    for lift in reversed(list(lifts)):
        others = sum(kg for other, kg in brings.items() if other is not lift)
        stakes[lift] = request.stakes_kg.get(lift, request.made_kg + others)
        plans[lift] = plan_aim(
            Request(
                lifts[lift],
                request.limits[lift],
                caution * stakes[lift],
                aim=request.aims.get(lift, BiggestTotal()),
                fixed=request.fixed.get(lift, {}),
                taken=request.taken if lift is next(iter(lifts)) else (),
                parameters=request.day.parameters,
            )
        )
        brings[lift] = plans[lift].outlook.expected_best_kg
    outlooks = {lift: plan.outlook for lift, plan in plans.items()}
    total = total_outlook(request.day, outlooks, request.made_kg)
    ordered = {lift: plans[lift] for lift in lifts}
    return DayPlan(ordered, stakes, total)
