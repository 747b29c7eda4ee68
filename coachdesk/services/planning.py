"""Use cases that plan attempts. Plans are kept as dated snapshots; printing never replans."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.attempts import AttemptPlan, LiftPlan, Method, textbook_plan
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.expected import RECENT, MeetBest, expected_maximum
from coachdesk.domain.history import best_grams
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import from_grams
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meets import steps_of
from coachdesk.storage.meet_queries import MeetRecord, meet_record
from coachdesk.storage.plans import add_snapshot


def plan_meet(desk: Desk, meet_id: int, *, only_missing: bool = False) -> Done[tuple[Text, ...]]:
    """Plan the attempts of a meet's entries in the textbook pattern, and keep the plans.

    `only_missing` leaves entries alone that have a plan. Answers what could not be planned, in
    words; the rest is planned all the same.
    """
    today = desk.today()
    with desk.reading() as reader:
        record = meet_record(reader, meet_id, sets_from=today - RECENT, readings_from=today)
    made: list[tuple[int, AttemptPlan]] = []
    faults: list[Text] = []
    for entry in record.entries:
        if entry.withdrawn or (only_missing and entry.id in record.plans):
            continue
        plan, failed = _plan_entry(desk, record, entry, today)
        faults.extend(failed)
        if plan.lifts:
            made.append((entry.id, plan))
    with desk.action(text("did.plan_meet", name=record.meet.name)) as work:
        for entry_id, plan in made:
            add_snapshot(work, entry_id, desk.now(), plan)
        return Done(tuple(faults), work.changes())


def is_first_meet(record: MeetRecord, entry: Entry) -> bool:
    """Whether the athlete has lifted at no meet before, on file or before the record began."""
    athlete = record.athletes[entry.athlete_id]
    lifted = any(past.attempts for past in record.past.get(entry.athlete_id, ()))
    return athlete.meets_before == 0 and not lifted


def _plan_entry(
    desk: Desk, record: MeetRecord, entry: Entry, today: date
) -> tuple[AttemptPlan, list[Text]]:
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    lifts: list[LiftPlan] = []
    faults: list[Text] = []
    for lift in entry.event.lifts:
        expected = expected_maximum(
            lift,
            coach=entry.expected(lift),
            sets=record.recent_sets.get(entry.athlete_id, ()),
            last_meet=_last_best(record, entry, lift),
            on=today,
        )
        if expected is None:
            continue
        try:
            lifts.append(
                textbook_plan(
                    lift,
                    expected=expected.maximum,
                    source=expected.source,
                    steps=steps_of(rulebook),
                    first_meet=is_first_meet(record, entry),
                    opener=next(
                        (
                            attempt.weight
                            for attempt in record.attempts.get(entry.id, ())
                            if attempt.lift is lift and attempt.number == 1
                        ),
                        None,
                    ),
                )
            )
        except InvalidInput as error:
            name = record.athletes[entry.athlete_id].name
            faults.append(text("plan.fault", name=name, lift=text(f"lift.{lift}"), why=error.text))
    return AttemptPlan(Method.TEXTBOOK, rulebook.name, rulebook.edition, tuple(lifts)), faults


def _last_best(record: MeetRecord, entry: Entry, lift: Lift) -> MeetBest | None:
    """The best of the latest meet in the same equipment at which the lift was made."""
    for past in record.past.get(entry.athlete_id, ()):
        grams = best_grams(past.attempts, lift)
        if grams is not None and past.entry.equipment is entry.equipment:
            return MeetBest(from_grams(grams), past.meet.name, past.meet.starts_on)
    return None
