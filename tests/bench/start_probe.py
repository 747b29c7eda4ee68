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
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


def main(stage: str, *more: str) -> int:
    """Start, and end the process at `stage`, or with a traceback after a minute."""
    faulthandler.dump_traceback_later(60, exit=True)
    return _empty() if stage == "empty" else _desk(Path(more[0]), stage)


def _empty() -> int:
    from PySide6.QtWidgets import QApplication, QMainWindow

    application = QApplication(sys.argv[:1])
    window = QMainWindow()
    _end_at_first_paint(window)
    window.show()
    return application.exec()


def _desk(file: Path, stage: str) -> int:
    """As the command does, which puts off looking for garbage before it loads anything."""
    gc.disable()
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from coachdesk.app.window import Program
    from coachdesk.app.words import wording

    application = QApplication(sys.argv[:1])
    program = Program(wording(), file.parent, file, demo=False)
    if stage == "paint":
        _end_at_first_paint(program.window)
    else:
        program.window.places.currentRowChanged.connect(
            lambda _: QTimer.singleShot(0, lambda: os._exit(0))
        )
    program.window.show()
    QTimer.singleShot(0, program.begin)
    return application.exec()


def _end_at_first_paint(window: QWidget) -> None:
    from PySide6.QtCore import QEvent, QObject, QTimer

    class AtFirstPaint(QObject):
        def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
            if event.type() is QEvent.Type.Paint:
                QTimer.singleShot(0, lambda: os._exit(0))
            return False

    window.installEventFilter(AtFirstPaint(window))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
