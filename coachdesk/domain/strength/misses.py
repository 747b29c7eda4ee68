"""What an athlete's own attempts and judged singles say of t, the chance of a technical miss.

Bayes' rule from the usual rate on. Where the cause was noted, a miss counts as technical or not,
and what is learned is a Beta distribution in closed form. Where it was not, it is split by what a
belief about that day makes of it: its strength is normal about what was expected then, and all
attempts of the day are seen together, so that an opener missed before a heavier lift was made is
all but technical. That is done for every rate on a grid, and a Beta distribution with the same mean
and variance stands for the outcome.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log
from operator import add, mul

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.tried import Tried, likelihood, within
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Percent

_ROOTS = tuple((at + 0.5) / 80 for at in range(80))
_RATES = tuple(at**4 for at in _ROOTS)
"""Rates on a grid of fourth roots: fine near none, where they are, and harmless at the ends."""
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
    """The chance of a technical miss as records have it: a Beta distribution.

    `rate` is its mean (0 to 1), `worth` how many attempts' worth of records back it; `usual` is the
    rate of athletes like this one. Of `attempts` of the athlete's own, `technical` were noted as
    technical misses, `unexplained` were misses whose cause was not noted.
    """

    rate: float
    worth: float
    usual: float
    attempts: int = 0
    technical: int = 0
    unexplained: int = 0

    @property
    def told(self) -> Text:
        """The rate and what it rests on, in words."""
        rate = Percent(100 * self.rate)
        if not self.attempts:
            return text("strength.misses.usual", rate=rate)
        return text(
            "strength.misses.own",
            rate=rate,
            usual=Percent(100 * self.usual),
            technical=self.technical,
            unexplained=self.unexplained,
            count=self.attempts,
        )


def miss_history(
    days: Sequence[ExpectedDay], *, usual: float, usual_attempts: float
) -> MissHistory:
    """What `days` before the one to come say of the chance of a technical miss.

    Before them the rate is `usual` (0 to 1, neither end), worth `usual_attempts` attempts. Raises
    InvalidInput (field "miss_rate") for a usual rate out of range, or one that is worth nothing.
    """
    if not 0.0 < usual < 1.0:
        raise InvalidInput("miss_rate", text("engine.miss_rate"))
    if not 0.0 < usual_attempts < inf:
        raise InvalidInput("miss_rate", text("engine.miss_attempts"))
    counts = Counter(attempt.outcome for day in days for attempt in day.attempts)
    technical, unexplained = counts[Outcome.TECHNICAL], counts[Outcome.NO_LIFT]
    attempts = counts.total()
    missed = usual * usual_attempts + technical
    known = attempts - unexplained
    rate, worth = missed / (usual_attempts + known), usual_attempts + known
    if unexplained:
        open_days = [day for day in days if any(each.is_unexplained for each in day.attempts)]
        rate, worth = _revised(missed, worth - missed, open_days)
    return MissHistory(rate, worth, usual, attempts, technical, unexplained)


def _revised(a: float, b: float, days: Sequence[ExpectedDay]) -> tuple[float, float]:
    """Mean and worth of a Beta(a, b) after the misses of `days` that nobody explained."""
    logs = [
        (4.0 * a - 1.0) * log(at) + (b - 1.0) * log(1.0 - rate)
        for at, rate in zip(_ROOTS, _RATES, strict=True)
    ]
    for day in days:
        seen = _chances(day)
        logs = [so_far + log(chance) for so_far, chance in zip(logs, seen, strict=True)]
    most = max(logs)
    weights = [exp(value - most) for value in logs]
    total = sum(weights)
    mean = sum(map(mul, weights, _RATES)) / total
    square = sum(weight * (rate - mean) ** 2 for weight, rate in zip(weights, _RATES, strict=True))
    return mean, mean * (1.0 - mean) * total / square - 1.0


def _chances(day: ExpectedDay) -> list[float]:
    """How likely a day's results are at each rate, up to the factors of what was explained.

    A miss that may be either has the chance (1 - m) + t m, m the chance that the weight is within
    the day's strength: a polynomial in the rate t for the day, all of its coefficients positive.
    """
    strengths = [day.expected_kg * max(0.01, 1.0 + day.sd * at) for at in _DEVIATIONS]
    explained = [each for each in day.attempts if not each.is_unexplained]
    powers = [[*map(mul, _DENSITY, likelihood(explained, strengths))]]
    for missed in day.attempts:
        if missed.is_unexplained:
            made = within(missed.weight_kg, strengths)
            too_heavy = [1.0 - chance for chance in made]
            as_before = [[*map(mul, power, too_heavy)] for power in powers]
            technical = [[*map(mul, power, made)] for power in powers]
            nothing = [0.0] * len(strengths)
            powers = [
                [*map(add, low, high)]
                for low, high in zip([*as_before, nothing], [nothing, *technical], strict=True)
            ]
    sums = [sum(power) for power in powers]
    return [sum(each * rate**at for at, each in enumerate(sums)) for rate in _RATES]
