"""Whether a bodyweight is so far off the one before it that somebody should look again."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.engine_parameters import Parameter, Status
from coachdesk.domain.units import Mass

ODD_SHARE = Parameter(
    3.0,
    "% of the weight before, for each week between, the first week in full",
    Status.OWN_CAUTION,
    "three times the fastest pace a plan may ask for; asked about, never refused",
)
ODD_AT_MOST = Parameter(
    10.0, "% of the weight before", Status.OWN_CAUTION, "however long ago: a slip of unit is 55 %"
)


def is_odd(weight: Mass, on: date, before: Mass, before_on: date) -> bool:
    """Whether `weight` is further off `before` than the weeks between them explain."""
    weeks = max(1.0, abs((on - before_on).days) / 7)
    share = min(ODD_SHARE.value * weeks, ODD_AT_MOST.value) / 100
    return abs(weight.grams - before.grams) > share * before.grams
