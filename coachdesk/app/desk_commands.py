"""The commands that open the desk in a window."""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from coachdesk.app import paths
from coachdesk.services.preferences import Preferences, read_preferences, write_preferences
from coachdesk.wording.wording import Wording


def open_window(options: argparse.Namespace, _words: Wording) -> int:
    """Open the desk."""
    from coachdesk.app.window import run_window  # noqa: PLC0415

    return run_window(paths.preferences_folder(), options.data)


def demo(options: argparse.Namespace, words: Wording) -> int:
    """The invented club, fresh every time and in a folder of its own; the coach's data file is
    never touched. Opens it, or prints its packets where that was asked."""
    with tempfile.TemporaryDirectory(prefix="coachdesk-demo-") as folder:
        file = Path(folder) / "demo.db"
        if options.packets is not None:
            from coachdesk.app.packet_commands import demo_packets  # noqa: PLC0415

            return demo_packets(file, options.packets, options.paper, words)
        from coachdesk.app.window import run_window  # noqa: PLC0415

        _prefer_the_same_language(Path(folder))
        return run_window(Path(folder), file, demo=True)


def _prefer_the_same_language(folder: Path) -> None:
    """The invented club's desk speaks as the coach's own does; all else is as at a first start."""
    own = read_preferences(paths.preferences_file(paths.preferences_folder()))
    write_preferences(paths.preferences_file(folder), Preferences(language=own.language))
