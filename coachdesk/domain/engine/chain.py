"""The chain of lifts for an aim on the total: computed backward, deadlift, bench press, squat.

The lift at hand is planned by all that a handler can tell apart; the later ones enter by what the
referees say alone, under a few readings of the day. What that leaves out can only help on the day,
so the chance of the aim is that of a plan that can be followed, not a hope.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from coachdesk.domain.engine.aims import WORTHS, least
from coachdesk.domain.engine.belief import DayBelief, LiftGrid, Taken
from coachdesk.domain.engine.card import Card
from coachdesk.domain.engine.evaluate import AimMass, Outlook, evaluate
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.likelihood import JUDGED
from coachdesk.domain.engine.plan_lift import LiftProblem, OfWeights
from coachdesk.domain.engine.quadrature import FloatArray, normal_points
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.engine.stage import AIM, KILOGRAMS, NO_TOTAL, Stage, Tail
from coachdesk.domain.engine.why import Reasons, explained
from coachdesk.domain.engine_parameters import shared_part
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.plan_outlook import Checkpoint
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, from_grams

_TILTS = (0.0, -0.8, 0.8)
"""Readings of the day: as expected, worse, better (in standard deviations of the day)."""
_OPENERS_APART = 0.02
"""Of the later lifts, openers about 2 % apart are choice enough."""
_PROSPECTS = (0.1, 0.5, 0.9)
_OUT_OF_REACH = 1e-3
_ONE_IN_A_THOUSAND = 3.09
_CAPS = tuple(2.0**n for n in range(0, 11, 2))


@dataclass(frozen=True, slots=True, eq=False)
class TotalRequest:
    """What to plan a day for, or what is left of it.

    `day` is the belief about the lifts to come, the one at hand first; `made_kg` [kg] the bests of
    the lifts done; `aim` takes totals [kg] to the chance, 0 to 1, that the aim is met
    (`plan_number` sets it); `taken` are the attempts of the lift at hand. `risk_cap` is the most
    the chance of no total may be, None for no cap.
    """

    day: DayBelief
    limits: Mapping[Lift, Limits]
    aim: OfWeights = np.zeros_like
    made_kg: float = 0.0
    taken: Sequence[Taken] = ()
    fixed: Mapping[Lift, Fixed] = field(default_factory=dict)
    risk_cap: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class TotalPlan:
    """A plan for a day with an aim on the total.

    `chance` of the aim and `best_chance`, the most it could be; `expected_total_kg` [kg] when there
    is a total, `no_total` the chance of none. `lifts` holds the tree of each lift: of the first as
    it is to be followed, of the later ones from the likeliest subtotal `starts_kg` [kg] on, to be
    planned anew when it comes out otherwise. `cap_met` as in `aims.Plan`.
    """

    chance: float
    best_chance: float
    expected_total_kg: float
    no_total: float
    lifts: Mapping[Lift, Outlook]
    starts_kg: Mapping[Lift, float]
    checkpoints: tuple[Checkpoint, ...]
    cap_met: bool | None = None


def at_least(number: Mass) -> OfWeights:
    """The aim of a number on the total: a qualifying total, a PB, a record."""
    return lambda total_kg: (total_kg >= number.kg - 1e-6).astype(float)


def plan_number(request: TotalRequest, number: Mass) -> TotalPlan:
    """The plan for a total of at least `number`; the aim of `request` is set to it.

    Raises InvalidInput: field "number" for a total that is made already or out of reach (the text
    says what would be the most), and what `plan_total_aim` raises.
    """
    if request.made_kg >= number.kg:
        raise InvalidInput("number", text("engine.number_made", number=number))
    chain = _Chain(replace(request, aim=at_least(number)))
    if chain.best_chance < _OUT_OF_REACH:
        most = from_grams(round(1000 * chain.most_kg), number.unit)
        raise InvalidInput("number", text("engine.total_out_of_reach", number=number, most=most))
    return chain.plan()


def plan_total_aim(request: TotalRequest) -> TotalPlan:
    """The plan for any aim on the total, a place for instance.

    Raises InvalidInput: field "place" for an aim out of reach, "risk_cap" outside 0 to 1, and what
    `LiftProblem` and its `solve` raise.
    """
    chain = _Chain(request)
    if chain.best_chance < _OUT_OF_REACH:
        raise InvalidInput("place", text("engine.place_out_of_reach"))
    return chain.plan()


@dataclass(frozen=True, eq=False)
class _Solution:
    """A chain solved for one worth of the aim.

    `worth` weighs what a policy brings; `tails` holds what follows each lift, the one at hand
    first; `brings` what the plan does: the aim's chance, kilograms, and the chance of no total.
    """

    worth: FloatArray
    card: Card
    tails: tuple[Tail, ...]
    brings: FloatArray


@dataclass(frozen=True, eq=False)
class _Chain:
    request: TotalRequest

    def __post_init__(self) -> None:
        cap = self.request.risk_cap
        if cap is not None and not 0.0 <= cap <= 1.0:
            raise InvalidInput("risk_cap", text("engine.risk_cap"))

    @cached_property
    def order(self) -> tuple[Lift, ...]:
        return tuple(self.request.day.lifts)

    @cached_property
    def step_kg(self) -> float:
        return self.request.limits[self.order[0]].steps.step.kg

    @cached_property
    def expected_kg(self) -> float:
        """What no total loses [kg]."""
        lifts = self.request.day.lifts.values()
        return self.request.made_kg + sum(grid.belief.expected.kg for grid in lifts)

    @cached_property
    def at_hand(self) -> Stage:
        request, lift = self.request, self.order[0]
        return self.followed(lift, request.day.lifts[lift], 0, request.taken)

    def followed(
        self, lift: Lift, grid: LiftGrid, start: int, taken: Sequence[Taken] = ()
    ) -> Stage:
        """A lift as it is to be followed, `start` steps above what was made before."""
        request = self.request
        last = lift is self.order[-1]
        limits = replace(request.limits[lift], raise_after_strength=last)
        problem = LiftProblem(
            grid,
            limits,
            request.fixed.get(lift, {}),
            tuple(taken),
            request.day.parameters,
        )
        return Stage(problem, np.array([start]), grid.day[None, :])

    @cached_property
    def later(self) -> tuple[Stage, ...]:
        """The lifts that follow, from every subtotal and under every reading of the day."""
        request = self.request
        stages: list[Stage] = []
        before = self.at_hand
        for lift in self.order[1:]:
            grid = request.day.lifts[lift]
            apart_kg = _OPENERS_APART * grid.belief.expected.kg
            problem = LiftProblem(
                grid,
                request.limits[lift],
                request.fixed.get(lift, {}),
                (),
                request.day.parameters,
                seen=JUDGED,
                every=max(1, round(apart_kg / self.step_kg)),
            )
            starts = np.arange(
                before.starts[0] + before.steps[0], before.starts[-1] + before.steps[-1] + 1
            )
            before = Stage(problem, starts, _readings(request.day.day))
            stages.append(before)
        return tuple(stages)

    def solve(self, aim_kg: float, lost_kg: float = 0.0) -> _Solution:
        """The chain with the aim worth `aim_kg` [kg], and no total losing `lost_kg` more."""
        worth = np.array([aim_kg, 1.0, -lost_kg])
        tails = [self._end()]
        for stage in reversed(self.later):
            thirds = stage.best_thirds(stage.leaves(tails[0], worth))
            value = stage.bring(thirds, tails[0], worth)
            tails.insert(0, Tail(int(stage.starts[0]), value, stage.problem.miss_rate))
        stage = self.at_hand
        card = stage.problem.solve(stage.leaves(tails[0], worth)[:, 0, 0])
        given = stage.bring(card.thirds[None, None], tails[0], worth)[0, 0]
        chances = self.request.day.day[:, None] * np.array(stage.problem.miss_rate.chances)
        brings = np.einsum("dk,dkv->v", chances, given) / stage.problem.seen_chance
        return _Solution(worth, card, tuple(tails), brings)

    def _end(self) -> Tail:
        last = self.later[-1] if self.later else self.at_hand
        first = int(last.starts[0] + last.steps[0])
        steps = np.arange(first, last.starts[-1] + last.steps[-1] + 1)
        total_kg = self.request.made_kg + steps * self.step_kg
        value = np.stack([self.request.aim(total_kg), total_kg, np.zeros_like(total_kg)], axis=-1)
        return Tail(first, value[None, :, None, None, :], None)

    @cached_property
    def hungriest(self) -> _Solution:
        """The chain with the aim worth the most it may be."""
        return self.solve(self.request.day.parameters.aim_worth.value * self.expected_kg)

    @cached_property
    def best_chance(self) -> float:
        return float(self.hungriest.brings[AIM])

    def plan(self) -> TotalPlan:
        request = self.request
        most_kg = float(self.hungriest.worth[AIM])
        enough = self.best_chance - request.day.parameters.aim_tolerance.value
        solved = {most_kg: self.hungriest}

        def at(worth_kg: float) -> _Solution:
            if worth_kg not in solved:
                solved[worth_kg] = self.solve(worth_kg)
            return solved[worth_kg]

        worths = [part * most_kg for part in WORTHS[::2]]
        worth_kg = least(worths, lambda worth: at(worth).brings[AIM] >= enough)
        solution, cap = at(worth_kg), request.risk_cap
        if cap is not None and solution.brings[NO_TOTAL] > cap:
            lost = [factor * self.expected_kg for factor in _CAPS]
            capped = {kg: self.solve(worth_kg, kg) for kg in lost}
            solution = capped[least(lost, lambda kg: capped[kg].brings[NO_TOTAL] <= cap)]
        lifts, starts_kg = self._path(solution)
        return TotalPlan(
            float(solution.brings[AIM]),
            self.best_chance,
            float(solution.brings[KILOGRAMS] / (1.0 - solution.brings[NO_TOTAL])),
            float(solution.brings[NO_TOTAL]),
            lifts,
            starts_kg,
            self._checkpoints(solution),
            None if cap is None else bool(solution.brings[NO_TOTAL] <= cap),
        )

    def _path(self, solution: _Solution) -> tuple[dict[Lift, Outlook], dict[Lift, float]]:
        """Each lift from the likeliest subtotal on, and that subtotal."""
        request = self.request
        found: dict[Lift, Outlook] = {}
        starts_kg: dict[Lift, float] = {}
        day, start = request.day, 0
        for at, lift in enumerate(self.order):
            tail, taken = solution.tails[at], request.taken if at == 0 else ()
            stage = self.followed(lift, day.lifts[lift], start, taken) if at else self.at_hand
            card = (
                stage.problem.solve(stage.leaves(tail, solution.worth)[:, 0, 0])
                if at
                else solution.card
            )
            outlook = evaluate(
                card.choice,
                stage.problem.grid,
                taken=taken,
                parameters=request.day.parameters,
                aim=_aim_mass(stage, tail, solution.worth),
            )
            reasons = Reasons(stage.problem.grid.belief.expected, request.limits[lift])
            found[lift] = replace(outlook, opener=explained(outlook.opener, reasons))
            starts_kg[lift] = request.made_kg + start * self.step_kg
            likeliest = int(outlook.by_best.argmax())
            start += int(stage.steps[stage.problem.weights.nearest(outlook.best_kg[likeliest])])
            day = day.given(lift, outlook.chance[:, :, likeliest])
        return found, starts_kg

    def _checkpoints(self, solution: _Solution) -> tuple[Checkpoint, ...]:
        found = []
        for at, lift in enumerate(self.order[:-1]):
            tail = solution.tails[at]
            rates = np.array(tail.miss.chances) if tail.miss else np.ones(1)
            chances = np.einsum(
                "d,k,ndk->n", self.request.day.day, rates, tail.value[0, :, :, :, AIM]
            )
            unit = self.request.limits[lift].steps.step.unit
            least_kg = [
                self.request.made_kg
                + (tail.first + int(np.argmax(chances >= prospect))) * self.step_kg
                if chances.max() >= prospect
                else None
                for prospect in _PROSPECTS
            ]
            masses = [None if kg is None else from_grams(round(1000 * kg), unit) for kg in least_kg]
            found.append(Checkpoint(lift, *masses))
        return tuple(found)

    @cached_property
    def most_kg(self) -> float:
        """The total [kg] of a day as good as one in a thousand."""
        spreads = [
            grid.belief.expected.kg * grid.belief.sd for grid in self.request.day.lifts.values()
        ]
        shared = shared_part(self.request.day.parameters)
        spread = np.hypot(
            np.sqrt(shared) * sum(spreads),
            np.sqrt(1.0 - shared) * np.sqrt(sum(each**2 for each in spreads)),
        )
        return float(self.expected_kg + _ONE_IN_A_THOUSAND * spread)


def _aim_mass(stage: Stage, tail: Tail, worth: FloatArray) -> AimMass:
    weights = stage.problem.weights
    follow = tail.seen_from(stage.problem.miss_rate)

    def met(best_kg: float, _: bool, mass: FloatArray) -> float:
        if best_kg <= 0.0:
            return 0.0
        at = int(stage.starts[0] + stage.steps[weights.nearest(best_kg)]) - tail.first
        brings = (mass[:, :, None] * follow[:, at]).sum(axis=(1, 2))
        return float(brings[int((brings @ worth).argmax()), AIM])

    return met


def _readings(day: FloatArray) -> FloatArray:
    points, _ = normal_points(len(day))
    tilted = day * np.exp(np.array(_TILTS)[:, None] * points)
    readings: FloatArray = tilted / tilted.sum(axis=1, keepdims=True)
    return readings
