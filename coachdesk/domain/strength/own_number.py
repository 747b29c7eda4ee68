"""The coach's own number: what the day is expected to bring, and how sure the coach is of it."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.checks import check_lifted
from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.forecast import EIGHT_IN_TEN, Forecast, Source
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
