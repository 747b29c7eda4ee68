"""How long screens take to open with 200 athletes and five years of logs; reported, never gating.

The first visit finds what was made ahead; it is measured once, with a window of its own. Run with
`pytest -n0 --benchmark-enable tests/bench/bench_screens.py`.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from coachdesk.app.window import Program
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS
from coachdesk.wording.wording import Wording

KEYS = [place.key for place in SCREENS]


@pytest.fixture
def window(qtbot: QtBot, wording: Wording, data_file: Path, tmp_path: Path) -> MainWindow:
    """The desk opened as the program opens it, its screens made ahead."""
    program = Program(wording, tmp_path, data_file, demo=False)
    qtbot.addWidget(program.window)
    program.window.resize(1280, 800)
    program.window.show()
    with qtbot.waitSignal(program.window.all_made, timeout=120_000):
        program.open_desk()
    return program.window


@pytest.mark.parametrize("key", KEYS)
def test_the_first_visit(benchmark: BenchmarkFixture, window: MainWindow, key: str) -> None:
    def visit() -> None:
        window.go_to(key)
        QApplication.processEvents()

    benchmark.pedantic(visit, rounds=1)  # type: ignore[no-untyped-call]


@pytest.mark.parametrize("key", KEYS)
def test_a_later_visit(benchmark: BenchmarkFixture, window: MainWindow, key: str) -> None:
    other = "settings" if key == "today" else "today"

    def leave() -> None:
        window.go_to(other)
        QApplication.processEvents()

    def visit() -> None:
        window.go_to(key)
        QApplication.processEvents()

    visit()
    benchmark.pedantic(visit, setup=leave, rounds=5)  # type: ignore[no-untyped-call]
