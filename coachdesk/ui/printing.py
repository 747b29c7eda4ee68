"""What the screens ask of paper, without Qt and without the reports that answer it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from coachdesk.services.loading_chart import LoadingChart
    from coachdesk.services.print_choice import PrintChoice, Printed, Progress


class Printing(Protocol):
    """What can be put on paper. The program gives it, since screens do not know reports."""

    def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
        """Print a meet's sheets into a folder below `out`."""

    def training(
        self, block_id: int, weeks: Sequence[int], paper: str, out: Path
    ) -> tuple[Path, ...]:
        """Print weeks of a block to a file in `out`; answers the files written."""

    def loading_chart(self, chart: LoadingChart, paper: str, file: Path) -> Path:
        """Print the chart of a disc set to `file` on `paper`; answers the file."""
