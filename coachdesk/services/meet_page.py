"""What a meet's page shows: the meet, its sessions, and a line for each entry."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from typing import TypeAlias

from coachdesk.domain.athlete import Athlete, Handler
from coachdesk.domain.errors import CoachdeskError, Trouble
from coachdesk.domain.history import standing, total_grams
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Attempt, AttemptData, Entry, EntryData, Flight, Meet, Session
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.services.class_standing import weigh_in_times
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import is_first_meet, is_over, read_meet
from coachdesk.services.open_points import LiftReady, points_of
from coachdesk.services.packet_content import WeightPage
from coachdesk.services.packet_lifts import score_of, sum_of_all
from coachdesk.services.packet_weight import weight_page
from coachdesk.storage.meet_queries import MeetRecord

Planned: TypeAlias = Mapping[Lift, tuple[Mass, ...]]
"""The weights planned for each lift when every attempt is good."""


@dataclass(frozen=True)
class SessionLine:
    """A session, its flights in their order, and when its weigh-in opens and closes."""

    session: Session
    flights: tuple[Flight, ...]
    weigh_in: tuple[datetime | None, datetime | None]

    @property
    def weigh_in_by_rulebook(self) -> bool:
        """Whether the rulebook alone says when the weigh-in is."""
        return self.session.weigh_in_opens is None and self.session.weigh_in_closes is None

    def flights_of(self, lift: Lift) -> tuple[Flight, ...]:
        """The flights of one lift."""
        return tuple(flight for flight in self.flights if flight.lift is lift)


@dataclass(frozen=True)
class EntryLine:
    """An entry: attempts chosen by lift and number, those only planned, and what they come to.

    `total` is the one made where results are on file (`is_made`), else the one every good attempt
    would bring. Once the meet is over nothing is open, and only the weigh-in counts for the score.
    `fault` says why the figures are missing.
    """

    entry: Entry
    athlete: Athlete
    session: Session | None
    flights: tuple[Flight, ...]
    chosen: Mapping[Lift, Mapping[int, Attempt]]
    planned: Planned = field(default_factory=dict)
    total: Mass | None = None
    is_made: bool = False
    score: float | None = None
    points: tuple[Text, ...] = ()
    fault: Text | None = None


@dataclass(frozen=True)
class MeetPage:
    """A meet; without its rulebook, `fault` says what is wrong with that."""

    meet: Meet
    rulebook: Rulebook | None
    fault: Text | None
    sessions: tuple[SessionLine, ...]
    lines: tuple[EntryLine, ...]
    handlers: tuple[Handler, ...]


def meet_page(desk: Desk, meet_id: int) -> MeetPage:
    """Read a meet's page; Trouble when the meet is no longer on file."""
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today)
    rulebook, fault = _rulebook(desk, record.meet)
    return MeetPage(
        meet=record.meet,
        rulebook=rulebook,
        fault=fault,
        sessions=tuple(
            _session_line(record, rulebook, session) for session in record.sessions.values()
        ),
        lines=tuple(_line(record, rulebook, entry, today) for entry in record.entries),
        handlers=tuple(record.handlers.values()),
    )


def _session_line(record: MeetRecord, rulebook: Rulebook | None, session: Session) -> SessionLine:
    flights = tuple(each for each in record.flights.values() if each.session_id == session.id)
    weigh_in = (session.weigh_in_opens, session.weigh_in_closes)
    return SessionLine(
        session, flights, weigh_in if rulebook is None else weigh_in_times(rulebook, session)
    )


def _rulebook(desk: Desk, meet: Meet) -> tuple[Rulebook | None, Text | None]:
    try:
        return desk.rulebooks.get(meet.rulebook), None
    except Trouble as trouble:
        return None, trouble.text


def _line(record: MeetRecord, rulebook: Rulebook | None, entry: Entry, today: date) -> EntryLine:
    attempts = record.attempts.get(entry.id, ())
    flights = [record.flights[each] for each in record.flights_of_entry[entry.id]]
    bare = EntryLine(
        entry=entry,
        athlete=record.athletes[entry.athlete_id],
        session=record.sessions.get(entry.session_id or 0),
        flights=tuple(flight for lift in Lift for flight in flights if flight.lift is lift),
        chosen={lift: standing(attempts, lift) for lift in entry.event.lifts},
    )
    if rulebook is None:
        return bare
    try:
        return _with_figures(record, rulebook, bare, today)
    except CoachdeskError as error:
        return replace(bare, fault=error.text)


def _with_figures(
    record: MeetRecord, rulebook: Rulebook, line: EntryLine, today: date
) -> EntryLine:
    entry, over = line.entry, is_over(record, today)
    attempts = record.attempts.get(entry.id, ())
    first_meet = is_first_meet(record, entry)
    weight = weight_page(record, rulebook, entry, today=today, first_meet=first_meet)
    snapshot = record.plans.get(entry.id)
    planned = (
        {} if snapshot is None else {plan.lift: plan.good_path for plan in snapshot.plan.lifts}
    )
    is_made = any(attempt.result is not None for attempt in attempts)
    thirds = [_third(line, planned, lift) for lift in entry.event.lifts]
    total = made_total(attempts, entry, rulebook) if is_made else sum_of_all(thirds)
    present = None if weight.present is None or over else weight.present.mass
    bodyweight = entry.bodyweight or present
    return replace(
        line,
        planned=planned,
        total=total,
        is_made=is_made,
        score=None if total is None else score_of(rulebook, line.athlete, entry, total, bodyweight),
        points=() if over else _points(record, line, weight, planned, first_meet=first_meet),
    )


def _third(line: EntryLine, planned: Planned, lift: Lift) -> Mass | None:
    """The last weight of a lift when all goes well: as chosen, else as planned."""
    if 3 in line.chosen[lift]:
        return line.chosen[lift][3].weight
    return planned[lift][-1] if lift in planned else None


def _points(
    record: MeetRecord, line: EntryLine, weight: WeightPage, planned: Planned, *, first_meet: bool
) -> tuple[Text, ...]:
    entry = line.entry
    return points_of(
        entry,
        record.meet,
        line.athlete,
        present=weight.present,
        fit=weight.fit,
        lifts=[
            LiftReady(lift, is_planned=lift in planned, opener_chosen=1 in chosen)
            for lift, chosen in line.chosen.items()
        ],
        judged=record.judged.get(entry.athlete_id, frozenset()),
        first_meet=first_meet,
        has_handler=any(duty.entry_id == entry.id for duty in record.duties),
    )


def made_total(
    attempts: Iterable[AttemptData], entry: EntryData, rulebook: Rulebook
) -> Mass | None:
    """The total made, in the rulebook's unit; None where a lift has no good attempt."""
    grams = total_grams(attempts, entry.event)
    return None if grams is None else from_grams(grams, rulebook.unit)
