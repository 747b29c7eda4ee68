"""A calendar file without Qt: for which meets, what goes along, and where it is written."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.text import text
from coachdesk.services.calendar_file import (
    ENDING,
    CalendarChoice,
    CalendarWritten,
    write_calendar,
)
from coachdesk.services.desk import Desk
from coachdesk.services.meets import upcoming_meets
from coachdesk.services.typed import YES
from coachdesk.ui.screens.meets.page_view import PageView
from coachdesk.wording.wording import Wording

THIS = "this"
AHEAD = "ahead"


class CalendarPresenter:
    """The choices for a calendar file, and writing it."""

    def __init__(self, desk: Desk, words: Wording, page: PageView) -> None:
        self._desk = desk
        self._words = words
        self._page = page
        self._ahead = frozenset(meet.id for meet in upcoming_meets(desk))

    def meets(self) -> list[tuple[str, str]]:
        """The meet shown, and all meets ahead where there are any."""
        choices = [(THIS, self._page.title)]
        if self._ahead:
            choices.append((AHEAD, self._words("calendar.ahead", count=len(self._ahead))))
        return choices

    def write(self, values: dict[str, str]) -> CalendarWritten:
        """Write the file typed; raises InvalidInput where that cannot be."""
        file = self._file(values["file"])
        chosen = self._ahead if values["meets"] == AHEAD else frozenset({self._page.meet_id})
        choice = CalendarChoice(chosen, with_weights=values["weights"] == YES)
        try:
            return write_calendar(self._desk, self._words, choice, file)
        except Trouble as trouble:
            raise InvalidInput("file", trouble.text) from trouble

    def done(self, written: CalendarWritten) -> str:
        """What was written, in words."""
        said = self._words("calendar.written", count=written.events, file=str(written.file))
        if not written.called_off:
            return said
        return f"{said}. {self._words('calendar.called_off.count', count=written.called_off)}"

    def would_replace(self, typed: str) -> bool:
        """Whether a file of this name stands there already."""
        with suppress(InvalidInput, OSError):
            return self._file(typed).exists()
        return False

    def _file(self, typed: str) -> Path:
        """The file typed, whose name ends as calendar files do."""
        if not typed:
            raise InvalidInput("file", text("calendar.no_file"))
        file = Path(typed)
        with suppress(RuntimeError):  # somebody else's home, whom the system does not know
            file = file.expanduser()
        if not file.is_absolute():
            raise InvalidInput("file", text("calendar.whole_path"))
        if not file.suffix:
            file = file.with_name(f"{file.name}{ENDING}")
        if file.suffix.lower() != ENDING:
            raise InvalidInput("file", text("calendar.ending", ending=ENDING))
        return file
