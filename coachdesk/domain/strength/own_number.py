"""The coach's own number: what the day is expected to bring, and how sure the coach is of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from coachdesk.domain.checks import check_lifted
from coachdesk.domain.engine_parameters import DEFAULT, WIDEST_SD, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.forecast import EIGHT_IN_TEN, Forecast, Source, to_tenths
from coachdesk.domain.strength.parameters import BAND_TOO_NARROW
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Percent


@dataclass(frozen=True, slots=True)
class OwnNumber:
    """The coach's number for a lift, and the band that holds it eight times in ten, where given.

    The band says how sure the coach is of the number; the day's own noise comes on top of it.
    Raises InvalidInput: field "number", "low" or "high" for a weight nobody can lift, "low" or
    "high" for an end on the wrong side of the number or without the other end.
    """

    number: Mass
    low: Mass | None = None
    high: Mass | None = None

    def __post_init__(self) -> None:
        check_lifted("number", self.number)
        for field, end in (("low", self.low), ("high", self.high)):
            if end is not None:
                check_lifted(field, end)
        if self.low is not None and self.high is not None and self.low.grams > self.high.grams:
            raise InvalidInput("low", text("strength.low_above_high", low=self.low, high=self.high))
        if self.low is not None and self.low.grams > self.number.grams:
            raise InvalidInput("low", text("strength.low", low=self.low, number=self.number))
        if self.high is not None and self.high.grams < self.number.grams:
            raise InvalidInput("high", text("strength.high", high=self.high, number=self.number))
        if (self.low is None) is not (self.high is None):
            raise InvalidInput("low" if self.low is None else "high", text("strength.other_end"))

    def error(self, parameters: Parameters = DEFAULT) -> float:
        """The standard deviation of the number, as a fraction of it.

        Half the band over 1.28, times `BAND_TOO_NARROW`; without a band the engine's own caution.
        """
        if self.low is None or self.high is None:
            return parameters.coach_error.value
        half = (self.high.grams - self.low.grams) / 2 / self.number.grams
        return BAND_TOO_NARROW.value * half / EIGHT_IN_TEN

    def check_width(self, day: float, parameters: Parameters = DEFAULT) -> None:
        """A band no wider than what can be planned on, with the `day`'s own spread (a fraction);
        raises InvalidInput (field "low" or "high", the end that lies further off)."""
        error = self.error(parameters)
        if self.low is None or self.high is None or hypot(day, error) <= WIDEST_SD:
            return
        above = self.high.grams - self.number.grams
        field = "high" if above > self.number.grams - self.low.grams else "low"
        most = sqrt(WIDEST_SD**2 - day**2) * 2 * EIGHT_IN_TEN / BAND_TOO_NARROW.value
        widest = to_tenths(most * self.number.kg - 0.05, self.number.unit)
        raise InvalidInput(field, text("strength.band_too_wide", widest=widest))

    def forecast(self, day: float, parameters: Parameters = DEFAULT) -> Forecast:
        """What the coach expects, with the `day`'s own spread (a fraction)."""
        error = self.error(parameters)
        off = Percent(100 * error)
        if self.low is None or self.high is None:
            evidence = text("strength.own.no_band", error=off)
        else:
            evidence = text("strength.own.band", low=self.low, high=self.high, error=off)
        return Forecast(
            Source.OWN_NUMBER,
            self.number,
            error,
            day,
            text("expected_max.coach"),
            (evidence,),
        )
