"""The planner against exhaustive enumeration of small cases, and against closed forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import erf, sqrt
from typing import TypeAlias

import numpy as np
import pytest

from coachdesk.domain.attempts import Outcome, Steps
from coachdesk.domain.engine.belief import LiftBelief, LiftGrid, Taken, one_lift
from coachdesk.domain.engine.card import best_card, opener_values
from coachdesk.domain.engine.evaluate import evaluate
from coachdesk.domain.engine.likelihood import JUDGED, SEEN
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.plan_lift import (
    LiftProblem,
    Utility,
    kilograms_at_stake,
    plan_lift,
)
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.units import kilograms

STEPS = Steps(step=kilograms("2.5"), lightest=kilograms(25))
NU = 0.008
STAKE = 350.0

Leaf: TypeAlias = Callable[[float, Outcome, float, Outcome, float], float]


def _grid(sd: float = 0.03, rate: float = 0.05, *, known: bool = False) -> LiftGrid:
    miss = MissRate.known(rate) if known else MissRate.learned(rate, 20)
    return one_lift(LiftBelief(kilograms(200), sd, miss))


def _phi(x: float) -> float:
    return 0.5 * (1 + erf(x / sqrt(2)))


def _likely(outcome: Outcome, weight: float, strength: float) -> float:
    """The likelihoods once more, from the documented formula: margins 3 and 7.5 %, blur 2 %."""
    margin = (strength - weight) / strength
    made = _phi(margin / NU)
    easy, grind = _phi((margin - 0.075) / 0.02), _phi((0.03 - margin) / 0.02)
    return {
        Outcome.EASY: made * easy,
        Outcome.AS_PLANNED: made * (1 - easy - grind),
        Outcome.GRIND: made * grind,
        Outcome.GOOD: made,
        Outcome.STRENGTH: 1 - made,
        Outcome.TECHNICAL: 1.0,
    }[outcome]


def _leaf(grid: LiftGrid) -> Leaf:
    """The expected utility of a third times the chance to come to it, summed over everything."""
    states = [
        (float(s), rate, float(p) * chance)
        for s, p in zip(grid.strengths_kg, grid.chance, strict=True)
        for rate, chance in zip(grid.belief.miss.rates, grid.belief.miss.chances, strict=True)
    ]

    def leaf(first: float, one: Outcome, second: float, two: Outcome, third: float) -> float:
        best = second if two.is_good else first if one.is_good else -STAKE
        total = 0.0
        for strength, rate, chance in states:
            for outcome, weight in ((one, first), (two, second)):
                factor = rate if outcome is Outcome.TECHNICAL else 1 - rate
                chance *= factor * _likely(outcome, weight, strength)  # noqa: PLW2901
            good = (1 - rate) * _likely(Outcome.GOOD, third, strength)
            total += chance * (good * third + (1 - good) * best)
        return total

    return leaf


@dataclass(frozen=True)
class Small:
    """A case small enough to try out every plan: six weights, four strengths."""

    problem: LiftProblem
    leaf: Leaf
    raises: bool
    weights: tuple[float, ...] = (185.0, 187.5, 190.0, 192.5, 195.0, 197.5)

    def allowed(self, before: float, seen: Outcome, made: bool) -> list[float]:
        """Up after a good lift; the same again on a technicality with none made, and on strength
        unless raises are allowed."""
        if seen.is_good:
            return [weight for weight in self.weights if weight > before]
        if seen is Outcome.STRENGTH and not self.raises:
            return [before]
        if seen is Outcome.TECHNICAL and not made:
            return [before]
        return [weight for weight in self.weights if weight >= before]


def _small_case(*, raises: bool = False) -> Small:
    limits = Limits(
        steps=STEPS,
        floor=kilograms(185),
        ceiling=kilograms("197.5"),
        largest_jump=None,
        raise_after_strength=raises,
    )
    belief = LiftBelief(kilograms(200), 0.03, MissRate.learned(0.05, 20))
    coarse = LiftGrid(
        belief, np.array([184.0, 194, 201, 207]), np.array([[0.1, 0.3, 0.4, 0.2]]), np.ones(1)
    )
    return Small(LiftProblem(coarse, limits, {}, (), seen=JUDGED), _leaf(coarse), raises)


@pytest.mark.parametrize("raises", [False, True])
def test_openers_are_worth_what_enumeration_says(raises: bool) -> None:
    """Every second and third tried out, outcome by outcome."""
    case = _small_case(raises=raises)
    problem = case.problem
    values = opener_values(problem.layout, problem.leaf(kilograms_at_stake(STAKE)))
    for opener, value in zip(case.weights[:4], values, strict=False):
        worth = 0.0
        for one in JUDGED:
            worth += max(
                sum(
                    max(
                        (
                            case.leaf(opener, one, second, two, third)
                            for third in case.allowed(second, two, one.is_good or two.is_good)
                        ),
                        default=-1e12,
                    )
                    for two in JUDGED
                )
                for second in case.allowed(opener, one, one.is_good)
            )
        assert value == pytest.approx(worth, rel=1e-9)


def _branches(
    case: Small, opener: float, one: Outcome
) -> Iterator[tuple[float, tuple[float, ...], float]]:
    """Every way to go on after an outcome: the second, the thirds, and what it is worth."""
    for second in case.allowed(opener, one, one.is_good):
        options = [case.allowed(second, two, one.is_good or two.is_good) for two in JUDGED]
        worths = [
            {third: case.leaf(opener, one, second, two, third) for third in thirds}
            for two, thirds in zip(JUDGED, options, strict=True)
        ]
        for thirds in product(*options):
            worth = sum(each[third] for each, third in zip(worths, thirds, strict=True))
            yield second, thirds, worth


def _lines(branches: Sequence[tuple[float, tuple[float, ...]]]) -> int | None:
    """Lines of a card: the opener, each second, the thirds of each without repetition, good and
    missed apart. None where the two misses share a second but not what follows."""
    good, strength, technical = branches
    if strength[0] == technical[0] and strength[1] != technical[1]:
        return None
    return 1 + sum(2 + len(set(thirds[1:])) for _, thirds in [good, *{strength, technical}])


@pytest.mark.parametrize(
    ("lines", "raises"), [(7, False), (8, False), (9, True), (10, True), (31, False)]
)
def test_the_card_is_the_best_tree_of_so_many_lines(lines: int, raises: bool) -> None:
    """Every tree by good, missed on strength, missed on a technicality, written out."""
    case = _small_case(raises=raises)
    problem = case.problem
    found = best_card(problem.layout, problem.leaf(kilograms_at_stake(STAKE)), lines)
    assert found is not None
    best = -np.inf
    for opener in case.weights[:4]:
        # Of the ways with the same second and as many lines only the best can matter, unless the
        # misses share them.
        ways = [_best_ways(_branches(case, opener, one)) for one in JUDGED]
        for branches in product(*ways):
            count = _lines([branch[:2] for branch in branches])
            if count is not None and count <= lines:
                best = max(best, sum(branch[2] for branch in branches))
        for shared in _shared(case, opener):
            for good in ways[0]:
                if 1 + 2 + len(set(good[1][1:])) + 2 + len(set(shared[1][1:])) <= lines:
                    best = max(best, good[2] + shared[2])
    assert found.value == pytest.approx(best, rel=1e-9)
    assert found.choice.lines <= lines


def test_good_and_missed_never_share_a_line() -> None:
    """All or nothing at 197.5: whatever is seen, the third is 197.5. Each second takes three lines
    all the same, so that a card of seven holds two of them."""
    problem = _small_case(raises=True).problem
    utility = Utility(lambda best_kg: (best_kg >= 197.5).astype(float), 0.0)
    found = best_card(problem.layout, problem.leaf(utility), 7)
    assert found is not None
    assert found.choice.lines <= 7


Branch: TypeAlias = tuple[float, tuple[float, ...], float]


def _best_ways(branches: Iterator[Branch]) -> list[Branch]:
    best: dict[tuple[float, int], Branch] = {}
    for branch in branches:
        key = branch[0], len(set(branch[1][1:]))
        if key not in best or branch[2] > best[key][2]:
            best[key] = branch
    return list(best.values())


def _shared(case: Small, opener: float) -> Iterator[Branch]:
    """The ways that both misses may share."""
    technical = {branch[:2]: branch[2] for branch in _branches(case, opener, Outcome.TECHNICAL)}
    for second, thirds, worth in _branches(case, opener, Outcome.STRENGTH):
        if (second, thirds) in technical:
            yield second, thirds, worth + technical[second, thirds]


def test_a_plan_is_worth_what_its_own_tree_is_worth() -> None:
    """Every end of the tree added up by hand, over the documented formula."""
    grid = _grid()
    card = plan_lift(grid, Limits(steps=STEPS), kilograms_at_stake(STAKE))
    leaf = _leaf(grid)
    total = 0.0
    for one in SEEN:
        second = card.choice.after(one)
        assert second is not None
        for two in SEEN:
            third = second.after(two)
            assert third is not None
            weights = (card.choice.weight.kg, second.weight.kg, third.weight.kg)
            total += leaf(weights[0], one, weights[1], two, weights[2])
    assert card.value == pytest.approx(total, rel=1e-9)
    outlook = evaluate(card.choice, grid)
    assert outlook.utility(kilograms_at_stake(STAKE)) == pytest.approx(total, rel=1e-9)


def test_a_sure_day_without_technical_misses_is_lifted_out() -> None:
    """sd to 0, t to 0: the strength is known and nothing is learned. With chances p(w) the value of
    n attempts left is V_n(b) = max p(w) max(V_n-1(w), ..), backward by hand; weights go up after a
    good lift, and stay or go up after a miss."""
    weights = [160 + 2.5 * n for n in range(20)]
    made = {weight: _phi((200 - weight) / (200 * NU)) for weight in weights}

    def value(left: int, bar: float, best: float | None, good: bool) -> float:
        if left == 0:
            return -STAKE if best is None else best
        options = [weight for weight in weights if weight > bar or (weight == bar and not good)]
        return max(
            (
                made[weight] * value(left - 1, weight, weight, True)
                + (1 - made[weight]) * value(left - 1, weight, best, False)
                for weight in options
            ),
            default=-1e12,
        )

    limits = Limits(
        steps=STEPS, largest_jump=None, repeat_after_technical=False, raise_after_strength=True
    )
    grid = _grid(sd=1e-5, rate=0.0)
    card = plan_lift(grid, limits, kilograms_at_stake(STAKE))
    assert card.value == pytest.approx(value(3, 0.0, None, False), abs=1e-3)


def test_who_always_misses_loses_what_is_at_stake() -> None:
    """t to 1."""
    card = plan_lift(_grid(rate=1.0), Limits(steps=STEPS), kilograms_at_stake(STAKE))
    assert card.value == pytest.approx(-STAKE)


def test_with_technical_misses_alone_the_chance_of_no_lift_is_their_run() -> None:
    """A weight far within strength: no lift only if all three are technical misses, and for a Beta
    distribution of 20 attempts' worth and mean 5 % that is a (a + 1) (a + 2) / (20 . 21 . 22)."""
    grid = _grid(rate=0.05)
    problem = LiftProblem(
        grid, Limits(steps=STEPS), {(): kilograms(150), (Outcome.NO_LIFT,): kilograms(150)}, ()
    )
    card = problem.solve(problem.leaf(kilograms_at_stake(STAKE)))
    assert evaluate(card.choice, grid).no_lift == pytest.approx(
        1 * 2 * 3 / (20 * 21 * 22), rel=1e-6
    )


