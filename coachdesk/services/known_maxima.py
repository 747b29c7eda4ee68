"""What is known of an athlete's lifts without a meet: to begin a block's training maxima with."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.strength.from_records import from_records
from coachdesk.domain.strength.lift_sources import LiftRecord
from coachdesk.domain.strength.observations import LiftDays
from coachdesk.domain.strength.parameters import LOOK_BACK
from coachdesk.domain.units import Mass, Unit
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import meets_behind, past_meets
from coachdesk.services.training import causes_of
from coachdesk.storage.store import Reader
from coachdesk.storage.strength_states import strength_states
from coachdesk.storage.training_queries import judged_singles, past_entries

_STEP = {Unit.KG: Decimal("2.5"), Unit.LB: Decimal(5)}
"""The smallest step in most gyms (common practice); a training maximum is rounded down to it."""


def known_maxima(desk: Desk, reader: Reader, athlete_id: int, on: date) -> dict[Lift, Mass]:
    """What to expect of each lift on the day `on`, rounded down to a step of the gym.

    In the athlete's unit and usual equipment. A lift that nothing is known of is left out.
    """
    athlete = reader.get(Athlete, athlete_id)
    until = min(desk.today() + timedelta(days=1), on)
    singles = judged_singles(reader, [athlete_id], look_back=LOOK_BACK, until=until)
    days = strength_states(reader, [athlete_id]).get(athlete_id, {})
    past = past_entries(reader, [athlete_id], until).get(athlete_id, ())
    same = [each for each in past if each.entry.equipment is athlete.equipment]
    found: dict[Lift, Mass] = {}
    for lift in Lift:
        strength = frozenset(cause.code for cause in causes_of(desk, lift) if cause.strength)
        record = LiftRecord(
            lift=lift,
            equipment=athlete.equipment,
            on=on,
            until=until,
            meets_behind=meets_behind(athlete, past),
            days=days.get(lift, LiftDays()),
            singles=tuple(each for each in singles if each.lift is lift),
            past=past_meets(same, lift, strength),
            strength_causes=strength,
        )
        used = from_records(record).used
        if used is not None:
            found[lift] = _down(used.expected, athlete.unit)
    return found


def _down(mass: Mass, unit: Unit) -> Mass:
    step = _STEP[unit]
    steps = (mass.in_unit(unit) / step).to_integral_value(ROUND_FLOOR)
    return Mass(max(steps, Decimal(1)) * step, unit)
