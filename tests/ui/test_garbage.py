"""What is left of a dialog is taken down in the window's thread, never in one of the background."""

from __future__ import annotations

import gc
import threading
import weakref
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from coachdesk.ui.garbage import GarbageWatch


class Left:
    """In a circle with itself: only looking for garbage finds it."""

    def __init__(self) -> None:
        self.itself = self


@pytest.fixture
def watch(qtbot: QtBot) -> Iterator[GarbageWatch]:
    del qtbot
    parent = QObject()
    watch = GarbageWatch(parent)
    watch.start()
    yield watch
    parent.deleteLater()
    gc.unfreeze()


def busy() -> None:
    """Asks for memory far more often than Python waits before it looks."""
    kept = [[at] for at in range(100 * gc.get_threshold()[0])]
    assert kept


def test_work_in_the_background_leaves_garbage_to_the_window(
    watch: GarbageWatch, qtbot: QtBot
) -> None:
    del watch
    taken_down: list[int] = []
    weakref.finalize(Left(), lambda: taken_down.append(threading.get_ident()))
    worker = threading.Thread(target=busy)
    worker.start()
    worker.join()
    assert taken_down == []
    rest = [[at] for at in range(2 * gc.get_threshold()[0])]
    qtbot.waitUntil(lambda: bool(taken_down), timeout=20_000)
    assert rest
    assert taken_down == [threading.get_ident()]
