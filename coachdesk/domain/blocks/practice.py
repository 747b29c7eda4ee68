"""What the generator goes by: figures, each with where it is from.

Surveys of what lifters say they do, not trials:
[1] Pritchard et al. 2016, 11 lifters: volume cut by 58.9 +/- 8.4 %, heaviest 1.9 +/- 0.8 weeks
    out, last session 3.7 +/- 1.6 days before, volume highest 5.2 weeks out, variations out about
    2 weeks, the deadlift recovers slowest. [2] Grgic and Mikulic 2017, 10 lifters: volume cut by
    50.5 +/- 11.7 %, heaviest 8 +/- 3 days out, last session 3 +/- 1 days before, sessions of the
    last week -47.9 %. Both keep the weights heavy.
All else is common practice, or our own caution where it says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import Purpose

FEWEST_DAYS, MOST_DAYS = 2, 6
"""Training days a week that can be laid out."""
MOST_WEEKS = 36
"""Further out nobody knows what a week will hold (our own caution): those weeks are left open."""
TAPER_WEEKS = 2
PEAK_WEEKS = 2
HIGHEST_VOLUME = 5
"""Whole weeks before the meet week with the highest volume [1]."""
CUT = 0.56
"""The taper's mean week below a mean week of the peak block: where the ranges of [1] and [2] meet,
50.5 to 62.2 %."""
FIRST_CUT = 0.48
"""The same of the first of two taper weeks; the last makes up the mean, a fast decay [2]."""
LAST_SESSION = 3
"""Days from the last session to the meet: within [1] and [2]."""
DELOAD_EVERY = 4
DELOAD_VOLUME, DELOAD_PERCENT = 0.6, 7
CAREFUL_BELOW = 5
"""Per cent that sets are lighter for minors and first-timers (our own caution)."""
MOST_SETS = 6


class Role(StrEnum):
    """What an exercise is for in its week."""

    MAIN = "main"
    SECOND = "second"
    VARIATION = "variation"
    TOP = "top"
    MODERATE = "moderate"
    LIGHT = "light"
    OPENER = "opener"


@dataclass(frozen=True, slots=True)
class Slot:
    """A lift on a day of the week; `variation` is one of `SHARES`, empty for the lift itself."""

    day: int
    lift: Lift
    role: Role
    variation: str = ""


@dataclass(frozen=True, slots=True)
class Scheme:
    """Repetitions and per cent [%] from a block's first week to its last, and `points`, per cent
    times repetitions, in the week of highest volume."""

    reps: tuple[int, int]
    percent: tuple[float, float]
    points: float


SHARES = {"paused": 0.9, "tempo": 0.8, "paused_pull": 0.88, "close_grip": 0.93, "long_pause": 0.95}
"""What a variation's maximum is of the competition lift's (common practice, to be corrected)."""

_S, _B, _D = Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT
_MAIN, _SECOND, _VARIATION = Role.MAIN, Role.SECOND, Role.VARIATION
_TOP, _MODERATE, _LIGHT, _OPENER = Role.TOP, Role.MODERATE, Role.LIGHT, Role.OPENER

WEEKS: dict[int, tuple[Slot, ...]] = {
    2: (
        Slot(1, _S, _MAIN), Slot(1, _B, _SECOND), Slot(1, _D, _VARIATION, "paused_pull"),
        Slot(4, _D, _MAIN), Slot(4, _B, _MAIN), Slot(4, _S, _VARIATION, "paused"),
    ),
    3: (
        Slot(1, _S, _MAIN), Slot(1, _B, _SECOND),
        Slot(3, _B, _MAIN), Slot(3, _D, _VARIATION, "paused_pull"),
        Slot(5, _D, _MAIN), Slot(5, _B, _VARIATION, "close_grip"),
        Slot(5, _S, _VARIATION, "paused"),
    ),
    4: (
        Slot(1, _S, _MAIN), Slot(1, _B, _SECOND),
        Slot(2, _D, _VARIATION, "paused_pull"), Slot(2, _B, _VARIATION, "close_grip"),
        Slot(4, _B, _MAIN), Slot(4, _S, _VARIATION, "paused"),
        Slot(5, _D, _MAIN), Slot(5, _B, _VARIATION, "long_pause"),
    ),
    5: (
        Slot(1, _S, _MAIN), Slot(1, _B, _SECOND),
        Slot(2, _D, _VARIATION, "paused_pull"), Slot(2, _B, _VARIATION, "close_grip"),
        Slot(3, _B, _MAIN), Slot(3, _S, _VARIATION, "paused"),
        Slot(5, _D, _MAIN),
        Slot(6, _B, _VARIATION, "long_pause"), Slot(6, _S, _VARIATION, "tempo"),
    ),
    6: (
        Slot(1, _S, _MAIN),
        Slot(2, _B, _SECOND), Slot(2, _D, _VARIATION, "paused_pull"),
        Slot(3, _S, _VARIATION, "paused"),
        Slot(4, _B, _MAIN),
        Slot(5, _D, _MAIN),
        Slot(6, _B, _VARIATION, "long_pause"), Slot(6, _S, _VARIATION, "tempo"),
    ),
}  # fmt: skip
"""The week by training days: hard days apart from each other."""

TAPER: dict[int, tuple[Slot, ...]] = {
    2: (
        Slot(1, _D, _MODERATE), Slot(1, _B, _LIGHT),
        Slot(4, _S, _TOP), Slot(4, _B, _TOP),
    ),
    3: (
        Slot(1, _D, _MODERATE), Slot(1, _B, _LIGHT),
        Slot(3, _S, _TOP), Slot(5, _B, _TOP), Slot(5, _S, _LIGHT),
    ),
    4: (
        Slot(1, _D, _MODERATE), Slot(2, _B, _MODERATE),
        Slot(4, _S, _TOP), Slot(5, _B, _TOP),
    ),
    5: (
        Slot(1, _D, _MODERATE), Slot(2, _B, _MODERATE),
        Slot(3, _S, _TOP), Slot(5, _B, _TOP), Slot(6, _S, _LIGHT),
    ),
    6: (
        Slot(1, _D, _MODERATE), Slot(2, _B, _MODERATE), Slot(3, _S, _TOP),
        Slot(4, _B, _LIGHT), Slot(5, _B, _TOP), Slot(6, _S, _LIGHT),
    ),
}  # fmt: skip
"""The first taper week: squat and bench press are heaviest 8 to 11 days out, where [1] and [2]
meet, the deadlift was the week before."""

MEET_WEEK: dict[int, tuple[Slot, ...]] = {
    1: (Slot(3, _S, _OPENER), Slot(3, _B, _OPENER), Slot(3, _D, _LIGHT)),
    2: (
        Slot(5, _S, _OPENER), Slot(5, _D, _MODERATE), Slot(5, _B, _LIGHT),
        Slot(3, _B, _OPENER), Slot(3, _S, _LIGHT),
    ),
    3: (
        Slot(5, _S, _OPENER), Slot(5, _D, _MODERATE), Slot(4, _B, _LIGHT),
        Slot(3, _B, _OPENER), Slot(3, _S, _LIGHT),
    ),
}  # fmt: skip
"""The meet week by sessions; `day` counts back from the meet. Half the usual sessions [2]."""

SCHEMES: dict[tuple[Purpose, Role], Scheme] = {
    (Purpose.GENERAL, _MAIN): Scheme((8, 8), (62, 68), 1350),
    (Purpose.GENERAL, _SECOND): Scheme((8, 8), (58, 63), 950),
    (Purpose.GENERAL, _VARIATION): Scheme((8, 8), (58, 64), 800),
    (Purpose.VOLUME, _MAIN): Scheme((6, 5), (69, 75), 1650),
    (Purpose.VOLUME, _SECOND): Scheme((6, 5), (65, 70), 1200),
    (Purpose.VOLUME, _VARIATION): Scheme((6, 6), (65, 70), 1000),
    (Purpose.INTENSITY, _MAIN): Scheme((5, 4), (77, 83), 1650),
    (Purpose.INTENSITY, _SECOND): Scheme((5, 4), (72, 77), 1200),
    (Purpose.INTENSITY, _VARIATION): Scheme((5, 5), (70, 74), 1000),
    (Purpose.PEAK, _MAIN): Scheme((3, 3), (82, 84), 1500),
    (Purpose.PEAK, _SECOND): Scheme((3, 3), (76, 78), 1200),
    (Purpose.PEAK, _VARIATION): Scheme((4, 4), (70, 72), 1000),
}

TAPER_SETS: dict[Role, tuple[int, int, float]] = {
    _TOP: (2, 2, 82), _MODERATE: (2, 2, 79), _LIGHT: (2, 3, 74), _OPENER: (2, 2, 78),
}  # fmt: skip
"""Sets, repetitions and per cent of the taper before they are fitted to its volume."""

OPENER_SINGLE = 85.0


@dataclass(frozen=True, slots=True)
class Singles:
    """Per cents [%] of judged singles: at the start and end of the peak block, the deadlift's
    last, and the last of squat and bench press. `reserve` repetitions must be left at least."""

    first: float
    second: float
    deadlift: float
    last: float
    reserve: float


USUAL = Singles(90, 92.5, 95, 95, 1)
CAREFUL = Singles(84, 86, 88, 88, 2)
"""For minors and first-timers: nothing that grinds (our own caution)."""
