"""Use cases that change or delete a session, its flights included."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from coachdesk.domain.checks import check_flight, check_session
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Flight, FlightData, Session, SessionData
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk, Done
from coachdesk.storage import tables
from coachdesk.storage.meet_list_queries import Extent, session_extent
from coachdesk.storage.store import Work


@dataclass(frozen=True, slots=True)
class FlightLine:
    """A flight as the coach lists it; its place in the list is its place in the session."""

    name: str
    lifters: int | None = None


Flights = Mapping[Lift, Sequence[FlightLine]]


def add_session_with_flights(desk: Desk, data: SessionData, flights: Flights) -> Done[int]:
    """Add a session and its flights; answers the session's id."""
    check_session(data)
    _check_names(flights)
    with desk.action(text("did.add_session", name=data.name)) as work:
        session_id = work.insert(data)
        _arrange(work, session_id, (), flights)
        return Done(session_id, work.changes())


def edit_session(
    desk: Desk, seen: Session, seen_flights: Sequence[Flight], data: SessionData, flights: Flights
) -> Done[None]:
    """Replace what is on file about a session and its flights, if both still are as `seen`.

    A flight that keeps its name keeps its entries; one that is renamed in its place does too.
    """
    check_session(data)
    _check_names(flights)
    with desk.action(text("did.edit_session", name=data.name)) as work:
        present = work.list(Flight, tables.flight.c.session_id == seen.id)
        if set(present) != set(seen_flights):
            raise Trouble(text("record.moved_on", kind=text("kind.session")))
        work.update(seen.id, seen.version, data)
        _arrange(work, seen.id, present, flights)
        return Done(None, work.changes())


def delete_session(desk: Desk, seen: Session) -> Done[None]:
    """Delete a session and its flights; its entries stay without one. It can be undone."""
    with desk.action(text("did.delete_session", name=seen.name)) as work:
        work.delete(Session, seen.id, seen.version)
        return Done(None, work.changes())


def extent_of_session(desk: Desk, session: Session) -> Extent:
    """What would go along with a session; its entries stay."""
    with desk.reading() as reader:
        return session_extent(reader, session.id)


def _check_names(flights: Flights) -> None:
    for lift, lines in flights.items():
        names = [line.name.casefold() for line in lines]
        if len(set(names)) < len(names):
            raise InvalidInput(f"flights_{lift}", text("check.flight_twice"))


def _arrange(work: Work, session_id: int, present: Sequence[Flight], flights: Flights) -> None:
    for lift in Lift:
        lines = flights.get(lift, ())
        kept, gone = _matched([flight for flight in present if flight.lift is lift], lines)
        for flight in gone:
            work.delete(Flight, flight.id, flight.version)
        for line, place, position in zip(lines, kept, _positions(kept, gone), strict=True):
            data = FlightData(
                session_id=session_id,
                lift=lift,
                name=line.name,
                position=position,
                lifters=line.lifters,
            )
            _check(data)
            if place is None:
                work.insert(data)
            elif place != replace(place, name=line.name, lifters=line.lifters, position=position):
                work.update(place.id, place.version, data)


def _check(data: FlightData) -> None:
    try:
        check_flight(data)
    except InvalidInput as error:
        raise InvalidInput(f"flights_{data.lift}", error.text) from error


def _matched(
    present: Sequence[Flight], lines: Sequence[FlightLine]
) -> tuple[list[Flight | None], list[Flight]]:
    """The flight on file for each line, None for a new one, and the flights nobody listed.

    By name first; what is left goes by its order, so that a flight can be renamed.
    """
    by_name = {flight.name.casefold(): flight for flight in present}
    kept = [by_name.get(line.name.casefold()) for line in lines]
    ordered = sorted(present, key=lambda flight: flight.position)
    left = [flight for flight in ordered if flight not in kept]
    for at, flight in enumerate(kept):
        if flight is None and left:
            kept[at] = left.pop(0)
    return kept, left


def _positions(kept: Sequence[Flight | None], gone: Sequence[Flight]) -> Sequence[int]:
    """Rising positions for flights in their new order.

    Two flights never hold one position even for a moment, whichever way an action is replayed: if
    the order changed, all of them move to positions that none of them held.
    """
    held = [flight.position for flight in kept if flight is not None]
    taken = {*held, *(flight.position for flight in gone)}
    last = max(taken, default=0)
    first_new = held == sorted(held) and all(flight is not None for flight in kept[: len(held)])
    if first_new:
        return [*held, *range(last + 1, last + 1 + len(kept) - len(held))]
    if taken and min(taken) > len(kept):
        return range(1, len(kept) + 1)
    return range(last + 1, last + 1 + len(kept))
