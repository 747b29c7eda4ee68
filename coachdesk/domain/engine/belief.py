"""What is believed of an athlete's day: the maximum of each lift, and what the lifts share.

The day's maximum of a lift is normal about the expected one, with a standard deviation given as a
fraction of it; it stands on a grid. The lifts share a day: with Z a standard normal,

    S_lift = expected (1 + sd (sqrt(r) Z + sqrt(1 - r) E_lift)),    all E independent.

r, the shared part of the variance, follows from recorded noise in closed form. Let a lift's noise
have the standard deviation s, the total's s_T, and the lifts the shares a_l of the total, which sum
to one. Then s_T^2 = r s^2 + (1 - r) s^2 sum(a_l^2), hence

    r = (s_T^2 / s^2 - q) / (1 - q),    q = sum(a_l^2).

With 3.3 % a lift, 2.48 % on the total and three equal lifts (q = 1/3) r is 0.35; independent lifts
would leave 1.9 % on the total. Straight from how two lifts' noise goes together it is 0.31.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.likelihood import (
    WarmUp,
    chances,
    margins,
    miss_powers,
    told_apart,
    warm_up_chances,
)
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.quadrature import FloatArray, normal_points
from coachdesk.domain.engine_parameters import DEFAULT, WIDEST_SD, Parameters, shared_part
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Percent

_REACH = 4.5
_DAYS = 7


@dataclass(frozen=True, slots=True)
class LiftBelief:
    """The belief about one lift before the day.

    `expected` is the day's expected maximum, `sd` its standard deviation as a fraction of it
    (above 0, at most 0.2), `miss` the chance of a technical miss. Raises InvalidInput (field
    "expected" or "sd").
    """

    expected: Mass
    sd: float
    miss: MissRate

    def __post_init__(self) -> None:
        if self.expected.grams <= 0:
            raise InvalidInput("expected", text("engine.expected"))
        if not 0.0 < self.sd <= WIDEST_SD:
            raise InvalidInput("sd", text("engine.sd", most=Percent(100 * WIDEST_SD, 0)))


@dataclass(frozen=True, slots=True, eq=False)
class LiftGrid:
    """A belief about one lift on a grid.

    `strengths_kg` [kg] are possible maxima of the day; `given_day` holds their chances in a row
    for each of the day's points, `day` the chances of those points.
    """

    belief: LiftBelief
    strengths_kg: FloatArray
    given_day: FloatArray
    day: FloatArray

    @property
    def chance(self) -> FloatArray:
        """The chance of each strength, whatever the day."""
        return self.day @ self.given_day

    def whatever_the_day(self) -> LiftGrid:
        """The same belief with the day left out, for a lift that is planned by itself."""
        return replace(self, given_day=self.chance[None, :], day=np.ones(1))


@dataclass(frozen=True, slots=True)
class Taken:
    """An attempt that was taken: its weight, what was seen, and whether it passed two to one.

    `outcome` may be as coarse as good or no lift. A void attempt is taken again and is no attempt.
    `pain` says that the athlete was hurt: no further attempt is planned then.
    """

    weight: Mass
    outcome: Outcome
    two_to_one: bool = False
    pain: bool = False


def one_lift(belief: LiftBelief, parameters: Parameters = DEFAULT) -> LiftGrid:
    """The belief about a lift by itself, on a grid."""
    return _grid(belief, np.zeros(1), np.ones(1), 0.0, parameters)


@dataclass(frozen=True, slots=True, eq=False)
class DayBelief:
    """The belief about the lifts still to come, in meet order, linked by the day.

    `day` holds the chances of the day's points given all that was seen so far.
    """

    lifts: Mapping[Lift, LiftGrid]
    day: FloatArray
    parameters: Parameters = DEFAULT

    @classmethod
    def of(cls, beliefs: Mapping[Lift, LiftBelief], parameters: Parameters = DEFAULT) -> DayBelief:
        """The belief before the day. Raises InvalidInput (field "lifts") without any lift."""
        if not beliefs:
            raise InvalidInput("lifts", text("engine.no_lifts"))
        points, day = normal_points(_DAYS)
        shared = shared_part(parameters)
        grids = {
            lift: _grid(beliefs[lift], points, day, shared, parameters)
            for lift in Lift
            if lift in beliefs
        }
        return cls(grids, day, parameters)

    def warmed_up(self, lift: Lift, seen: WarmUp) -> DayBelief:
        """The belief after the last warm-ups of `lift` were seen: it moves the later lifts too."""
        grid = self.lifts[lift]
        deviation = grid.strengths_kg / grid.belief.expected.kg - 1.0
        return self._seen(lift, warm_up_chances(deviation, self.parameters)[seen])

    def after(self, lift: Lift, attempts: Sequence[Taken]) -> DayBelief:
        """The belief about the lifts that follow once `lift` is done; raises KeyError without it.

        The strengths left move with the day, the miss rates with what was missed, each by itself.
        """
        grid = self.lifts[lift]
        strength, rates = history(grid, attempts, self.parameters)
        by_day = self.day * (grid.given_day @ strength)
        by_rate = np.array(grid.belief.miss.chances) * rates
        return self.given(lift, by_day[:, None] * by_rate)

    def given(self, lift: Lift, chances: FloatArray) -> DayBelief:
        """The belief about the other lifts, given the `chances` [days, miss rates of `lift`]."""
        total = float(chances.sum())
        if total <= 0.0:
            chances, total = np.ones_like(chances), float(chances.size)
        day = chances.sum(axis=1) / total
        before = self.lifts[lift].belief.miss
        after = replace(before, chances=tuple((chances.sum(axis=0) / total).tolist()))
        left = {
            other: replace(
                grid,
                day=day,
                belief=replace(grid.belief, miss=_carried(before, after, grid.belief.miss)),
            )
            for other, grid in self.lifts.items()
            if other is not lift
        }
        return replace(self, lifts=left, day=day)

    def _seen(self, lift: Lift, likelihood: FloatArray) -> DayBelief:
        """Something was seen of `lift` that is so likely at each of its strengths."""
        grid = self.lifts[lift]
        joint = grid.given_day * likelihood
        by_day = joint.sum(axis=1)
        total = float(self.day @ by_day)
        if total <= 0.0:
            return self
        day = self.day * by_day / total
        safe = np.where(by_day > 0.0, by_day, 1.0)[:, None]
        seen = replace(
            grid, given_day=np.where(by_day[:, None] > 0.0, joint / safe, grid.given_day)
        )
        lifts = {
            other: replace(seen if other is lift else held, day=day)
            for other, held in self.lifts.items()
        }
        return replace(self, lifts=lifts, day=day)


def history(
    grid: LiftGrid, attempts: Sequence[Taken], parameters: Parameters = DEFAULT
) -> tuple[FloatArray, FloatArray]:
    """How likely what was seen of `attempts` is at each strength, and at each miss rate.

    Where the cause of a miss was not noted, it is split by what the belief makes of it.
    """
    strength = np.ones_like(grid.strengths_kg)
    miss = grid.belief.miss
    rates = np.ones(len(miss.rates))
    for attempt in attempts:
        margin = margins(np.array([attempt.weight.kg]), grid.strengths_kg)
        seen = chances(margin, parameters)
        by_strength = np.zeros_like(strength)
        by_rate = np.zeros_like(rates)
        for outcome in told_apart(attempt.outcome):
            likely = miss.likelihoods(*miss_powers((outcome,)))
            here = float(np.array(miss.given(rates).chances) @ likely)
            there = float(grid.chance @ (strength * seen[outcome][0]))
            by_strength += here * seen[outcome][0]
            by_rate += there * likely
        strength, rates = strength * by_strength, rates * by_rate
        if attempt.two_to_one:
            rates = rates * miss.two_to_one()
    return strength, rates


def _carried(before: MissRate, after: MissRate, other: MissRate) -> MissRate:
    moved = np.array(after.chances) @ before.carried_to(other)
    return MissRate(other.rates, tuple(moved.tolist()))


def _grid(
    belief: LiftBelief,
    points: FloatArray,
    day: FloatArray,
    shared: float,
    parameters: Parameters,
) -> LiftGrid:
    """Strengths close enough for the success curve to be smooth between them."""
    spacing = min(belief.sd / 4, 0.6 * parameters.strength_spread.value)
    count = 2 * int(np.ceil(_REACH * belief.sd / spacing)) + 1
    deviations = np.linspace(-_REACH, _REACH, count)
    within = (deviations[None, :] - sqrt(shared) * points[:, None]) / sqrt(1.0 - shared)
    density = np.exp(-0.5 * within**2)
    strengths = belief.expected.kg * (1.0 + belief.sd * deviations)
    return LiftGrid(belief, strengths, density / density.sum(axis=1, keepdims=True), day)
