"""Gives the screens what can be put on paper; the report library is loaded when first used."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from coachdesk.app import paths
from coachdesk.services.desk import Desk
from coachdesk.services.loading_chart import LoadingChart
from coachdesk.services.print_choice import PrintChoice, Printed, Progress
from coachdesk.wording.wording import Wording


class DeskPrinting:
    """Prints from the open desk."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words

    def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
        """Print a meet's sheets into a folder below `out`."""
        from coachdesk.app.print_meet import print_meet  # noqa: PLC0415

        return print_meet(self._desk, meet_id, out, choice, self._words, progress)

    def training(
        self, block_id: int, weeks: Sequence[int], paper: str, out: Path
    ) -> tuple[Path, ...]:
        """Print weeks of a block to a file in `out`; answers the files written."""
        from coachdesk.app.print_training import print_training  # noqa: PLC0415

        return (print_training(self._desk, block_id, weeks, out, paper, self._words),)

    def loading_chart(self, chart: LoadingChart, paper: str, file: Path) -> Path:
        """Print the chart of a disc set to `file` on `paper`; answers the file."""
        from coachdesk.reports.loading_chart import render_loading_chart  # noqa: PLC0415
        from coachdesk.reports.packet_files import write_file  # noqa: PLC0415
        from coachdesk.reports.theme import Paper, load_fonts  # noqa: PLC0415

        load_fonts(paths.resources() / "fonts")
        return write_file(
            file.parent, file.name, render_loading_chart(chart, self._words, Paper(paper))
        )
