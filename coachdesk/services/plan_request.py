"""What an entry's plan is made from: beliefs, limits, the coach's wish, and what is fixed."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.engine.belief import LiftBelief, honest_sd
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.parameters import DEFAULT, Experience
from coachdesk.domain.engine.whole_plan import Basis, PlanRequest
from coachdesk.domain.history import standing
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.services.expectations import expected_of
from coachdesk.services.meet_reading import is_first_meet
from coachdesk.services.meets import steps_of
from coachdesk.storage.meet_queries import MeetRecord, Training


def plan_request(
    rulebook: Rulebook, record: MeetRecord, training: Training, entry: Entry, today: date
) -> PlanRequest:
    """What to plan an entry for, around the attempts chosen and the turns fixed in the plan on
    file."""
    first_meet = is_first_meet(record, entry)
    athlete = record.athletes[entry.athlete_id]
    meets = athlete.meets_before + len(training.past.get(athlete.id, ()))
    experience = Experience.after(0 if first_meet else max(meets, 1))
    lifts = {}
    for lift, expected in expected_of(training, entry, today).items():
        rate = DEFAULT.miss_rate(lift, experience, entry.equipment)
        lifts[lift] = Basis(
            belief=LiftBelief(
                expected.maximum,
                honest_sd(DEFAULT.lift_noise.value, first_meet=first_meet),
                MissRate.learned(rate, DEFAULT.miss_attempts.value),
            ),
            source=expected.source,
        )
    on_file = record.plans.get(entry.id)
    attempts = record.attempts.get(entry.id, ())
    return PlanRequest(
        rulebook=rulebook.name,
        edition=rulebook.edition,
        steps=steps_of(rulebook),
        record_step=rulebook.record_step,
        first_meet=first_meet,
        lifts={lift: lifts[lift] for lift in rulebook.lift_order if lift in lifts},
        chosen={
            (lift, number): attempt.weight
            for lift in entry.event.lifts
            for number, attempt in standing(attempts, lift).items()
        },
        fixes=() if on_file is None else on_file.plan.fixes,
    )
