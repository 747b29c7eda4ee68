"""What the forecasts of a day's lifts come to together."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from coachdesk.domain.engine_parameters import shared_part
from coachdesk.domain.strength.forecast import EIGHT_IN_TEN, Forecast


def total_kg(forecasts: Sequence[Forecast]) -> tuple[float, float, float]:
    """The sum of the day's maxima [kg], and the ends of the band that holds eight days in ten.

    The lifts share a part of the day (`shared_part`), so that their total is less sure than lifts
    apart would make it; what each number itself may be off is taken for its own. One lift at least.
    """
    days = [each.expected.kg * each.day for each in forecasts]
    errors = sum((each.expected.kg * each.error) ** 2 for each in forecasts)
    shared = shared_part()
    day = (1.0 - shared) * sum(each**2 for each in days) + shared * sum(days) ** 2
    total = sum(each.expected.kg for each in forecasts)
    off = EIGHT_IN_TEN * sqrt(day + errors)
    return total, total - off, total + off
