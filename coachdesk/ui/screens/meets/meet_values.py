"""The forms of a meet and of its sessions: what stands in their fields, and what is read."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Flight, Meet, MeetData, SessionData
from coachdesk.domain.text import text
from coachdesk.services import typed
from coachdesk.services.meet_page import SessionLine
from coachdesk.services.session_editing import FlightLine

Values = dict[str, str]
_WITH_LIFTERS = re.compile(r"(.*?)\s*\(\s*(\d{1,3})\s*\)")


def meet_values(meet: MeetData) -> Values:
    """A meet as it stands in the fields."""
    return {
        "name": meet.name,
        "starts_on": typed.shown_day(meet.starts_on),
        "rulebook": meet.rulebook,
        "time_zone": meet.time_zone,
        "place": meet.place,
        "entry_deadline": typed.shown_day(meet.entry_deadline),
        "kit_inspection_on": typed.shown_day(meet.kit_inspection_on),
        "note": meet.note,
    }


def read_meet_values(values: Mapping[str, str]) -> MeetData:
    """A meet as typed; raises InvalidInput at the field that is amiss."""
    return MeetData(
        name=values["name"],
        starts_on=typed.required_day("starts_on", values["starts_on"]),
        rulebook=values["rulebook"],
        time_zone=values["time_zone"],
        place=values["place"],
        entry_deadline=typed.day("entry_deadline", values["entry_deadline"]),
        kit_inspection_on=typed.day("kit_inspection_on", values["kit_inspection_on"]),
        note=values["note"],
    )


def session_values(line: SessionLine) -> Values:
    """A session and its flights as they stand in the fields."""
    session = line.session
    return {
        "name": session.name,
        "starts_at": typed.shown_moment(session.starts_at),
        "weigh_in_opens": typed.shown_moment(session.weigh_in_opens),
        "weigh_in_closes": typed.shown_moment(session.weigh_in_closes),
        "platform": session.platform,
        **{f"flights_{lift}": flights_typed(line.flights_of(lift)) for lift in Lift},
    }


def new_session_values(meet: Meet, lifts: Sequence[Lift]) -> Values:
    """A new session: on the meet's first day, with one flight of each lift."""
    return {
        "name": "",
        "starts_at": f"{typed.shown_day(meet.starts_on)} ",
        "weigh_in_opens": "",
        "weigh_in_closes": "",
        "platform": "",
        **{f"flights_{lift}": "A" if lift in lifts else "" for lift in Lift},
    }


def read_session_values(
    meet_id: int, values: Mapping[str, str]
) -> tuple[SessionData, dict[Lift, list[FlightLine]]]:
    """A session and its flights as typed; raises InvalidInput at the field that is amiss."""
    starts_at = typed.moment("starts_at", values["starts_at"])
    if starts_at is None:
        raise InvalidInput("starts_at", text("typed.moment"))
    data = SessionData(
        meet_id=meet_id,
        name=values["name"],
        starts_at=starts_at,
        weigh_in_opens=typed.moment("weigh_in_opens", values["weigh_in_opens"]),
        weigh_in_closes=typed.moment("weigh_in_closes", values["weigh_in_closes"]),
        platform=values["platform"],
    )
    return data, {lift: read_flights(values[f"flights_{lift}"]) for lift in Lift}


def flights_typed(flights: Sequence[Flight]) -> str:
    """Flights as they are typed: names in their order, the number of lifters in brackets."""
    return ", ".join(
        flight.name if flight.lifters is None else f"{flight.name} ({flight.lifters})"
        for flight in flights
    )


def read_flights(words: str) -> list[FlightLine]:
    """Flights from names parted by commas, each with its number of lifters in brackets or none."""
    lines: list[FlightLine] = []
    for part in (each.strip() for each in words.split(",")):
        if not part:
            continue
        found = _WITH_LIFTERS.fullmatch(part)
        lines.append(FlightLine(found[1], int(found[2])) if found else FlightLine(part))
    return lines
