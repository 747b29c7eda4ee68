"""The trend of a bodyweight: level, weekly rate, and what the scale will show at a weigh-in.

A damped local linear trend by days (`trend_filter`). Its damping and how much level and slope
wander are the same for every athlete, from records (`parameters`); the noise of a reading is
learned, and odd readings count for less (`noise`). Dress, the hour, another scale and the water of
a cycle are taken off first (`weighing`). The standard library does: a trend is wanted where numpy
is not loaded.
"""

from __future__ import annotations

from coachdesk.domain.bodyweight.outlook import Outlook, ScaleForecast
from coachdesk.domain.bodyweight.standing import Bodyweight, OddWeight, bodyweight
from coachdesk.domain.bodyweight.trend import OddReading, Trend, trend
from coachdesk.domain.bodyweight.weighing import CycleNote

__all__ = [
    "Bodyweight",
    "CycleNote",
    "OddReading",
    "OddWeight",
    "Outlook",
    "ScaleForecast",
    "Trend",
    "bodyweight",
    "trend",
]
