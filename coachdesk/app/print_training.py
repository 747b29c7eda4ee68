"""Printing weeks of a training block."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from coachdesk.app import paths
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.reports.packet_files import safe_name, write_file
from coachdesk.reports.theme import Paper, load_fonts
from coachdesk.reports.training_sheet import render_training_sheets
from coachdesk.services.desk import Desk
from coachdesk.services.training_content import training_week
from coachdesk.wording.wording import Wording


def print_training(
    desk: Desk, block_id: int, weeks: Collection[int], out: Path, paper: str, words: Wording
) -> Path:
    """Write weeks of a block, a page each, into one file in `out`; answers the file.

    Weeks without a plan are left out. Raises InvalidInput (field "week") for a week that the block
    does not have, Trouble where nothing is planned or nothing can be written.
    """
    load_fonts(paths.resources() / "fonts")
    sheets = [
        sheet for week in sorted(weeks) if (sheet := training_week(desk, block_id, week)).days
    ]
    if not sheets:
        raise Trouble(text("training.nothing"))
    first, last = sheets[0], sheets[-1]
    span = str(first.week) if first is last else f"{first.week}-{last.week}"
    part = words("training.file", week=span)
    name = safe_name(first.athlete, str(block_id), first.block, part)
    return write_file(out, f"{name}.pdf", render_training_sheets(sheets, words, Paper(paper)))