def test_one_attempt_left_is_one_attempt_in_closed_form() -> None:
    """Two technical misses at 180, both of the chance t^2 whatever the strength. What is left is
    max (w + stake) P(w) - stake over w >= 180 with P(w) = (1 - t) E Phi: the attempt succeeds when
    S (1 - nu e) > w with e standard normal, so P is one integral over e, taken at 2,001 points."""
    rate = 0.06
    limits = Limits(steps=STEPS, largest_jump=None, repeat_after_technical=False)
    missed = Taken(kilograms(180), Outcome.TECHNICAL)
    grid = _grid(sd=0.04, rate=rate, known=True)
    card = plan_lift(grid, limits, kilograms_at_stake(STAKE), taken=(missed, missed))
    e = np.linspace(-6, 6, 2001)
    density = np.exp(-(e**2) / 2) / sqrt(2 * np.pi) * (e[1] - e[0])
    worths = {}
    for weight in (180 + 2.5 * n for n in range(16)):
        within = [_phi((200 - weight / (1 - NU * x)) / (200 * 0.04)) for x in e]
        worths[weight] = (1 - rate) * float(density @ np.array(within)) * (weight + STAKE) - STAKE
    best = max(worths, key=lambda weight: worths[weight])
    third = card.choice.ways[0][1].ways[0][1].weight.kg
    assert third == best
    assert card.value / rate**2 == pytest.approx(worths[best], abs=1e-2)


def test_what_is_seen_splits_the_outlook_and_never_changes_its_sum() -> None:
    """The law of total probability, outcome by outcome of the opener."""
    grid = _grid()
    utility = kilograms_at_stake(STAKE)
    choice = plan_lift(grid, Limits(steps=STEPS), utility).choice
    whole = evaluate(choice, grid)
    parts = 0.0
    for outcome in SEEN:
        told = [way.chance for way in whole.opener.ways if way.outcomes == (outcome,)]
        taken = (Taken(choice.weight, outcome),)
        seen = _leaf_chance(grid, outcome, choice.weight.kg)
        parts += seen * evaluate(choice, grid, taken=taken).utility(utility)
        assert not told or told[0] == pytest.approx(seen)
    assert parts == pytest.approx(whole.utility(utility))


def _leaf_chance(grid: LiftGrid, outcome: Outcome, weight: float) -> float:
    likely = np.array([_likely(outcome, weight, float(s)) for s in grid.strengths_kg])
    rate = grid.belief.miss.mean
    factor = rate if outcome is Outcome.TECHNICAL else 1 - rate
    return factor * float(grid.chance @ likely)
