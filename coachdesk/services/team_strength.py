"""What the team is forecast for: total and points of each athlete at the next meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.scoring import Formula
from coachdesk.domain.strength.forecast import Forecast, to_tenths
from coachdesk.domain.strength.total import total_kg
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass
from coachdesk.services.coming_lifts import ComingEntry, coming_lifts
from coachdesk.services.desk import Desk
from coachdesk.services.packet_lifts import score_of, weight_to_score


@dataclass(frozen=True, slots=True)
class TeamStrength:
    """An athlete's entry to the next meet with what it is forecast for.

    `forecasts` has what is planned on by lift of the event, None where nothing is known; `total` is
    the sum of the day's maxima with the ends `low` and `high` of the band that holds eight days in
    ten, None where a lift is not known. `points` are those of `total` by the rulebook's `formula`,
    None without a bodyweight or without constants for the event. `faults` say by lift what is wrong
    with the coach's number.
    """

    athlete: Athlete
    entry: Entry
    meet: Meet
    days: int
    forecasts: Mapping[Lift, Forecast | None]
    total: Mass | None
    low: Mass | None
    high: Mass | None
    formula: Formula
    points: float | None
    faults: Mapping[Lift, Text]


def team_strength(desk: Desk) -> tuple[TeamStrength, ...]:
    """The forecasts of all athletes with a meet ahead, each at the soonest one; by meet, soonest
    first, then by name. Entries of one athlete to the same meet stand below one another. A constant
    number of statements."""
    with desk.reading() as reader:
        coming = coming_lifts(desk, reader)
    soonest: dict[int, int] = {}
    lines = []
    for each in coming:
        meet_id = soonest.setdefault(each.subject.athlete.id, each.subject.meet.id)
        if each.subject.meet.id == meet_id:
            lines.append(_line(desk, each))
    return tuple(lines)


def _line(desk: Desk, coming: ComingEntry) -> TeamStrength:
    subject, today = coming.subject, desk.today()
    known = [each for each in coming.forecasts.values() if each is not None]
    total = low = high = points = None
    if len(known) == len(coming.forecasts):
        unit = subject.athlete.unit
        total, low, high = (to_tenths(kg, unit) for kg in total_kg(known))
        weight = weight_to_score(subject.entry, coming.weight, today)
        points = score_of(subject.rulebook, subject.athlete, subject.entry, total, weight)
    return TeamStrength(
        athlete=subject.athlete,
        entry=subject.entry,
        meet=subject.meet,
        days=(subject.meet.starts_on - today).days,
        forecasts=coming.forecasts,
        total=total,
        low=low,
        high=high,
        formula=subject.rulebook.best_lifter,
        points=points,
        faults=coming.faults,
    )
