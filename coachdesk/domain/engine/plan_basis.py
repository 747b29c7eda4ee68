"""What the plan of an entry is made from, as the coach's wishes and the records have it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from coachdesk.domain.attempts import Fix, Steps
from coachdesk.domain.engine.belief import LiftBelief
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass
from coachdesk.domain.wishes import WishesData

_NO_WISHES = WishesData(entry_id=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What a lift is planned on: the belief, where it comes from in words, and the least weight
    the lifter's garment works with (None without one)."""

    belief: LiftBelief
    source: Text
    floor: Mass | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRequest:
    """What to plan an entry's day for.

    `lifts` are in the meet's order; `missing` are those of the event that cannot be planned: with
    one missing, nothing can be said of a total. `chosen` are the attempts the coach has chosen, by
    lift and number, taken for the way on which all goes well; `fixes` the other turns fixed.
    `made` are the bests of the day, where there are results already; `judged` the lifts with a
    judged single of late.
    """

    rulebook: str
    edition: str
    steps: Steps
    record_step: Mass
    first_meet: bool
    equipped: bool = False
    lifts: Mapping[Lift, Basis]
    missing: tuple[Lift, ...] = ()
    wishes: WishesData = _NO_WISHES
    chosen: Mapping[tuple[Lift, int], Mass] = field(default_factory=dict)
    fixes: tuple[Fix, ...] = ()
    made: Mapping[Lift, Mass] = field(default_factory=dict)
    judged: frozenset[Lift] = frozenset()

    def __hash__(self) -> int:
        return hash((tuple(self.lifts.items()), self.wishes, frozenset(self.chosen.items())))
