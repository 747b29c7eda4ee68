"""One lift of a chain: what each course of it is worth when other lifts still follow.

What follows is known only as values: for a few readings of the day and each subtotal, a policy for
the later lifts, and what it brings given each of the day's points and each miss rate. At the end of
this lift the policy of the best reading is taken up. So every value here is that of a plan that can
be followed, and the belief about the day is carried along exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, reduce

import numpy as np

from coachdesk.domain.engine.layout import Layout
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.plan_lift import LiftProblem
from coachdesk.domain.engine.quadrature import BoolArray, FloatArray, IntArray

AIM, KILOGRAMS, NO_TOTAL = range(3)
"""What a policy brings: the chance of the aim, the kilograms of the total (0 without one), and the
chance of no total."""

_NO_TOTAL_AT_ALL = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True, eq=False)
class Tail:
    """What the lifts that follow bring.

    `value` [readings, subtotals, days, miss rates, 3] for subtotals of `first` steps on, one more
    step each; `miss` the miss rate of the lift that comes next (None: no lift follows, and days and
    miss rates count once).
    """

    first: int
    value: FloatArray
    miss: MissRate | None

    def seen_from(self, miss: MissRate) -> FloatArray:
        """The values by the miss rates of the lift before."""
        if self.miss is None:
            return self.value
        carried: FloatArray = np.einsum("kl,rndlv->rndkv", miss.carried_to(self.miss), self.value)
        return carried


@dataclass(frozen=True, eq=False)
class Stage:
    """A lift, its ways in whole steps, and the starts it is planned for.

    `starts` are subtotals before the lift in steps, `readings` [readings, days] the chances of the
    day's points each is planned under.
    """

    problem: LiftProblem
    starts: IntArray
    readings: FloatArray

    @property
    def layout(self) -> Layout:
        """Every way the lift can go."""
        return self.problem.layout

    @cached_property
    def steps(self) -> IntArray:
        """The weights in whole steps."""
        step = self.problem.limits.steps.step
        return np.array(
            [int(mass.in_unit(step.unit) / step.number) for mass in self.problem.weights.masses]
        )

    @cached_property
    def _before(self) -> IntArray:
        """The best weight before the third in steps, by row; -1 for none."""
        before = self.layout.best_before
        return np.where(before >= 0, self.steps[before], -1)

    def leaves(self, tail: Tail, worth: FloatArray) -> FloatArray:
        """The value of each third times its chance [thirds, readings, starts].

        `worth` [3] weighs what a policy brings.
        """
        follow = tail.seen_from(self.problem.miss_rate) @ worth
        miss, layout, row = self.problem.miss, self.layout, self.layout.row
        rates = np.array(self.problem.miss_rate.chances)
        made_follow = _by_kind(follow, rates * miss.made)
        reached_follow = _by_kind(follow, rates * miss.reached)
        made = self._weighed(self.problem.masses.made, tail)
        reached = self._weighed(self.problem.masses.reached, tail)
        kind, before = miss.kind, self._before
        starts = self.starts - tail.first
        after = starts + self.steps[layout.third][:, None]
        still = np.maximum(starts + before[:, None], 0)
        values = _most(_going_on(made, made_follow[kind[row][:, None], after]))
        before_third = _going_on(reached, reached_follow[kind[:, None], still])[row]
        with_third = _going_on(made, made_follow[kind[row][:, None], still[row]])
        on_board = (before >= 0)[row]
        values[on_board] += _most((before_third - with_third)[on_board])
        lost = reached.sum(axis=2) * (miss.reached @ rates)[kind][:, None]
        lost = lost[row] - made.sum(axis=2) * (miss.made @ rates)[kind[row]][:, None]
        values[~on_board] += worth[NO_TOTAL] * lost[~on_board][:, :, None]
        return values

    def _weighed(self, masses: FloatArray, tail: Tail) -> FloatArray:
        """Masses [entries, days] under each reading: [entries, readings, days]; days summed up
        where they make no difference any more."""
        weighed = masses[:, None, :] * self.readings
        return weighed.sum(axis=2, keepdims=True) if tail.miss is None else weighed

    def best_thirds(self, values: FloatArray) -> IntArray:
        """The best policy: the third by outcomes [readings, starts, first, second outcomes]."""
        layout = self.layout
        firsts, seconds = len(layout.sights.first), len(layout.sights.second)
        flat = values.reshape(len(values), -1) + layout.third_legal[:, None]
        rows = np.maximum.reduceat(flat, layout.third_starts)
        second = rows.reshape(-1, seconds, flat.shape[1]).sum(axis=1)
        second += layout.second_legal[:, None]
        branch = np.maximum.reduceat(second, layout.second_starts)
        opener = branch.reshape(-1, firsts, flat.shape[1]).sum(axis=1).argmax(axis=0)
        branches = opener[:, None] * firsts + np.arange(firsts)
        chosen = _argmax_within(second, layout.second_starts, branches)
        chosen_rows = (chosen[:, :, None] * seconds + np.arange(seconds)).reshape(len(opener), -1)
        thirds = _argmax_within(flat, layout.third_starts, chosen_rows)
        return thirds.reshape(*values.shape[1:], firsts, seconds)

    def bring(self, thirds: IntArray, tail: Tail, worth: FloatArray) -> FloatArray:
        """What a policy brings [readings, starts, days, miss rates, 3]; `thirds` as `best_thirds`.

        The values are given the day's point and the miss rate.
        """
        brought = np.zeros(1)
        for chance, follow, on_board in self._ends(thirds, tail):
            picked = _picked(follow, self._taken_up(chance, follow, worth))
            brought = brought + (chance[..., None] * on_board * picked).sum(axis=2)
            brought = brought + (chance[..., None] * ~on_board).sum(axis=2) * _NO_TOTAL_AT_ALL
        return brought

    def _taken_up(self, chance: FloatArray, follow: FloatArray, worth: FloatArray) -> IntArray:
        """The best policy after each end, by what the reading makes of the day."""
        if len(follow) == 1:
            return np.zeros(chance.shape[:3], np.intp)
        rates = np.array(self.problem.miss_rate.chances)
        prior = self.readings[:, None, None, :, None] * rates
        worths = (follow @ worth) * (chance * prior)
        best: IntArray = worths.sum(axis=(4, 5)).argmax(axis=0)
        return best

    def _ends(self, thirds: IntArray, tail: Tail) -> list[tuple[FloatArray, FloatArray, BoolArray]]:
        """The ends with the third made, and missed: their chances [readings, starts, ends, days,
        miss rates], what each policy brings then, and whether a lift is on the board."""
        layout, miss = self.layout, self.problem.miss
        follow = tail.seen_from(self.problem.miss_rate)
        places = thirds.reshape(*thirds.shape[:2], -1)
        rows = layout.row[places]
        kind = miss.kind[rows]
        made = self.problem.masses.made[places][..., None] * miss.made[kind][..., None, :]
        reached = self.problem.masses.reached[rows][..., None] * miss.reached[kind][..., None, :]
        starts = self.starts[:, None] - tail.first
        before = self._before[rows]
        after = starts + self.steps[layout.third[places]]
        on_board = (before >= 0)[..., None, None, None]
        still = np.clip(starts + before, 0, follow.shape[1] - 1)
        return [
            (made, follow[:, after], np.ones_like(on_board)),
            (reached - made, follow[:, still], on_board),
        ]


def _by_kind(follow: FloatArray, chances: FloatArray) -> FloatArray:
    """Values [kinds, subtotals, policies, days], weighed by each kind's chances of miss rates."""
    if follow.shape[3] == 1:
        weighed: FloatArray = follow[..., 0] * chances.sum(axis=1)[:, None, None, None]
    else:
        weighed = np.einsum("pndk,ck->cpnd", follow, chances)
    return np.ascontiguousarray(weighed.transpose(0, 2, 1, 3))


