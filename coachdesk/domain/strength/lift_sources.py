"""All that is known of one lift before a meet: every source's forecast, and the one that is used.

Used is what the coach chose; else the coach's own number; else the first in order of trust, unless
a later one is clearly narrower. One source rather than an average of several: it can be traced to
certain sets or a certain meet, and sources that rest on the same training do not make one another
surer.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.strength.forecast import Forecast, Source
from coachdesk.domain.strength.misses import MissHistory
from coachdesk.domain.strength.observations import LiftDays
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.strength.parameters import CLEARLY_NARROWER
from coachdesk.domain.strength.tried import Tried
from coachdesk.domain.text import text
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass


@dataclass(frozen=True, slots=True)
class PastMeet:
    """A lift at an earlier meet: the attempts taken, the best good one, the coach's number then."""

    name: str
    on: date
    attempts: tuple[Tried, ...]
    best: Mass | None
    own: Mass | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRecord:
    """What is on file about one lift of an athlete who lifts on the day `on`.

    `days` are what the athlete's training days say of this lift, `singles` the judged singles of it
    as they were logged; `past` the earlier meets in the same equipment, latest
    first, out of `meets_behind` lifted in all. Nothing counts that happened on the day `until` or
    later, which is not after `on`. `strength_causes` are the causes of no lift that say that
    strength ran out.
    """

    lift: Lift
    equipment: Equipment
    on: date
    until: date
    meets_behind: int
    days: LiftDays = field(default_factory=LiftDays)
    singles: tuple[LoggedSetData, ...] = ()
    past: tuple[PastMeet, ...] = ()
    strength_causes: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if self.until > self.on:
            raise InvalidInput("until", text("strength.until", day=self.on))
        if self.meets_behind < 0:
            raise InvalidInput("meets_behind", text("check.not_negative"))


@dataclass(frozen=True, slots=True)
class LiftSources:
    """Every source's forecast in order of trust, and the technical misses on record.

    `day` is the spread of the athlete's days, a fraction. `chosen` is the source that the coach
    wants, None for the usual choice.
    """

    forecasts: tuple[Forecast, ...]
    misses: MissHistory
    day: float
    chosen: Source | None = None

    def of(self, source: Source) -> Forecast | None:
        """The forecast from `source`, None where it knows nothing."""
        return next((each for each in self.forecasts if each.source is source), None)

    def with_own(self, own: OwnNumber | None, chosen: Source | None) -> LiftSources:
        """The same records with another number and another choice of the coach."""
        rest = tuple(each for each in self.forecasts if each.source is not Source.OWN_NUMBER)
        first = () if own is None else (own.forecast(self.day),)
        return replace(self, forecasts=(*first, *rest), chosen=chosen)

    @property
    def used(self) -> Forecast | None:
        """The forecast to plan on; None when nothing is known.

        A chosen source that knows nothing (any more) does not count.
        """
        for source in (self.chosen, Source.OWN_NUMBER):
            found = None if source is None else self.of(source)
            if found is not None:
                return found
        used: Forecast | None = None
        for each in self.forecasts:
            if used is None or each.error < CLEARLY_NARROWER.value * used.error:
                used = each
        return used
