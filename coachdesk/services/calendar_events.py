"""What goes into a calendar file: meets, weigh-ins, deadlines, kit checks, tasks, weekly weights.

Everybody's kit rounds and usual tasks of a meet go into one event a day, with the names of those
who are not done with them: a calendar with an event for each athlete and task is read by nobody.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.kit_rounds import RoundState
from coachdesk.domain.meet import Meet, Session
from coachdesk.domain.tasks import TaskState, TaskStatus
from coachdesk.services.class_standing import weigh_in_times
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.packet_weight import weight_page
from coachdesk.services.readiness import Readiness, readiness_of
from coachdesk.storage import tables
from coachdesk.storage.calendar_entries import brought_ahead
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.readiness_queries import Starter, starters
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader
from coachdesk.wording.wording import Wording

WEIGHT_MARK = "weight_mark."
"""What the keys of weekly weights begin with."""
_NAMELESS = "medicines_checked"


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """An entry of a calendar.

    `key` stays the same as long as it is about the same thing. From `begins` to `ends`: days,
    both included, or aware moments. `is_private`: a matter between coach and
    athlete. `is_off`: an earlier file brought it, and it no longer holds.
    """

    key: str
    meet_id: int
    title: str
    begins: date | datetime
    ends: date | datetime
    about: str = ""
    place: str = ""
    is_private: bool = False
    is_off: bool = False


@dataclass(frozen=True)
class _Season:
    """What is read for the meets chosen; `weights`, by meet, only where they are asked for."""

    meets: tuple[Meet, ...]
    sessions: dict[int, tuple[Session, ...]]
    starters: tuple[Starter, ...]
    ready: dict[int, Readiness]
    weights: dict[int, MeetRecord]

    def starters_of(self, meet: Meet) -> tuple[Starter, ...]:
        """The entries to a meet."""
        return tuple(each for each in self.starters if each.meet.id == meet.id)


def calendar_events(
    desk: Desk, words: Wording, meet_ids: frozenset[int], *, with_weights: bool
) -> tuple[CalendarEvent, ...]:
    """The events of these meets, soonest first; weekly weights only `with_weights`.

    Raises the fault of the kit list or of the task list where one cannot be read.
    """
    with desk.reading() as reader:
        season = _read(desk, reader, meet_ids, with_weights=with_weights)
    events: list[CalendarEvent] = []
    for meet in season.meets:
        events += _meet_events(desk, words, meet, season.sessions.get(meet.id, ()))
        there = season.starters_of(meet)
        events += _round_events(words, meet, there, season.ready)
        events += _task_events(words, meet, there, season.ready)
        if with_weights:
            events += _weight_events(desk, words, season.weights[meet.id])
    return tuple(events)


def called_off(
    desk: Desk,
    words: Wording,
    meet_ids: frozenset[int],
    events: Sequence[CalendarEvent],
    *,
    with_weights: bool,
) -> tuple[CalendarEvent, ...]:
    """What earlier files brought about these meets, or about meets deleted since, is to come and
    not among `events` any more. It names nobody; weekly weights only `with_weights`.
    """
    held = {event.key for event in events}
    with desk.reading() as reader:
        brought = brought_ahead(reader, meet_ids, desk.today())
    return tuple(
        CalendarEvent(
            key=key,
            meet_id=0,
            title=words("calendar.called_off"),
            begins=on,
            ends=on,
            is_off=True,
        )
        for key, on in brought
        if key not in held and (with_weights or not key.startswith(WEIGHT_MARK))
    )


def _read(desk: Desk, reader: Reader, meet_ids: frozenset[int], *, with_weights: bool) -> _Season:
    meet, session = tables.meet.c, tables.session.c
    meets = reader.list(Meet, meet.id.in_(meet_ids), order=[meet.starts_on, meet.id])
    sessions = reader.list(Session, session.meet_id.in_(meet_ids), order=[session.starts_at])
    there = starters(reader, meets)
    weights = {}
    if with_weights:
        weights = {each.id: read_meet(reader, each.id, desk.today()) for each in meets}
    return _Season(
        meets, by(sessions, "meet_id"), there, readiness_of(desk, reader, there), weights
    )


def _meet_events(
    desk: Desk, words: Wording, meet: Meet, sessions: Sequence[Session]
) -> Iterator[CalendarEvent]:
    lines = [words("calendar.session", name=each.name, starts=each.starts_at) for each in sessions]
    yield CalendarEvent(
        key=f"meet.{meet.id}",
        meet_id=meet.id,
        title=meet.name,
        begins=meet.starts_on,
        ends=max([meet.starts_on, *(each.starts_at.date() for each in sessions)]),
        about="\n".join(lines),
        place=meet.place,
    )
    for each in sessions:
        times = _weighed_between(desk, meet, each)
        if times:
            yield CalendarEvent(
                key=f"weigh_in.{each.id}",
                meet_id=meet.id,
                title=words("calendar.weigh_in", meet=meet.name, session=each.name),
                begins=times[0],
                ends=times[-1],
                place=meet.place,
            )
    for kind, day in (
        ("entry_deadline", meet.entry_deadline),
        ("kit_inspection", meet.kit_inspection_on),
    ):
        if day is not None:
            title = words(f"calendar.{kind}", meet=meet.name)
            key = f"{kind}.{meet.id}"
            yield CalendarEvent(key=key, meet_id=meet.id, title=title, begins=day, ends=day)


def _weighed_between(desk: Desk, meet: Meet, session: Session) -> list[datetime]:
    """When weigh-in opens and closes, as far as known, as moments at the meet's place."""
    rulebook = desk.rulebooks.books.get(meet.rulebook)
    times = (session.weigh_in_opens, session.weigh_in_closes)
    if rulebook is not None:
        times = weigh_in_times(rulebook, session)
    zone = ZoneInfo(meet.time_zone)
    return sorted(moment.replace(tzinfo=zone) for moment in times if moment is not None)


