"""A block's grid worked by keys: typed, copied, pasted, filled, and taken back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QLineEdit

from tests.ui.grid_hands import EMPTY, FIRST, SHIFT, Grid, Key


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


def test_tab_runs_on_into_the_next_line_with_what_is_typed(grid: Grid) -> None:
    grid.stand(0, 3)
    grid.keys.text("3x4 @7")
    grid.keys.press(Key.Key_Tab)
    grid.settle()
    assert grid.at == (1, 0)


def test_the_arrows_go_from_cell_to_cell_and_tab_leaves_the_grid(grid: Grid) -> None:
    grid.stand(0, 0)
    grid.keys.press(Key.Key_Down, Key.Key_Right, Key.Key_Up)
    assert grid.at == (0, 1)
    grid.keys.press(Key.Key_Tab)
    assert grid.at == (0, 1)
    assert QApplication.focusWidget() is not grid.screen.weeks.grid


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
