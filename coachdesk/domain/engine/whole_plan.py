"""The plan of an entry as it is kept and printed: the engine's trees with their chances, what they
lead to together, and the textbook pattern beside them.

A wish that cannot be planned for (a number out of reach by now) gives way to the biggest total,
and the plan says so. A lift that cannot be planned is left out, and why is answered.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR
from functools import cached_property, lru_cache
from itertools import product

from coachdesk.domain.attempts import (
    AttemptPlan,
    Branch,
    LiftPlan,
    Method,
    Outcome,
    Turn,
    textbook_plan,
)
from coachdesk.domain.engine.aims import Aim, NineGood, Number
from coachdesk.domain.engine.belief import DayBelief
from coachdesk.domain.engine.chain import TotalPlan, TotalRequest, plan_number
from coachdesk.domain.engine.day_plan import DayPlan, DayRequest, plan_day
from coachdesk.domain.engine.evaluate import Outlook, evaluate
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.likelihood import told_apart
from coachdesk.domain.engine.plan_basis import PlanRequest
from coachdesk.domain.engine.rules import Limits, record_weight, usual_limits
from coachdesk.domain.engine.to_know import aim_of, caps_of, first_meet_notes, to_know
from coachdesk.domain.engine.total import TotalOutlook, total_outlook
from coachdesk.domain.engine.tree import choice_of, turn_of
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.plan_outlook import Checkpoint, DayOutlook, LiftOutlook
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.wishes import DayAim, WishesData

_GOOD = (Outcome.GOOD,)
_USUAL = {None, DayAim.BIGGEST_TOTAL}
_FIELDS = {"number": "aim_weight", "floor": "aim_weight"}


@lru_cache(maxsize=128)
def whole_plan(request: PlanRequest) -> tuple[AttemptPlan, Mapping[Lift, InvalidInput]]:
    """The plan, and by lift why it could not be planned.

    The latest are kept: what a coach types is planned while it is looked at, and again when it is
    kept.
    """
    if not request.lifts:
        return AttemptPlan(Method.ENGINE, request.rulebook, request.edition, ()), {}
    try:
        return _Day(request).plan(), {}
    except InvalidInput:
        faults = _faults(request)
    able = replace(
        request,
        lifts={lift: basis for lift, basis in request.lifts.items() if lift not in faults},
        missing=(*request.missing, *faults),
    )
    if not able.lifts:
        return AttemptPlan(Method.ENGINE, request.rulebook, request.edition, ()), faults
    return _Day(able).plan(), faults


def _faults(request: PlanRequest) -> dict[Lift, InvalidInput]:
    """Which lifts cannot be planned even by themselves, and why."""
    faults: dict[Lift, InvalidInput] = {}
    for lift, basis in request.lifts.items():
        alone = replace(request, lifts={lift: basis}, wishes=replace(request.wishes, aim=None))
        try:
            _Day(alone).as_wished()
        except InvalidInput as error:
            faults[lift] = error
    return faults


@lru_cache(maxsize=128)
def free_outlook(request: PlanRequest) -> DayOutlook:
    """What the plan would lead to without anything chosen or fixed; raises InvalidInput."""
    free = replace(request, chosen={}, fixes=())
    planned, _notes = _Day(free).as_wished()
    return planned.outlook


def check_reach(request: PlanRequest) -> None:
    """Whether what is wished for can be planned for; raises InvalidInput, field "aim_weight",
    "aim_lift" or "risk_cap"."""
    try:
        _Day(request).planned(request.wishes, {})
    except InvalidInput as error:
        field = _FIELDS.get(error.field)
        if field is None:
            raise
        raise InvalidInput(field, error.text) from error


@dataclass(frozen=True)
class _Planned:
    """A plan from either part of the engine; chances of the total where they were worked out."""

    lifts: Mapping[Lift, Outlook]
    outlook: DayOutlook
    checkpoints: tuple[Checkpoint, ...] = ()


@dataclass(frozen=True)
class _Day:
    request: PlanRequest

    @cached_property
    def belief(self) -> DayBelief:
        return DayBelief.of({lift: basis.belief for lift, basis in self.request.lifts.items()})

    @cached_property
    def fixed(self) -> dict[Lift, Fixed]:
        """All that the coach has fixed, by lift."""
        found: dict[Lift, dict[tuple[Outcome, ...], Mass]] = {}
        for (lift, number), weight in self.request.chosen.items():
            found.setdefault(lift, {})[_GOOD * (number - 1)] = weight
        for fix in self.request.fixes:
            found.setdefault(fix.lift, {})[fix.seen] = fix.weight
        return {lift: fixed for lift, fixed in found.items() if lift in self.request.lifts}

    def limits(self, wishes: WishesData) -> dict[Lift, Limits]:
        request = self.request
        found = {}
        for lift, basis in request.lifts.items():
            usual = usual_limits(request.steps, first_meet=request.first_meet, floor=basis.floor)
            if wishes.largest_jump is not None:
                usual = replace(usual, largest_jump=wishes.largest_jump)
            if wishes.aim is DayAim.LIFT_RECORD and wishes.aim_lift is lift and wishes.aim_weight:
                usual = replace(usual, record=record_weight(wishes.aim_weight, request.record_step))
            found[lift] = usual
        return found

    def plan(self) -> AttemptPlan:
        request = self.request
        is_whole = not request.missing
        planned, notes = self.as_wished()
        aim = None if notes else aim_of(request)
        notes = (*first_meet_notes(request), *notes)
        if planned.outlook.cap_met is False:
            notes = (*notes, text("plan.cap_not_met"))
        return AttemptPlan(
            Method.ENGINE,
            request.rulebook,
            request.edition,
            tuple(self._lift_plan(lift, outlook) for lift, outlook in planned.lifts.items()),
            outlook=planned.outlook if is_whole else None,
            textbook=self._textbook() if is_whole else None,
            checkpoints=planned.checkpoints,
            fixes=tuple(fix for fix in request.fixes if fix.lift in request.lifts),
            notes=notes,
            aim=aim,
            caps=caps_of(request),
        )

    def as_wished(self) -> tuple[_Planned, tuple[Text, ...]]:
        """The plan for the wish, or for the biggest total where it is out of reach, and why."""
        wishes = self.request.wishes
        try:
            return self.planned(wishes, self.fixed), ()
        except InvalidInput as error:
            if wishes.aim in _USUAL:
                raise
            note = text("plan.wish_given_up", why=error.text)
            return self.planned(replace(wishes, aim=None), self.fixed), (note,)

    def planned(self, wishes: WishesData, fixed: Mapping[Lift, Fixed]) -> _Planned:
        """Plan for a wish around what is fixed; raises InvalidInput."""
        limits = self.limits(wishes)
        on_total = wishes.aim in {DayAim.NUMBER, DayAim.NINE_GOOD} and wishes.aim_weight is not None
        if on_total and self.request.missing:
            raise InvalidInput("aim_weight", text("plan.aim_total_missing"))
        if wishes.aim is DayAim.NUMBER:
            number = _needed(wishes.aim_weight)
            self._check_open(number, tuple(limits), wishes, fixed)
            request = TotalRequest(self.belief, limits, fixed=fixed, risk_cap=wishes.risk_cap)
            return _of_total(plan_number(request, number))
        aims = self._aims(wishes)
        for lift, aim in aims.items():
            if isinstance(aim, Number):
                self._check_open(aim.weight, (lift,), wishes, fixed)
        return self._by_lifts(
            plan_day(
                DayRequest(
                    self.belief,
                    limits,
                    aims=aims,
                    fixed=fixed,
                    risk_cap=wishes.risk_cap,
                )
            )
        )

    def _check_open(
        self,
        number: Mass,
        lifts: tuple[Lift, ...],
        wishes: WishesData,
        fixed: Mapping[Lift, Fixed],
    ) -> None:
        """An aim on these lifts that is made already, or that openers bring, is none; raises
        InvalidInput."""
        made = self.request.made
        if sum(made[lift].grams for lift in lifts if lift in made) >= number.grams:
            raise InvalidInput("aim_weight", text("engine.number_made", number=number))
        limits = self.limits(replace(wishes, aim=None))
        free = plan_day(DayRequest(self.belief, limits, fixed=fixed, risk_cap=wishes.risk_cap))
        openers = sum(turn_of(free.lifts[lift].outlook.opener).weight.grams for lift in lifts)
        if openers >= number.grams:
            code = "plan.aim_sure" if len(lifts) > 1 else "plan.aim_sure_lift"
            known = from_grams(openers, number.unit)
            raise InvalidInput("aim_weight", text(code, number=number, openers=known))

    def _aims(self, wishes: WishesData) -> dict[Lift, Aim]:
        lifts = self.request.lifts
        if wishes.aim in _USUAL:
            return {}
        if wishes.aim is DayAim.NINE_GOOD:
            return {lift: NineGood(self._floor(lift, wishes.aim_weight)) for lift in lifts}
        if wishes.aim_lift in self.request.missing:
            raise InvalidInput("aim_lift", text("plan.aim_lift_missing"))
        if wishes.aim_lift is None or wishes.aim_lift not in lifts:
            raise InvalidInput("aim_lift", text("wishes.lift_missing"))
        number = _needed(wishes.aim_weight)
        if wishes.aim is DayAim.LIFT_RECORD:
            number = record_weight(number, self.request.record_step)
        return {wishes.aim_lift: Number(number)}

    def _floor(self, lift: Lift, total: Mass | None) -> Mass:
        """A lift's share of the least total nine good lifts should bring, on the steps."""
        steps, lifts = self.request.steps, self.request.lifts
        if total is None:
            return steps.lightest
        expected = {each: basis.belief.expected.kg for each, basis in lifts.items()}
        share = round(total.grams * expected[lift] / sum(expected.values()))
        unit = steps.step.unit
        number = (from_grams(share).in_unit(unit) / steps.step.number).to_integral_value(
            ROUND_FLOOR
        ) * steps.step.number
        return max(Mass(number, unit), steps.lightest, key=lambda mass: mass.grams)

    def _by_lifts(self, plan: DayPlan) -> _Planned:
        outlooks = {lift: each.outlook for lift, each in plan.lifts.items()}
        outlook = _day_outlook(plan.total, plan.cap_met)
        aims = [each for each in plan.lifts.values() if each.aim is not None]
        if len(aims) == 1:
            outlook = replace(outlook, aim=aims[0].aim, best_aim=aims[0].best_aim)
        elif aims:
            outlook = replace(outlook, aim=plan.total.all_good)
        return _Planned(outlooks, outlook)

    def _textbook(self) -> DayOutlook | None:
        """What the textbook pattern would lead to; None where it has no plan for a lift."""
        request = self.request
        outlooks = {}
        for lift, grid in self.belief.lifts.items():
            try:
                pattern = textbook_plan(
                    lift,
                    expected=grid.belief.expected,
                    source=request.lifts[lift].source,
                    steps=request.steps,
                    first_meet=request.first_meet,
                )
            except InvalidInput:
                return None
            outlooks[lift] = evaluate(choice_of(pattern.opener), grid)
        return _day_outlook(total_outlook(self.belief, outlooks))

    def _lift_plan(self, lift: Lift, outlook: Outlook) -> LiftPlan:
        basis = self.request.lifts[lift]
        belief = basis.belief
        marked = _marked(turn_of(outlook.opener), _every_way(self.fixed.get(lift, {})))
        return LiftPlan(
            lift,
            belief.expected,
            basis.source,
            marked,
            to_know(self.request, lift),
            outlook=LiftOutlook(
                spread=belief.sd,
                miss=belief.miss.mean,
                expected_best=_to_tenths(outlook.expected_best_kg),
                no_lift=outlook.no_lift,
                all_good=outlook.nine_good,
            ),
        )


