"""Every limit on coming down in weight, and every day count about it, with where it comes from.

What has no source is our own caution, and says so. Nothing here concerns the last days before a
weigh-in: the program never plans dehydration.
"""

from __future__ import annotations

from coachdesk.domain.engine_parameters import Parameter, Status

_GARTHE = "Garthe et al. 2011 (IJSNEM 21:97-104), groups that aimed at 0.7 and 1.4 % a week"

COMFORTABLE_PACE = Parameter(
    0.35,
    "% of present bodyweight a week",
    Status.OWN_CAUTION,
    "half of what the slow group of Garthe et al. 2011 lost with a gain in lean mass",
)
STEADY_PACE = Parameter(
    0.7,
    "% of present bodyweight a week",
    Status.RECORDED,
    f"{_GARTHE}: the slow group lost 0.7 % and gained 2.1 % of lean mass",
)
HARD_PACE = Parameter(
    1.0,
    "% of present bodyweight a week",
    Status.RECORDED,
    f"{_GARTHE}: the fast group really lost 1.0 %, with 0.2 % of lean mass",
)
LARGEST_LOSS = Parameter(
    5.0, "% of present bodyweight", Status.OWN_CAUTION, "more is for a physician to plan"
)
LOWEST_BODY_MASS_INDEX = Parameter(
    18.5, "kg/m2, at the class limit", Status.RECORDED, "World Health Organization: underweight"
)
ADULT = Parameter(18, "years", Status.OWN_CAUTION, "minors see a physician")
ARRIVE_EARLY = Parameter(
    7, "days before weigh-in", Status.OWN_CAUTION, "the last week is for lifting, not for losing"
)
BEHIND = Parameter(
    7, "days of the agreed line", Status.OWN_CAUTION, "less is noise, or a week of holidays"
)
ABOUT_TO_START = Parameter(
    28,
    "days before the latest start at a comfortable pace",
    Status.OWN_CAUTION,
    "time to talk about it and to begin",
)
"""From here on an athlete above the class is one who must start."""

NO_WEIGHT = Parameter(10, "days", Status.OWN_CAUTION, "a trend of a week's noise needs readings")
ODD_SHOWN = Parameter(7, "days", Status.OWN_CAUTION, "later readings have told what it was")

ALL = (
    COMFORTABLE_PACE,
    STEADY_PACE,
    HARD_PACE,
    LARGEST_LOSS,
    LOWEST_BODY_MASS_INDEX,
    ADULT,
    ARRIVE_EARLY,
    BEHIND,
    ABOUT_TO_START,
    NO_WEIGHT,
    ODD_SHOWN,
)
