"""What needs the coach over all entries ahead, and putting a matter off for a reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attention import Due, EntryFacts, Matter, matters_of, weight_matters
from coachdesk.domain.division import check_division
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, lift_name
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.readiness import Snooze, SnoozeData
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.tasks import TaskState
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.services.readiness import Readiness
from coachdesk.services.weight_board import BoardLine
from coachdesk.storage.attention_queries import drop_snoozes
from coachdesk.storage.today_queries import EntryState

LONGEST_SNOOZE = timedelta(days=90)
LONGEST_REASON = 200
REMEMBERED = timedelta(days=28)
"""So long after a matter has come back it says why it was put off."""


@dataclass(frozen=True, slots=True)
class Concern:
    """A matter, and whom and which entry it is about.

    `put_off` where the coach put it off, `came_back` where that day has come.
    """

    matter: Matter
    athlete: Athlete
    entry: Entry
    meet: Meet
    of_entry: bool
    put_off: Snooze | None = None
    came_back: Snooze | None = None

    @property
    def key(self) -> tuple[str, int, int | None]:
        """What tells it from all others, from day to day."""
        what = f"{self.matter.kind} {self.matter.about}".strip()
        return what, self.athlete.id, self.entry.id if self.of_entry else None


def concerns_of(
    state: EntryState,
    rulebook: Rulebook,
    line: BoardLine,
    ready: Readiness | None,
    today: date,
) -> tuple[Concern, ...]:
    """What needs the coach about an entry, whatever is put off.

    `ready` says how far kit and tasks are, None where that is not known.
    """
    about = (state.athlete, state.entry, state.meet)
    of_entry = matters_of(_facts(state, rulebook, line, ready, today), today)
    of_athlete = weight_matters(state.weight, state.meet.starts_on, today)
    return (
        *(Concern(matter, *about, of_entry=True) for matter in of_entry),
        *(Concern(matter, *about, of_entry=False) for matter in of_athlete),
    )


def ranked_concerns(
    concerns: Iterable[Concern], put_off: Iterable[Snooze], today: date
) -> tuple[Concern, ...]:
    """Concerns ranked, each once; what is put off comes last."""
    snoozed = {(each.matter, each.athlete_id, each.entry_id): each for each in put_off}
    found: dict[tuple[str, int, int | None, Text], Concern] = {}
    for each in concerns:
        concern, key = each, each.key
        snooze = snoozed.get(key)
        if snooze is not None and snooze.until > today:
            concern = replace(each, put_off=snooze)
        elif snooze is not None:
            concern = replace(each, came_back=snooze)
        found.setdefault((*key, each.matter.why), concern)
    return tuple(
        sorted(
            found.values(),
            key=lambda each: (each.put_off is not None, *each.matter.rank(), each.athlete.name),
        )
    )


_SPOKEN_OF = frozenset({"entry_sent", "membership_runs", "openers_chosen", "kit_inspected"})
"""Tasks that are matters of their own."""


def _facts(
    state: EntryState,
    rulebook: Rulebook,
    line: BoardLine,
    ready: Readiness | None,
    today: date,
) -> EntryFacts:
    meet, entry, athlete = state.meet, state.entry, state.athlete
    lifts = [lift for lift in rulebook.lift_order if lift in entry.event.lifts]
    return EntryFacts(
        starts_on=meet.starts_on,
        weigh_in_on=line.standing.weigh_in_on,
        weight=state.weight if line.standing.present is not None else None,
        fit=line.standing.fit,
        classes=line.standing.classes,
        entered=entry.weight_class,
        line=line.line,
        has_plan=line.plan is not None,
        is_weighed_in=entry.bodyweight is not None,
        first_meet=state.first_meet,
        entry_deadline=meet.entry_deadline,
        kit_inspection_on=meet.kit_inspection_on,
        member_until=athlete.member_until,
        no_opener=_named(lift for lift in lifts if lift not in state.chosen),
        no_judged=_named(lift for lift in lifts if lift not in state.judged),
        closed_divisions=_closed(entry, meet, athlete, rulebook, today),
        entry_sent=_is_done(ready, "entry_sent"),
        inspected=_is_done(ready, "kit_inspected"),
        rounds=_rounds_due(ready),
        tasks=_tasks_due(ready),
    )


def _is_done(ready: Readiness | None, code: str) -> bool:
    """Whether a usual task is done; nothing is asked for where that is not known."""
    if ready is None:
        return True
    return any(task.code == code and task.state is TaskState.DONE for task in ready.tasks)


def _rounds_due(ready: Readiness | None) -> tuple[Due, ...]:
    current = None if ready is None else ready.kit.current
    if ready is None or current is None or not ready.kit.is_due:
        return ()
    return (Due(current.label, current.on, current.code),)


def _tasks_due(ready: Readiness | None) -> tuple[Due, ...]:
    return tuple(
        Due(task.label, task.due_on, task.code or f"own {task.record.id if task.record else 0}")
        for task in (() if ready is None else ready.tasks)
        if task.state in {TaskState.OVERDUE, TaskState.DUE} and task.code not in _SPOKEN_OF
    )


def _named(lifts: Iterable[Lift]) -> tuple[Text, ...]:
    return tuple(lift_name(lift) for lift in lifts)


def _closed(
    entry: Entry, meet: Meet, athlete: Athlete, rulebook: Rulebook, today: date
) -> tuple[tuple[str, Text], ...]:
    """Why a division entered is not open to the athlete on the meet's day, by the age rule."""
    found = []
    for division in rulebook.divisions:
        if division.key not in entry.divisions:
            continue
        why = check_division(division, athlete.birth_date, meet.starts_on)
        if why is not None:
            is_open_now = check_division(division, athlete.birth_date, today) is None
            code = "attention.division_changes" if is_open_now else "attention.division_closed"
            said = text(code, division=division.name, day=meet.starts_on, why=why)
            found.append((division.key, said))
    return tuple(found)


def put_off(desk: Desk, concerns: Sequence[Concern], until: date, reason: str) -> Done[None]:
    """Let matters rest until a day, for a reason; they come back on that day.

    Raises InvalidInput: field "until" not after today, or after `LONGEST_SNOOZE`; "reason" empty
    or too long.
    """
    today = desk.today()
    if not today < until <= today + LONGEST_SNOOZE:
        raise InvalidInput("until", text("attention.until", last=today + LONGEST_SNOOZE))
    if not reason.strip():
        raise InvalidInput("reason", text("attention.reason"))
    if len(reason) > LONGEST_REASON:
        raise InvalidInput("reason", text("check.too_long", count=LONGEST_REASON))
    with desk.action(text("did.put_off", names=_names(concerns))) as work:
        for concern in concerns:
            kind, athlete_id, entry_id = concern.key
            drop_snoozes(work, kind, athlete_id, entry_id)
            work.insert(
                SnoozeData(
                    athlete_id=athlete_id,
                    entry_id=entry_id,
                    matter=kind,
                    until=until,
                    reason=reason.strip(),
                )
            )
        return Done(None, work.changes())


def bring_back(desk: Desk, concerns: Sequence[Concern]) -> Done[None]:
    """Let matters that were put off need the coach again."""
    with desk.action(text("did.bring_back", names=_names(concerns))) as work:
        for concern in concerns:
            drop_snoozes(work, *concern.key)
        return Done(None, work.changes())


def _names(concerns: Sequence[Concern]) -> tuple[str, ...]:
    return tuple(concern.athlete.name for concern in concerns)
