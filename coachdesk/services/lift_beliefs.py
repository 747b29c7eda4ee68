"""What the attempt engine is told of a lift.

This brings numpy with it: import it where a plan is made, not where the program starts.
"""

from __future__ import annotations

from coachdesk.domain.engine import LiftBelief, MissRate
from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.strength.lift_sources import LiftSources


def lift_belief(sources: LiftSources) -> LiftBelief | None:
    """The expected maximum, its honest spread, and the chance of a technical miss; None when
    nothing is known of the lift.

    However well an athlete's rate is known, the day's own lies about it.
    """
    used = sources.used
    if used is None:
        return None
    miss = MissRate.learned(sources.misses.rate, DEFAULT.miss_attempts_today.value)
    return LiftBelief(used.expected, used.sd, miss)
