"""Printing a meet's packets to a folder: one athlete's trouble does not stop the others."""

from __future__ import annotations

import logging
from dataclasses import dataclass
from pathlib import Path

from coachdesk.app import paths
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheet
from coachdesk.reports.handler_card import render_handler_card
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
from coachdesk.wording.wording import Wording

_SHEETS = {
    "athlete": render_athlete_sheet,
    "handler": render_handler_card,
    "coach": render_coach_sheet,
}


@dataclass(frozen=True, slots=True)
class Printed:
    """The files that were written, and what went wrong for whom, in words."""

    files: tuple[Path, ...]
    failures: tuple[Text, ...]


def print_meet(desk: Desk, meet_id: int, out: Path, paper: str, words: Wording) -> Printed:
    """Write a packet for each entry of a meet and its team sheet into a folder below `out`.

    An athlete whose packet cannot be made is named among the failures. Trouble that would stop
    every sheet, such as a folder that cannot be written, is raised.
    """
    load_fonts(paths.resources() / "fonts")
    job = print_job(desk, meet_id)
    meet = job.record.meet
    folder = out / safe_name(meet.name, meet.starts_on.isoformat())
    files: list[Path] = []
    done: list[tuple[Entry, EntryPacket]] = []
    failures: list[Text] = []
    failed_names: list[str] = []
    for entry in job.entries:
        rendered = _render(desk, job, entry, paper, words)
        if isinstance(rendered, Text):
            failures.append(rendered)
            failed_names.append(job.name_of(entry))
            continue
        packet, sheets = rendered
        for sheet, data in sheets.items():
            name = safe_name(job.name_of(entry), f"{entry.id}", words(f"file.{sheet}"))
            files.append(write_file(folder, f"{name}.pdf", data))
        done.append((entry, packet))
    team = render_team_sheet(team_sheet(desk, job, done, failed_names), words, Paper(paper))
    files.append(write_file(folder, f"{safe_name(words('file.team'))}.pdf", team))
    note_printed(desk, job, [None, *(entry.id for entry, _packet in done)])
    return Printed(tuple(files), tuple(failures))


def _render(
    desk: Desk, job: PrintJob, entry: Entry, paper: str, words: Wording
) -> tuple[EntryPacket, dict[str, bytes]] | Text:
    """The packet and its sheets, or in words why there are none."""
    name = job.name_of(entry)
    try:
        packet = entry_packet(desk, job, entry)
        return packet, {
            sheet: render(packet, words, Paper(paper)) for sheet, render in _SHEETS.items()
        }
    except CoachdeskError as error:
        return text("printed.failed", name=name, why=error.text)
    except Exception:
        logging.getLogger("coachdesk").exception("a packet could not be made")
        return text("printed.bug", name=name)