def _needed(number: Mass | None) -> Mass:
    if number is None:
        raise InvalidInput("aim_weight", text("wishes.number_missing"))
    return number


def _of_total(plan: TotalPlan) -> _Planned:
    outlook = DayOutlook(
        expected_total=_to_tenths(plan.expected_total_kg),
        no_total=plan.no_total,
        aim=plan.chance,
        best_aim=plan.best_chance,
        cap_met=plan.cap_met,
    )
    return _Planned(plan.lifts, outlook, plan.checkpoints)


def _day_outlook(total: TotalOutlook, cap_met: bool | None = None) -> DayOutlook:
    return DayOutlook(
        expected_total=_to_tenths(total.expected_kg),
        no_total=total.no_total,
        all_good=total.all_good,
        cap_met=cap_met,
    )


def _to_tenths(kilograms: float) -> Mass:
    """To 0.1 kg: an expectation is no weight on a bar."""
    return from_grams(round(10 * kilograms) * 100)


def _every_way(fixed: Fixed) -> frozenset[tuple[Outcome, ...]]:
    """The ways a fix covers, by all that can be told apart."""
    return frozenset(way for seen in fixed for way in product(*map(told_apart, seen)))


def _marked(
    turn: Turn, fixed: frozenset[tuple[Outcome, ...]], seen: tuple[Outcome, ...] = ()
) -> Turn:
    """The tree with the turns marked that the coach fixed: the engine's reasons are not theirs."""
    if not fixed:
        return turn
    branches = tuple(
        Branch(branch.outcome, _marked(branch.turn, fixed, (*seen, branch.outcome)))
        for branch in turn.branches
    )
    if seen in fixed:
        return replace(turn, branches=branches, fixed=True, notes=())
    return replace(turn, branches=branches)
