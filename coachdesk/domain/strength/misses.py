"""What an athlete's own attempts and judged singles say of t, the chance of a technical miss.

Where the cause was noted, a miss counts as technical or not. Where it was not, it is split by what
a belief about that day makes of it: its strength is normal about what was expected then, and the
other attempts of the day are taken into account, so that an opener missed before a heavier lift was
made is all but technical.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp
from operator import mul

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.tried import Tried, likelihood, within
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent

_DEVIATIONS = tuple(at / 4 for at in range(-16, 17))
_DENSITY = tuple(exp(-0.5 * at**2) for at in _DEVIATIONS)


@dataclass(frozen=True, slots=True)
class ExpectedDay:
    """Attempts of one lift on one day, what was expected of it then [kg], and its standard
    deviation as a fraction (above 0)."""

    expected_kg: float
    sd: float
    attempts: tuple[Tried, ...]


@dataclass(frozen=True, slots=True)
class MissHistory:
    """The chance of a technical miss as records have it, and what it rests on.

    The usual `usual` (0 to 1) stands for `usual_attempts` attempts; of `attempts` of the athlete's
    own, `technical` were technical misses (not whole: misses without a cause are split).
    """

    usual: float
    usual_attempts: float
    technical: float = 0.0
    attempts: int = 0

    def __post_init__(self) -> None:
        if not 0.0 <= self.usual < 1.0:
            raise InvalidInput("miss_rate", text("engine.miss_rate"))
        if not 0.0 < self.usual_attempts < float("inf"):
            raise InvalidInput("miss_rate", text("engine.miss_attempts"))

    @property
    def rate(self) -> float:
        """The expected chance, the mean of a Beta distribution."""
        return (self.usual * self.usual_attempts + self.technical) / self.worth

    @property
    def worth(self) -> float:
        """How many attempts the rate rests on, the usual ones included."""
        return self.usual_attempts + self.attempts

    @property
    def told(self) -> Text:
        """The rate and what it rests on, in words."""
        rate, usual = Percent(100 * self.rate), Percent(100 * self.usual)
        if not self.attempts:
            return text("strength.misses.usual", rate=rate)
        return text(
            "strength.misses.own",
            rate=rate,
            usual=usual,
            technical=round(self.technical, 1),
            count=self.attempts,
        )


def miss_history(
    days: Sequence[ExpectedDay], *, usual: float, usual_attempts: float
) -> MissHistory:
    """What `days` before the one to come say of the chance of a technical miss.

    Raises InvalidInput (field "miss_rate") for a usual chance outside 0 to 1, or one that rests on
    no attempts.
    """
    attempts = sum(len(day.attempts) for day in days)
    noted = sum(attempt.outcome is Outcome.TECHNICAL for day in days for attempt in day.attempts)
    known = MissHistory(usual, usual_attempts, noted, attempts)
    split = sum(_technical(day, known.rate) for day in days)
    return MissHistory(usual, usual_attempts, noted + split, attempts)


def _technical(day: ExpectedDay, rate: float) -> float:
    """How many of the day's misses without a cause were technical, as far as can be told."""
    return sum(
        _share(day, at, rate) for at, attempt in enumerate(day.attempts) if attempt.is_unexplained
    )


def _share(day: ExpectedDay, missed: int, rate: float) -> float:
    strengths = [day.expected_kg * max(0.01, 1.0 + day.sd * at) for at in _DEVIATIONS]
    others = (*day.attempts[:missed], *day.attempts[missed + 1 :])
    belief = [*map(mul, _DENSITY, likelihood(others, strengths, rate))]
    made = within(day.attempts[missed].weight_kg, strengths)
    too_heavy = sum(chance * (1.0 - good) for chance, good in zip(belief, made, strict=True))
    on_strength = (1.0 - rate) * too_heavy / sum(belief)
    return rate / (rate + on_strength) if rate > 0.0 else 0.0
