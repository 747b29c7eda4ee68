"""What a coach sees first: what needs attention, the meets to come, how the team stands to its
classes, and what is missing in entries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength.parameters import RECENT
from coachdesk.domain.text import Text
from coachdesk.services.attention import REMEMBERED, Concern, concerns_of, ranked_concerns
from coachdesk.services.desk import Desk
from coachdesk.services.kept import Kept
from coachdesk.services.open_points import LiftReady, points_of
from coachdesk.services.readiness import Readiness, readiness_of
from coachdesk.services.weight_board import BoardLine, board_line, ranked
from coachdesk.storage.attention_queries import snoozes
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.store import Reader
from coachdesk.storage.today_queries import (
    EntryState,
    count_athletes,
    count_entries_ahead,
    entry_states,
)


@dataclass(frozen=True, slots=True)
class MeetAhead:
    """A meet to come: days to go, days until entries close (negative once they are closed, None
    without a deadline), entries and their open points. `fault` says why nothing more is known."""

    meet: Meet
    days: int
    deadline_days: int | None
    entries: int
    open_points: int
    fault: Text | None


@dataclass(frozen=True, slots=True)
class Missing:
    """What is missing in an entry."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    points: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Today:
    """A day on the desk.

    `athletes` counts those on the roster, archived ones aside. `concerns` and `board` are ranked.
    `fault` says why nothing is known of kit and tasks: a list that cannot be read.
    """

    day: date
    athletes: int
    meets: tuple[MeetAhead, ...]
    concerns: tuple[Concern, ...]
    board: tuple[BoardLine, ...]
    missing: tuple[Missing, ...]
    fault: Text | None = None


def entries_ahead(desk: Desk) -> int:
    """How many entries `read_today` has to look at; it takes up to half a millisecond for each."""
    with desk.reading() as reader:
        return count_entries_ahead(reader, desk.today())


@dataclass(frozen=True, slots=True)
class EntryLook:
    """What an entry comes to; no `line` where its class cannot be told, no `missing` where nothing
    is."""

    line: BoardLine | None
    concerns: tuple[Concern, ...]
    missing: Missing | None


Seen: TypeAlias = tuple[EntryState, Rulebook, Readiness | None, date]
"""What a look at an entry depends on; how far kit and tasks are is None where it is not known."""


def look_at(seen: Seen) -> EntryLook:
    """What an entry comes to."""
    state, rulebook, ready, today = seen
    about = (state.meet, state.entry, state.athlete)
    try:
        line = board_line(state, rulebook, today)
    except CoachdeskError as error:
        return EntryLook(None, (), Missing(*about, (error.text,)))
    points = _points(state, rulebook, line)
    return EntryLook(
        line,
        concerns_of(state, rulebook, line, ready, today),
        Missing(*about, points) if points else None,
    )


def read_today(desk: Desk, looks: Kept[Seen, EntryLook] | None = None) -> Today:
    """Everything a coach needs to see today, over all meets to come.

    `looks` are those of the last time: only entries of which something changed are looked at anew.
    """
    today = desk.today()
    with desk.reading() as reader:
        athletes = count_athletes(reader)
        meets = meets_from(reader, today)
        states = entry_states(
            reader,
            meets,
            today=today,
            judged_from=today - RECENT,
        )
        put_off = snoozes(reader, today - REMEMBERED)
        ready, fault = _ready(desk, reader, states)
    books = desk.rulebooks.books
    looked = (looks or Kept(look_at)).of(
        (state.entry.id, (state, rulebook, ready.get(state.entry.id), today))
        for state in states
        if (rulebook := books.get(state.meet.rulebook)) is not None
    )
    concerns = (concern for look in looked for concern in look.concerns)
    missing = tuple(look.missing for look in looked if look.missing is not None)
    return Today(
        day=today,
        athletes=athletes,
        meets=tuple(_ahead(desk, meet, states, missing) for meet in meets),
        concerns=ranked_concerns(concerns, put_off, today),
        board=ranked(look.line for look in looked if look.line is not None),
        missing=missing,
        fault=fault,
    )


def _ready(
    desk: Desk, reader: Reader, states: Sequence[EntryState]
) -> tuple[dict[int, Readiness], Text | None]:
    """How far kit and tasks are, by entry; nothing, and why, where a list cannot be read."""
    try:
        return readiness_of(desk, reader, states), None
    except CoachdeskError as error:
        return {}, error.text


def _points(state: EntryState, rulebook: Rulebook, line: BoardLine) -> tuple[Text, ...]:
    """What is missing in an entry."""
    return points_of(
        state.entry,
        state.meet,
        state.athlete,
        present=line.standing.present,
        fit=line.standing.fit,
        lifts=[
            LiftReady(lift, is_planned=lift in state.planned, opener_chosen=lift in state.chosen)
            for lift in rulebook.lift_order
            if lift in state.entry.event.lifts
        ],
        judged=state.judged,
        first_meet=state.first_meet,
        has_handler=state.has_handler,
    )


def _ahead(
    desk: Desk, meet: Meet, states: Sequence[EntryState], missing: Sequence[Missing]
) -> MeetAhead:
    today = desk.today()
    deadline = meet.entry_deadline
    return MeetAhead(
        meet=meet,
        days=(meet.starts_on - today).days,
        deadline_days=None if deadline is None else (deadline - today).days,
        entries=sum(state.meet.id == meet.id for state in states),
        open_points=sum(len(each.points) for each in missing if each.meet.id == meet.id),
        fault=_fault(desk, meet.rulebook),
    )


def _fault(desk: Desk, rulebook: str) -> Text | None:
    try:
        desk.rulebooks.get(rulebook)
    except CoachdeskError as error:
        return error.text
    return None
