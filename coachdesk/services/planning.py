"""Use cases that plan attempts. Plans are kept as dated snapshots; printing never replans."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import AttemptPlan
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.strength.forecast import Forecast
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.services.lift_sources import NOTHING_KNOWN, KnownLifts, read_known
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.print_choice import Progress, no_progress
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.plans import add_snapshot
from coachdesk.storage.store import Work


def plan_meet(
    desk: Desk,
    meet_id: int,
    *,
    only_missing: bool = False,
    entry_ids: frozenset[int] | None = None,
    progress: Progress = no_progress,
) -> Done[tuple[Text, ...]]:
    """Plan the attempts of a meet's entries and keep the plans.

    `only_missing` leaves entries alone that have a plan, `entry_ids` names the entries to plan.
    Answers what could not be planned, in words; the rest is planned all the same. Nothing is kept
    when `progress` raises.
    """
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today, only=entry_ids)
        wanted = [
            entry
            for entry in record.entries
            if not entry.withdrawn and not (only_missing and _has_plan(record, entry))
        ]
        if not wanted:
            return Done((), frozenset())
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, today)
    plans, faults = plans_of(desk, known, record, wanted, progress)
    with desk.action(text("did.plan_meet", name=record.meet.name)) as work:
        for entry_id, plan in plans.items():
            add_snapshot(work, entry_id, desk.now(), plan)
        return Done(faults, work.changes())


def plans_of(
    desk: Desk, known: KnownLifts, record: MeetRecord, entries: Sequence[Entry], progress: Progress
) -> tuple[dict[int, AttemptPlan], tuple[Text, ...]]:
    """The plans of several entries by entry id, those without any lift left out, and what could not
    be planned, in words; a plan on file stands where there is none to take its place."""
    plans: dict[int, AttemptPlan] = {}
    faults: list[Text] = []
    for step, entry in enumerate(entries):
        progress(step, len(entries))
        plan, failed = planned(known, record, entry)
        faults.extend(_in_words(record, entry, failed))
        if plan.lifts:
            plans[entry.id] = plan
        elif _has_plan(record, entry):
            made_at = record.plans[entry.id].made_at.astimezone(desk.now().tzinfo)
            faults.append(text("plan.stands", moment=made_at))
    return plans, tuple(faults)


def plan_entry(desk: Desk, entry: Entry) -> Done[tuple[Text, ...]]:
    """Plan the attempts of one entry anew; answers what could not be planned, in words."""
    with desk.reading() as reader:
        name = reader.get(Athlete, entry.athlete_id).name
    with desk.action(text("did.plan_entry", name=name)) as work:
        record = read_meet(work, entry.meet_id, desk.today(), only=frozenset({entry.id}))
        faults = _keep_plan(desk, work, record)
        return Done(faults, work.changes())


def replan(desk: Desk, work: Work, meet_id: int, entry_id: int) -> tuple[Text, ...]:
    """Plan an entry that has a plan anew, within an action that changed what it is built on.

    Answers what could not be planned, in words; that nothing is known of a lift is no news then.
    """
    record = read_meet(work, meet_id, desk.today(), only=frozenset({entry_id}))
    if entry_id not in record.plans:
        return ()
    faults = _keep_plan(desk, work, record)
    return tuple(fault for fault in faults if ("why", NOTHING_KNOWN) not in fault.values)


def planned(
    known: KnownLifts, record: MeetRecord, entry: Entry
) -> tuple[AttemptPlan, dict[Lift, Text]]:
    """The plan of an entry around the attempts its coach has chosen and the turns fixed in the
    plan on file, and why a lift could not be planned; a plan that leaves lifts out says so."""
    # The engine needs numpy, which a start should not wait for.
    from coachdesk.domain.engine.whole_plan import whole_plan  # noqa: PLC0415
    from coachdesk.services.plan_request import plan_request  # noqa: PLC0415

    request, faults = plan_request(known, record, entry)
    plan, failed = whole_plan(request)
    why = {lift: error.text for lift, error in {**faults, **failed}.items()}
    missing = tuple(
        text("plan.lift_missing", lift=text(f"lift.{lift}"), why=why[lift])
        for lift in known.rulebook.lift_order
        if lift in why
    )
    return replace(plan, notes=(*missing, *plan.notes)) if plan.lifts else plan, why


def check_in_reach(known: KnownLifts, record: MeetRecord, entry: Entry) -> None:
    """Whether what is wished for an entry can be reached; raises InvalidInput (field "aim_weight",
    "aim_lift" or "risk_cap"). Nothing is out of reach while nothing is known of a lift."""
    # The engine needs numpy, which a start should not wait for.
    from coachdesk.domain.engine.whole_plan import check_reach  # noqa: PLC0415
    from coachdesk.services.plan_request import plan_request  # noqa: PLC0415

    request, faults = plan_request(known, record, entry)
    if request.lifts and not faults:
        check_reach(request)


def _in_words(record: MeetRecord, entry: Entry, faults: Mapping[Lift, Text]) -> tuple[Text, ...]:
    """A sentence for each reason."""
    name = record.athletes[entry.athlete_id].name
    lifts: dict[Text, list[Text]] = {}
    for lift, why in faults.items():
        lifts.setdefault(why, []).append(text(f"lift.{lift}"))
    return tuple(
        text("plan.fault", name=name, lift=tuple(of_why), why=why) for why, of_why in lifts.items()
    )


def expected_of(known: KnownLifts, entry: Entry) -> dict[Lift, Forecast]:
    """What each lift of an entry is planned on, where something is known.

    A number that does not go with its band is no source: `planned` says so.
    """
    found: dict[Lift, Forecast] = {}
    for lift in entry.event.lifts:
        with suppress(InvalidInput):
            forecast = known.sources(entry, lift).used
            if forecast is not None:
                found[lift] = forecast
    return found


def _keep_plan(desk: Desk, work: Work, record: MeetRecord) -> tuple[Text, ...]:
    """Plan the one entry of `record`; an empty plan is kept only in the place of an earlier one."""
    (entry,) = record.entries
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    known = read_known(work, rulebook, record, desk.today())
    plan, faults = planned(known, record, entry)
    if plan.lifts or entry.id in record.plans:
        add_snapshot(work, entry.id, desk.now(), plan)
    return _in_words(record, entry, faults)


def _has_plan(record: MeetRecord, entry: Entry) -> bool:
    snapshot = record.plans.get(entry.id)
    return snapshot is not None and bool(snapshot.plan.lifts)
