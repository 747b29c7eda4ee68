"""What goes into a calendar file: meets, weigh-ins, deadlines, kit checks, tasks, weekly weights.

Everybody's kit rounds and usual tasks of a meet go into one event a day, with the names of those
they concern: a calendar with an event for each athlete and task is not read by anybody.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from coachdesk.domain.meet import Meet, Session
from coachdesk.domain.tasks import TaskState, TaskStatus
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.services.class_standing import weigh_in_times
from coachdesk.services.desk import Desk
from coachdesk.services.readiness import Readiness, readiness_of
from coachdesk.storage import tables
from coachdesk.storage.attention_queries import weight_plans
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.readiness_queries import Starter, starters
from coachdesk.storage.rows import by
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """An entry of a calendar.

    `key` stays the same as long as it is about the same thing. From `begins` to `ends`: days,
    both included, or aware moments. `is_private`: a matter of one athlete's own.
    """

    key: str
    title: str
    begins: date | datetime
    ends: date | datetime
    about: str = ""
    place: str = ""
    is_private: bool = False


@dataclass(frozen=True)
class _Season:
    """What is read for the meets chosen."""

    meets: tuple[Meet, ...]
    sessions: dict[int, tuple[Session, ...]]
    starters: tuple[Starter, ...]
    ready: dict[int, Readiness]
    plans: dict[int, WeightPlan]

    def starters_of(self, meet: Meet) -> tuple[Starter, ...]:
        """The entries to a meet."""
        return tuple(each for each in self.starters if each.meet.id == meet.id)


def calendar_events(
    desk: Desk, words: Wording, meet_ids: frozenset[int], *, with_weights: bool
) -> tuple[CalendarEvent, ...]:
    """The events of the meets ahead among `meet_ids`; weekly weights only `with_weights`."""
    season = _read(desk, meet_ids)
    events: list[CalendarEvent] = []
    for meet in season.meets:
        events += _meet_events(desk, words, meet, season.sessions.get(meet.id, ()))
        there = season.starters_of(meet)
        events += _round_events(words, meet, there, season.ready)
        events += _task_events(words, meet, there, season.ready)
        if with_weights:
            events += _weight_events(words, there, season.plans)
    return tuple(events)


def _read(desk: Desk, meet_ids: frozenset[int]) -> _Season:
    with desk.reading() as reader:
        meets = tuple(meet for meet in meets_from(reader, desk.today()) if meet.id in meet_ids)
        there = starters(reader, meets)
        session = tables.session.c
        sessions = reader.list(
            Session,
            session.meet_id.in_([meet.id for meet in meets]),
            order=[session.starts_at],
        )
        return _Season(
            meets,
            by(sessions, "meet_id"),
            there,
            readiness_of(desk, reader, there),
            weight_plans(reader, [each.entry.id for each in there]),
        )


def _meet_events(
    desk: Desk, words: Wording, meet: Meet, sessions: Sequence[Session]
) -> Iterator[CalendarEvent]:
    lines = [words("calendar.session", name=each.name, starts=each.starts_at) for each in sessions]
    yield CalendarEvent(
        key=f"meet.{meet.id}",
        title=meet.name,
        begins=meet.starts_on,
        ends=max([meet.starts_on, *(each.starts_at.date() for each in sessions)]),
        about="\n".join(lines),
        place=meet.place,
    )
    rulebook = desk.rulebooks.books.get(meet.rulebook)
    zone = ZoneInfo(meet.time_zone)
    for each in sessions:
        times = (each.weigh_in_opens, each.weigh_in_closes)
        opens, closes = times if rulebook is None else weigh_in_times(rulebook, each)
        known = [moment.replace(tzinfo=zone) for moment in (opens, closes) if moment is not None]
        if known:
            yield CalendarEvent(
                key=f"weigh_in.{each.id}",
                title=words("calendar.weigh_in", meet=meet.name, session=each.name),
                begins=known[0],
                ends=known[-1],
                place=meet.place,
            )
    for kind, day in (
        ("entry_deadline", meet.entry_deadline),
        ("kit_inspection", meet.kit_inspection_on),
    ):
        if day is not None:
            title = words(f"calendar.{kind}", meet=meet.name)
            yield CalendarEvent(key=f"{kind}.{meet.id}", title=title, begins=day, ends=day)


def _round_events(
    words: Wording, meet: Meet, there: Sequence[Starter], ready: dict[int, Readiness]
) -> Iterator[CalendarEvent]:
    names: dict[tuple[str, date], list[str]] = {}
    titles: dict[tuple[str, date], str] = {}
    for starter in there:
        for each in ready[starter.entry.id].kit.rounds:
            names.setdefault((each.code, each.on), []).append(starter.athlete.name)
            titles[each.code, each.on] = words(
                "calendar.kit_round", round=each.label, meet=meet.name
            )
    for (code, on), who in names.items():
        yield CalendarEvent(
            key=f"kit_round.{meet.id}.{code}.{(meet.starts_on - on).days}",
            title=titles[code, on],
            begins=on,
            ends=on,
            about=_named(words, who),
        )


def _task_events(
    words: Wording, meet: Meet, there: Sequence[Starter], ready: dict[int, Readiness]
) -> Iterator[CalendarEvent]:
    """The usual tasks, each an event; what was moved and the coach's own stand by themselves."""
    together: dict[str, list[tuple[Starter, TaskStatus]]] = {}
    for starter in there:
        for task in ready[starter.entry.id].tasks:
            if task.record is not None and task.due_on != task.usual_on:
                yield _task_event(words, meet, f"task.{task.record.id}", [(starter, task)])
            else:
                together.setdefault(task.code, []).append((starter, task))
    for code, many in together.items():
        yield _task_event(words, meet, f"usual_task.{meet.id}.{code}", many)


def _task_event(
    words: Wording, meet: Meet, key: str, many: Sequence[tuple[Starter, TaskStatus]]
) -> CalendarEvent:
    task = many[0][1]
    left = [starter.athlete.name for starter, each in many if each.state is not TaskState.DONE]
    code = "calendar.task" if left else "calendar.task_done"
    return CalendarEvent(
        key=key,
        title=words(code, what=task.label, meet=meet.name),
        begins=task.due_on,
        ends=task.due_on,
        about=_named(words, left),
    )


def _weight_events(
    words: Wording, there: Sequence[Starter], plans: dict[int, WeightPlan]
) -> Iterator[CalendarEvent]:
    for starter in there:
        plan = plans.get(starter.entry.id)
        if plan is None:
            continue
        own = words.in_unit(starter.athlete.unit)
        for number, (on, weight) in enumerate(plan.marks(), start=1):
            yield CalendarEvent(
                key=f"weight_mark.{plan.id}.{number}",
                title=own("calendar.weight", name=starter.athlete.name, weight=weight),
                begins=on,
                ends=on,
                is_private=True,
            )


def _named(words: Wording, names: Sequence[str]) -> str:
    return words.show(tuple(names)) if names else ""