def _round_events(
    words: Wording, meet: Meet, there: Sequence[Starter], ready: dict[int, Readiness]
) -> Iterator[CalendarEvent]:
    names: dict[tuple[str, date], list[str]] = {}
    titles: dict[tuple[str, date], str] = {}
    for starter in there:
        for each in ready[starter.entry.id].kit.rounds:
            if each.state is RoundState.COMPLETE:
                continue
            names.setdefault((each.code, each.on), []).append(starter.athlete.name)
            titles[each.code, each.on] = words(
                "calendar.kit_round", round=each.label, meet=meet.name
            )
    for (code, on), who in names.items():
        yield CalendarEvent(
            key=f"kit_round.{meet.id}.{code}.{(meet.starts_on - on).days}",
            meet_id=meet.id,
            title=titles[code, on],
            begins=on,
            ends=on,
            about=words.show(tuple(who)),
        )


def _task_events(
    words: Wording, meet: Meet, there: Sequence[Starter], ready: dict[int, Readiness]
) -> Iterator[CalendarEvent]:
    """What is not done: the usual tasks, each an event for all; tasks moved, and the coach's own,
    by themselves."""
    together: dict[str, list[tuple[Starter, TaskStatus]]] = {}
    for starter in there:
        for task in ready[starter.entry.id].tasks:
            if task.state is TaskState.DONE:
                continue
            if task.record is not None and task.due_on != task.usual_on:
                yield _task_event(words, meet, f"task.{task.record.id}", [(starter, task)])
            else:
                together.setdefault(task.code, []).append((starter, task))
    for code, many in together.items():
        yield _task_event(words, meet, f"usual_task.{meet.id}.{code}", many)


def _task_event(
    words: Wording, meet: Meet, key: str, many: Sequence[tuple[Starter, TaskStatus]]
) -> CalendarEvent:
    """A task with the names of those it is left to, and without where it touches on health."""
    task = many[0][1]
    names = () if task.code == _NAMELESS else tuple(starter.athlete.name for starter, _ in many)
    return CalendarEvent(
        key=key,
        meet_id=meet.id,
        title=words("calendar.task", what=task.label, meet=meet.name),
        begins=task.due_on,
        ends=task.due_on,
        about=words.show(names),
        is_private=not task.code,
    )


def _weight_events(desk: Desk, words: Wording, record: MeetRecord) -> Iterator[CalendarEvent]:
    """The marks that are printed, of those who have a way down in force.

    They lead from today's level, so a later file moves them. They are counted back from the day to
    arrive: so much of the way being over leaves the others their keys.
    """
    rulebook = desk.rulebooks.books.get(record.meet.rulebook)
    if rulebook is None:
        return
    still_to_weigh_in = [
        entry for entry in record.entries if not entry.withdrawn and entry.bodyweight is None
    ]
    for entry in still_to_weigh_in:
        try:
            page = weight_page(
                record,
                rulebook,
                entry,
                today=desk.today(),
                first_meet=is_first_meet(record, entry),
            )
        except (InvalidInput, Trouble):
            continue  # without a class there is no way down to one
        if page.plan is None:
            continue
        athlete = record.athletes[entry.athlete_id]
        own = words.in_unit(athlete.unit)
        for number, (on, weight) in enumerate(reversed(page.marks)):
            yield CalendarEvent(
                key=f"{WEIGHT_MARK}{page.plan.id}.{number}",
                meet_id=record.meet.id,
                title=own("calendar.weight", name=athlete.name, weight=weight),
                begins=on,
                ends=on,
                is_private=True,
            )
