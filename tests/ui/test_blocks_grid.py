"""A block's grid worked by keys: typed, pasted, filled, emptied, taken back, logged, kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from coachdesk.app.wiring import open_desk
from coachdesk.domain.blocks.notation import read_prescriptions
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import LoggedSet, Purpose
from coachdesk.domain.units import Unit, kilograms
from coachdesk.services.block_keeping import LaidOut, keep_blocks
from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from tests.conftest import NOW
from tests.services.blocks import MONDAY, athlete
from tests.ui.test_blocks_way import Keyboard

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


@pytest.fixture
def grid(window: MainWindow, context: Context, qtbot: QtBot) -> Iterator[Grid]:
    """The window on Blocks, the focus on the first week of the squat."""
    lay_out(context.desk, athlete(context.desk))
    yield opened(window, context, qtbot)
    QGuiApplication.clipboard().clear()


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


def test_what_is_typed_is_kept_by_enter_which_goes_down(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.type("3x4 @7")
    assert grid.at == (2, 0)
    assert grid.shown[1][0] == "3x4 RPE 7"


@pytest.mark.parametrize(
    ("key", "held", "lands"),
    [
        (Key.Key_Return, SHIFT, (0, 1)),
        (Key.Key_Tab, Qt.KeyboardModifier.NoModifier, (1, 2)),
        (Key.Key_Backtab, SHIFT, (1, 0)),
    ],
)
def test_every_way_on_keeps_what_is_typed(
    grid: Grid, key: Key, held: Qt.KeyboardModifier, lands: tuple[int, int]
) -> None:
    grid.stand(1, 1)
    grid.keys.text("3x4 @7")
    grid.keys.press(key, held=held)
    grid.settle()
    assert grid.at == lands
    assert grid.shown[1][1] == "3x4 RPE 7"


def test_the_arrows_go_from_cell_to_cell_and_tab_runs_on_into_the_next_line(grid: Grid) -> None:
    grid.stand(0, 3)
    grid.keys.press(Key.Key_Tab)
    assert grid.at == (1, 0)
    grid.keys.press(Key.Key_Down, Key.Key_Right, Key.Key_Up)
    assert grid.at == (1, 1)


def test_letters_that_follow_enter_at_once_are_not_lost(grid: Grid) -> None:
    """The next cell may be under way before the screen has read anew."""
    grid.stand(1, 0)
    grid.keys.text("3x4 @7")
    grid.keys.press(Key.Key_Return)
    grid.keys.text("3x3")
    grid.settle()
    grid.keys.text(" 80%")
    grid.keys.press(Key.Key_Return)
    grid.settle()
    assert [grid.shown[1][0], grid.shown[2][0]] == ["3x4 RPE 7", "3x3 80%"]


def test_f2_changes_what_stands_there_and_escape_leaves_it(grid: Grid) -> None:
    grid.keys.press(Key.Key_F2, Key.Key_End)
    grid.keys.text(" RPE 8")
    grid.keys.press(Key.Key_Return)
    grid.settle()
    assert grid.shown[0][0] == "≠ 5x5 70% RPE 8"
    grid.stand(0, 1)
    grid.keys.text("9x9")
    grid.keys.press(Key.Key_Escape)
    assert grid.shown[0][1] == "5x4 75%"


def test_a_mistake_is_explained_and_what_was_typed_stays(grid: Grid) -> None:
    grid.type("5xfive")
    assert grid.at == (0, 0)
    assert grid.sentence.startswith("“5xfive” does not begin with sets x repetitions.")
    assert grid.shown[0][0] == "! 5xfive"
    grid.keys.press(Key.Key_Down)
    assert grid.sentence == ""
    grid.keys.press(Key.Key_Up)
    assert "5xfive" in grid.sentence
    grid.keys.press(Key.Key_F2)
    line = QApplication.focusWidget()
    assert isinstance(line, QLineEdit)
    assert line.text() == "5xfive"
    line.selectAll()
    grid.type("5x5")
    assert grid.shown[0][0] == "≠ 5x5"
    assert grid.sentence == ""


def test_escape_lets_go_of_a_mistake(grid: Grid) -> None:
    grid.type("5xfive")
    grid.stand(0, 0)
    grid.keys.press(Key.Key_Escape)
    assert grid.shown[0][0] == "5x5 70%"
    assert grid.sentence == ""
    assert not grid.screen.has_unsaved()


TABLE = "4x4 70%\t4x3 75%\t4x2 80%\n3x8\t\t3x6"


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("ending", [False, True])
def test_a_spreadsheet_is_pasted_from_the_cell_on(grid: Grid, line_end: str, ending: bool) -> None:
    grid.stand(1, 1)
    grid.type("9x9")
    grid.stand(2, 2)
    grid.type("9x9")
    grid.stand(1, 1)
    grid.paste(TABLE.replace("\n", line_end) + line_end * ending)
    assert grid.shown[1] == ["", "4x4 70%", "4x3 75%", "4x2 80%"]
    assert grid.shown[2] == ["", "3x8", "", "3x6"]
    assert grid.shown[0] == FIRST
    grid.undo()
    assert grid.shown[1:] == [["", "9x9", "", ""], ["", "", "9x9", ""]]
    grid.redo()
    assert grid.shown[2] == ["", "3x8", "", "3x6"]


def test_a_cell_of_several_lines_comes_in_as_several_sets(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.paste('"1x1 90%\r\n3x3 80%"\t5x5\r\n')
    assert grid.shown[1] == ["1x1 90%\n3x3 80%", "5x5", "", ""]


def test_what_is_too_large_is_refused_in_a_plain_sentence(grid: Grid) -> None:
    grid.stand(2, 2)
    grid.paste(TABLE)
    assert grid.sentence == "2 rows and 3 columns do not fit in from here. Nothing was pasted."
    assert grid.shown == [FIRST, EMPTY, EMPTY]


def test_one_mistake_keeps_all_of_a_paste_from_being_kept(grid: Grid) -> None:
    """All of it waits, the mistake is named, and mending it keeps the whole."""
    grid.stand(1, 0)
    grid.paste("4x4 70%\t4x3 7O%\n3x8\t3x7")
    assert "7O%" in grid.sentence
    assert grid.shown[1:] == [["! 4x4 70%", "! 4x3 7O%", "", ""], ["! 3x8", "! 3x7", "", ""]]
    grid.stand(1, 1)
    grid.type("4x3 70%")
    assert grid.shown[1:] == [["4x4 70%", "4x3 70%", "", ""], ["3x8", "3x7", "", ""]]
    grid.undo()
    assert grid.shown[1:] == [EMPTY, EMPTY]


def test_what_is_copied_out_and_pasted_elsewhere_is_the_same(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.paste("1x1 90%; 3x3 80%\t\n\t4x6 @8")
    grid.stand(1, 0)
    grid.choose(1, 1)
    grid.keys.control(Key.Key_C)
    assert QGuiApplication.clipboard().text().splitlines() == [
        "1x1 90%; 3x3 80%\t",
        "\t4x6 RPE 8",
    ]
    grid.stand(1, 2)
    grid.paste(QGuiApplication.clipboard().text())
    assert [row[2:] for row in grid.shown[1:]] == [row[:2] for row in grid.shown[1:]]


def test_empty_cells_of_one_column_are_copied_as_empty(grid: Grid) -> None:
    """Neither a gap in the middle nor one at the end lets what stood there stay."""
    for row in range(3):
        grid.stand(row, 3)
        grid.type("9x9")
    grid.stand(0, 2)
    grid.type("6x6")
    grid.stand(0, 2)
    grid.choose(2, 0)
    grid.keys.control(Key.Key_C)
    grid.stand(0, 3)
    grid.keys.control(Key.Key_V)
    grid.settle()
    assert [row[3] for row in grid.shown] == ["6x6", "", ""]


def test_an_empty_cell_is_copied_as_empty(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.keys.control(Key.Key_C)
    grid.stand(0, 0)
    grid.keys.control(Key.Key_V)
    grid.settle()
    assert grid.shown[0][0] == "≠"


def test_one_cell_is_pasted_into_all_that_are_chosen(grid: Grid) -> None:
    grid.stand(1, 1)
    grid.choose(1, 2)
    grid.paste("3x5 100\r\n")
    assert grid.shown[1:] == [["", "3x5 100", "3x5 100", "3x5 100"]] * 2


def test_shift_and_the_arrows_choose_what_is_filled_to_the_right(grid: Grid) -> None:
    grid.stand(0, 1)
    grid.choose(1, 2)
    grid.keys.control(Key.Key_R)
    grid.settle()
    assert grid.shown[0] == ["5x5 70%", "5x4 75%", "5x4 75%", "5x4 75%"]
    grid.undo()
    assert grid.shown == [FIRST, EMPTY, EMPTY]
    grid.redo()
    assert grid.shown[0][2:] == ["5x4 75%", "5x4 75%"]


def test_fill_down_repeats_the_first_line_chosen(grid: Grid) -> None:
    grid.choose(2, 1)
    grid.keys.control(Key.Key_D)
    grid.settle()
    assert grid.shown == [FIRST, FIRST, FIRST]
    grid.undo()
    assert grid.shown == [FIRST, EMPTY, EMPTY]


def test_one_cell_is_filled_from_the_one_before_or_above(grid: Grid) -> None:
    grid.stand(0, 2)
    grid.keys.control(Key.Key_R)
    grid.settle()
    assert grid.shown[0][2] == "5x4 75%"
    grid.stand(1, 2)
    grid.keys.control(Key.Key_D)
    grid.settle()
    assert grid.shown[1][2] == "5x4 75%"


@pytest.mark.parametrize("key", [Key.Key_R, Key.Key_D])
def test_at_the_edge_there_is_nothing_to_fill_from(grid: Grid, key: Key) -> None:
    grid.keys.control(key)
    grid.settle()
    assert grid.shown == [FIRST, EMPTY, EMPTY]


def test_delete_empties_and_a_generated_cell_says_what_was_laid_out(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.type("3x8")
    grid.stand(0, 0)
    grid.choose(1, 1)
    grid.keys.press(Key.Key_Delete)
    grid.settle()
    assert grid.shown == [["≠", "≠", "", ""], EMPTY, EMPTY]
    grid.stand(0, 0)
    assert "Laid out as 5x5 70%, changed since." in grid.in_full
    grid.undo()
    assert grid.shown[:2] == [FIRST, ["3x8", "", "", ""]]
    grid.redo()
    assert grid.shown[0] == ["≠", "≠", "", ""]


def test_a_changed_cell_is_marked_until_it_is_as_laid_out(grid: Grid) -> None:
    grid.type("5x5 72.5%")
    assert grid.shown[0][0] == "≠ 5x5 72.5%"
    grid.undo()
    assert grid.shown[0][0] == "5x5 70%"
    grid.redo()
    grid.stand(0, 0)
    grid.type("5 x 5 @70 %")
    assert grid.shown[0][0] == "5x5 70%"


def test_a_missed_day_is_marked_in_all_its_lines(grid: Grid) -> None:
    grid.stand(1, 0)
    grid.keys.in_dialog(
        Key.Key_M, lambda: grid.keys.press(Key.Key_Space, Key.Key_Return), CONTROL_SHIFT
    )
    grid.settle()
    assert grid.shown == [FIRST, ["✗", "", "", ""], ["✗", "", "", ""]]
    assert "This day was missed." in grid.in_full
    grid.undo()
    assert grid.shown == [FIRST, EMPTY, EMPTY]


def test_a_week_is_copied_into_the_next(grid: Grid) -> None:
    grid.stand(2, 1)
    grid.type("4x6 RPE 8")
    grid.stand(0, 1)
    grid.keys.in_dialog(Key.Key_C, lambda: grid.keys.press(Key.Key_Return), CONTROL_SHIFT)
    grid.settle()
    assert [row[2] for row in grid.shown] == ["5x4 75%", "", "4x6 RPE 8"]
    grid.undo()
    assert [row[2] for row in grid.shown] == ["", "", ""]


def log(grid: Grid) -> None:
    grid.keys.in_dialog(Key.Key_L, lambda: grid.keys.press(Key.Key_Return))
    grid.settle()


def test_sets_that_are_logged_show_as_done(grid: Grid) -> None:
    log(grid)
    assert grid.shown[0][0] == "✓ 5x5 70%"
    assert "5 of 5 done" in grid.in_full
    with grid.desk.reading() as reader:
        logged = reader.list(LoggedSet)
    assert [(each.weight, each.reps, each.on) for each in logged] == [
        (kilograms(105), 5, MONDAY)
    ] * 5
    grid.undo()
    assert grid.shown[0][0] == "5x5 70%"


def test_a_note_is_typed_shown_below_and_copied_with_the_week(grid: Grid) -> None:
    grid.stand(1, 1)
    grid.type("5x3 80% (pause 2 s)")
    grid.stand(1, 1)
    assert grid.shown[1] == ["", "5x3 80% *", "", ""]
    assert "Note: pause 2 s" in grid.in_full
    grid.keys.in_dialog(Key.Key_C, lambda: grid.keys.press(Key.Key_Return), CONTROL_SHIFT)
    grid.settle()
    assert grid.shown[1] == ["", "5x3 80% *", "5x3 80% *", ""]
    grid.stand(1, 2)
    assert "Note: pause 2 s" in grid.in_full
    grid.keys.press(Key.Key_F2)
    line = QApplication.focusWidget()
    assert isinstance(line, QLineEdit)
    assert line.text() == "5x3 80% (pause 2 s)"
    grid.keys.press(Key.Key_Escape)


def test_the_note_of_an_exercise_stands_beside_its_name(grid: Grid) -> None:
    def act() -> None:
        grid.keys.press(*[Key.Key_Tab] * 4)
        grid.keys.text("touch the chest")
        grid.keys.press(Key.Key_Return)

    grid.stand(2, 0)
    grid.keys.in_dialog(Key.Key_E, act, CONTROL_SHIFT)
    grid.settle()
    assert "(touch the chest):" in grid.in_full


def test_all_of_it_is_there_after_closing_and_opening_the_file(
    grid: Grid, window: MainWindow, context: Context, qtbot: QtBot
) -> None:
    log(grid)
    grid.stand(0, 1)
    grid.keys.press(Key.Key_Delete)
    grid.settle()
    grid.stand(1, 1)
    grid.paste("4x4 70%\t4x3 75% (belt)\r\n")
    grid.stand(1, 0)
    grid.keys.in_dialog(
        Key.Key_M, lambda: grid.keys.press(Key.Key_Space, Key.Key_Return), CONTROL_SHIFT
    )
    grid.settle()
    before = grid.shown
    assert before == [
        ["✓ 5x5 70%", "≠", "", ""],
        ["✗", "4x4 70%", "4x3 75% *", ""],
        ["✗", "", "", ""],
    ]
    file = context.desk.store.file
    context.desk.store.close()
    desk = open_desk(file, lambda: NOW)
    again = opened(window, replace(context, desk=desk), qtbot)
    assert again.shown == before
    again.stand(1, 2)
    assert "Note: belt" in again.in_full
    again.undo()
    assert again.shown[1][0] == ""
    desk.store.close()


def test_training_maxima_changed_together_are_taken_back_together(grid: Grid) -> None:
    def act() -> None:
        for typed in ("160", "95"):
            grid.keys.press(Key.Key_A, held=Qt.KeyboardModifier.ControlModifier)
            grid.keys.text(typed)
            grid.keys.press(Key.Key_Tab)
        grid.keys.text("200")
        grid.keys.press(Key.Key_Return)

    def maxima() -> dict[Lift, str]:
        page = grid.screen.weeks.block
        assert page is not None
        return {lift: str(each.weight.number) for lift, each in page.page.maxima.items()}

    grid.keys.in_dialog(Key.Key_B, act)
    grid.settle()
    assert maxima() == {Lift.SQUAT: "160", Lift.BENCH: "95", Lift.DEADLIFT: "200"}
    # 0.7 of 160 is 112, of which the discs make 110
    assert "110 kg on the bar" in grid.in_full
    named = [each.text() for each in grid.keys.window.findChildren(QAction)]
    assert [each for each in named if each.startswith("Undo")] == [
        "Undo: Change training maxima: Squat, Bench press, Deadlift"
    ]
    grid.undo()
    assert maxima() == {Lift.SQUAT: "150", Lift.BENCH: "90"}
