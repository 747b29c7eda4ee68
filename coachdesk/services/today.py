"""What a coach sees first: the meets to come, who is above the class entered, what is missing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.class_fit import ClassFit, PresentWeight, Verdict
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength.parameters import RECENT
from coachdesk.domain.text import Text
from coachdesk.services.class_standing import ClassStanding, standing_to_class
from coachdesk.services.desk import Desk
from coachdesk.services.open_points import LiftReady, points_of
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.today_queries import (
    EntryState,
    count_athletes,
    count_entries_ahead,
    entry_states,
)

_PRESSING = (
    Verdict.NOT_IN_TIME,
    Verdict.NO_PLAN,
    Verdict.HARD,
    Verdict.STEADY,
    Verdict.COMFORTABLE,
)
"""Verdicts on somebody above a class, most pressing first."""


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
class AboveClass:
    """An athlete above the class entered, what it takes to be in it, and the cautions."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    present: PresentWeight
    fit: ClassFit
    cautions: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Missing:
    """What is missing in an entry."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    points: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Today:
    """A day on the desk. `athletes` counts those on the roster, archived ones aside."""

    day: date
    athletes: int
    meets: tuple[MeetAhead, ...]
    above: tuple[AboveClass, ...]
    missing: tuple[Missing, ...]


def entries_ahead(desk: Desk) -> int:
    """How many entries `read_today` has to look at; it takes up to half a millisecond for each."""
    with desk.reading() as reader:
        return count_entries_ahead(reader, desk.today())


def read_today(desk: Desk) -> Today:
    """Everything a coach needs to see today, over all meets to come."""
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
    above: list[AboveClass] = []
    missing: list[Missing] = []
    for state in states:
        rulebook = desk.rulebooks.books.get(state.meet.rulebook)
        if rulebook is not None:
            over, lacking = _look_at(state, rulebook, today)
            above += [over] if over else []
            missing += [lacking] if lacking else []
    return Today(
        day=today,
        athletes=athletes,
        meets=tuple(_ahead(desk, meet, states, missing) for meet in meets),
        above=tuple(sorted(above, key=_pressing)),
        missing=tuple(missing),
    )


def _look_at(
    state: EntryState, rulebook: Rulebook, today: date
) -> tuple[AboveClass | None, Missing | None]:
    """What there is to say about an entry; where the rules cannot judge it, why."""
    meet, entry, athlete = state.meet, state.entry, state.athlete
    try:
        standing = standing_to_class(
            entry,
            meet,
            athlete,
            rulebook,
            session=state.session,
            weight=state.weight,
            today=today,
            first_meet=state.first_meet,
        )
    except CoachdeskError as error:
        return None, Missing(meet, entry, athlete, (error.text,))
    points = points_of(
        entry,
        meet,
        athlete,
        present=standing.present,
        fit=standing.fit,
        lifts=[
            LiftReady(lift, is_planned=lift in state.planned, opener_chosen=lift in state.chosen)
            for lift in rulebook.lift_order
            if lift in entry.event.lifts
        ],
        judged=state.judged,
        first_meet=state.first_meet,
        has_handler=state.has_handler,
    )
    return _above(state, standing), Missing(meet, entry, athlete, points) if points else None


def _above(state: EntryState, standing: ClassStanding) -> AboveClass | None:
    """The entry as one above its class; once weighed in officially nothing is left to do."""
    present, fit = standing.present, standing.fit
    if present is None or fit is None or state.entry.bodyweight is not None:
        return None
    if fit.verdict is Verdict.IN_CLASS:
        return None
    return AboveClass(state.meet, state.entry, state.athlete, present, fit, standing.cautions)


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


def _pressing(above: AboveClass) -> tuple[int, date, float]:
    """By verdict, then by the day to arrive, then by how far there is to go."""
    far = (above.fit.gap_kg or 0) / above.present.kg
    return _PRESSING.index(above.fit.verdict), above.fit.arrive_on, -far