def _going_on(masses: FloatArray, follow: FloatArray) -> FloatArray:
    """Values [entries, readings, starts, policies] of `masses` [entries, readings, days] going on
    with `follow` [entries, starts, policies, days]."""
    entries, starts, policies, days = follow.shape
    flat = follow.reshape(entries, starts * policies, days).transpose(0, 2, 1)
    return (masses @ flat).reshape(entries, -1, starts, policies)


def _most(by_policy: FloatArray) -> FloatArray:
    """The values under the best policies."""
    return reduce(np.maximum, (by_policy[..., at] for at in range(by_policy.shape[-1]))).copy()


def _picked(follow: FloatArray, policies: IntArray) -> FloatArray:
    """What the policies taken up bring [readings, starts, ends, days, miss rates, 3]."""
    if len(follow) == 1:
        only: FloatArray = follow[0]
        return only
    picked = np.take_along_axis(follow, policies[None, ..., None, None, None], axis=0)
    brought: FloatArray = picked[0]
    return brought


def _argmax_within(values: FloatArray, starts: IntArray, segments: IntArray) -> IntArray:
    """Where the greatest of `values` [entries, many] lies within `segments` [many, some]."""
    ends = np.append(starts[1:], len(values))
    begin = starts[segments]
    places = begin[..., None] + np.arange(int((ends - starts).max()))
    inside = places < ends[segments][..., None]
    columns = np.arange(values.shape[1])[:, None, None]
    held = values[np.minimum(places, len(values) - 1), columns]
    within: IntArray = begin + np.where(inside, held, -np.inf).argmax(axis=2)
    return within
