"""What any given plan for one lift is worth under a belief: the coach's, the textbook's, ours."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.belief import LiftGrid, Taken
from coachdesk.domain.engine.likelihood import SEEN, chances, margins, told_apart
from coachdesk.domain.engine.plan_lift import Utility
from coachdesk.domain.engine.quadrature import FloatArray
from coachdesk.domain.engine.tree import Choice, Node, Way
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text

AimMass: TypeAlias = Callable[[float, bool, FloatArray], float]
"""Takes a best weight [kg], 0 for none, whether all three were good, and the chances [days, miss
rates] of ending so, to the chance that the first aim is met then."""


@dataclass(frozen=True, slots=True, eq=False)
class Outlook:
    """Where a plan for one lift leads.

    `opener` is the plan with its chances. `best_kg` [kg] are the best weights it may end with;
    `chance` [days, miss rates, best weights] how likely each is together with the day's points and
    the miss rates, `nothing` and `all_good` [days, miss rates] the same of no lift made and of
    three made. All chances, no lift included, sum to one.
    """

    opener: Node
    best_kg: FloatArray
    chance: FloatArray
    nothing: FloatArray
    all_good: FloatArray

    @property
    def no_lift(self) -> float:
        """The chance that no lift is made, 0 to 1."""
        return float(self.nothing.sum())

    @property
    def nine_good(self) -> float:
        """The chance that all three attempts are good, 0 to 1."""
        return float(self.all_good.sum())

    @property
    def by_best(self) -> FloatArray:
        """The chance of each of `best_kg`."""
        summed: FloatArray = self.chance.sum(axis=(0, 1))
        return summed

    @property
    def expected_best_kg(self) -> float:
        """The expected best [kg] when a lift is made; 0 when none can be."""
        by_best = self.by_best
        made = by_best.sum()
        return float(by_best @ self.best_kg / made) if made > 0 else 0.0

    def at_least(self, weight_kg: float) -> float:
        """The chance that the best is at least `weight_kg` [kg]."""
        return float(self.by_best[self.best_kg >= weight_kg - 1e-6].sum())

    def utility(self, utility: Utility) -> float:
        """The expected utility, as far as it hangs on the best weight."""
        best = self.by_best @ utility.best(self.best_kg) if len(self.best_kg) else 0.0
        return float(best + self.no_lift * utility.nothing)


def evaluate(
    choice: Choice,
    grid: LiftGrid,
    *,
    taken: Sequence[Taken] = (),
    parameters: Parameters = DEFAULT,
    aim: AimMass | None = None,
) -> Outlook:
    """What the plan `choice` leads to under the belief `grid`.

    `choice` begins with the opener, taken or not, and its ways hold either good outcomes or missed
    ones; of the attempts `taken` only what was seen counts, and chances are as of now. A plan that
    says nothing for an outcome ends there. `aim` gives the first aim's chances. Raises InvalidInput
    (field "taken") where what was seen cannot have been.
    """
    return _Walk(grid, tuple(taken), parameters, aim).outlook(choice)


@dataclass(slots=True)
class _Walk:
    """Goes through a plan with the chances [days, miss rates, strengths] of being there."""

    grid: LiftGrid
    taken: tuple[Taken, ...]
    parameters: Parameters
    aim: AimMass | None
    rates: FloatArray = field(init=False)
    ends: dict[float, FloatArray] = field(init=False, default_factory=dict)
    all_good: FloatArray = field(init=False)
    seen: Mapping[int, Mapping[Outcome, FloatArray]] = field(init=False)

    def outlook(self, choice: Choice) -> Outlook:
        miss = self.grid.belief.miss
        for attempt in self.taken:
            miss = miss.after_two_to_one() if attempt.two_to_one else miss
        self.rates = np.array(miss.rates)
        here = self.grid.day[:, None] * np.array(miss.chances)
        self.all_good = np.zeros_like(here)
        self.seen = self._chances(choice)
        opener, _ = self._attempt(choice, here[:, :, None] * self.grid.given_day[:, None, :], 0.0)
        nothing = self.ends.pop(0.0, np.zeros_like(here))
        best = sorted(self.ends)
        chance = np.stack([self.ends[kg] for kg in best], axis=-1) if best else here[:, :, :0]
        return Outlook(opener, np.array(best), chance, nothing, self.all_good)

    def _attempt(
        self, choice: Choice, mass: FloatArray, best_kg: float, good: int = 0
    ) -> tuple[Node, float]:
        """The attempt with its chances, and the chance that it is taken and the aim is met."""
        past = choice.number <= len(self.taken)
        told = told_apart(self.taken[choice.number - 1].outcome) if past else SEEN
        left, aim, ways = set(told), 0.0, []
        taken = float(mass.sum())
        seen_of = self.seen[choice.weight.grams]
        made = self._made(seen_of, mass)
        for outcomes, following in choice.ways:
            seen = [outcome for outcome in outcomes if outcome in left]
            there = self._after(seen_of, mass, seen)
            chance = float(there.sum())
            left.difference_update(seen)
            if chance <= 0.0 and past and seen:
                raise InvalidInput("taken", text("engine.impossible"))
            if chance <= 0.0:
                continue
            if past:
                there, chance = there / chance, 1.0
            is_good = seen[0].is_good
            better = choice.weight.kg if is_good else best_kg
            then, met = self._attempt(following, there, better, good + is_good)
            ways.append(Way(outcomes, chance / taken, then))
            aim += met
        if left == set(SEEN):
            aim += self._end(made, choice.weight.kg, three_good=good == 2)
            aim += self._end(mass.sum(axis=2) - made, best_kg)
        else:
            for is_good in (True, False):
                ending = [outcome for outcome in left if outcome.is_good is is_good]
                end = self._after(seen_of, mass, ending).sum(axis=2)
                better = choice.weight.kg if is_good else best_kg
                aim += self._end(end, better, three_good=is_good and good == 2)
        node = Node(
            choice.number,
            choice.weight,
            taken,
            float(made.sum()) / taken,
            aim / taken if self.aim is not None else None,
            tuple(ways),
        )
        return node, aim

    def _end(self, end: FloatArray, best_kg: float, *, three_good: bool = False) -> float:
        """The lift ends with the chances `end`; answers the chance that the aim is met then."""
        self.ends[best_kg] = self.ends.get(best_kg, 0.0) + end
        if three_good:
            self.all_good = self.all_good + end
        return 0.0 if self.aim is None else self.aim(best_kg, three_good, end)

    def _chances(self, choice: Choice) -> dict[int, Mapping[Outcome, FloatArray]]:
        """How likely each outcome is at each strength, by the grams of all weights in the plan."""
        weights = {each.weight.grams: each.weight.kg for each in choice.all_choices()}
        margin = margins(np.array(list(weights.values())), self.grid.strengths_kg)
        seen = chances(margin, self.parameters)
        return {
            grams: {outcome: rows[at] for outcome, rows in seen.items()}
            for at, grams in enumerate(weights)
        }

    def _made(self, seen: Mapping[Outcome, FloatArray], mass: FloatArray) -> FloatArray:
        """The chances [days, miss rates] that an attempt is good."""
        made: FloatArray = (mass @ seen[Outcome.GOOD]) * (1.0 - self.rates)
        return made

    def _after(
        self, seen: Mapping[Outcome, FloatArray], mass: FloatArray, outcomes: Sequence[Outcome]
    ) -> FloatArray:
        """The chances [days, miss rates, strengths] with one of `outcomes` seen of an attempt."""
        by_strength = np.zeros(mass.shape[2])
        technical = np.zeros(len(self.rates))
        for outcome in outcomes:
            if outcome is Outcome.PASSED:
                return mass
            if outcome is Outcome.TECHNICAL:
                technical = self.rates
            else:
                by_strength += seen[outcome]
        after: FloatArray = mass * ((1.0 - self.rates)[:, None] * by_strength + technical[:, None])
        return after
