"""The trade's fixed words: lifts, events, equipment, sexes, and what became of an attempt."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from coachdesk.domain.text import Text, text


class Lift(StrEnum):
    """The three competition lifts, in meet order."""

    SQUAT = "squat"
    BENCH = "bench"
    DEADLIFT = "deadlift"


@cache
def lift_name(lift: Lift) -> Text:
    """What a lift is called."""
    return text(f"lift.{lift}")


class Event(StrEnum):
    """What an entry lifts."""

    THREE_LIFT = "three_lift"
    PUSH_PULL = "push_pull"
    SQUAT_ONLY = "squat_only"
    BENCH_ONLY = "bench_only"
    DEADLIFT_ONLY = "deadlift_only"

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """The lifts of the event, in meet order."""
        return _LIFTS[self]


_LIFTS = {
    Event.THREE_LIFT: (Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT),
    Event.PUSH_PULL: (Lift.BENCH, Lift.DEADLIFT),
    Event.SQUAT_ONLY: (Lift.SQUAT,),
    Event.BENCH_ONLY: (Lift.BENCH,),
    Event.DEADLIFT_ONLY: (Lift.DEADLIFT,),
}


class Equipment(StrEnum):
    """Classic (no supportive garments) or equipped."""

    CLASSIC = "classic"
    EQUIPPED = "equipped"


class Sex(StrEnum):
    """The sex of the division an athlete is entered in."""

    FEMALE = "female"
    MALE = "male"


class Result(StrEnum):
    """What became of an attempt: a void one is taken again, a passed one was not taken."""

    GOOD = "good"
    NO_LIFT = "no_lift"
    VOID = "void"
    PASSED = "passed"


class Seen(StrEnum):
    """How a good lift moved, as the handler saw it."""

    EASY = "easy"
    AS_PLANNED = "as_planned"
    GRIND = "grind"
