"""Printing a meet's packets to a folder: one athlete's trouble does not stop the others."""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TypeVar

from coachdesk.app import paths
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheets
from coachdesk.reports.handler_card import render_handler_cards
from coachdesk.reports.packet_files import safe_name, write_file
from coachdesk.reports.team_sheet import render_team_sheet
from coachdesk.reports.theme import Paper, load_fonts
from coachdesk.services.desk import Desk
from coachdesk.services.packet_content import EntryPacket
from coachdesk.services.packets import (
    PrintJob,
    entry_packet,
    note_printed,
    print_job,
    team_sheet,
)
from coachdesk.services.print_choice import PrintChoice, Printed, Progress, Sheet, no_progress
from coachdesk.wording.wording import Wording

T = TypeVar("T")

_TOGETHER: dict[Sheet, Callable[..., bytes]] = {
    Sheet.HANDLER: render_handler_cards,
    Sheet.COACH: render_coach_sheets,
}
"""What the coach keeps in one pile: a file for all entries."""


def print_meet(
    desk: Desk,
    meet_id: int,
    out: Path,
    choice: PrintChoice,
    words: Wording,
    progress: Progress = no_progress,
) -> Printed:
    """Write a meet's sheets into a folder below `out`.

    An athlete whose sheets cannot be made is named among the failures and is on no sheet but the
    team's. Where only some entries are printed, the files for all of them say so in their names,
    so that they stand beside those of the whole team. Trouble that would stop every sheet, such
    as a folder that cannot be written, is raised.
    """
    load_fonts(paths.resources() / "fonts")
    job = print_job(desk, meet_id)
    chosen = [
        entry for entry in job.entries if choice.entry_ids is None or entry.id in choice.entry_ids
    ]
    part = "" if len(chosen) == len(job.entries) else _part(job, len(chosen), words)
    printing = _Printing(desk, job, Paper(choice.paper), words, out, part)
    for step, entry in enumerate(chosen):
        progress(step, len(chosen) + 1)
        printing.prepare(entry, with_sheet=Sheet.ATHLETE in choice.sheets)
    progress(len(chosen), len(chosen) + 1)
    for sheet in sorted(choice.sheets & _TOGETHER.keys()):
        printing.write_together(sheet)
    if Sheet.TEAM in choice.sheets:
        printing.write_team_sheet()
    note_printed(desk, job, printing.marks(choice.sheets))
    progress(len(chosen) + 1, len(chosen) + 1)
    return Printed(printing.folder, tuple(printing.files), tuple(printing.failures.values()))


def _part(job: PrintJob, count: int, words: Wording) -> str:
    """What the file name of a part of the team says: how many of how many, and when."""
    at = job.mark(None).printed_at
    return words("file.part", number=count, all=len(job.entries), at=f"{at:%Y-%m-%d %H.%M.%S}")


class _Printing:
    """A print of a meet in the making: what is written so far, and who failed.

    `part` names a part of the team, empty for all of it.
    """

    def __init__(
        self, desk: Desk, job: PrintJob, paper: Paper, words: Wording, out: Path, part: str
    ) -> None:
        self._desk, self._job, self._paper, self._words = desk, job, paper, words
        self._part = part
        meet = job.record.meet
        self.folder = out / safe_name(meet.name, meet.starts_on.isoformat())
        self.files: list[Path] = []
        self.failures: dict[Entry, Text] = {}
        self._packets: dict[Entry, EntryPacket] = {}

    def prepare(self, entry: Entry, *, with_sheet: bool) -> None:
        """Gather an entry's packet, and write the athlete's own sheet."""
        packet = self._made(entry, lambda: entry_packet(self._desk, self._job, entry))
        if packet is None:
            return
        if with_sheet:
            data = self._made(entry, lambda: render_athlete_sheet(packet, self._words, self._paper))
            if data is None:
                return
            self._write(Sheet.ATHLETE, data, self._job.name_of(entry), f"{entry.id}")
        self._packets[entry] = packet

    def write_together(self, sheet: Sheet) -> None:
        """Write one file for all entries; those that cannot be drawn are left out and named."""
        render = partial(_TOGETHER[sheet], wording=self._words, paper=self._paper)
        try:
            data = render(list(self._packets.values()))
        except Exception:
            logging.getLogger("coachdesk").exception("looking for the entry that cannot be drawn")
            for entry, packet in list(self._packets.items()):
                if self._made(entry, partial(render, [packet])) is None:
                    del self._packets[entry]
            data = render(list(self._packets.values()))
        if self._packets:
            self._write(sheet, data, part=self._part)

    def write_team_sheet(self) -> None:
        """Write the team on one page, those who failed by name; a part of it replaces no print."""
        failed = [self._job.name_of(entry) for entry in self.failures]
        sheet = team_sheet(self._desk, self._job, self._packets.items(), failed)
        if self._part:
            sheet = replace(sheet, mark=replace(sheet.mark, replaces=None))
        data = render_team_sheet(sheet, self._words, self._paper)
        self._write(Sheet.TEAM, data, part=self._part)

    def marks(self, sheets: frozenset[Sheet]) -> list[int | None]:
        """What to remember as printed: entries, and None for the whole team's sheet."""
        team: list[int | None] = [None] if Sheet.TEAM in sheets and not self._part else []
        return team + [entry.id for entry in self._packets] if sheets - {Sheet.TEAM} else team

    def _write(self, sheet: Sheet, data: bytes, *whose: str, part: str = "") -> None:
        name = safe_name(*whose, self._words(f"file.{sheet}"), part)
        self.files.append(write_file(self.folder, f"{name}.pdf", data))

    def _made(self, entry: Entry, make: Callable[[], T]) -> T | None:
        """What `make` answers; None when it fails, and then the failure is noted."""
        name = self._job.name_of(entry)
        try:
            return make()
        except CoachdeskError as error:
            self.failures[entry] = text("printed.failed", name=name, why=error.text)
        except Exception:
            logging.getLogger("coachdesk").exception("a packet could not be made")
            self.failures[entry] = text("printed.bug", name=name)
        return None
