"""The numbers that forecasts of a lift run on, with where they come from and how far to trust them.

"Sample" is a sample of 25,813 pairs of neighbouring meet days, classic, three lifts, from the
OpenPowerlifting results data (public domain, snapshot of 2024-08-23).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from math import sqrt

from coachdesk.domain.engine_parameters import Parameter, Status

RECENT = timedelta(weeks=6)
"""Older sets and judged singles say little about the present."""

LOOK_BACK = timedelta(days=730)
"""Meets that are longer ago say nothing about how the gym carries over today."""

_SAMPLE = "OpenPowerlifting snapshot 2024-08-23, sample"

LEARNED_FROM = timedelta(weeks=26)
"""How far back the training days reach that a level is made of: by then a lift has drifted by as
much as a day's noise, and a day so old counts next to nothing (our own caution)."""

DRIFT = Parameter(
    0.0025,
    "of the lift, times the root of the days",
    Status.FITTED,
    f"{_SAMPLE}: the variance of a lift's log ratio grows by 5 to 7 millionths a day from the "
    "second meet on; at no distance it comes to 3.1 % for each of the two days",
)
DRIFT_EARLY = Parameter(
    0.005,
    "of the lift, times the root of the days",
    Status.FITTED,
    "the records of `BY_MEETS`: from the first meet to the second the ratios spread by 9.4 %, "
    "later on by 7.4 %; the difference over half a year, with the drift of later years, comes to "
    "0.0050",
)
HALF_LIFE = Parameter(
    42.0,
    "days",
    Status.ASSUMED,
    "a trend lasts as long as a training block, four to eight weeks; meets lie too far apart to "
    "tell it",
)
TREND_SHARE = Parameter(
    0.5,
    "of the drift's variance",
    Status.ASSUMED,
    "what comes by trends, the rest from day to day: in the long run both together are the drift. "
    "The usual spread of rates that follows is 0.11 % a week, twice that before a second meet",
)
BAND_TOO_NARROW = Parameter(
    1.5,
    "times",
    Status.OWN_CAUTION,
    "bands are drawn too narrow: as if what was meant for eight days in ten held for six",
)
CARRY_OVER = Parameter(
    0.04,
    "of the factor",
    Status.ASSUMED,
    "sets are not held to commands, nor rested for: either way, so the usual factor is one",
)
CARRY_OVER_JUDGED = Parameter(
    0.025, "of the factor", Status.ASSUMED, "a judged single is called as on the platform"
)
NOT_CALLED = Parameter(
    sqrt(CARRY_OVER.value**2 - CARRY_OVER_JUDGED.value**2),
    "of the maximum",
    Status.ASSUMED,
    "what a set that nobody called may be off against a judged single: what the two carry-overs "
    "differ by",
)
DAY_SPREAD = Parameter(
    0.3, "of its logarithm", Status.ASSUMED, "how much athletes differ in their days' noise"
)

FORECAST_OFF = Parameter(
    0.03,
    "of what was forecast",
    Status.ASSUMED,
    "how far off forecasts may be throughout: a day's noise, since more would have been noticed",
)
FORECAST_WIDTH = Parameter(
    0.4,
    "of its logarithm",
    Status.ASSUMED,
    "bands half as wide again as said, or two thirds of it, surprise nobody (compare "
    "`BAND_TOO_NARROW`)",
)

CLEARLY_NARROWER = Parameter(
    0.75,
    "of the other's error",
    Status.OWN_CAUTION,
    "errors are known roughly: a quarter is more than two sources' errors are told apart by",
)


@dataclass(frozen=True, slots=True)
class Progress:
    """Usual progress from one meet to the next, up to and including `upto` days or meets behind.

    `ratio` is the mean ratio of the results, `sd` its standard deviation; both days' noise is in
    it.
    """

    upto: int | None
    ratio: float
    sd: float


BY_GAP = (
    Progress(60, 1.023, 0.072),
    Progress(120, 1.030, 0.065),
    Progress(180, 1.036, 0.067),
    Progress(270, 1.042, 0.073),
    Progress(450, 1.053, 0.090),
    Progress(730, 1.057, 0.107),
    Progress(None, 1.057, 0.137),
)
"""By days between the meets: recorded (OpenPowerlifting snapshot 2024-08-23, classic totals) up to
450 days; beyond, from the sample, with the spread a tenth above a single lift's robust one."""

BY_MEETS = (
    Progress(1, 1.067, 0.094),
    Progress(2, 1.042, 0.078),
    Progress(3, 1.031, 0.074),
    Progress(4, 1.024, 0.073),
    Progress(9, 1.015, 0.073),
    Progress(None, 1.006, 0.073),
)
"""By meets behind the athlete, the same records; the last two spreads repeat the one before."""

AVERAGE = Progress(None, 1.040, 0.085)
"""Over all gaps and meets, the same records."""
