"""A desk on screen: a real file, a real window, no display."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.app.words import own_names
from coachdesk.services.desk import Desk
from coachdesk.services.loading_chart import LoadingChart
from coachdesk.services.preferences import Preferences
from coachdesk.services.print_choice import PrintChoice, Printed, Progress
from coachdesk.ui.context import Context
from coachdesk.ui.dress import FAMILY, load_fonts, put_on, rules
from coachdesk.ui.main_window import MainWindow, remembered_in
from coachdesk.ui.theme import LIGHT
from coachdesk.wording.wording import Wording
from tests.services.blocks import athlete
from tests.ui.grid_hands import Grid, lay_out, opened


@dataclass
class NoPrinting:
    """Notes what was asked to be printed."""

    asked: list[tuple[int, Path, PrintChoice]] = field(default_factory=list)
    trained: list[tuple[int, tuple[int, ...], str, Path]] = field(default_factory=list)
    charts: list[tuple[LoadingChart, str, Path]] = field(default_factory=list)

    def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
        progress(1, 1)
        self.asked.append((meet_id, out, choice))
        return Printed(out, (out / "team sheet.pdf",), ())

    def training(
        self, block_id: int, weeks: Sequence[int], paper: str, out: Path
    ) -> tuple[Path, ...]:
        self.trained.append((block_id, tuple(weeks), paper, out))
        return (out / "training.pdf",)

    def loading_chart(self, chart: LoadingChart, paper: str, file: Path) -> Path:
        self.charts.append((chart, paper, file))
        return file


@dataclass
class Asked:
    """What the screens asked of the program."""

    preferences: list[Preferences] = field(default_factory=list)
    files: list[Path | None] = field(default_factory=list)


@pytest.fixture
def asked() -> Asked:
    return Asked()


@pytest.fixture
def printing() -> NoPrinting:
    return NoPrinting()


@pytest.fixture(scope="session")
def dressed(qapp: QApplication) -> QApplication:
    """The application in its fonts and colours, put on once."""
    load_fonts(paths.resources() / "fonts")
    put_on(qapp, LIGHT)
    return qapp


@pytest.fixture
def window(qtbot: QtBot, dressed: QApplication, wording: Wording, tmp_path: Path) -> MainWindow:
    """The window before a desk is open."""
    assert dressed.font().family() == FAMILY
    made = MainWindow(wording, remembered_in(tmp_path))
    made.setStyleSheet(rules(LIGHT))
    qtbot.addWidget(made)
    return made


@pytest.fixture
def context(
    window: MainWindow, desk: Desk, wording: Wording, asked: Asked, printing: NoPrinting
) -> Iterator[Context]:
    """What a screen works with, on the desk of the test."""
    yield Context(
        desk=desk,
        words=wording,
        preferences=Preferences(),
        set_preferences=asked.preferences.append,
        languages=own_names,
        open_file=asked.files.append,
        runner=window.runner,
        changed=window.changed,
        notices=window.notices,
        theme=LIGHT,
        remembered=window.remembered,
        printing=printing,
        backups=paths.backups(desk.store.file),
    )
    window.runner.wait()


@pytest.fixture
def grid(window: MainWindow, context: Context, qtbot: QtBot) -> Iterator[Grid]:
    """The window on Blocks, the focus on the first week of the squat."""
    lay_out(context.desk, athlete(context.desk))
    yield opened(window, context, qtbot)
    QGuiApplication.clipboard().clear()
