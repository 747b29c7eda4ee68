"""The hands of a coach on a block's grid, for the tests that work it by keys."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.domain.blocks.notation import read_prescriptions
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Unit, kilograms
from coachdesk.services.block_keeping import LaidOut, keep_blocks
from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from tests.services.blocks import MONDAY
from tests.ui.keyboard import Keyboard

Key = Qt.Key
SHIFT = Qt.KeyboardModifier.ShiftModifier
CONTROL_SHIFT = Qt.KeyboardModifier.ControlModifier | SHIFT
EMPTY = ["", "", "", ""]
FIRST = ["5x5 70%", "5x4 75%", "", ""]
"""What was laid out of the squat."""


def lay_out(desk: Desk, athlete_id: int) -> int:
    """A block as the generator keeps it: four weeks, the squat on day 1, two lifts on day 3."""
    written = {at: read_prescriptions(sets, Unit.KG) for at, sets in enumerate(FIRST[:2], start=1)}
    planned = PlannedBlock(
        name="Base",
        purpose=Purpose.VOLUME,
        starts_on=MONDAY,
        weeks=4,
        exercises=(
            PlannedExercise(1, Lift.SQUAT, written),
            PlannedExercise(3, Lift.SQUAT, {}, "pause", 0.9),
            PlannedExercise(3, Lift.BENCH, {}),
        ),
    )
    maxima = {Lift.SQUAT: kilograms(150), Lift.BENCH: kilograms(90)}
    block = LaidOut(athlete_id=athlete_id, block=planned, maxima=maxima)
    (block_id,) = keep_blocks(desk, [block], lambda words: words.code).value
    return block_id


@dataclass
class Grid:
    """The grid in its window, and the hands of a coach on the keys."""

    keys: Keyboard
    desk: Desk

    @property
    def screen(self) -> BlocksScreen:
        screen = self.keys.window.screen_at("blocks")
        assert isinstance(screen, BlocksScreen)
        return screen

    @property
    def at(self) -> tuple[int, int]:
        """The row and the column the grid stands on."""
        index = self.screen.weeks.grid.currentIndex()
        return index.row(), index.column()

    @property
    def shown(self) -> list[list[str]]:
        """What stands in the grid on screen."""
        model = self.screen.weeks.model
        columns = range(model.columnCount())
        return [
            [str(model.data(model.index(row, column))) for column in columns]
            for row in range(model.rowCount())
        ]

    @property
    def sentence(self) -> str:
        """What is said below the grid of a cell that cannot be taken."""
        label = self.screen.weeks.sentence
        return label.text() if label.isVisible() else ""

    @property
    def in_full(self) -> str:
        return self.screen.weeks.in_full.text()

    def stand(self, row: int, column: int) -> None:
        """Go to a cell by the arrows."""
        at_row, at_column = self.at
        down, across = row - at_row, column - at_column
        self.keys.press(*[Key.Key_Down if down > 0 else Key.Key_Up] * abs(down))
        self.keys.press(*[Key.Key_Right if across > 0 else Key.Key_Left] * abs(across))
        assert self.at == (row, column)

    def choose(self, down: int, across: int) -> None:
        """Choose so many further cells with Shift and the arrows."""
        self.keys.press(*[Key.Key_Right] * across, *[Key.Key_Down] * down, held=SHIFT)

    def type(self, words: str) -> None:
        self.keys.text(words)
        self.keys.press(Key.Key_Return)
        self.settle()

    def paste(self, words: str) -> None:
        QGuiApplication.clipboard().setText(words)
        self.keys.control(Key.Key_V)
        self.settle()

    def undo(self) -> None:
        self.keys.control(Key.Key_Z)
        self.settle()

    def redo(self) -> None:
        self.keys.press(Key.Key_Z, held=CONTROL_SHIFT)
        self.settle()

    @staticmethod
    def settle() -> None:
        """What waits for the next turn of the window, as reading anew does."""
        for _ in range(3):
            QApplication.processEvents()


def opened(window: MainWindow, context: Context, qtbot: QtBot) -> Grid:
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    window.work_with(context)
    grid = Grid(Keyboard(window, qtbot), context.desk)
    grid.keys.control(Key.Key_3)
    grid.keys.press(Key.Key_1, held=Qt.KeyboardModifier.AltModifier)
    assert QApplication.focusWidget() is grid.screen.weeks.grid
    grid.stand(0, 0)
    return grid
