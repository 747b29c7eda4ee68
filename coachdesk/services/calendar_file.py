"""A calendar file (.ics, RFC 5545) of the meets ahead, for whatever calendar a coach keeps.

Every event has a name of its own that stays: a second file updates what the first one brought,
and calls off what no longer holds (3.8.1.11, STATUS:CANCELLED, in a later revision).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.services.calendar_events import CalendarEvent, calendar_events, called_off
from coachdesk.services.desk import Desk
from coachdesk.services.whole_file import write_whole
from coachdesk.storage.calendar_entries import remember_brought
from coachdesk.storage.file_id import file_id
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from icalendar import Event

ENDING = ".ics"
_BARRED = frozenset({"Cc", "Cs"})
_PRODUCT = "-//coachdesk//coachdesk//EN"
_EPOCH = datetime(2026, 1, 1, tzinfo=UTC)
"""Revisions are counted in seconds from here, so that a later file counts as a later revision,
whatever was undone or restored in between."""


@dataclass(frozen=True, slots=True)
class CalendarChoice:
    """The meets, by id, and whether weekly weights go along, which are an athlete's own matter."""

    meet_ids: frozenset[int]
    with_weights: bool = False


@dataclass(frozen=True, slots=True)
class CalendarWritten:
    """The file that was written, how many events are in it, and how many it calls off."""

    file: Path
    events: int
    called_off: int


def write_calendar(
    desk: Desk, words: Wording, choice: CalendarChoice, file: Path
) -> CalendarWritten:
    """Write the calendar file; raises Trouble when it cannot be written or nothing is in it."""
    meet_ids, with_weights = choice.meet_ids, choice.with_weights
    events = calendar_events(desk, words, meet_ids, with_weights=with_weights)
    off = called_off(desk, words, meet_ids, events, with_weights=with_weights)
    if not events and not off:
        raise Trouble(text("calendar.nothing"))
    write_whole(file, calendar_bytes((*events, *off), file_id(desk.store), desk.now(), words))
    brought = [(each.key, each.meet_id, _day(each.begins)) for each in events]
    with desk.store.raw_writing() as connection:
        remember_brought(connection, brought, desk.today())
    return CalendarWritten(file, len(events), len(off))


def calendar_bytes(
    events: Sequence[CalendarEvent], file_number: int, now: datetime, words: Wording
) -> bytes:
    """The events as the bytes of a calendar file, made `now` (aware) from the file's number."""
    from icalendar import Calendar  # noqa: PLC0415 - 150 ms that only a calendar file waits for

    calendar = Calendar()
    calendar.add("prodid", _PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", words("calendar.name"))
    for event in events:
        calendar.add_component(_component(event, file_number, now.astimezone(UTC)))
    return bytes(calendar.to_ical())


def _component(event: CalendarEvent, file_number: int, stamp: datetime) -> Event:
    from icalendar import Event  # noqa: PLC0415

    made = Event()
    made.add("uid", f"{event.key}@{file_number:08x}.coachdesk")
    made.add("dtstamp", stamp)
    made.add("sequence", max(0, int((stamp - _EPOCH).total_seconds())))
    made.add("summary", " ".join(_clean(event.title).split()))
    made.add("dtstart", _in_file(event.begins))
    if event.ends != event.begins or not isinstance(event.ends, datetime):
        made.add("dtend", _after(event.ends))
    if event.about:
        made.add("description", _clean(event.about))
    if event.place:
        made.add("location", _clean(event.place))
    if event.is_off:
        made.add("status", "CANCELLED")
    if event.is_private:
        made.add("class", "PRIVATE")
    if not isinstance(event.begins, datetime):
        made.add("transp", "TRANSPARENT")
    return made


def _clean(words: str) -> str:
    """Without control characters and half characters, which a calendar file must not hold."""
    lines = words.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(
        letter for letter in lines if letter == "\n" or unicodedata.category(letter) not in _BARRED
    )


def _day(when: date | datetime) -> date:
    return when.date() if isinstance(when, datetime) else when


def _in_file(when: date | datetime) -> date | datetime:
    """A moment in UTC, which every calendar shows in its own zone; a day as it is."""
    return when.astimezone(UTC) if isinstance(when, datetime) else when


def _after(when: date | datetime) -> date | datetime:
    """Where an event ends in the file: days end at the beginning of the next."""
    return _in_file(when) if isinstance(when, datetime) else when + timedelta(days=1)
