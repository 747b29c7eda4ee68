"""Every number the engine runs on, with its unit, where it comes from and how far to trust it.

They stand outside the engine, since what is expected of a lift needs some of them where the engine,
and numpy with it, is not loaded.

The recorded figures are aggregates of 795,887 public meet days (OpenPowerlifting results data,
public domain, snapshot of 2024-08-23, full power 2010-2024).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import hypot

from coachdesk.domain.lifting import Equipment, Lift

WIDEST_SD = 0.2
"""The widest belief, as a fraction of the expected maximum: beyond, nothing is known."""


class Status(StrEnum):
    """How far a parameter may be trusted."""

    RECORDED = "recorded"
    FITTED = "fitted"
    ASSUMED = "assumed"
    OWN_CAUTION = "own_caution"


class Experience(StrEnum):
    """How many meets an athlete has behind them: none, one to three, four or more."""

    FIRST_MEET = "first_meet"
    EARLY = "early"
    SEASONED = "seasoned"

    @classmethod
    def after(cls, meets: int) -> Experience:
        """The experience of an athlete with `meets` meets lifted."""
        if meets < 1:
            return cls.FIRST_MEET
        return cls.EARLY if meets < 4 else cls.SEASONED


@dataclass(frozen=True, slots=True)
class Parameter:
    """A number with its unit, its status and its provenance in a line for the documentation."""

    value: float
    unit: str
    status: Status
    provenance: str


_RECORDS = "OpenPowerlifting snapshot 2024-08-23"
_FLOOR = (
    f"{_RECORDS}: openers missed by lifters who later that day made 8-15 % more; "
    "a floor, since bomb-outs are left out"
)
_BETWEEN = "halfway between the recorded figures of a first meet and of the fifth on"


def _recorded(per_cent: float) -> Parameter:
    return Parameter(per_cent / 100, "chance", Status.RECORDED, _FLOOR)


def _between(per_cent: float) -> Parameter:
    return Parameter(per_cent / 100, "chance", Status.ASSUMED, _BETWEEN)


def _miss_rates() -> dict[tuple[Lift, Experience], Parameter]:
    return {
        (Lift.SQUAT, Experience.FIRST_MEET): _recorded(6.1),
        (Lift.SQUAT, Experience.EARLY): _between(4.3),
        (Lift.SQUAT, Experience.SEASONED): _recorded(2.5),
        (Lift.BENCH, Experience.FIRST_MEET): _recorded(5.4),
        (Lift.BENCH, Experience.EARLY): _between(3.6),
        (Lift.BENCH, Experience.SEASONED): _recorded(1.8),
        (Lift.DEADLIFT, Experience.FIRST_MEET): _recorded(2.05),
        (Lift.DEADLIFT, Experience.EARLY): _between(1.8),
        (Lift.DEADLIFT, Experience.SEASONED): _recorded(1.55),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters:
    """The engine's parameters; margins are m = (S - w) / S, S the day's maximum, w the weight.

    `strength_spread` is nu of the success curve; `grind_below` and `easy_above` are the margins
    at which half the handlers would say so, `seen_spread` how blurred that judgement is;
    `flat_below`, `flying_above` and `warm_up_spread` say the same of the last warm-ups, of the
    day's maximum against the expected one.
    """

    strength_spread: Parameter = Parameter(
        0.008, "of S", Status.ASSUMED, "results cannot tell it: a weight is tried once or twice"
    )
    grind_below: Parameter = Parameter(
        0.03, "of S", Status.ASSUMED, "a grind has less than one repetition in reserve (about 4 %)"
    )
    easy_above: Parameter = Parameter(
        0.075, "of S", Status.ASSUMED, "an easy lift has two repetitions in reserve (about 8 %)"
    )
    seen_spread: Parameter = Parameter(
        0.02, "of S", Status.ASSUMED, "half a repetition in reserve either way"
    )
    flat_below: Parameter = Parameter(
        -0.025, "of expected", Status.ASSUMED, "a day's noise below what was expected"
    )
    flying_above: Parameter = Parameter(
        0.025, "of expected", Status.ASSUMED, "a day's noise above what was expected"
    )
    warm_up_spread: Parameter = Parameter(
        0.04, "of expected", Status.ASSUMED, "warm-ups tell less than an attempt"
    )
    lift_noise: Parameter = Parameter(
        0.033,
        "of the lift",
        Status.RECORDED,
        f"{_RECORDS}: robust sd about a lifter's own neighbouring meets, squat and bench",
    )
    total_noise: Parameter = Parameter(
        0.025, "of the total", Status.RECORDED, f"{_RECORDS}: the same, of the total"
    )
    miss_rates: Mapping[tuple[Lift, Experience], Parameter] = field(default_factory=_miss_rates)
    equipped_misses: Parameter = Parameter(
        1.6,
        "times classic",
        Status.ASSUMED,
        f"{_RECORDS}: openers missed in single-ply against raw (squat 19.9 to 11.8 %, bench 15.8 "
        "to 8.5 %); causes were not recorded",
    )
    miss_attempts: Parameter = Parameter(
        20.0, "attempts", Status.ASSUMED, "what an average miss rate is worth against own attempts"
    )
    coach_error: Parameter = Parameter(
        0.02,
        "of expected",
        Status.OWN_CAUTION,
        "what a coach's number may be off beyond the day's own spread; chosen so that a coach "
        "3 % too hopeful loses nothing against 90/95/100 %",
    )
    first_meet_spread: Parameter = Parameter(
        1.5, "times", Status.ASSUMED, "a first-timer's day (4.5 %) against a typical one (3 %)"
    )
    largest_jump: Parameter = Parameter(
        0.13,
        "of the weight",
        Status.RECORDED,
        f"{_RECORDS}: about 95 of 100 jumps after a good lift are at most that",
    )
    largest_jump_first_meet: Parameter = Parameter(
        0.075, "of the weight", Status.OWN_CAUTION, "no source; never under one step"
    )
    aim_tolerance: Parameter = Parameter(
        0.02, "chance", Status.OWN_CAUTION, "what of the first aim's chance the total may cost"
    )
    aim_worth: Parameter = Parameter(
        1.0,
        "times a lost total",
        Status.OWN_CAUTION,
        "the most a first aim may be worth: missing it is never worse than having no total",
    )
    card_lines: Parameter = Parameter(
        10, "lines", Status.OWN_CAUTION, "what a handler reads off a pocket card within a minute"
    )

    def miss_rate(self, lift: Lift, experience: Experience, equipment: Equipment) -> float:
        """The average chance of a miss that strength does not explain, 0 to 1."""
        classic = self.miss_rates[lift, experience].value
        return classic * self.equipped_misses.value if equipment is Equipment.EQUIPPED else classic


DEFAULT = Parameters()


def day_spread(sd: float, *, first_meet: bool, parameters: Parameters = DEFAULT) -> float:
    """The standard deviation of a lift's day, as a fraction; at a first meet it is wider than
    `sd`, that of other days."""
    return sd * parameters.first_meet_spread.value if first_meet else sd


def widened(day: float, error: float) -> float:
    """The standard deviation of the day's maximum, as a fraction, at most `WIDEST_SD`: the day's
    own, counted once, and what the number itself may be off, each apart from the other."""
    return min(WIDEST_SD, hypot(day, error))


def honest_sd(
    sd: float,
    *,
    first_meet: bool = False,
    own_number: bool = True,
    parameters: Parameters = DEFAULT,
) -> float:
    """The standard deviation to plan on, as a fraction: the day's own and what the number may err.

    `own_number`: the expected maximum is the coach's own number rather than an estimate whose error
    `sd` holds already. A first meet is wider.
    """
    error = parameters.coach_error.value if own_number else 0.0
    return widened(day_spread(sd, first_meet=first_meet, parameters=parameters), error)
