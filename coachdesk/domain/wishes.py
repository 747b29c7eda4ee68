"""What the coach wants of a plan: the aim, the risk, the jumps, and what each lift rests on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.checks import HEAVIEST_LIFT
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, from_grams

HEAVIEST_TOTAL = from_grams(3 * HEAVIEST_LIFT.grams)


class DayAim(StrEnum):
    """What comes first; the biggest total decides where it leaves a choice.

    A number on the total may be a qualifying total, a PB or a record; on a lift it is a PB, or the
    record that stands and has to be beaten by the record step.
    """

    BIGGEST_TOTAL = "biggest_total"
    NUMBER = "number"
    LIFT_NUMBER = "lift_number"
    LIFT_RECORD = "lift_record"
    NINE_GOOD = "nine_good"

    @property
    def is_of_a_lift(self) -> bool:
        """Whether it is about one lift."""
        return self in {DayAim.LIFT_NUMBER, DayAim.LIFT_RECORD}


@dataclass(frozen=True, slots=True, kw_only=True)
class WishesData:
    """What the coach wants of an entry's plan; None leaves it to the usual.

    `aim_weight` is the number to reach, the record that stands, or the least total of nine good
    lifts; `aim_lift` the lift an aim is about that is of a lift. `risk_cap` is the largest chance
    of no total to be accepted (0 to 1), `largest_jump` the largest jump as a fraction of the weight
    before (above 0, at most 1).
    """

    entry_id: int
    aim: DayAim | None = None
    aim_lift: Lift | None = None
    aim_weight: Mass | None = None
    risk_cap: float | None = None
    largest_jump: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes(WishesData):
    """Wishes on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftBasisData:
    """What a lift of an entry is planned on, besides the coach's number (`Entry.expected`).

    `low` and `high` are the band that holds that number eight times in ten, as the coach sees it,
    both or neither; `source` is what the coach wants to plan on, None for the usual choice.
    `floor` is the least weight the lifter's suit or shirt works with, None without one.
    """

    entry_id: int
    lift: Lift
    low: Mass | None = None
    high: Mass | None = None
    source: Source | None = None
    floor: Mass | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftBasis(LiftBasisData):
    """A basis on file."""

    id: int
    version: int


def check_wishes(data: WishesData) -> None:
    """A weight where the aim needs one and nowhere else, a risk and a jump that can be; raises
    InvalidInput."""
    weight, aim = data.aim_weight, data.aim or DayAim.BIGGEST_TOTAL
    if aim.is_of_a_lift is (data.aim_lift is None):
        code = "wishes.lift_missing" if aim.is_of_a_lift else "wishes.lift_without_aim"
        raise InvalidInput("aim_lift", text(code))
    most = HEAVIEST_LIFT if aim.is_of_a_lift else HEAVIEST_TOTAL
    if weight is None:
        if aim not in {DayAim.BIGGEST_TOTAL, DayAim.NINE_GOOD}:
            raise InvalidInput("aim_weight", text("wishes.number_missing"))
    elif aim is DayAim.BIGGEST_TOTAL:
        raise InvalidInput("aim_weight", text("wishes.weight_without_aim"))
    elif not 0 < weight.grams <= most.grams:
        raise InvalidInput("aim_weight", text("check.lifted", most=most))
    if data.risk_cap is not None and not 0.0 <= data.risk_cap <= 1.0:
        raise InvalidInput("risk_cap", text("engine.risk_cap"))
    if data.largest_jump is not None and not 0.0 < data.largest_jump <= 1.0:
        raise InvalidInput("largest_jump", text("wishes.largest_jump"))
