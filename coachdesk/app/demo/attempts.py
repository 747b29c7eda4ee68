"""Attempts of the demo club's past meets.

They follow the textbook pattern (see `coachdesk.domain.attempts`) and are missed for want of
technique or of strength about as often as in public results of classic meets: some nine openers,
eight seconds and six thirds of ten are good.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from random import Random

from coachdesk.app.demo.file import Causes, Strength
from coachdesk.app.demo.history import pick
from coachdesk.domain.attempts import OPENER_OF_THIRD, Steps
from coachdesk.domain.lifting import Event, Lift, Result, Seen
from coachdesk.domain.meet import AttemptData
from coachdesk.domain.units import Mass, kilograms

NOT_ON_FILE = 0
SPOILED_BY_TECHNIQUE = 0.05
AFTER = {1: Decimal("1.055"), 2: Decimal("1.04"), 3: Decimal(1)}
"""The next weight over a good lift's, by the number of the attempt."""


def draw_attempts(
    rng: Random,
    event: Event,
    strength: Strength,
    days_ago: int,
    causes: Mapping[Lift, Causes],
    steps: Steps,
) -> tuple[AttemptData, ...]:
    """The attempts of a meet `days_ago`, for an entry that is yet to be put on file."""
    return tuple(
        attempt
        for lift in event.lifts
        for attempt in _three(rng, lift, strength.maximum(lift, days_ago), causes[lift], steps)
    )


def _three(
    rng: Random, lift: Lift, maximum_kg: float, causes: Causes, steps: Steps
) -> Iterator[AttemptData]:
    """Up after a good lift, the same again after a miss."""
    limit_kg = maximum_kg * rng.gauss(0.998, 0.025)
    weight = steps.down(kilograms(maximum_kg).number * OPENER_OF_THIRD)
    for number, jump in AFTER.items():
        strong = weight.kg <= limit_kg
        good = strong and rng.random() >= SPOILED_BY_TECHNIQUE
        yield AttemptData(
            entry_id=NOT_ON_FILE,
            lift=lift,
            number=number,
            weight=weight,
            result=Result.GOOD if good else Result.NO_LIFT,
            lights=_lights(rng, good=good),
            seen=_seen(weight.kg / limit_kg) if good else None,
            cause="" if good else pick(rng, causes.technique if strong else causes.strength),
        )
        if good:
            weight = _raised(weight, jump, steps)


def _raised(weight: Mass, jump: Decimal, steps: Steps) -> Mass:
    wanted = steps.nearest(weight.number * jump)
    least = Mass(weight.number + steps.step.number, steps.step.unit)
    return wanted if wanted.grams > least.grams else least


def _seen(share_of_limit: float) -> Seen:
    if share_of_limit < 0.93:
        return Seen.EASY
    return Seen.AS_PLANNED if share_of_limit < 0.985 else Seen.GRIND


def _lights(rng: Random, *, good: bool) -> str:
    """Three alike most of the time, one the other way now and then."""
    most, odd = ("w", "r") if good else ("r", "w")
    lights = [most] * 3
    if rng.random() < 0.2:
        lights[rng.randrange(3)] = odd
    return "".join(lights)
