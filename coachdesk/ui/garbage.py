"""Looking for garbage in the window's own thread only.

Python looks wherever memory happens to be asked for, in a thread of the background too: the window
would stand still meanwhile, and what is left of a dialog would be taken down in a thread in which
Qt does not allow it.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 1000


class GarbageWatch(QObject):
    """Looks every second, by Python's own thresholds, in place of Python."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._timer = QTimer(self)
        self._timer.timeout.connect(look_for_garbage)

    def start(self) -> None:
        """From now on; what is loaded by now stays, and is not looked through again."""
        gc.disable()
        gc.freeze()
        self._timer.start(_EVERY_MS)


def look_for_garbage() -> None:
    """Look as deep as is due."""
    for generation, most in enumerate(gc.get_threshold()):
        if gc.get_count()[generation] > most:
            gc.collect(generation)
