"""Attempts that were taken, and how likely they went as they did at each strength of the day.

The engine's likelihood, as far as made and missed go (see `engine.likelihood`): with t the chance
of a technical miss, S the day's maximum and w the weight, an attempt is good with the chance
(1 - t) Phi((S - w) / (nu S)). It stands here without numpy, since a forecast is wanted where the
engine is not loaded.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import erf, sqrt

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Result
from coachdesk.domain.text import text

_SOMETHING_ELSE = ".other"
_LEAST = 1e-12
"""What was seen did happen, however little the belief expected it."""


@dataclass(frozen=True, slots=True)
class Tried:
    """An attempt that was taken: its weight [kg], and what became of it.

    `outcome` is GOOD, STRENGTH, TECHNICAL, or NO_LIFT where the cause was not noted. Raises
    InvalidInput (field "weight") for a weight that is not above zero.
    """

    weight_kg: float
    outcome: Outcome

    def __post_init__(self) -> None:
        if not self.weight_kg > 0.0:
            raise InvalidInput("weight", text("one_rep_max.weight_not_positive"))

    @property
    def is_unexplained(self) -> bool:
        """Whether it was missed and nobody noted why."""
        return self.outcome is Outcome.NO_LIFT


def within(weight_kg: float, strengths_kg: Iterable[float]) -> list[float]:
    """The chance that `weight_kg` [kg] is within each strength [kg] of the day."""
    steepness = 1.0 / (DEFAULT.strength_spread.value * sqrt(2.0))
    return [
        0.5 * (1.0 + erf((1.0 - weight_kg / strength) * steepness)) for strength in strengths_kg
    ]


def likelihood(
    attempts: Iterable[Tried], strengths_kg: Sequence[float], miss_rate: float = 0.0
) -> list[float]:
    """How likely it is at each strength [kg] that the attempts went as they did.

    Up to a factor: technical misses tell nothing about strength, nor does a miss rate where the
    cause is known.
    """
    product = [1.0] * len(strengths_kg)
    for attempt in attempts:
        if attempt.outcome is Outcome.TECHNICAL:
            continue
        made = within(attempt.weight_kg, strengths_kg)
        if attempt.outcome is Outcome.GOOD:
            chances = [_LEAST + good for good in made]
        elif attempt.is_unexplained:
            chances = [miss_rate + (1.0 - miss_rate) * (1.0 - good) for good in made]
        else:
            chances = [_LEAST + 1.0 - good for good in made]
        product = [so_far * chance for so_far, chance in zip(product, chances, strict=True)]
    return product


def outcome_of(
    result: Result | None, cause: str, strength_causes: frozenset[str]
) -> Outcome | None:
    """What a result says of an attempt; None where nothing was taken, or it is to be taken again.

    `cause` is a cause's code, `strength_causes` those that say that strength ran out.
    """
    if result is Result.GOOD:
        return Outcome.GOOD
    if result is not Result.NO_LIFT:
        return None
    if not cause or cause.endswith(_SOMETHING_ELSE):
        return Outcome.NO_LIFT
    return Outcome.STRENGTH if cause in strength_causes else Outcome.TECHNICAL
