"""Use cases about past results: what somebody lifted at a meet, typed from a result sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from zoneinfo import ZoneInfo

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.checks import check_meet
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import Attempt, AttemptData, Entry, EntryData, Meet, MeetData
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.services.attempt_notation import Called, taken
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meets import check_entry
from coachdesk.storage.entry_rows import attempts_of
from coachdesk.storage.roster_queries import has_nothing, latest_time_zone, meets_of_day
from coachdesk.storage.store import Work

_SOMEWHERE = "UTC"


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultData:
    """What a result sheet says: the meet by name and first day, and the athlete's row in it.

    `rulebook` is a rulebook's key; `called` holds the attempts of each lift by number.
    """

    athlete_id: int
    meet: str
    on: date
    rulebook: str
    event: Event
    equipment: Equipment
    divisions: tuple[str, ...]
    weight_class: str | None = None
    bodyweight: Mass | None = None
    place: int | None = None
    note: str = ""
    called: Mapping[Lift, Mapping[int, Called]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class PastResult:
    """A result as it is on file."""

    meet: Meet
    entry: Entry
    attempts: tuple[Attempt, ...]


def add_result(desk: Desk, data: ResultData) -> Done[int]:
    """Put a past result on file, with its meet where that is not there yet; answers the entry."""
    _check(desk, data)
    with desk.action(_label(desk, "did.add_result", data.athlete_id, data.meet)) as work:
        entry = EntryData(
            athlete_id=data.athlete_id,
            meet_id=_meet(desk, work, data),
            event=data.event,
            equipment=data.equipment,
            divisions=data.divisions,
            weight_class=data.weight_class,
            bodyweight=data.bodyweight,
            place=data.place,
            note=data.note,
        )
        check_entry(desk, work, entry)
        entry_id = work.insert(entry)
        _put_attempts(work, entry_id, (), data)
        return Done(entry_id, work.changes())


def edit_result(desk: Desk, seen: PastResult, data: ResultData) -> Done[None]:
    """Replace a past result that still is as it was `seen`.

    What is not on a result sheet (lights, causes, how it moved) stays with attempts that stay. A
    meet that has nothing left goes.
    """
    _check(desk, data)
    with desk.action(_label(desk, "did.edit_result", data.athlete_id, data.meet)) as work:
        meet_id = _meet(desk, work, data)
        moves = meet_id != seen.meet.id
        entry = replace(
            seen.entry,
            meet_id=meet_id,
            session_id=None if moves else seen.entry.session_id,
            event=data.event,
            equipment=data.equipment,
            divisions=data.divisions,
            weight_class=data.weight_class,
            bodyweight=data.bodyweight,
            place=data.place,
            note=data.note,
        )
        check_entry(desk, work, entry, seen.entry.id)
        if set(attempts_of(work, seen.entry.id)) != set(seen.attempts):
            raise Trouble(text("record.moved_on", kind=text("kind.entry")))
        work.update(seen.entry.id, seen.entry.version, entry)
        _put_attempts(work, seen.entry.id, seen.attempts, data)
        if moves:
            _drop_if_empty(work, seen.meet)
        return Done(None, work.changes())


def delete_result(desk: Desk, seen: PastResult) -> Done[None]:
    """Delete a past result and its attempts, and the meet where nothing else belongs to it."""
    label = _label(desk, "did.delete_result", seen.entry.athlete_id, seen.meet.name)
    with desk.action(label) as work:
        work.delete(Entry, seen.entry.id, seen.entry.version)
        _drop_if_empty(work, seen.meet)
        return Done(None, work.changes())


def _check(desk: Desk, data: ResultData) -> None:
    """A day that has come, a rulebook there is, a place, something lifted in the event."""
    desk.rulebooks.get(data.rulebook)
    if data.on > desk.today():
        raise InvalidInput("on", text("check.day_not_come"))
    if data.place is not None and data.place < 1:
        raise InvalidInput("place", text("check.from_one"))
    for lift, called in data.called.items():
        if called and lift not in data.event.lifts:
            raise InvalidInput(lift, text("entry.lift", lift=text(f"lift.{lift}")))
    if not any(data.called.values()):
        raise InvalidInput(data.event.lifts[0], text("results.nothing_lifted"))


def _label(desk: Desk, code: str, athlete_id: int, meet: str) -> Text:
    with desk.reading() as reader:
        return text(code, name=reader.get(Athlete, athlete_id).name, meet=meet)


def _meet(desk: Desk, work: Work, data: ResultData) -> int:
    """The meet of that name and day, put on file where it is not."""
    wanted = data.meet.strip().casefold()
    for meet in meets_of_day(work, data.on):
        if meet.name.strip().casefold() == wanted:
            if meet.rulebook != data.rulebook:
                book = desk.rulebooks.books.get(meet.rulebook)
                name = meet.rulebook if book is None else book.name
                raise InvalidInput("rulebook", text("results.other_rulebook", rulebook=name))
            return meet.id
    made = MeetData(
        name=data.meet.strip(),
        starts_on=data.on,
        rulebook=data.rulebook,
        time_zone=latest_time_zone(work) or _own_time_zone(desk),
    )
    try:
        check_meet(made)
    except InvalidInput as error:
        raise InvalidInput("meet" if error.field == "name" else error.field, error.text) from error
    return work.insert(made)


def _own_time_zone(desk: Desk) -> str:
    """The clock's time zone by name, where it has one: a past result does not depend on it."""
    zone = desk.now().tzinfo
    return zone.key if isinstance(zone, ZoneInfo) else _SOMEWHERE


def _put_attempts(
    work: Work, entry_id: int, present: tuple[Attempt, ...], data: ResultData
) -> None:
    for lift in Lift:
        wanted = data.called.get(lift, {})
        stands = standing(present, lift)
        kept = taken(stands)
        for number, called in wanted.items():
            if kept.get(number) == called:
                continue
            attempt = AttemptData(
                entry_id=entry_id,
                lift=lift,
                number=number,
                weight=called.weight,
                result=called.result,
            )
            if number not in stands:
                work.insert(attempt)
                continue
            before = stands[number]
            work.update(before.id, before.version, replace(attempt, take=before.take))
        for number in kept.keys() - wanted.keys():
            for attempt in present:
                if (attempt.lift, attempt.number) == (lift, number):
                    work.delete(Attempt, attempt.id, attempt.version)


def _drop_if_empty(work: Work, meet: Meet) -> None:
    if has_nothing(work, meet.id):
        work.delete(Meet, meet.id, meet.version)
