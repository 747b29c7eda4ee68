"""A process that ends as soon as a window has come so far: what `bench_start` measures.

`python -m tests.bench.start_probe empty` shows a window of Qt's own; `paint FILE` opens the desk
and ends at its first paint, `usable FILE` once the first screen stands there with its rows.
"""

from __future__ import annotations

import faulthandler
import gc
import os
import sys
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget


class _AtFirstPaint(QObject):
    """Ends the process once a window has painted for the first time."""

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Paint:
            QTimer.singleShot(0, lambda: os._exit(0))
        return False


def _end_at_first_paint(window: QWidget) -> None:
    watch = _AtFirstPaint(window)
    window.installEventFilter(watch)


def main(stage: str, *more: str) -> int:
    """Start, and end the process at `stage`, or with a traceback after a minute."""
    faulthandler.dump_traceback_later(60, exit=True)
    application = QApplication(sys.argv[:1])
    if stage == "empty":
        window = QMainWindow()
        _end_at_first_paint(window)
        window.show()
        return application.exec()
    from coachdesk.app.window import Program
    from coachdesk.app.words import wording

    gc.disable()  # as the program's own start does
    file = Path(more[0])
    program = Program(wording(), file.parent, file, demo=False)
    if stage == "paint":
        _end_at_first_paint(program.window)
    else:
        program.window.places.currentRowChanged.connect(
            lambda _: QTimer.singleShot(0, lambda: os._exit(0))
        )
    program.window.show()
    QTimer.singleShot(0, program.open_desk)
    return application.exec()


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
