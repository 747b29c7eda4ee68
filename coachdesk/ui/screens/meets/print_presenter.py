"""Printing a meet without Qt: what can be chosen, what is done, and what came of it in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from coachdesk.domain.change import Change
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import PrintChoice, Printed, Progress, Sheet
from coachdesk.ui.screens.meets.page_view import PageView
from coachdesk.wording.wording import Wording

PAPERS = ("a4", "letter")


class Prints(Protocol):
    """What puts a meet on paper."""

    def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
        """Print a meet's sheets into a folder below `out`."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a print came to: the files, what could not be planned, and what planning changed."""

    printed: Printed
    faults: tuple[Text, ...]
    changes: frozenset[Change]


class PrintPresenter:
    """The choices for a meet's sheets, and the task that prints them."""

    def __init__(self, desk: Desk, words: Wording, page: PageView) -> None:
        self._desk = desk
        self._words = words
        self._page = page
        self.title = words("meets.print.title", name=page.title)

    def sheets(self) -> list[tuple[str, str]]:
        """The kinds of sheets."""
        return [(sheet.value, self._words(f"sheet.kind.{sheet}")) for sheet in Sheet]

    def papers(self) -> list[tuple[str, str]]:
        """The sizes of paper."""
        return [(paper, self._words(f"meets.paper.{paper}")) for paper in PAPERS]

    def athletes(self) -> list[tuple[str, str]]:
        """Who can be printed: the entries that are not withdrawn."""
        rows = self._page.entries
        return [(str(row.id), row.athlete) for row in rows if not row.entry.withdrawn]

    def choice(self, sheets: Sequence[str], paper: str, entry_ids: Sequence[str]) -> PrintChoice:
        """What is to be printed; raises InvalidInput when that is nothing."""
        if not sheets:
            raise InvalidInput("sheets", text("meets.print.no_sheet"))
        if not entry_ids:
            raise InvalidInput("athletes", text("meets.print.nobody"))
        is_whole = len(entry_ids) == len(self.athletes())
        return PrintChoice(
            paper,
            frozenset(Sheet(sheet) for sheet in sheets),
            None if is_whole else frozenset(int(each) for each in entry_ids),
        )

    def own_sheets(self, entry_id: int, paper: str) -> PrintChoice:
        """The sheets of one entry: all but the team's."""
        return PrintChoice(paper, frozenset(Sheet) - {Sheet.TEAM}, frozenset({entry_id}))

    def folder(self, typed: str) -> Path:
        """The folder typed; raises InvalidInput where it is not a whole path."""
        if not typed.strip():
            raise InvalidInput("folder", text("meets.print.no_folder"))
        folder = Path(typed.strip()).expanduser()
        if not folder.is_absolute():
            raise InvalidInput("folder", text("meets.print.whole_path"))
        return folder

    def task(self, prints: Prints, out: Path, choice: PrintChoice) -> Callable[[Progress], Outcome]:
        """What plans whoever has no plan yet, then prints."""
        meet_id = self._page.meet_id

        def run(progress: Progress) -> Outcome:
            planned = plan_meet(
                self._desk,
                meet_id,
                only_missing=True,
                entry_ids=choice.entry_ids,
                progress=progress,
            )
            printed = prints.meet(meet_id, out, choice, progress)
            return Outcome(printed, planned.value, planned.changes)

        return run

    def done(self, outcome: Outcome) -> str:
        """What was written, in words."""
        printed = outcome.printed
        return self._words(
            "printed.done",
            count=len(printed.files),
            meet=self._page.title,
            folder=str(printed.folder),
        )

    def trouble(self, outcome: Outcome) -> tuple[str, ...]:
        """Who failed and why, and what could not be planned."""
        said = (*outcome.printed.failures, *outcome.faults)
        return tuple(self._words.say(each) for each in said)
