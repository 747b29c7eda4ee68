"""Ordered aims for one lift: the first aim, then the total, with no-total always at stake.

The first aim is worth as many kilograms of the total as it takes: the least worth at which its
chance comes within a tolerance of the most it can be. With that worth the plan is the best one
under a single utility, so it is consistent from attempt to attempt. The worth has a limit: to miss
the aim is never worse than to lose the total. Without that the best way to a number would be to
open with it, for the sake of a third try. The chance of no lift is capped in the same way, by
raising the stake.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TypeAlias

import numpy as np

from coachdesk.domain.engine.belief import LiftGrid, Taken
from coachdesk.domain.engine.card import Card
from coachdesk.domain.engine.evaluate import AimMass, Outlook, evaluate
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.plan_lift import LiftProblem, OfWeights, Utility
from coachdesk.domain.engine.quadrature import FloatArray
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.engine.why import Reasons, explained
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass


@dataclass(frozen=True, slots=True)
class BiggestTotal:
    """The most kilograms to be expected, what is at stake included."""


@dataclass(frozen=True, slots=True)
class Number:
    """A weight on this lift: a PB, or a record (see `rules.record_weight`)."""

    weight: Mass


@dataclass(frozen=True, slots=True)
class NineGood:
    """Three good lifts of three, the third at least `floor`."""

    floor: Mass


@dataclass(frozen=True, slots=True)
class Place:
    """A place: `chance` takes best weights [kg], 0 for none, to the chance that they take it."""

    chance: OfWeights


Aim: TypeAlias = BiggestTotal | Number | NineGood | Place

WORTHS = tuple(2.0**n for n in range(-6, 1))
"""What a first aim may be worth, of what no total loses."""
_LEAST_STAKE_KG = 50.0
_STAKES = tuple(2.0**n for n in range(11))
_OUT_OF_REACH = 1e-3
_EXACT = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Request:
    """What to plan a lift for.

    `stake_kg` [kg] is what no lift would lose besides the lift; `risk_cap` the most the chance of
    no lift may be (0 to 1), None for no cap; the rest as for `plan_lift`.
    """

    grid: LiftGrid
    limits: Limits
    stake_kg: float
    aim: Aim = BiggestTotal()
    risk_cap: float | None = None
    fixed: Fixed = field(default_factory=dict)
    taken: Sequence[Taken] = ()
    parameters: Parameters = DEFAULT


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """A plan for one lift.

    `outlook` holds the tree with its chances, `aim` the chance of the first aim (None for the
    biggest total) and `best_aim` the most it could be. `stake_kg` [kg] is the stake the plan
    was made with, `utility_kg` [kg] the expected utility with the stake asked for. `cap_met` says
    whether the risk cap could be met, None without one.
    """

    card: Card
    outlook: Outlook
    utility_kg: float
    stake_kg: float
    aim: float | None = None
    best_aim: float | None = None
    cap_met: bool | None = None


def plan_aim(request: Request) -> Plan:
    """The plan for one lift under ordered aims.

    Raises InvalidInput: field "stake" below 0; "risk_cap" outside 0 to 1; "number" or "floor" for a
    weight that is made already, lighter than the bar or out of reach; and what `LiftProblem` and
    its `solve` raise.
    """
    _check(request)
    solver = _Solver(request)
    if isinstance(request.aim, BiggestTotal):
        return solver.within_cap(0.0, None)
    most_kg = request.parameters.aim_worth.value * (
        request.stake_kg + request.grid.belief.expected.kg
    )
    worths_kg = [part * most_kg for part in WORTHS]
    best_aim = solver.aim_chance(solver.card(most_kg, request.stake_kg))
    if best_aim < _OUT_OF_REACH:
        _refuse(request.aim)
    enough = best_aim - request.parameters.aim_tolerance.value
    worth = least(
        worths_kg,
        lambda worth: solver.aim_chance(solver.card(worth, request.stake_kg)) >= enough,
    )
    return solver.within_cap(worth, best_aim)


def least(ladder: Sequence[float], enough: Callable[[float], bool]) -> float:
    """The least rung that is enough, when every higher one is; the last where none is."""
    low, high = 0, len(ladder) - 1
    while low < high:
        middle = (low + high) // 2
        if enough(ladder[middle]):
            high = middle
        else:
            low = middle + 1
    return ladder[low]


@dataclass(frozen=True, eq=False)
class _Solver:
    """Solves one problem for many worths and stakes; the utility is linear in both."""

    request: Request

    @cached_property
    def problem(self) -> LiftProblem:
        request = self.request
        hunts = isinstance(request.aim, Number | Place)
        limits = replace(request.limits, raise_after_strength=True) if hunts else request.limits
        return LiftProblem(
            request.grid.whatever_the_day(),
            limits,
            request.fixed,
            tuple(request.taken),
            request.parameters,
            _reach_kg(request.aim),
        )

    @cached_property
    def leaves(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Kilograms, the chance of no lift, and the chance of the first aim, of each third."""
        leaf, aim = self.problem.leaf, _aim_utility(self.request.aim)
        kilograms = leaf(Utility(lambda best_kg: best_kg, 0.0))
        nothing = leaf(Utility(np.zeros_like, 1.0))
        return kilograms, nothing, np.zeros_like(kilograms) if aim is None else leaf(aim)

    def card(self, worth_kg: float, stake_kg: float) -> Card:
        kilograms, nothing, aim = self.leaves
        return self.problem.solve(kilograms - stake_kg * nothing + worth_kg * aim)

    def aim_chance(self, card: Card) -> float:
        return float(self.leaves[2][card.thirds].sum()) / self.problem.seen_chance

    def no_lift(self, card: Card) -> float:
        return float(self.leaves[1][card.thirds].sum()) / self.problem.seen_chance

    def within_cap(self, worth_kg: float, best_aim: float | None) -> Plan:
        """The plan with that worth of the first aim, the stake raised until the cap is met."""
        request, cap = self.request, self.request.risk_cap
        stake_kg = request.stake_kg
        card = self.card(worth_kg, stake_kg)
        if cap is not None and self.no_lift(card) > cap:
            raised = [max(stake_kg, _LEAST_STAKE_KG) * factor for factor in _STAKES]
            stake_kg = least(raised, lambda stake: self.no_lift(self.card(worth_kg, stake)) <= cap)
            card = self.card(worth_kg, stake_kg)
        kilograms = float(self.leaves[0][card.thirds].sum()) / self.problem.seen_chance
        outlook = evaluate(
            card.choice,
            request.grid,
            taken=request.taken,
            parameters=request.parameters,
            aim=_aim_mass(request.aim),
        )
        reasons = Reasons(request.grid.belief.expected, request.limits)
        return Plan(
            card,
            replace(outlook, opener=explained(outlook.opener, reasons)),
            kilograms - request.stake_kg * self.no_lift(card),
            stake_kg,
            None if best_aim is None else self.aim_chance(card),
            best_aim,
            None if cap is None else self.no_lift(card) <= cap + _EXACT,
        )


