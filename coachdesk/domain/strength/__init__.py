"""What to expect of a lift before a meet, from every source there is, and how wide.

Four sources, in order of trust: the coach's own number (`OwnNumber`), judged singles, logged sets
by Brzycki's equation (each by the trend of its training days, `gym`), and the last meet with usual
progress. `from_records` makes of a `LiftRecord` what the records say; `LiftSources.with_own` adds
the coach's number and choice; `used` is what to plan on. How an athlete's gym carries over to the
platform, how much the days differ and how often a lift is missed on a technicality are learned from
the attempts and judged singles before a date, never from a running count.

Weights in and out are `Mass` or kilograms (`..._kg`), errors and spreads fractions of the expected
maximum. The standard library does: a forecast is wanted where numpy is not loaded.
"""

from __future__ import annotations

from coachdesk.domain.strength.carry_over import CarryOver, PastDay, carry_over
from coachdesk.domain.strength.forecast import Forecast, Source
from coachdesk.domain.strength.from_records import from_records
from coachdesk.domain.strength.last_meet import MeetBest, from_last_meet, usual_progress
from coachdesk.domain.strength.lift_sources import LiftRecord, LiftSources, PastMeet
from coachdesk.domain.strength.misses import ExpectedDay, MissHistory, miss_history
from coachdesk.domain.strength.observations import LiftDays, Observation, lift_days
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.strength.parameters import LEARNED_FROM, LOOK_BACK, RECENT
from coachdesk.domain.strength.tried import Tried, outcome_of

__all__ = [
    "LEARNED_FROM",
    "LOOK_BACK",
    "RECENT",
    "CarryOver",
    "ExpectedDay",
    "Forecast",
    "LiftDays",
    "LiftRecord",
    "LiftSources",
    "MeetBest",
    "MissHistory",
    "Observation",
    "OwnNumber",
    "PastDay",
    "PastMeet",
    "Source",
    "Tried",
    "carry_over",
    "from_last_meet",
    "from_records",
    "lift_days",
    "miss_history",
    "outcome_of",
    "usual_progress",
]
