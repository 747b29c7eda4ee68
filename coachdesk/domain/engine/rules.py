"""Which weights the rules, the bar and the coach's own limits allow next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

import numpy as np

from coachdesk.domain.attempts import Steps
from coachdesk.domain.engine.quadrature import FloatArray, IntArray
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass

_BELOW_ANY_STEP = 0.002
"""Kilograms: pounds are rounded to grams."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The weights that may be asked for.

    `steps` are the rulebook's; `floor` is the least weight a garment works with, `ceiling` the
    most the coach wants on the bar, `largest_jump` the largest jump as a fraction of the weight
    before (never under one step; None for no cap). `record` is one weight off the steps that
    may be asked for as a record. `repeat_after_technical`: with no lift on the board, a weight
    missed on a technicality is taken again. `raise_after_strength`: a weight missed on strength may
    be raised; by default it is repeated, since only a number or a place speaks for more.
    """

    steps: Steps
    floor: Mass | None = None
    ceiling: Mass | None = None
    largest_jump: float | None = DEFAULT.largest_jump.value
    record: Mass | None = None
    repeat_after_technical: bool = True
    raise_after_strength: bool = False

    @property
    def lightest(self) -> Mass:
        """The lightest weight that may be asked for: the bar, or the garment's floor."""
        bar = self.steps.lightest
        return bar if self.floor is None or self.floor.grams < bar.grams else self.floor


def usual_limits(
    steps: Steps,
    *,
    first_meet: bool,
    floor: Mass | None = None,
    parameters: Parameters = DEFAULT,
) -> Limits:
    """The limits by default: a first meet jumps less."""
    jump = parameters.largest_jump_first_meet if first_meet else parameters.largest_jump
    return Limits(steps=steps, floor=floor, largest_jump=jump.value)


def record_weight(standing: Mass, record_step: Mass) -> Mass:
    """The least weight that beats the record `standing`, in the rulebook's record step."""
    unit, step = record_step.unit, record_step.number
    multiple = (standing.in_unit(unit) / step).to_integral_value(ROUND_FLOOR)
    return Mass((multiple + 1) * step, unit)


@dataclass(frozen=True, slots=True, eq=False)
class Weights:
    """The weights in reach, ascending, and by index which may follow which.

    After a good lift at index i, from `after_good[i]` to `cap[i]`; after a no lift from i. A range
    is empty where its end lies before its beginning. `free` is the end where only the rules count.
    """

    masses: tuple[Mass, ...]
    kg: FloatArray
    after_good: IntArray
    cap: IntArray

    @property
    def free(self) -> int:
        """The last index."""
        return len(self.masses) - 1

    def nearest(self, weight_kg: float) -> int:
        """The index of the weight nearest to `weight_kg` [kg]."""
        return int(np.abs(self.kg - weight_kg).argmin())


def weights_between(
    limits: Limits, low_kg: float, high_kg: float, also: Iterable[Mass] = ()
) -> Weights:
    """The weights from `low_kg` to `high_kg` [kg] that `limits` allow, and those in `also`.

    `also` are weights already taken or fixed by the coach: they stand although a limit forbids
    them. Raises InvalidInput (field "limits") when nothing is left between the limits.
    """
    steps = limits.steps
    unit, step = steps.step.unit, steps.step.number
    per_kg = Decimal(1000) / unit.grams
    first = _multiple(Decimal(low_kg) * per_kg, step, ROUND_FLOOR)
    first = max(first, _multiple(limits.lightest.in_unit(unit), step, ROUND_CEILING))
    last = _multiple(Decimal(high_kg) * per_kg, step, ROUND_CEILING)
    if limits.ceiling is not None:
        last = min(last, _multiple(limits.ceiling.in_unit(unit), step, ROUND_FLOOR))
    found = {mass.grams: mass for mass in (Mass(n * step, unit) for n in range(first, last + 1))}
    if limits.record is not None and limits.lightest.grams <= limits.record.grams:
        found.setdefault(limits.record.grams, limits.record)
    if not found:
        raise InvalidInput("limits", text("engine.no_weights", lightest=limits.lightest))
    found.update({mass.grams: mass for mass in also if mass.grams not in found})
    masses = tuple(found[grams] for grams in sorted(found))
    return _ordered(masses, limits)


def _ordered(masses: tuple[Mass, ...], limits: Limits) -> Weights:
    kg = np.array([mass.kg for mass in masses])
    step_kg = limits.steps.step.kg
    after_good = np.searchsorted(kg, kg + step_kg - _BELOW_ANY_STEP)
    if limits.record is not None:
        record = int(np.searchsorted(kg, limits.record.kg))
        after_good = np.where(
            np.arange(len(kg)) < record, np.minimum(after_good, record), after_good
        )
    if limits.largest_jump is None:
        cap = np.full(len(kg), len(kg) - 1)
    else:
        highest = np.maximum(kg * (1.0 + limits.largest_jump), kg + step_kg) + _BELOW_ANY_STEP
        cap = np.searchsorted(kg, highest, side="right") - 1
    return Weights(masses, kg, after_good, cap)


def _multiple(number: Decimal, step: Decimal, rounding: str) -> int:
    return int((number / step).to_integral_value(rounding))
