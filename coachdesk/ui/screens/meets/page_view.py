"""A meet's page in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Unit
from coachdesk.services.meet_page import MeetPage, SessionLine
from coachdesk.ui.screens.meets.entry_rows import EntryRow, entry_row, flights_in_words
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class SessionRow:
    """A session in words."""

    id: int
    name: str
    starts: str
    by_start: str
    weigh_in: str
    platform: str
    flights: str


@dataclass(frozen=True, slots=True)
class PageView:
    """A meet's page in words. `facts` go in one line; `fault` says what its rulebook lacks."""

    meet_id: int
    title: str
    facts: tuple[str, ...]
    note: str
    fault: str
    unit: Unit
    legend: str
    lifts: tuple[Lift, ...]
    sessions: tuple[SessionRow, ...]
    entries: tuple[EntryRow, ...]


def page_view(page: MeetPage, words: Wording, today: date) -> PageView:
    """A meet's page; `words` speak in the meet's unit."""
    book = page.rulebook
    lifts = tuple(Lift) if book is None else book.lift_order
    rows = [entry_row(line, book, words) for line in page.lines]
    return PageView(
        meet_id=page.meet.id,
        title=page.meet.name,
        facts=_facts(page, words, today),
        note=page.meet.note,
        fault="" if page.fault is None else words.say(page.fault),
        unit=words.unit,
        legend=words(
            "meets.legend.begun" if page.meet.starts_on <= today else "meets.legend.to_come",
            unit=words.unit.value,
        ),
        lifts=lifts,
        sessions=tuple(_session_row(line, lifts, words) for line in page.sessions),
        entries=tuple(sorted(rows, key=lambda row: (row.entry.withdrawn, row.by_name, row.id))),
    )


def countdown(day: date, today: date, words: Wording) -> str:
    """How long it is to a day, or since it."""
    days = (day - today).days
    if days == 0:
        return words("meets.today")
    return words("meets.days_to_go" if days > 0 else "meets.days_ago", count=abs(days))


def _facts(page: MeetPage, words: Wording, today: date) -> tuple[str, ...]:
    """What is due comes first, then where and by which rules."""
    meet = page.meet
    left = countdown(meet.starts_on, today, words)
    facts = [words("meets.fact.day", day=meet.starts_on, countdown=left)]
    if meet.entry_deadline is not None:
        left = countdown(meet.entry_deadline, today, words)
        facts.append(words("meets.fact.deadline", day=meet.entry_deadline, countdown=left))
    if meet.kit_inspection_on is not None:
        left = countdown(meet.kit_inspection_on, today, words)
        facts.append(words("meets.fact.inspection", day=meet.kit_inspection_on, countdown=left))
    facts.append(meet.place)
    facts.append(meet.rulebook if page.rulebook is None else page.rulebook.name)
    facts.append(words("meets.fact.time_zone", zone=meet.time_zone))
    return tuple(fact for fact in facts if fact)


def _weigh_in(line: SessionLine, words: Wording) -> str:
    """When the weigh-in opens and closes; a day only where it is not the one before, and at first
    where it is not the session's own."""
    moments = [moment for moment in line.weigh_in if moment is not None]
    days = [line.session.starts_at.date(), *(moment.date() for moment in moments)]
    times = [
        words.hour(moment) if moment.date() == day else words.moment(moment)
        for day, moment in zip(days, moments, strict=False)
    ]
    if not times:
        return words("meets.session.by_organiser")
    said = (
        words("meets.session.window", opens=times[0], closes=times[-1]) if times[1:] else times[0]
    )
    if line.weigh_in_by_rulebook:
        return words("meets.session.by_rulebook", times=said)
    return said


def _session_row(line: SessionLine, lifts: tuple[Lift, ...], words: Wording) -> SessionRow:
    session = line.session
    by_lift = [
        (lift, words.show(tuple(flight.name for flight in line.flights_of(lift))))
        for lift in lifts
        if line.flights_of(lift)
    ]
    return SessionRow(
        id=session.id,
        name=session.name,
        starts=words.moment(session.starts_at),
        by_start=session.starts_at.isoformat(),
        weigh_in=_weigh_in(line, words),
        platform=session.platform,
        flights=flights_in_words(by_lift, words),
    )
