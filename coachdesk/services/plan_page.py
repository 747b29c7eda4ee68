"""The plans of a meet side by side, and one of them looked at closely. Nothing is written here."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.plan_outlook import DayOutlook
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import KnownLifts, read_known
from coachdesk.services.meet_reading import is_over, read_meet
from coachdesk.services.packet_lifts import score_of, weight_to_score
from coachdesk.services.plan_changes import changes_between
from coachdesk.services.planning import expected_of
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.plans import Snapshot, plan_before


@dataclass(frozen=True)
class PlanLine:
    """An entry and its plan on file, None without one; `score` is that of the expected total."""

    entry: Entry
    athlete: Athlete
    plan: Snapshot | None
    score: float | None


@dataclass(frozen=True)
class PlanPage:
    """The entries of a meet that are not withdrawn, by name, with their plans."""

    meet: Meet
    rulebook: Rulebook
    is_over: bool
    lines: tuple[PlanLine, ...]


@dataclass(frozen=True)
class OpenPlan:
    """One entry's plan, what it is made from, and what has changed since the plan before."""

    line: PlanLine
    record: MeetRecord
    known: KnownLifts
    rulebook: Rulebook
    before: Snapshot | None
    changes: tuple[Text, ...]


def plan_page(desk: Desk, meet_id: int) -> PlanPage:
    """Read the plans of a meet; Trouble when the meet or its rulebook is not there."""
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today)
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    lines = [_line(desk, record, rulebook, each) for each in record.entries if not each.withdrawn]
    lines.sort(key=lambda line: (line.athlete.family_name, line.athlete.given_name, line.entry.id))
    return PlanPage(record.meet, rulebook, is_over(record, today), tuple(lines))


def open_plan(desk: Desk, entry_id: int) -> OpenPlan:
    """Read one entry's plan; Trouble when the entry or its rulebook is not there."""
    today = desk.today()
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        record = read_meet(reader, entry.meet_id, today, only=frozenset({entry_id}))
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, today)
        before = plan_before(reader, entry_id)
    line = _line(desk, record, rulebook, entry)
    changes: tuple[Text, ...] = ()
    if before is not None and line.plan is not None:
        changes = changes_between(before.plan, line.plan.plan)
    return OpenPlan(line, record, known, rulebook, before, changes)


def has_fixed(opened: OpenPlan) -> bool:
    """Whether the coach has chosen or fixed anything the plan goes around."""
    plan = opened.line.plan
    chosen = opened.record.attempts.get(opened.line.entry.id, ())
    return plan is not None and bool(chosen or plan.plan.fixes)


def is_outdated(opened: OpenPlan) -> bool:
    """Whether the plan was made with other numbers than would be planned on by now."""
    plan = opened.line.plan
    if plan is None or is_over(opened.record, opened.known.today):
        return False
    now = expected_of(opened.known, opened.line.entry)
    return any(
        each.lift not in now or now[each.lift].expected != each.expected for each in plan.plan.lifts
    )


def free_outlook_of(opened: OpenPlan) -> DayOutlook | None:
    """What the plan would lead to with nothing chosen or fixed; None where that cannot be
    planned."""
    # The engine needs numpy, which a start should not wait for.
    from coachdesk.domain.engine.whole_plan import free_outlook  # noqa: PLC0415
    from coachdesk.services.plan_request import plan_request  # noqa: PLC0415

    request, _faults = plan_request(opened.known, opened.record, opened.line.entry)
    try:
        return free_outlook(request)
    except InvalidInput:
        return None


def _line(desk: Desk, record: MeetRecord, rulebook: Rulebook, entry: Entry) -> PlanLine:
    athlete = record.athletes[entry.athlete_id]
    snapshot = record.plans.get(entry.id)
    outlook = None if snapshot is None else snapshot.plan.outlook
    score = None
    if outlook is not None:
        weight = weight_to_score(entry, record.weights.get(athlete.id), desk.today())
        score = score_of(rulebook, athlete, entry, outlook.expected_total, weight)
    return PlanLine(entry, athlete, snapshot, score)
