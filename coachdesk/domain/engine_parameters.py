"""Every number the engine runs on, with its unit, where it comes from and how far to trust it.

They stand outside the engine, since what is expected of a lift needs some of them where the engine,
and numpy with it, is not loaded.

The recorded figures are aggregates of 795,887 public meet days (OpenPowerlifting results data,
public domain, snapshot of 2024-08-23, full power 2010-2024).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from math import hypot
from typing import TypeAlias

from coachdesk.domain.lifting import Equipment, Lift

WIDEST_SD = 0.2
"""The widest belief, as a fraction of the expected maximum: beyond, nothing is known."""


_MOST_SHARED = 0.95
_EQUAL_LIFTS = (1 / 3, 1 / 3, 1 / 3)


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
_FIT = f"{_RECORDS}: tests/bench/fit_attempts.py, maximum likelihood over 12,000 lifters"

MissRates: TypeAlias = Mapping[tuple[Lift, Experience, Equipment], "Parameter"]


def _fitted(per_cent: float, error: float, floor: float) -> Parameter:
    return Parameter(
        per_cent / 100,
        "chance",
        Status.FITTED,
        f"{_FIT}; standard error {error} %; {floor} % missed an opener they made later that day",
    )


def _miss_rates() -> MissRates:
    """By lift and equipment the rates of a first meet, of one to three behind, of four or more."""
    figures = {
        (Lift.SQUAT, Equipment.CLASSIC): ((13.6, 0.3, 12.2), (11.1, 0.3, 10.1), (8.9, 0.4, 7.6)),
        (Lift.SQUAT, Equipment.EQUIPPED): ((21.2, 1.0, 17.3), (19.6, 1.0, 16.9), (19.8, 1.0, 15.7)),
        (Lift.BENCH, Equipment.CLASSIC): ((9.9, 0.3, 8.8), (7.3, 0.3, 6.6), (4.5, 0.3, 3.5)),
        (Lift.BENCH, Equipment.EQUIPPED): ((15.3, 0.9, 12.4), (14.0, 0.9, 12.1), (16.2, 0.9, 12.1)),
        (Lift.DEADLIFT, Equipment.CLASSIC): ((4.8, 0.2, 4.1), (4.5, 0.2, 3.8), (4.0, 0.3, 3.5)),
        (Lift.DEADLIFT, Equipment.EQUIPPED): ((7.3, 0.6, 5.3), (6.0, 0.6, 4.7), (4.7, 0.5, 4.1)),
    }
    return {
        (lift, experience, equipment): _fitted(*figure)
        for (lift, equipment), by_experience in figures.items()
        for experience, figure in zip(Experience, by_experience, strict=True)
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
        Status.FITTED,
        f"{_RECORDS}: robust sd about a lifter's own neighbouring meets, mean of the three lifts "
        "(7,079 classic meets of the lifters fitted on)",
    )
    total_noise: Parameter = Parameter(
        0.0248, "of the total", Status.FITTED, f"{_RECORDS}: the same, of the total"
    )
    miss_rates: MissRates = field(default_factory=_miss_rates)
    miss_attempts_today: Parameter = Parameter(
        5.6,
        "attempts",
        Status.FITTED,
        f"{_FIT}; what an average miss rate is worth against attempts at the same lift that day: "
        "squat 5.4, bench press 5.7, deadlift 6.1 (standard errors 0.4 to 0.7)",
    )
    miss_attempts: Parameter = Parameter(
        20.0,
        "attempts",
        Status.FITTED,
        f"{_RECORDS}: what it is worth against other days and lifts; a missed opener and one at "
        "the next meet correlate by 0.05, two on one day by 0.07, and 1 / (1 + 20) is 0.05",
    )
    miss_carried: Parameter = Parameter(
        0.45,
        "chance",
        Status.FITTED,
        f"{_RECORDS}: openers missed in two lifts of a day correlate by 0.07, attempts at one lift "
        "by 1 / (1 + 5.6) = 0.15; the rank among athletes stays from lift to lift so often",
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
        return self.miss_rates[lift, experience, equipment].value


DEFAULT = Parameters()


def shared_part(parameters: Parameters = DEFAULT, shares: Sequence[float] = _EQUAL_LIFTS) -> float:
    """r, the part of a lift's variance that all lifts of the day share, 0 to 1.

    `shares` are the lifts' parts of the total; they sum to one. In closed form, see
    `engine.belief`.
    """
    ratio = (parameters.total_noise.value / parameters.lift_noise.value) ** 2
    apart = sum(share**2 for share in shares)
    if apart >= 1.0:
        return 0.0
    return min(_MOST_SHARED, max(0.0, (ratio - apart) / (1.0 - apart)))


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
