"""What the assumed parameters cost where they are wrong.

Run with `python tests/bench/sensitivity.py` in the environment of the project. For a first-timer, a
typical lifter and an experienced one (200 kg expected, 350 kg at stake) a plan is made with one
parameter halved or doubled, and with less seen than a handler can tell; then the day follows the
default. Prints, in Markdown, the kilograms of expected utility that are lost against the plan made
with the default. `card`: plans as printed; they follow what was seen. Lines "only made, missed and
why" tell a miss on strength from a technical one; "only made and missed" is the best tree of seven
weights by made and missed alone, climbed to from the plan by steps of one or two weights.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import product

from coachdesk.domain.attempts import Outcome, Steps
from coachdesk.domain.engine import (
    DEFAULT,
    Choice,
    LiftBelief,
    LiftGrid,
    Limits,
    MissRate,
    Parameters,
    evaluate,
    kilograms_at_stake,
    one_lift,
)
from coachdesk.domain.engine.likelihood import JUDGED, SEEN
from coachdesk.domain.engine.plan_lift import LiftProblem
from coachdesk.domain.units import kilograms

EXPECTED_KG, STAKE_KG, STEP_KG, ATTEMPTS = 200.0, 350.0, 2.5, 20
ATHLETES = {
    "first-timer (sd 4.5 %, t 6 %)": (0.045, 0.06),
    "typical (3 %, 2.5 %)": (0.03, 0.025),
    "experienced (2.5 %, 2 %)": (0.025, 0.02),
}
NAMES = {
    "strength_spread": "nu",
    "grind_below": "a grind below",
    "easy_above": "easy above",
    "seen_spread": "blur of what is seen",
}
LIMITS = Limits(steps=Steps(step=kilograms(str(STEP_KG)), lightest=kilograms(25)))
UTILITY = kilograms_at_stake(STAKE_KG)
GOOD, MISSED = SEEN[:3], SEEN[3:]
_PATHS = ((), (True,), (False,), (True, True), (True, False), (False, True), (False, False))


def changed(name: str, factor: float) -> Parameters:
    """The defaults with one parameter multiplied."""
    parameter = getattr(DEFAULT, name)
    return replace(DEFAULT, **{name: replace(parameter, value=factor * parameter.value)})


def belief(sd: float, rate: float, parameters: Parameters = DEFAULT) -> LiftGrid:
    """What is believed of an athlete."""
    miss = MissRate.learned(rate, ATTEMPTS)
    return one_lift(LiftBelief(kilograms(EXPECTED_KG), sd, miss), parameters)


def plan(
    sd: float, rate: float, parameters: Parameters, seen: tuple[Outcome, ...] = SEEN
) -> Choice:
    """The best plan on a card under `parameters`, with `seen` told apart."""
    problem = LiftProblem(belief(sd, rate, parameters), LIMITS, {}, (), parameters, seen=seen)
    choice = problem.solve(problem.leaf(UTILITY)).choice
    return choice if seen == SEEN else _in_full(choice)


def _in_full(choice: Choice) -> Choice:
    """A plan by coarse outcomes as one by all that may be seen."""
    ways = tuple(
        (GOOD if outcomes[0] is Outcome.GOOD else outcomes, _in_full(following))
        for outcomes, following in choice.ways
    )
    return replace(choice, ways=ways)


def by_made_and_missed(start: Choice, worth: Callable[[Choice], float]) -> Choice:
    """The best tree by made and missed alone that small changes lead to."""
    at = tuple(_weight(start, path) for path in _PATHS)
    best = worth(_tree(at))
    better = True
    while better:
        better = False
        for moves in product((-STEP_KG, 0.0, STEP_KG), repeat=2):
            for one, other in product(range(len(at)), repeat=2):
                there = list(at)
                there[one] += moves[0]
                there[other] += moves[1]
                if _legal(tuple(there)) and (found := worth(_tree(tuple(there)))) > best + 1e-9:
                    at, best, better = tuple(there), found, True
    return _tree(at)


def _weight(choice: Choice, path: tuple[bool, ...]) -> float:
    for good in path:
        after = choice.after(Outcome.AS_PLANNED if good else Outcome.STRENGTH)
        if after is None:
            raise ValueError("a plan has three attempts on every way")
        choice = after
    return choice.weight.kg


def _tree(weights: tuple[float, ...]) -> Choice:
    held = dict(zip(_PATHS, weights, strict=True))

    def choice(path: tuple[bool, ...]) -> Choice:
        number, weight = len(path) + 1, kilograms(held[path])
        if number == 3:
            return Choice(number, weight)
        return Choice(
            number, weight, ((GOOD, choice((*path, True))), (MISSED, choice((*path, False))))
        )

    return choice(())


def _legal(weights: tuple[float, ...]) -> bool:
    """After a good lift up, within the largest jump; after a miss the same, as by default."""
    held = dict(zip(_PATHS, weights, strict=True))
    most = 1.0 + DEFAULT.largest_jump.value
    return all(
        before + STEP_KG <= held[(*path, True)] <= before * most and held[(*path, False)] == before
        for path, before in held.items()
        if len(path) < 2
    )


def table() -> Iterator[str]:
    """The lines of the table."""
    yield f"| the plan is made with | {' | '.join(ATHLETES)} |"
    yield "|" + "---|" * (1 + len(ATHLETES))
    values = {athlete: _worth(*figures) for athlete, figures in ATHLETES.items()}
    plans = {athlete: plan(*figures, DEFAULT) for athlete, figures in ATHLETES.items()}
    best = {athlete: values[athlete](plans[athlete]) for athlete in ATHLETES}
    yield _row("the defaults: utility, kg", [f"{best[athlete]:.2f}" for athlete in ATHLETES])
    for name, words in NAMES.items():
        for factor, how in ((0.5, "halved"), (2.0, "doubled")):
            wrong = changed(name, factor)
            made = {athlete: plan(*figures, wrong) for athlete, figures in ATHLETES.items()}
            yield _row(f"{words} {how}", [_lost(best, values, made, who) for who in ATHLETES])
    coarse = {who: plan(*figures, DEFAULT, JUDGED) for who, figures in ATHLETES.items()}
    yield _row("only made, missed and why", [_lost(best, values, coarse, who) for who in ATHLETES])
    coarsest = {who: by_made_and_missed(coarse[who], values[who]) for who in ATHLETES}
    yield _row("only made and missed", [_lost(best, values, coarsest, who) for who in ATHLETES])


def _worth(sd: float, rate: float) -> Callable[[Choice], float]:
    truth = belief(sd, rate)
    return lambda choice: evaluate(choice, truth).utility(UTILITY)


def _lost(
    best: dict[str, float],
    values: dict[str, Callable[[Choice], float]],
    plans: dict[str, Choice],
    athlete: str,
) -> str:
    lost = best[athlete] - values[athlete](plans[athlete])
    return f"{lost:.2f} (opens at {plans[athlete].weight.kg:g})"


def _row(name: str, values: list[str]) -> str:
    return f"| {name} | {' | '.join(values)} |"


if __name__ == "__main__":
    for line in table():
        sys.stdout.write(line + "\n")