def _aim_utility(aim: Aim) -> Utility | None:
    match aim:
        case Number(weight):
            return Utility(lambda best_kg: (best_kg >= weight.kg - _EXACT).astype(float), 0.0)
        case NineGood(floor):
            return Utility(
                np.zeros_like, 0.0, lambda third_kg: (third_kg >= floor.kg - _EXACT).astype(float)
            )
        case Place(chance):
            return Utility(chance, float(chance(np.zeros(1))[0]))
        case BiggestTotal():
            return None


def _aim_mass(aim: Aim) -> AimMass | None:
    match aim:
        case Number(weight):
            return lambda best_kg, _, mass: float(mass.sum()) * (best_kg >= weight.kg - _EXACT)
        case NineGood(floor):
            return lambda best_kg, good, mass: (
                float(mass.sum()) * (good and best_kg >= floor.kg - _EXACT)
            )
        case Place(chance):
            return lambda best_kg, _, mass: float(mass.sum() * chance(np.array([best_kg]))[0])
        case BiggestTotal():
            return None


def _reach_kg(aim: Aim) -> float:
    match aim:
        case Number(weight):
            return weight.kg
        case NineGood(floor):
            return floor.kg
        case _:
            return 0.0


def _refuse(aim: Aim) -> None:
    match aim:
        case Number(weight):
            raise InvalidInput("number", text("engine.number_out_of_reach", number=weight))
        case NineGood(floor):
            raise InvalidInput("floor", text("engine.floor_out_of_reach", floor=floor))
        case _:
            raise InvalidInput("place", text("engine.place_out_of_reach"))


def _check(request: Request) -> None:
    if request.stake_kg < 0:
        raise InvalidInput("stake", text("engine.stake"))
    if request.risk_cap is not None and not 0.0 <= request.risk_cap <= 1.0:
        raise InvalidInput("risk_cap", text("engine.risk_cap"))
    lightest = request.limits.steps.lightest
    made = [taken.weight for taken in request.taken if taken.outcome.is_good]
    match request.aim:
        case Number(weight):
            if weight.grams < lightest.grams:
                raise InvalidInput("number", text("attempts.below_bar", lightest=lightest))
            if made and max(mass.grams for mass in made) >= weight.grams:
                raise InvalidInput("number", text("engine.number_made", number=weight))
        case NineGood(floor) if floor.grams < lightest.grams:
            raise InvalidInput("floor", text("attempts.below_bar", lightest=lightest))
        case _:
            pass
