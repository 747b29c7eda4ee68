"""Printing an athlete's training sheets to a folder."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from coachdesk.app import paths
from coachdesk.reports.packet_files import safe_name, write_file
from coachdesk.reports.theme import Paper, load_fonts
from coachdesk.reports.training_sheet import render_training_sheet
from coachdesk.services.desk import Desk
from coachdesk.services.training_content import training_sheet
from coachdesk.wording.wording import Wording


def print_training(
    desk: Desk, block_id: int, weeks: Collection[int], out: Path, paper: str, words: Wording
) -> Path:
    """Write the sheets of these weeks of a block to one file in `out`; answers the file.

    Raises Trouble when nothing is planned in them, or the file cannot be written.
    """
    load_fonts(paths.resources() / "fonts")
    content = training_sheet(desk, block_id, weeks)
    data = render_training_sheet(content, words, Paper(paper))
    numbers = ", ".join(str(week.number) for week in content.weeks)
    named = words("training.file", weeks=numbers, count=len(content.weeks))
    first = content.weeks[0].first.isoformat()
    return write_file(out, f"{safe_name(content.athlete, content.block, named, first)}.pdf", data)
