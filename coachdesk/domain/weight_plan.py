"""The way down that coach and athlete agreed on: a straight line from a day to a class limit."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.bodyweight.parameters import EIGHT_IN_TEN
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.weight_limits import BEHIND

_HUNDRED_GRAMS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightPlanData:
    """A way down to `weight_class`, for an entry.

    From `from_weight` on the day `agreed_on` straight to `to_weight`, the class limit, on
    `arrive_on`, which is a week before weigh-in.
    """

    entry_id: int
    agreed_on: date
    from_weight: Mass
    to_weight: Mass
    weight_class: str
    arrive_on: date

    def kg_on(self, day: date) -> float:
        """What the line says of a day [kg]: level before it begins and after it has arrived."""
        days = (self.arrive_on - self.agreed_on).days
        gone = min(max((day - self.agreed_on).days, 0), days)
        share = gone / days if days else 1.0
        return self.from_weight.kg + share * (self.to_weight.kg - self.from_weight.kg)

    def marks(self) -> tuple[tuple[date, Mass], ...]:
        """The line week by week, to 0.1 kg; the last mark is the limit on the day to arrive."""
        days = (self.arrive_on - self.agreed_on).days
        if days <= 0:
            return ()
        within = (self.agreed_on + timedelta(days=day) for day in range(7, days, 7))
        marks = tuple((day, _to_a_tenth(self.kg_on(day))) for day in within)
        return (*marks, (self.arrive_on, self.to_weight))


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightPlan(WeightPlanData):
    """An agreed way down on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True)
class Standing:
    """How a weight stands to the agreed line on a day.

    `off_kg` [kg] is positive above the line. `behind_since` is the first day of those up to now on
    which the weight was behind, None when it is not.
    """

    off_kg: float
    behind_since: date | None


def standing_to(plan: WeightPlanData, weight: Bodyweight, today: date) -> Standing | None:
    """How a weight stands to `plan`; None when the readings say nothing of today.

    It is behind when the level is above the line by more than the line falls in `BEHIND` days and
    by more than the level's own error, with eight in ten.
    """
    level_kg = weight.level_kg(today)
    if level_kg is None or not weight.tells_of(today):
        return None
    days = max((plan.arrive_on - plan.agreed_on).days, 1)
    fall_kg = (plan.from_weight.kg - plan.to_weight.kg) / days * BEHIND.value
    error_kg = EIGHT_IN_TEN * weight.outlook.carried_to(today).level_error_kg
    allowed_kg = max(fall_kg, error_kg)
    since = None
    day = today
    while day > plan.agreed_on:
        level = weight.level_kg(day)
        if level is None or level - plan.kg_on(day) <= allowed_kg:
            break
        since = day
        day -= timedelta(days=1)
    return Standing(level_kg - plan.kg_on(today), since)


def _to_a_tenth(kg: float) -> Mass:
    return from_grams(round(kg * 1000 / _HUNDRED_GRAMS) * _HUNDRED_GRAMS)
