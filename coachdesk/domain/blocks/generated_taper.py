"""The sets of a generated taper: weights stay heavy, volume and sessions fall."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from coachdesk.domain.blocks.generated_week import (
    PlannedSlot,
    line_load,
    single,
    singles_for,
    week_load,
)
from coachdesk.domain.blocks.notation import Prescription
from coachdesk.domain.blocks.practice import (
    CAREFUL_BELOW,
    CUT,
    FIRST_CUT,
    LAST_SESSION,
    MEET_WEEK,
    MOST_SETS,
    OPENER_SINGLE,
    TAPER,
    TAPER_SETS,
    Role,
    Slot,
)
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass

_HALF = 2


def taper_sets(
    days_a_week: int,
    lifts: Iterable[Lift],
    maxima: Mapping[Lift, Mass],
    *,
    weeks: int,
    usual: float,
    meet_week: Sequence[Slot],
    deadlift_single: bool,
    careful: bool,
) -> dict[int, list[PlannedSlot]]:
    """What is planned in one or two taper weeks, by week from 1; the last is the meet week.

    `usual` is the volume load [kg] that is cut. `deadlift_single` plans the deadlift's last heavy
    day here, where no peak block holds it.
    """
    last = [PlannedSlot(slot, _lines(slot, False, careful)) for slot in meet_week]
    target = (1 - CUT) * usual
    if weeks == 1:
        _fit(last, target, maxima)
        return {1: last}
    wanted = frozenset(lifts)
    first = [
        PlannedSlot(slot, _lines(slot, deadlift_single, careful))
        for slot in TAPER[days_a_week]
        if slot.lift in wanted
    ]
    _fit(first, (1 - FIRST_CUT) * usual, maxima)
    _fit(last, weeks * target - week_load(first, maxima), maxima)
    return {1: first, 2: last}


def meet_week_sessions(days_a_week: int, lifts: Iterable[Lift], meet_day: int) -> tuple[Slot, ...]:
    """The slots of the meet week, half the usual sessions; the last falls 3 days before the meet
    on day `meet_day`, whatever the event."""
    wanted = frozenset(lifts)
    sessions = MEET_WEEK[-(-days_a_week // _HALF)]
    kept = [slot for slot in sessions if slot.lift in wanted]
    latest = min(slot.day for slot in kept)
    return tuple(
        replace(slot, day=meet_day - (LAST_SESSION if slot.day == latest else slot.day))
        for slot in kept
    )


def _lines(slot: Slot, deadlift_single: bool, careful: bool) -> list[Prescription]:
    singles = singles_for(careful)
    below = CAREFUL_BELOW if careful else 0
    sets, reps, percent = TAPER_SETS[slot.role]
    lines = [Prescription(sets, reps, percent - below)]
    if slot.role is Role.TOP:
        lines.insert(0, single(singles.last, singles, singles.first))
    elif slot.role is Role.OPENER:
        lines.insert(0, Prescription(1, 1, OPENER_SINGLE - below))
    elif deadlift_single and slot.lift is Lift.DEADLIFT and slot.role is Role.MODERATE:
        lines.insert(0, single(singles.first, singles, singles.first))
    return lines


def _fit(week: list[PlannedSlot], target: float, maxima: Mapping[Lift, Mass]) -> None:
    """Add or take away sets, one at a time, as long as the week's volume load comes nearer to
    `target` [kg]. Singles stay, and every slot keeps a set."""
    while True:
        off = target - week_load(week, maxima)
        best, nearest = None, abs(off)
        for each, at, line in _changeable(week, more=off > 0):
            one = line_load(each.slot, replace(line, sets=1), maxima)
            distance = abs(abs(off) - one)
            if distance < nearest:
                best, nearest = (each, at, line), distance
        if best is None:
            return
        each, at, line = best
        each.lines[at] = replace(line, sets=line.sets + (1 if off > 0 else -1))


def _changeable(
    week: Iterable[PlannedSlot], *, more: bool
) -> Iterator[tuple[PlannedSlot, int, Prescription]]:
    """The lines that a set can be added to, the fewest sets first, or taken from, the most
    first."""
    found = [
        (each, at, line)
        for each in week
        for at, line in enumerate(each.lines)
        if line.reps > 1 and (line.sets < MOST_SETS if more else line.sets > 1)
    ]
    edge = (min if more else max)((line.sets for _, _, line in found), default=0)
    return (one for one in found if one[2].sets == edge)
