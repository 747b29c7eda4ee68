"""The numbers that the bodyweight trend runs on, with where they come from and how far to trust
them.

"Meets" are 32,138 pairs of neighbouring meet days of 24,000 lifters, from the OpenPowerlifting
results data (public domain, snapshot of 2024-08-23); what they come to by days between the meets
stands in `tests/data/bodyweight_between_meets.csv`. They hold for a lifter of middling weight: all
of it is in kilograms, so that the same holds for every lifter.
"""

from __future__ import annotations

from datetime import timedelta
from statistics import NormalDist

from coachdesk.domain.athlete import Dress
from coachdesk.domain.engine_parameters import Parameter, Status

EIGHT_IN_TEN = NormalDist().inv_cdf(0.9)
"""Standard deviations from the middle to the ends of a band that holds eight readings in ten."""

HALF_LIFE = Parameter(
    28.0,
    "days",
    Status.FITTED,
    "meets: how the spread of changes grows with the days between gives 24 days, within two fifths",
)
RATE_SPREAD = Parameter(
    0.2,
    "kg a week",
    Status.FITTED,
    "meets: 0.18; a little wider, since lifters enter where they are near a class limit",
)
LEVEL_SPREAD = Parameter(
    0.05, "kg, times the root of the days", Status.ASSUMED, "food and water that stay for days"
)
NOISE = Parameter(
    0.37,
    "kg",
    Status.RECORDED,
    "of changes from day to day 32 % are at least 0.5 kg and 6.2 % at least 1.0 kg (seen, "
    "restated): standard deviations of one day's reading of 0.36 and 0.38",
)
NOISE_WORTH = Parameter(
    10.0, "readings", Status.ASSUMED, "athletes differ by about a quarter in their noise"
)
NOISE_LOOK_BACK = timedelta(days=120)
"""The noise is learned from the readings of so many days up to the last: habits and scales change,
and a hundred readings tell it to within a tenth (our own caution)."""

LEAST_NOISE = Parameter(
    0.1, "kg", Status.OWN_CAUTION, "a household scale shows tenths, and habit rounds"
)
SAME_DAY = Parameter(
    0.2,
    "of the noise's variance",
    Status.ASSUMED,
    "most of a day's noise is water and food that every reading of the day shares",
)
ODD = Parameter(
    4.0,
    "standard deviations",
    Status.OWN_CAUTION,
    "a kilogram and a half at the usual noise; one ordinary reading in sixteen thousand",
)
OTHER_SCALE = Parameter(0.3, "kg", Status.ASSUMED, "two good scales in two rooms")

MORNING = (4.0, 9.0)
"""Hours of the day that count as morning, where the level is meant; the hours after midnight
belong to the evening before (assumed)."""

EVENING_HOUR = 21.0
"""From here on the day adds nothing more (assumed)."""

PER_HOUR = Parameter(
    0.07, "kg", Status.ASSUMED, "most are half a kilogram to a kilogram heavier in the evening"
)
HOURS_UNSURE = Parameter(
    0.5, "of what the hours add", Status.ASSUMED, "meals and training differ by day and athlete"
)

DRESS: dict[Dress, tuple[Parameter, Parameter]] = {
    Dress.LIGHT: (
        Parameter(0.5, "kg", Status.ASSUMED, "shorts and a T-shirt"),
        Parameter(0.2, "kg", Status.ASSUMED, "half of that either way is seldom"),
    ),
    Dress.DRESSED: (
        Parameter(1.2, "kg", Status.RECORDED, "clothes of men 1.2 kg, of women 0.8 kg (recalled)"),
        Parameter(0.4, "kg", Status.ASSUMED, "the women's figure is one spread away"),
    ),
}
"""What dress adds, and its standard deviation. Undressed adds nothing; where dress is not known,
the athlete weighs as ever and the noise learned holds it."""

CYCLE_WATER = Parameter(
    0.45,
    "kg",
    Status.RECORDED,
    "bodyweight in menstruation above the week after it, all of it water outside the cells "
    "(recalled)",
)
CYCLE_SPREAD = Parameter(0.4, "kg", Status.ASSUMED, "some retain next to nothing, some a kilogram")

LONGEST_NOTE = timedelta(days=14)
"""Water that stays longer is no matter of the cycle (our own caution)."""

FARTHEST = timedelta(days=730)
"""No forecast reaches further: its band is wider than all the neighbouring classes."""
