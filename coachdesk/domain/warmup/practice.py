"""Rules of thumb for warm-ups: how many sets, which shares of the opener, repetitions, rests, gear.

All of it is common practice among lifters and handlers, not a rule of any rulebook and not a
measurement; the figures stand here in one place so that they can be argued about.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from enum import StrEnum

from coachdesk.domain.lifting import Lift

LAST_FROM, LAST_TO = 0.88, 0.93
"""The last single, in shares of the opener; where nothing there can be loaded, the nearest."""

LAST_WANTED = (LAST_FROM + LAST_TO) / 2
LAST_AT_MOST = 0.95
"""A last single above this share would be an opener before the opener."""

LIGHT_FROM = 0.6
"""From this share of the opener on the bar alone is no first warm-up set any more."""

STAY_WARM = 0.7
"""About the share of the opener that keeps warm without tiring while a flight is delayed."""

FULL_HEIGHT_AT_MOST = 0.66
"""The first deadlift set has discs of full height up to this share of the opener."""

FULL_HEIGHT_GRAMS = 20_000
"""Discs from 20 kg (and 45 lb) on have the full diameter, so that a bar on the floor stands at
the height of the platform's."""

_FRONT_LOADED = 1.2
"""How much larger the first jumps are; 1 would make all jumps alike."""

_LEAST_JUMP_GRAMS = 5_000

_SETS = {
    Lift.SQUAT: ((60, 120, 220, 320), (4, 5, 6, 7, 8)),
    Lift.BENCH: ((60, 110, 200), (4, 5, 6, 7)),
    Lift.DEADLIFT: ((60, 130, 230, 320), (3, 4, 5, 6, 7)),
}
"""By opener [kg]: below the first figure so many sets, from it on so many, and so forth."""

_REPS = {
    1: (3,),
    2: (5, 1),
    3: (5, 3, 1),
    4: (5, 3, 2, 1),
    5: (5, 3, 2, 1, 1),
    6: (5, 5, 3, 2, 1, 1),
    7: (5, 5, 3, 3, 2, 1, 1),
    8: (5, 5, 5, 3, 2, 2, 1, 1),
}
_MOST_REPS = ((0.6, 0.75, 0.85), (5, 3, 2, 1))
"""By share of the opener; an opener is near a weight for four repetitions, and none may tire."""

_LAST_MINUTES = 6
_RESTS = (4, 4, 3, 3, 2, 2, 2)
"""Minutes from the last single to the call, and before each set counted from the last."""

_HURRIED_LAST, _HURRIED_REST = 4, 2
_GEAR_LAST, _GEAR_REST = 3, 1
"""What wraps, straps and shirts take on top [min]."""


class Gear(StrEnum):
    """What an equipped lifter wears for a set."""

    NONE = "none"
    BELT = "belt"
    WRIST_WRAPS = "wrist_wraps"
    STRAPS_DOWN = "straps_down"
    STRAPS_UP = "straps_up"
    LOOSE_WRAPS = "loose_wraps"
    FULL_WRAPS = "full_wraps"
    SHIRT_BOARD = "shirt_board"
    SHIRT = "shirt"


_GEAR = {
    Lift.SQUAT: (
        (0.45, 0.65, 0.8),
        (Gear.NONE, Gear.STRAPS_DOWN, Gear.LOOSE_WRAPS, Gear.FULL_WRAPS),
    ),
    Lift.BENCH: (
        (0.45, 0.6, 0.8),
        (Gear.NONE, Gear.WRIST_WRAPS, Gear.SHIRT_BOARD, Gear.SHIRT),
    ),
    Lift.DEADLIFT: (
        (0.45, 0.6, 0.8),
        (Gear.NONE, Gear.BELT, Gear.STRAPS_DOWN, Gear.STRAPS_UP),
    ),
}


def set_count(lift: Lift, opener_grams: int, span_grams: int) -> int:
    """Sets for an opener [g] when first and last set are `span_grams` [g] apart.

    More for a heavier opener, fewest for the deadlift; no more than jumps of 5 kg allow.
    """
    bounds, counts = _SETS[lift]
    usual = counts[bisect_right(bounds, opener_grams / 1000)]
    return min(usual, 1 + max(1, round(span_grams / _LEAST_JUMP_GRAMS)))


def ideal_shares(first: float, count: int) -> tuple[float, ...]:
    """Shares of the opener from `first` to the last single, the jumps falling from set to set."""
    span = LAST_WANTED - first
    return tuple(
        first + span * (1 - (1 - at / (count - 1)) ** _FRONT_LOADED) for at in range(count)
    )


def repetitions(shares: Sequence[float]) -> list[int]:
    """Repetitions of the sets at these shares of the opener: falling, a single at the end."""
    bounds, most = _MOST_REPS
    return [
        min(reps, most[bisect_right(bounds, share)])
        for reps, share in zip(_REPS[len(shares)], shares, strict=True)
    ]


def gear_stage(lift: Lift, share: float) -> Gear:
    """What an equipped lifter wears at this share of the opener."""
    bounds, stages = _GEAR[lift]
    return stages[bisect_right(bounds, share)]


def minutes_before_call(gear: Sequence[Gear | None], *, hurried: bool) -> list[int]:
    """Minutes before the call at which to take each set, first set first."""
    dressed = [stage not in {None, Gear.NONE} for stage in gear]
    minutes = (_HURRIED_LAST if hurried else _LAST_MINUTES) + _GEAR_LAST * dressed[-1]
    found = [minutes]
    for at, needs_gear in enumerate(reversed(dressed[1:])):
        minutes += (_HURRIED_REST if hurried else _RESTS[at]) + _GEAR_REST * needs_gear
        found.append(minutes)
    return found[::-1]


def hurried_count(usual: int) -> int:
    """How many of the `usual` sets are left when time is short."""
    return usual // 2 + 1
