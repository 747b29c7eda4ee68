"""What a coach wants of an athlete's day: the first aim, and how far it may go."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass


class FirstAim(StrEnum):
    """What comes before the total. A number on the total may be a qualifying total, a PB or a
    record; on a lift a PB, or the record that stands and has to be beaten."""

    TOTAL = "total"
    NUMBER_ON_TOTAL = "number_on_total"
    NUMBER_ON_LIFT = "number_on_lift"
    RECORD_ON_LIFT = "record_on_lift"
    ALL_GOOD = "all_good"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """The first aim, and the coach's caps.

    `number` is the number aimed for, the record that stands, or the least total nine good lifts
    should bring (None leaves it open); `lift` the lift it is about. `risk_cap` is the most the
    chance of no total may be (0 to 1), `largest_jump` the largest jump as a fraction of the weight
    before; None for no cap, and for the usual one.
    """

    aim: FirstAim = FirstAim.TOTAL
    lift: Lift | None = None
    number: Mass | None = None
    risk_cap: float | None = None
    largest_jump: float | None = None
