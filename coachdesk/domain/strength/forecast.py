"""What a lift's day can be expected to bring, from one source: the number, how wide, and why."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from statistics import NormalDist

from coachdesk.domain.engine_parameters import widened
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent, Unit, from_grams

EIGHT_IN_TEN = NormalDist().inv_cdf(0.9)
"""Standard deviations from the middle to the ends of a band that holds eight days in ten."""


class Source(StrEnum):
    """Where an expected maximum comes from, in order of trust."""

    OWN_NUMBER = "own_number"
    JUDGED_SINGLES = "judged_singles"
    SETS = "sets"
    LAST_MEET = "last_meet"


@dataclass(frozen=True, slots=True)
class Forecast:
    """The day's maximum of a lift as one source sees it.

    `error` is the standard deviation of the number itself and `day` that of the day about it, both
    fractions of `expected`. `origin` says in a line where the number comes from, `evidence` what it
    was made of: sets with their shares, the meet, the factor from gym to platform.
    """

    source: Source
    expected: Mass
    error: float
    day: float
    origin: Text
    evidence: tuple[Text, ...] = ()

    @property
    def sd(self) -> float:
        """The standard deviation of the day's maximum, as a fraction of `expected`."""
        return widened(self.day, self.error)

    @property
    def low(self) -> Mass:
        """The lower end of the band that holds eight days in ten."""
        return self._ends[0]

    @property
    def high(self) -> Mass:
        """The upper end of the band that holds eight days in ten."""
        return self._ends[1]

    @property
    def width(self) -> Text:
        """How wide the forecast is, in words."""
        return text(
            "strength.width",
            low=self.low,
            high=self.high,
            day=Percent(100 * self.day),
            error=Percent(100 * self.error),
        )

    @property
    def _ends(self) -> tuple[Mass, Mass]:
        return eight_in_ten(self.expected, self.sd)


def eight_in_ten(expected: Mass, sd: float) -> tuple[Mass, Mass]:
    """The ends of the band that holds eight days in ten, `sd` a fraction of `expected`."""
    off = EIGHT_IN_TEN * sd
    low, high = expected.kg * (1.0 - off), expected.kg * (1.0 + off)
    return to_tenths(low, expected.unit), to_tenths(high, expected.unit)


def to_tenths(kilograms: float, unit: Unit) -> Mass:
    """A computed mass [kg], to 0.1 kg: no estimate knows more than that."""
    return from_grams(round(10 * kilograms) * 100, unit)
