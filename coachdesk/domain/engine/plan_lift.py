"""The plan for one lift under any utility: backward induction over three attempts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np

from coachdesk.domain.attempts import Outcome, check_on_bar
from coachdesk.domain.engine.belief import LiftGrid, Taken
from coachdesk.domain.engine.card import Card, best_card
from coachdesk.domain.engine.fixed import Fixed
from coachdesk.domain.engine.layout import Fixes, Layout, Sights, lay_out
from coachdesk.domain.engine.likelihood import SEEN, told_apart
from coachdesk.domain.engine.masses import Masses, MissFactors, miss_factors, strength_masses
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.quadrature import FloatArray, IntArray
from coachdesk.domain.engine.rules import Limits, Weights, weights_between
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text

OfWeights: TypeAlias = Callable[[FloatArray], FloatArray]
_WORST_DAY, _BEST_DAY = 3e-5, 5e-4
_MOST_LINES = 31
_SURE = 3.0
_ROOM = 3


@dataclass(frozen=True, slots=True)
class Utility:
    """What an end of the lift is worth.

    `best` takes best weights [kg] to utilities; `nothing` is the utility without a good lift;
    `all_good`, where given, takes thirds [kg] to what three good lifts with that third add.
    """

    best: OfWeights
    nothing: float
    all_good: OfWeights | None = None


def kilograms_at_stake(stake_kg: float) -> Utility:
    """*Biggest total*: a kilogram is a kilogram, and no lift loses `stake_kg` [kg] besides."""
    return Utility(lambda best_kg: best_kg, -stake_kg)


@dataclass(frozen=True, eq=False)
class LiftProblem:
    """One lift to be planned: the belief, the limits, what is fixed, and what was taken already.

    Raises InvalidInput: field "expected" for a maximum below the lightest bar; "limits" where no
    weights are left between the limits; "weight" for a fixed weight off the steps or below the bar;
    "opener" for a fixed opener above the expected maximum; "taken" for three attempts or more, or
    when one of them hurt.
    """

    grid: LiftGrid
    limits: Limits
    fixed: Fixed
    taken: tuple[Taken, ...]
    parameters: Parameters = DEFAULT
    reach_kg: float = 0.0
    """A weight [kg] that has to be in reach besides."""
    seen: tuple[Outcome, ...] = SEEN
    """What is told apart of the attempts to come."""
    every: int = 1
    """Only each so many-th weight is thought of as an opener."""

    def __post_init__(self) -> None:
        expected, steps = self.grid.belief.expected, self.limits.steps
        if any(taken.pain for taken in self.taken):
            raise InvalidInput("taken", text("engine.pain"))
        if len(self.taken) > 2:
            raise InvalidInput("taken", text("engine.lift_over"))
        if expected.grams < steps.lightest.grams:
            raise InvalidInput("expected", text("attempts.below_bar", lightest=steps.lightest))
        opener = self.fixed.get(())
        if opener is not None and opener.grams > expected.grams:
            raise InvalidInput(
                "opener",
                text("attempts.opener_above_expected", opener=opener, expected=expected),
            )
        for weight in self.fixed.values():
            if weight != self.limits.record:
                check_on_bar("weight", weight, steps)

    @cached_property
    def weights(self) -> Weights:
        """The weights in reach: what surely goes up, to what hardly may."""
        worst, best = np.interp(
            (_WORST_DAY, 1.0 - _BEST_DAY), np.cumsum(self.grid.chance), self.grid.strengths_kg
        )
        sure = 1.0 - _SURE * self.parameters.strength_spread.value
        asked = [taken.weight for taken in self.taken] + list(self.fixed.values())
        low = min([worst * sure] + [weight.kg for weight in asked])
        high = max([best, self.reach_kg] + [weight.kg for weight in asked])
        room = _ROOM * self.limits.steps.step.kg
        return weights_between(self.limits, low, high + room, asked)

    @cached_property
    def layout(self) -> Layout:
        """Every way the lift can still go."""
        fixed = {before: self.weights.nearest(weight.kg) for before, weight in self.fixed.items()}
        fixed.update(self._past())
        sights = Sights(
            *(
                told_apart(self.taken[at].outcome) if at < len(self.taken) else self.seen
                for at in range(2)
            )
        )
        opener = fixed.pop((), None)
        openers = self._openers() if opener is None else np.array([opener])
        return lay_out(self.weights, openers, sights, Fixes.of(fixed), self.limits)

    @cached_property
    def miss_rate(self) -> MissRate:
        """The chance of a technical miss, with what two-to-one passes tell of it."""
        miss = self.grid.belief.miss
        for taken in self.taken:
            miss = miss.after_two_to_one() if taken.two_to_one else miss
        return miss

    @cached_property
    def miss(self) -> MissFactors:
        """The chances of technical misses along the ways."""
        return miss_factors(self.layout, self.miss_rate)

    @cached_property
    def masses(self) -> Masses:
        """The chances of the ways by strength, given each of the day's points."""
        return strength_masses(self.layout, self.grid, self.parameters)

    @cached_property
    def reached(self) -> FloatArray:
        """For each row, the chance that the day comes to a third attempt by it."""
        rates = np.array(self.miss_rate.chances)
        by_strength = (self.masses.reached * self.grid.day).sum(axis=1)
        reached: FloatArray = by_strength * (self.miss.reached @ rates)[self.miss.kind]
        return reached

    @cached_property
    def chances(self) -> tuple[FloatArray, FloatArray]:
        """For each third, the chances that it is made, and that it is missed."""
        rates = np.array(self.miss_rate.chances)
        by_strength = (self.masses.made * self.grid.day).sum(axis=1)
        row = self.layout.row
        made = by_strength * (self.miss.made @ rates)[self.miss.kind[row]]
        return made, self.reached[row] - made

    @cached_property
    def seen_chance(self) -> float:
        """The chance of what was seen of the attempts taken; one before the first."""
        rows = self.reached.reshape(-1, len(self.layout.sights.second))
        branches = rows.sum(axis=1)[self.layout.second_starts]
        return float(branches[: len(self.layout.sights.first)].sum())

    def leaf(self, utility: Utility) -> FloatArray:
        """The utility of each third times its chance."""
        layout, made, missed = self.layout, *self.chances
        ends = np.append(utility.best(self.weights.kg), utility.nothing)
        before = ends[layout.best_before][layout.row]
        after = ends[layout.third]
        if utility.all_good is not None:
            first, second = layout.outcomes_of_row
            good_first = np.array([outcome.is_good for outcome in layout.sights.first])[first]
            good_second = np.array([outcome.is_good for outcome in layout.sights.second])[second]
            bonus = utility.all_good(self.weights.kg)
            after = after + (good_first & good_second)[layout.row] * bonus[layout.third]
        values: FloatArray = made * after + missed * before
        return values

    def solve(self, leaf: FloatArray) -> Card:
        """The best plan on a card; raises InvalidInput (field "limits") where the limits and what
        is fixed leave none, or "taken" where what was seen cannot have been. What the coach
        fixed may take more lines than a card has."""
        if self.taken and self.seen_chance <= 0.0:
            raise InvalidInput("taken", text("engine.impossible"))
        lines, past = int(self.parameters.card_lines.value), len(self.taken)
        card = best_card(self.layout, leaf, lines, taken=past)
        if card is None and self.fixed:
            card = best_card(self.layout, leaf, _MOST_LINES, taken=past)
        if card is None:
            raise InvalidInput("limits", text("engine.no_way"))
        return card

    def _openers(self) -> IntArray:
        """No opener above the expected maximum, or what has to be in reach, is worth a thought."""
        most = max(self.grid.belief.expected.kg, self.reach_kg)
        fit = np.flatnonzero(self.weights.kg <= most)[:: self.every]
        return fit if len(fit) else np.array([0])

    def _past(self) -> dict[tuple[Outcome, ...], int]:
        weights = [self.weights.nearest(taken.weight.kg) for taken in self.taken]
        seen = tuple(taken.outcome for taken in self.taken)
        return {seen[:at]: weight for at, weight in enumerate(weights)}


def plan_lift(
    grid: LiftGrid,
    limits: Limits,
    utility: Utility,
    *,
    fixed: Fixed | None = None,
    taken: Sequence[Taken] = (),
    parameters: Parameters = DEFAULT,
) -> Card:
    """The best plan for one lift under `utility`, as a tree that fits on a card.

    `fixed` are weights the coach has fixed; with attempts `taken` the tree begins with them and
    leads on from what was seen. Raises what `LiftProblem` and its `solve` raise.
    """
    problem = LiftProblem(grid, limits, dict(fixed or {}), tuple(taken), parameters)
    return problem.solve(problem.leaf(utility))
