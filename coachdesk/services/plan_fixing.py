"""Use cases by which a coach overrules turns of a plan: the rest is planned anew around them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import AttemptPlan, Fix, Outcome, check_on_bar
from coachdesk.domain.checks import check_lifted
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.services.lift_sources import read_known
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import steps_of
from coachdesk.services.planning import planned
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.plans import Snapshot, add_snapshot


@dataclass(frozen=True, slots=True)
class TurnOf:
    """A turn of a plan: the lift, and each run of outcomes that leads to it."""

    lift: Lift
    ways: tuple[tuple[Outcome, ...], ...]


def fix_turn(desk: Desk, entry_id: int, turn: TurnOf, weight: Mass) -> Done[tuple[Text, ...]]:
    """Call for `weight` at this turn, whatever the engine would; answers what could not be planned
    around it, in words. Raises InvalidInput (field "weight")."""
    check_lifted("weight", weight)
    fixes = [Fix(turn.lift, way, weight) for way in turn.ways]
    return _with_fixes(
        desk, entry_id, turn, fixes, lambda name: text("did.fix_turn", name=name, weight=weight)
    )


def free_turn(desk: Desk, entry_id: int, turn: TurnOf) -> Done[tuple[Text, ...]]:
    """Leave this turn to the engine again."""
    return _with_fixes(desk, entry_id, turn, [], lambda name: text("did.free_turn", name=name))


def free_all_turns(desk: Desk, entry_id: int) -> Done[tuple[Text, ...]]:
    """Leave all turns to the engine again; attempts that are chosen stay."""
    return _with_fixes(desk, entry_id, None, [], lambda name: text("did.free_turns", name=name))


def _with_fixes(
    desk: Desk,
    entry_id: int,
    turn: TurnOf | None,
    fixes: Sequence[Fix],
    label: Callable[[str], Text],
) -> Done[tuple[Text, ...]]:
    today = desk.today()
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        name = reader.get(Athlete, entry.athlete_id).name
    with desk.action(label(name)) as work:
        record = read_meet(work, entry.meet_id, today, only=frozenset({entry_id}))
        if entry_id not in record.plans:
            raise Trouble(text("plan.none_to_fix"))
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        for fix in fixes:
            check_on_bar("weight", fix.weight, steps_of(rulebook))
            _check_follows(fix, record.plans[entry_id].plan)
        record = _around(record, entry_id, turn, fixes)
        known = read_known(work, rulebook, record, today)
        plan, faults = planned(known, record, entry)
        if turn is not None and turn.lift in faults and fixes:
            raise InvalidInput("weight", faults[turn.lift])
        add_snapshot(work, entry_id, desk.now(), plan)
        return Done(tuple(faults.values()), work.changes())


def _check_follows(fix: Fix, plan: AttemptPlan) -> None:
    """The bar never gets lighter, and goes up after a good lift; raises InvalidInput."""
    lift = plan.of(fix.lift)
    turn = None if lift is None else lift.opener
    for outcome in fix.seen[:-1]:
        turn = None if turn is None else turn.after(outcome)
    if turn is None or not fix.seen:
        return
    before = turn.weight
    if fix.weight.grams < before.grams:
        raise InvalidInput(
            "weight",
            text("attempts.below_earlier", weight=fix.weight, number=turn.number, before=before),
        )
    if fix.seen[-1].is_good and fix.weight.grams == before.grams:
        raise InvalidInput("weight", text("plan.not_up", before=before))


def _around(
    record: MeetRecord, entry_id: int, turn: TurnOf | None, fixes: Sequence[Fix]
) -> MeetRecord:
    """The record with these fixes in the plan on file, in the place of those of the turn."""
    snapshot = record.plans[entry_id]
    plan: AttemptPlan = snapshot.plan
    kept = () if turn is None else tuple(fix for fix in plan.fixes if not _is_at(fix, turn))
    changed = replace(plan, fixes=(*kept, *fixes))
    return replace(record, plans={**record.plans, entry_id: Snapshot(snapshot.made_at, changed)})


def _is_at(fix: Fix, turn: TurnOf) -> bool:
    return fix.lift is turn.lift and fix.seen in turn.ways
