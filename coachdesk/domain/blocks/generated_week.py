"""The sets of a generated week before the taper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from coachdesk.domain.blocks.notation import Prescription
from coachdesk.domain.blocks.practice import (
    CAREFUL,
    CAREFUL_BELOW,
    DELOAD_EVERY,
    DELOAD_PERCENT,
    DELOAD_VOLUME,
    HIGHEST_VOLUME,
    MOST_SETS,
    SCHEMES,
    SHARES,
    TAPER_WEEKS,
    USUAL,
    WEEKS,
    Role,
    Singles,
    Slot,
)
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Mass

_FALL = 0.12
"""By how much of the highest a week's volume falls, each week after the highest."""
_RISE = 0.05
_EARLY = 0.12
"""How much lower it is before the last deload."""
_FEWEST_SETS = 2
_UNKNOWN_KG = 100.0
_HALF = 2


@dataclass(slots=True)
class PlannedSlot:
    """A slot of a week and its sets."""

    slot: Slot
    lines: list[Prescription] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class WeekOf:
    """A week: whole weeks `before` the meet week, and how far its block is `done`, 0 to 1."""

    purpose: Purpose
    before: int
    done: float
    deload: bool

    @property
    def volume(self) -> float:
        """The week's volume, of the highest: three weeks up and one down, then down to the
        taper."""
        if self.deload:
            return DELOAD_VOLUME
        if self.before <= HIGHEST_VOLUME:
            return 1 - _FALL * (HIGHEST_VOLUME - self.before)
        cycle, after = divmod(self.before - HIGHEST_VOLUME, DELOAD_EVERY)
        return 1 - _RISE * (after or DELOAD_EVERY) - (_EARLY if cycle else 0)


def week_sets(
    of: WeekOf, days_a_week: int, lifts: Iterable[Lift], *, careful: bool
) -> list[PlannedSlot]:
    """What is planned of each slot of the week."""
    wanted = frozenset(lifts)
    return [
        PlannedSlot(slot, _lines(of, slot, careful))
        for slot in WEEKS[days_a_week]
        if slot.lift in wanted
    ]


def singles_for(careful: bool) -> Singles:
    """The judged singles of an athlete."""
    return CAREFUL if careful else USUAL


def single(percent: float, singles: Singles, lightest: float) -> Prescription:
    """A judged single with what must be left of it; the lightest of them leaves half a
    repetition more for each step up."""
    left = max(singles.reserve, 2.0 - (percent - lightest) / 5)
    return Prescription(1, 1, percent, None, round(left * _HALF) / _HALF, True)


def week_load(week: Iterable[PlannedSlot], maxima: Mapping[Lift, Mass]) -> float:
    """The volume load [kg] of a week; a lift without a maximum counts as 100 kg."""
    return sum(line_load(each.slot, line, maxima) for each in week for line in each.lines)


def line_load(slot: Slot, line: Prescription, maxima: Mapping[Lift, Mass]) -> float:
    """The volume load [kg] of equal sets."""
    maximum = maxima[slot.lift].kg if slot.lift in maxima else _UNKNOWN_KG
    share = SHARES[slot.variation] if slot.variation else 1.0
    return line.sets * line.reps * (line.percent or 0) / 100 * maximum * share


def _lines(of: WeekOf, slot: Slot, careful: bool) -> list[Prescription]:
    scheme = SCHEMES[of.purpose, slot.role]
    reps = round(_between(scheme.reps, of.done))
    percent = float(round(_between(scheme.percent, of.done)))
    if of.deload:
        percent -= DELOAD_PERCENT
    points = scheme.points * of.volume
    sets = min(max(round(points / (reps * percent)), _FEWEST_SETS), MOST_SETS)
    if careful:
        percent -= CAREFUL_BELOW
    lines = [Prescription(sets, reps, percent)]
    if of.purpose is Purpose.PEAK and slot.role is Role.MAIN:
        lines.insert(0, _peak_single(of, slot.lift, singles_for(careful)))
    return lines


def _peak_single(of: WeekOf, lift: Lift, singles: Singles) -> Prescription:
    """The deadlift has its last heavy day at the end of the peak block: it recovers slowest."""
    is_last = of.before <= TAPER_WEEKS
    if not is_last:
        return single(singles.first, singles, singles.first)
    percent = singles.deadlift if lift is Lift.DEADLIFT else singles.second
    return single(percent, singles, singles.first)


def _between(ends: tuple[float, float], done: float) -> float:
    return ends[0] + (ends[1] - ends[0]) * done
