"""What a block's grid shows and keeps: marks, notes, days, logged sets, a file opened again."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from coachdesk.app.wiring import open_desk
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.units import kilograms
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from tests.conftest import NOW
from tests.services.blocks import MONDAY
from tests.ui.grid_hands import CONTROL_SHIFT, EMPTY, FIRST, Grid, Key, opened


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
