"""What was forecast of a lift once: kept with its day, so that its error can be learned."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.engine_parameters import widened
from coachdesk.domain.lifting import Lift
from coachdesk.domain.strength.forecast import Source, eight_in_ten
from coachdesk.domain.units import Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptForecast:
    """What was forecast of a lift of an entry on the day `made_on`: `expected`, with `error` and
    `day` as in a `Forecast`."""

    entry_id: int
    lift: Lift
    made_on: date
    source: Source
    expected: Mass
    error: float
    day: float

    @property
    def sd(self) -> float:
        """The standard deviation of the day's maximum, as a fraction of `expected`."""
        return widened(self.day, self.error)

    @property
    def band(self) -> tuple[Mass, Mass]:
        """The ends of the band that was to hold eight days in ten."""
        return eight_in_ten(self.expected, self.sd)
