"""Agreeing on a way down, and letting go of it."""

from __future__ import annotations

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import Trouble
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import text
from coachdesk.domain.weight_plan import WeightPlan, WeightPlanData
from coachdesk.services.class_standing import ClassStanding, standing_to_class
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.storage.attention_queries import weight_plans
from coachdesk.storage.store import Reader


def agree_on_way_down(desk: Desk, entry_id: int) -> Done[WeightPlanData]:
    """Put on file the straight line from the present weight to the class limit, from today.

    One agreed on before is replaced. Trouble, in words, where the program has no way down: in the
    class already, not in time, or barred by a guard.
    """
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        standing, name = _standing(desk, reader, entry)
    fit, present = standing.fit, standing.present
    if fit is None or present is None:
        raise Trouble(text("weight_plan.no_weight", name=name))
    limit = fit.weight_class.limit
    if not fit.verdict.has_way_down or limit is None:
        verdict = text(f"verdict.{fit.verdict}")
        why = fit.reasons[0] if fit.reasons else text("weight_plan.verdict", verdict=verdict)
        raise Trouble(text("weight_plan.none", name=name, why=why))
    data = WeightPlanData(
        entry_id=entry_id,
        agreed_on=desk.today(),
        from_weight=present.mass,
        to_weight=limit,
        weight_class=fit.weight_class.name,
        arrive_on=fit.arrive_on,
    )
    with desk.action(text("did.agree_way_down", name=name, weight_class=data.weight_class)) as work:
        before = weight_plans(work, [entry_id]).get(entry_id)
        if before is not None:
            work.update(before.id, before.version, data)
        else:
            work.insert(data)
        return Done(data, work.changes())


def let_go_of_way_down(desk: Desk, seen: WeightPlan) -> Done[None]:
    """Take a way down that still is as it was `seen` off file."""
    with desk.reading() as reader:
        athlete = reader.get(Athlete, reader.get(Entry, seen.entry_id).athlete_id)
    with desk.action(text("did.let_go_way_down", name=athlete.name)) as work:
        work.delete(WeightPlan, seen.id, seen.version)
        return Done(None, work.changes())


def _standing(desk: Desk, reader: Reader, entry: Entry) -> tuple[ClassStanding, str]:
    today = desk.today()
    record = read_meet(reader, entry.meet_id, today, only=frozenset({entry.id}))
    athlete = record.athletes[entry.athlete_id]
    standing = standing_to_class(
        entry,
        record.meet,
        athlete,
        desk.rulebooks.get(record.meet.rulebook),
        session=record.sessions.get(entry.session_id or 0),
        weight=record.weights.get(athlete.id),
        today=today,
        first_meet=is_first_meet(record, entry),
    )
    return standing, athlete.name
