"""What a recorded day says of an attempt: the engine's success curve, and what a choice reveals.

The engine's part, unchanged: an attempt at w succeeds with the chance (1 - t) Phi((S - w) / (nu S))
(`likelihood.chances`), t has a Beta distribution about its mean (`MissRate`), and every history is
weighed by Bayes' rule. What recorded days need besides, since neither the coach's number nor how a
lift moved was written down:

1. **The day's maximum from the opener.** S = opener (1 + plan) (1 + sd z): `plan` is how far the
   coach opened below the expected maximum, log-normal between coaches; z is standard normal.
2. **What a weight chosen next reveals.** After a good lift the coach has seen it move. With v the
   true margin over it (S over the weight, less one), the jump j that is asked for satisfies

       v = at + slope log(j / 5 %) + spread e,    e standard normal.

   So a big jump speaks for a margin. After a miss the coach knows the cause, the record does not.
   A weight missed on strength missed it by little (`missed_by`); as an opener it is repeated, as a
   second with the chance `strength_repeats` (left free the figure for openers comes out as one). A
   technical miss is repeated as often as raised, and a raise then speaks as after a good lift, from
   `raise_shift` higher.

The posterior of S therefore holds what the coach saw, and a miss is not read as lack of strength
alone. Only ratios of likelihoods of choices count: weights are never predicted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from typing import TypeAlias

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.likelihood import chances, margins
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.quadrature import normal_points
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.lifting import Lift
from tests.bench.fitting.recorded_days import (
    EQUIPMENT,
    EXPERIENCES,
    JUMPS,
    Bools,
    Floats,
    Ints,
    Lines,
)

PLAN_SPREAD = 0.45
"""The spread of the logarithm of the plan, as that of the first jump after a good opener (recorded:
0.45 in the squat, 0.48 in the bench press, 0.45 in the deadlift)."""
TECHNICAL_REPEATS = 0.5
"""Only its ratio to `strength_repeats` counts."""

_STRENGTHS = np.arange(0.82, 1.60, 0.0075)
_PLANS, _PLAN_CHANCES = normal_points(15)
_USUAL_JUMP = 0.05

MissRates: TypeAlias = Mapping[tuple[int, int], MissRate]
"""By places in `EXPERIENCES` and `EQUIPMENT`."""


@dataclass(frozen=True, slots=True)
class Choices:
    """The fitted figures of one lift; fractions of the weight unless said otherwise.

    `plan_...` are medians of the plan by experience, `plan_equipped` is added in equipment;
    `day_spread` is sd. `second_...` and `third_...` are at, slope and spread of the two jumps;
    `third_equipped` is added to `third_at` in equipment, `third_meets` once for each step of
    experience. `missed_by` is the spread of v after a miss on strength. `strength_repeats` is a
    chance.
    """

    plan_first_meet: float = 0.18
    plan_early: float = 0.17
    plan_seasoned: float = 0.17
    plan_equipped: float = 0.0
    day_spread: float = 0.042
    second_at: float = 0.0
    second_slope: float = 0.35
    second_spread: float = 0.13
    third_at: float = 0.05
    third_slope: float = 0.15
    third_spread: float = 0.065
    third_equipped: float = 0.0
    third_meets: float = 0.0
    raise_shift: float = 0.12
    strength_repeats: float = 0.95
    missed_by: float = 0.05


CHOICES = tuple(field.name for field in fields(Choices))


@dataclass(frozen=True, eq=False)
class Model:
    """Predicts the attempts on `lines`, whatever the figures."""

    lines: Lines
    parameters: Parameters = DEFAULT

    @cached_property
    def _within(self) -> tuple[Floats, Floats, Floats]:
        """The chance that strength suffices for each attempt: [1, S], [j, S], [j, j, S]."""
        up = 1.0 + JUMPS
        ratios = (np.ones(1), up, (up[:, None] * up).ravel())
        opener, second, third = (
            chances(margins(ratio, _STRENGTHS), self.parameters)[Outcome.GOOD] for ratio in ratios
        )
        return opener, second, third.reshape(len(up), len(up), -1)

    def predict(self, choices: Choices, miss_rates: MissRates) -> Floats:
        """The chance that the attempt of each line is good."""
        prior, powers = _priors(choices), _powers(miss_rates)
        predicted = np.empty(len(self.lines.count))
        lines = self.lines
        for attempt in (1, 2, 3):
            for first in (1, 0):
                for second in (1, 0):
                    here = lines.attempt == attempt
                    here &= (attempt < 2) | (lines.good[:, 0] == first)
                    here &= (attempt < 3) | (lines.good[:, 1] == second)
                    if here.any():
                        predicted[here] = self._of_one_kind(
                            here, (first, second)[: attempt - 1], prior, powers, choices
                        )
        return predicted

    def _of_one_kind(
        self, here: Bools, good: tuple[int, ...], prior: Floats, powers: Floats, choices: Choices
    ) -> Floats:
        """The chances on the lines `here`, all with the history `good`."""
        lines, (opener, second, third) = self.lines, self._within
        group = lines.experience[here], lines.equipment[here]
        jump = lines.jump[here]
        within = (opener, second[jump[:, 0]], third[jump[:, 0], jump[:, 1]])
        ways = [(0, 0, prior[group])]
        for at, was_good in enumerate(good):
            lift = within[at]
            weight = np.ones(1) if at == 0 else 1.0 + JUMPS[jump[:, 0]]
            margin = _STRENGTHS / weight[:, None] - 1.0
            revealed = _revealed(at, jump[:, at], margin, group, choices)
            ways = [
                (technical + cause, clean + 1 - cause, mass * likely)
                for technical, clean, mass in ways
                for cause, likely in _causes(was_good == 1, lift, revealed)
            ]
        here_at = tuple(group)
        reached = sum(powers[*here_at, t, c] * mass.sum(axis=1) for t, c, mass in ways)
        made = sum(
            powers[*here_at, t, c + 1] * (mass * within[len(good)]).sum(axis=1)
            for t, c, mass in ways
        )
        predicted: Floats = np.asarray(made) / np.asarray(reached)
        return predicted


@dataclass(frozen=True, slots=True, eq=False)
class _Revealed:
    """How likely the weight chosen next is, at each S: after a good lift, a technical miss, and a
    miss on strength."""

    good: Floats
    technical: Floats
    strength: Floats


def _causes(good: bool, within: Floats, revealed: _Revealed) -> list[tuple[int, Floats]]:
    """Each way an attempt may have gone: one for technical, and its likelihood at each S."""
    if good:
        return [(0, within * revealed.good)]
    return [(1, revealed.technical), (0, (1.0 - within) * revealed.strength)]


def _revealed(
    at: int, jump: Ints, margin: Floats, group: tuple[Ints, Ints], choices: Choices
) -> _Revealed:
    experience, equipment = group
    if at == 0:
        centre = np.full(len(jump), choices.second_at)
        slope, spread = choices.second_slope, choices.second_spread
    else:
        centre = choices.third_at + choices.third_equipped * equipment
        centre = centre + choices.third_meets * experience
        slope, spread = choices.third_slope, choices.third_spread
    raised = jump > 0
    centre = centre + slope * np.log(np.where(raised, JUMPS[jump], _USUAL_JUMP) / _USUAL_JUMP)

    def speaks(shift: float) -> Floats:
        likely: Floats = np.exp(-0.5 * ((margin - centre[:, None] - shift) / spread) ** 2)
        return likely

    technical = (1.0 - TECHNICAL_REPEATS) * speaks(choices.raise_shift)
    repeats = choices.strength_repeats if at else 1.0
    return _Revealed(
        speaks(0.0),
        np.where(raised[:, None], technical, TECHNICAL_REPEATS),
        np.where(raised, 1.0 - repeats, repeats)[:, None]
        * np.exp(-0.5 * (margin / choices.missed_by) ** 2),
    )


def _priors(choices: Choices) -> Floats:
    """The chances of S over the opener [experience, equipment, S]."""
    medians = np.array([choices.plan_first_meet, choices.plan_early, choices.plan_seasoned])
    medians = medians[:, None] + choices.plan_equipped * np.arange(len(EQUIPMENT))
    expected = 1.0 + medians[..., None] * np.exp(PLAN_SPREAD * _PLANS)
    off = (_STRENGTHS / expected[..., None] - 1.0) / choices.day_spread
    density = np.exp(-0.5 * off**2) / expected[..., None]
    prior = np.einsum("eqps,p->eqs", density, _PLAN_CHANCES)
    normalised: Floats = prior / prior.sum(axis=2, keepdims=True)
    return normalised


def _powers(miss_rates: MissRates) -> Floats:
    """The expected t^technical (1 - t)^clean [experience, equipment, technical, clean]."""
    powers = np.empty((len(EXPERIENCES), len(EQUIPMENT), 3, 4))
    for group, miss in miss_rates.items():
        known = np.array(miss.chances)
        for technical, clean in np.ndindex(3, 4):
            powers[*group, technical, clean] = known @ miss.likelihoods(technical, clean)
    return powers


def engine_miss_rates(lift: Lift, parameters: Parameters = DEFAULT) -> MissRates:
    """The engine's own miss rates, as sure of one as it is within a lift of a day."""
    return {
        (experience, equipment): MissRate.learned(
            parameters.miss_rate(lift, EXPERIENCES[experience], EQUIPMENT[equipment]),
            parameters.miss_attempts_today.value,
        )
        for experience in range(len(EXPERIENCES))
        for equipment in range(len(EQUIPMENT))
    }
