"""Bugs: logged, reported in words that can be copied, and the work goes on."""

from __future__ import annotations

import logging
import sys
import traceback
from types import TracebackType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal

from coachdesk import __version__

if TYPE_CHECKING:
    from coachdesk.ui.main_window import MainWindow


class BugWatch(QObject):
    """Stands in for `sys.excepthook`, which also fires in other threads: there it only tells."""

    found = Signal(str)

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._is_showing = False
        self.found.connect(self._show, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """Watch from now on."""
        sys.excepthook = self._caught

    def _caught(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        if issubclass(kind, KeyboardInterrupt):
            self._window.close()
            return
        logging.getLogger("coachdesk").error("unexpected error", exc_info=(kind, error, trace))
        self.found.emit(report(kind, trace))

    def _show(self, words: str) -> None:
        """One at a time: a fault in painting would otherwise bury the desk in dialogs."""
        if self._is_showing:
            return
        from coachdesk.ui.bug_dialog import BugDialog  # noqa: PLC0415

        self._is_showing = True
        try:
            BugDialog(self._window.words, words, self._window).exec()
        finally:
            self._is_showing = False


def report(kind: type[BaseException], trace: TracebackType | None) -> str:
    """Where it happened, without values: an error's own message may hold somebody's name."""
    import platform  # noqa: PLC0415

    lines = [f"coachdesk {__version__}, Python {platform.python_version()}, {platform.system()}"]
    lines += [
        f"{frame.filename.rsplit('coachdesk', 1)[-1]}:{frame.lineno} {frame.name}"
        for frame in traceback.extract_tb(trace)
    ]
    return "\n".join([*lines, kind.__name__])
