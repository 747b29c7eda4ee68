"""What an entry's plan is made from: beliefs, limits, the coach's wishes, and what is fixed.

This brings numpy with it: import it where a plan is made, not where the program starts.
"""

from __future__ import annotations

from coachdesk.domain.engine.plan_basis import Basis, PlanRequest
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.history import best_grams, standing
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.units import from_grams
from coachdesk.domain.wishes import WishesData
from coachdesk.services.lift_beliefs import lift_belief
from coachdesk.services.lift_sources import NOTHING_KNOWN, KnownLifts, floor_of
from coachdesk.services.meet_reading import is_first_meet
from coachdesk.services.meets import steps_of
from coachdesk.storage.meet_queries import MeetRecord


def plan_request(
    known: KnownLifts, record: MeetRecord, entry: Entry
) -> tuple[PlanRequest, dict[Lift, InvalidInput]]:
    """What to plan an entry for, around the attempts chosen in `record` and the turns fixed in the
    plan on file; and by lift why it cannot be planned: nothing is known, or what is wrong with the
    coach's number."""
    rulebook = known.rulebook
    lifts: dict[Lift, Basis] = {}
    faults: dict[Lift, InvalidInput] = {}
    for lift in rulebook.lift_order:
        if lift not in entry.event.lifts:
            continue
        try:
            lifts[lift] = _basis(known, entry, lift)
        except InvalidInput as error:
            faults[lift] = error
    on_file = record.plans.get(entry.id)
    attempts = record.attempts.get(entry.id, ())
    bests = {lift: best_grams(attempts, lift) for lift in entry.event.lifts}
    request = PlanRequest(
        rulebook=rulebook.name,
        edition=rulebook.edition,
        steps=steps_of(rulebook),
        record_step=rulebook.record_step,
        first_meet=is_first_meet(record, entry),
        equipped=entry.equipment is Equipment.EQUIPPED,
        lifts=lifts,
        missing=tuple(faults),
        wishes=known.training.wishes.get(entry.id) or WishesData(entry_id=entry.id),
        chosen={
            (lift, number): attempt.weight
            for lift in entry.event.lifts
            for number, attempt in standing(attempts, lift).items()
        },
        made={lift: from_grams(best) for lift, best in bests.items() if best is not None},
        judged=record.judged.get(entry.athlete_id, frozenset()),
        fixes=() if on_file is None else on_file.plan.fixes,
    )
    return request, faults


def _basis(known: KnownLifts, entry: Entry, lift: Lift) -> Basis:
    """What a lift is planned on; raises InvalidInput where nothing is known, and what is wrong with
    the coach's number."""
    sources = known.sources(entry, lift)
    belief, used = lift_belief(sources), sources.used
    if belief is None or used is None:
        raise InvalidInput("expected", NOTHING_KNOWN)
    return Basis(belief=belief, source=used.origin, floor=floor_of(known.training, entry, lift))
