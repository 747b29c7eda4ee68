"""Meets without Qt: the list, a meet's page, and what a coach does to a meet as a whole."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from zoneinfo import available_timezones

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.services import meet_editing, meets, planning, session_editing, typed
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_editing import delete_entries, extent_of_entries
from coachdesk.services.entry_look import AttemptKey
from coachdesk.services.meet_page import MeetPage, SessionLine, meet_page
from coachdesk.services.print_choice import Progress
from coachdesk.ui.screens.meets.attempt_typing import keep_typed
from coachdesk.ui.screens.meets.enter_presenter import EnterPresenter
from coachdesk.ui.screens.meets.entry_presenter import EntryPresenter
from coachdesk.ui.screens.meets.entry_rows import EntryRow
from coachdesk.ui.screens.meets.going_along import goes_along
from coachdesk.ui.screens.meets.meet_values import (
    Values,
    meet_values,
    new_session_values,
    read_meet_values,
    read_session_values,
    session_values,
)
from coachdesk.ui.screens.meets.page_view import PageView, countdown, page_view
from coachdesk.wording.wording import Wording

Choices = list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class MeetRow:
    """A meet in the list: when it is, and how long to go."""

    id: int
    name: str
    day: str
    countdown: str
    entries: str
    is_past: bool


class MeetsPresenter:
    """What the screen shows and does. It keeps the page shown last, to know what was seen."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words
        self._page: MeetPage | None = None

    def rows(self) -> tuple[MeetRow, ...]:
        """The meets to come, soonest first, then those that are over, latest first."""
        today = self._desk.today()
        rows = [
            MeetRow(
                id=line.meet.id,
                name=line.meet.name,
                day=self._words.day(line.meet.starts_on),
                countdown=countdown(line.meet.starts_on, today, self._words),
                entries=self._words("meets.entries", count=line.entries),
                is_past=line.meet.starts_on < today,
            )
            for line in meet_editing.all_meets(self._desk)
        ]
        ahead = [row for row in rows if not row.is_past]
        return (*reversed(ahead), *(row for row in rows if row.is_past))

    def page(self, meet_id: int) -> PageView:
        """Read a meet's page."""
        self._page = meet_page(self._desk, meet_id)
        return page_view(self._page, self._meet_words, self._desk.today())

    def entry(self, entry_id: int) -> EntryPresenter:
        """One entry, to be edited."""
        return EntryPresenter(self._desk, self._words, entry_id)

    def entering(self) -> EnterPresenter:
        """Who can be entered to the meet shown; Trouble when its rulebook cannot be read."""
        page = self._shown
        if page.rulebook is None:
            raise Trouble(page.fault or text("shelf.not_found", key=page.meet.rulebook))
        return EnterPresenter(self._desk, self._words, page.meet.id, page.rulebook)

    def rulebook_choices(self, current: str = "") -> Choices:
        """The rulebooks that can be read, and `current` where it cannot."""
        books = self._desk.rulebooks.books
        choices = [(key, book.name) for key, book in books.items()]
        if current and current not in books:
            choices.append((current, self._words("meets.rulebook.unreadable", key=current)))
        return choices

    def time_zone_choices(self) -> Choices:
        """All time zones by name."""
        return [(name, name) for name in sorted(available_timezones())]

    def new_meet_values(self, own_time_zone: str) -> Values:
        """What a new meet's form begins with: the rulebook and time zone of the latest one."""
        books = self._desk.rulebooks.books
        lines = meet_editing.all_meets(self._desk)
        latest = next((line.meet for line in lines if line.meet.rulebook in books), None)
        return {
            "name": "",
            "starts_on": "",
            "rulebook": next(iter(books), "") if latest is None else latest.rulebook,
            "time_zone": own_time_zone if latest is None else latest.time_zone,
            "place": "",
            "entry_deadline": "",
            "kit_inspection_on": "",
            "note": "",
        }

    def meet_values(self) -> Values:
        """The meet shown, as its form begins."""
        return meet_values(self._shown.meet)

    def add_meet(self, values: Mapping[str, str]) -> Done[int]:
        """Put a meet on file; answers the id."""
        return meets.add_meet(self._desk, read_meet_values(values))

    def edit_meet(self, values: Mapping[str, str]) -> Done[tuple[Text, ...]]:
        """Change the meet shown; answers whose entry had to be fitted to another rulebook."""
        return meet_editing.edit_meet(self._desk, self._shown.meet, read_meet_values(values))

    def meet_deletion(self) -> str:
        """What would go along with the meet shown, in words."""
        extent = meet_editing.extent_of_meet(self._desk, self._shown.meet)
        return goes_along(
            self._words,
            ("sessions", extent.sessions),
            ("entries", extent.entries),
            ("attempts", extent.attempts),
        )

    def delete_meet(self) -> Done[None]:
        """Delete the meet shown."""
        return meet_editing.delete_meet(self._desk, self._shown.meet)

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """The lifts of the meet shown, in its order."""
        book = self._shown.rulebook
        return tuple(Lift) if book is None else book.lift_order

    def session_values(self, session_id: int | None) -> Values:
        """A session's form; that of a new one for None."""
        if session_id is None:
            return new_session_values(self._shown.meet, self.lifts)
        return session_values(self._session(session_id))

    def save_session(
        self, session_id: int | None, values: Mapping[str, str]
    ) -> Done[int] | Done[None]:
        """Keep a session and its flights; None for a new one."""
        data, flights = read_session_values(self._shown.meet.id, values)
        if session_id is None:
            return session_editing.add_session_with_flights(self._desk, data, flights)
        line = self._session(session_id)
        return session_editing.edit_session(self._desk, line.session, line.flights, data, flights)

    def session_deletion(self, session_id: int) -> str:
        """What would go along with a session, in words."""
        extent = session_editing.extent_of_session(self._desk, self._session(session_id).session)
        along = goes_along(self._words, ("flights", extent.flights))
        stays = self._words("meets.delete.entries_stay", count=extent.entries)
        return f"{stays} {along}" if extent.entries else along

    def delete_session(self, session_id: int) -> Done[None]:
        """Delete a session."""
        return session_editing.delete_session(self._desk, self._session(session_id).session)

    def entries_deletion(self, entries: Sequence[Entry]) -> str:
        """What would go along with these entries, in words."""
        extent = extent_of_entries(self._desk, entries)
        return goes_along(self._words, ("attempts", extent.attempts), ("plans", extent.plans))

    def delete_entries(self, entries: Sequence[Entry]) -> Done[None]:
        """Delete entries."""
        return delete_entries(self._desk, entries)

    def choose(self, row: EntryRow, key: AttemptKey, words: str) -> Done[tuple[Text, ...]] | None:
        """Keep an attempt typed into the table; None where nothing changes."""
        if key not in row.attempts:
            raise InvalidInput("lift", text("entry.lift", lift=text(f"lift.{key[0]}")))
        seen = row.attempts[key].attempt
        return keep_typed(self._desk, row.id, key, words, self._meet_words.unit, seen)

    def choose_lot(self, row: EntryRow, words: str) -> Done[None]:
        """Keep a lot number typed into the table."""
        lot = typed.whole("lot", words)
        if lot is not None and lot < 1:
            raise InvalidInput("lot", text("check.from_one"))
        data = replace(row.entry, lot=lot)
        return meets.edit_entry(self._desk, row.id, row.entry.version, data)

    def plan_all(self) -> Callable[[Progress], Done[tuple[Text, ...]]]:
        """What plans the attempts of every entry anew, to be run in the background."""
        meet_id = self._shown.meet.id
        return lambda progress: planning.plan_meet(self._desk, meet_id, progress=progress)

    @property
    def _shown(self) -> MeetPage:
        if self._page is None:
            raise LookupError
        return self._page

    @property
    def _meet_words(self) -> Wording:
        """The coach's words in the meet's unit, which rules at the meet."""
        book = None if self._page is None else self._page.rulebook
        return self._words if book is None else self._words.in_unit(book.unit)

    def _session(self, session_id: int) -> SessionLine:
        return next(line for line in self._shown.sessions if line.session.id == session_id)
