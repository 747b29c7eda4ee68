"""Rulebooks by keys: copied, edited in place, refused at the field, put back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.domain.units import kilograms
from coachdesk.services.rulebook_editing import copy_rulebook, earlier_rulebooks
from coachdesk.services.rulebook_fields import SECTIONS
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.rulebooks import edit_page
from coachdesk.ui.screens.rulebooks import screen as screen_module
from coachdesk.ui.screens.rulebooks.rows_editor import RowsEditor
from coachdesk.ui.screens.rulebooks.screen import RulebooksScreen
from coachdesk.ui.widgets.fields import TextField
from coachdesk.ui.widgets.form_dialog import FormDialog

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def screen(context: Context, qtbot: QtBot) -> RulebooksScreen:
    """The screen with a rulebook of the coach's own, the focus on the list."""
    copy_rulebook(context.desk, "ipf_2021", key="county", name="County rules")
    made = RulebooksScreen(context)
    qtbot.addWidget(made)
    made.resize(1100, 720)
    with qtbot.waitActive(made):
        made.show()
    made.table.setFocus()
    return made


def answer(words: str, monkeypatch: pytest.MonkeyPatch, *modules: object) -> list[str]:
    """Answer the next questions with yes ("yes") or no; what was asked."""
    asked: list[str] = []

    def ask(_parent: QWidget, question: str, _yes: str, _no: str, *, more: str = "") -> bool:
        asked.append(f"{question} {more}")
        return words == "yes"

    for module in modules:
        monkeypatch.setattr(module, "ask", ask)
    return asked


def in_dialog(act: Callable[[QWidget], object]) -> None:
    """Do something in the next dialog that opens."""

    def when_open() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None
        act(dialog)

    QTimer.singleShot(50, when_open)


def is_editing(screen: RulebooksScreen) -> bool:
    return screen.editing.is_open


def section(key: str) -> int:
    keys = [each.key for each in SECTIONS]
    return keys.index(key)


def open_section(screen: RulebooksScreen, key: str) -> None:
    if not screen.editing.is_open:
        screen.edit()
    screen.editing.sections.setCurrentRow(section(key))


def rows_of(screen: RulebooksScreen, page: str, rows: str) -> RowsEditor:
    open_section(screen, page)
    return screen.editing.page(page).editors[rows]


def at_cell(editor: RowsEditor, row: int, column: str) -> QAbstractItemView:
    """The table with the focus on a cell."""
    names = [each.key for each in editor.table.model.columns]
    editor.table.select(editor.rows[row].number, names.index(column))
    editor.table.setFocus()
    return editor.table.view


def line_in(view: QAbstractItemView) -> QLineEdit:
    """The line that a cell is typed into."""
    return next(line for line in view.viewport().findChildren(QLineEdit) if line.isVisible())


def type_in_cell(qtbot: QtBot, view: QAbstractItemView, typed: str) -> None:
    qtbot.keyClick(view, Qt.Key.Key_Return)
    line = line_in(view)
    line.selectAll()
    qtbot.keyClicks(line, typed)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    until_taken(qtbot, view)


def until_taken(qtbot: QtBot, view: QAbstractItemView) -> None:
    """Qt takes what was typed into a cell a moment after Enter."""
    qtbot.waitUntil(lambda: view.state() is not QAbstractItemView.State.EditingState)


def test_the_list_moves_by_arrows_and_the_page_follows(
    screen: RulebooksScreen, qtbot: QtBot
) -> None:
    assert screen.name.text() == "County rules"
    assert screen.edit_button.isEnabled()
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Down)
    assert screen.name.text().startswith("IPF")
    assert not screen.edit_button.isEnabled()
    assert not screen.delete_button.isEnabled()
    assert "47, 52, 57, 63, 69, 76, 84, 84+" in screen.reading.toPlainText()


def test_enter_on_a_shipped_rulebook_leads_to_its_page(
    screen: RulebooksScreen, qtbot: QtBot
) -> None:
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Down)
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Return)
    assert screen.reading.hasFocus()
    assert not is_editing(screen)


def test_a_rulebook_is_copied_under_a_name_and_the_copy_is_edited(
    screen: RulebooksScreen, qtbot: QtBot
) -> None:
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Down)

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        name = dialog.form.field("name")
        assert isinstance(name, TextField)
        name.line.selectAll()
        qtbot.keyClicks(name.line, "Village rules")
        dialog.form.field("key").set_value("Village")
        dialog.save()
        assert "small letters" in dialog.form.sentence_at("key")
        assert dialog.form.field("name").value() == "Village rules"
        dialog.form.field("key").set_value("village")
        qtbot.keyClick(dialog, Qt.Key.Key_Return)

    in_dialog(fill_in)
    qtbot.keyClick(screen, Qt.Key.Key_N, CTRL)
    assert screen.context.desk.rulebooks.get("village").name == "Village rules"
    assert is_editing(screen)
    assert screen.editing.title.text() == "Editing village.toml"


def test_a_field_is_changed_and_saved_by_keys(screen: RulebooksScreen, qtbot: QtBot) -> None:
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Return)
    name = screen.editing.page("imprint").form.field("name")
    assert isinstance(name, TextField)
    assert name.line.hasFocus()
    assert not screen.has_unsaved()
    name.line.selectAll()
    qtbot.keyClicks(name.line, "County rules 2027")
    assert screen.has_unsaved()
    qtbot.keyClick(name.line, Qt.Key.Key_S, CTRL)
    assert not is_editing(screen)
    assert not screen.has_unsaved()
    assert screen.context.desk.rulebooks.get("county").name == "County rules 2027"
    assert screen.name.text() == "County rules 2027"
    assert screen.table.view.hasFocus()
    assert len(earlier_rulebooks(screen.context.desk)) == 1


def test_what_cannot_be_taken_is_said_at_its_field_and_stays_typed(
    screen: RulebooksScreen,
) -> None:
    open_section(screen, "attempts")
    form = screen.editing.page("attempts").form
    form.field("record_step").set_value("5")
    open_section(screen, "imprint")
    assert not screen.save_unsaved()
    assert screen.editing.sections.currentRow() == section("attempts")
    sentence = form.sentence_at("record_step")
    assert sentence.startswith("This should be at most the smallest step, 2.5 (record_step, line ")
    assert form.field("record_step").value() == "5"
    assert form.field("record_step").control().hasFocus()
    assert screen.editing.sentence.text() == "Not saved yet: see “Attempts”."
    assert screen.context.desk.rulebooks.get("county").record_step == kilograms("0.5")


def test_a_cell_is_edited_in_place(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "bar", "discs")
    type_in_cell(qtbot, at_cell(editor, 3, "weight"), "7,5")
    type_in_cell(qtbot, at_cell(editor, 3, "colour"), "grey")
    assert screen.has_unsaved()
    assert screen.save_unsaved()
    disc = screen.context.desk.rulebooks.get("county").discs[3]
    assert (disc.weight, disc.colour) == (kilograms("7.5"), "grey")


def test_tab_goes_on_to_the_next_cell(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "bar", "discs")
    view = at_cell(editor, 3, "weight")
    qtbot.keyClick(view, Qt.Key.Key_Return)
    line = line_in(view)
    line.selectAll()
    qtbot.keyClicks(line, "7.5")
    qtbot.keyClick(line, Qt.Key.Key_Tab)
    following = line_in(view)
    following.selectAll()
    qtbot.keyClicks(following, "grey")
    qtbot.keyClick(following, Qt.Key.Key_Return)
    until_taken(qtbot, view)
    assert editor.rows[3].cells["weight"] == "7.5"
    assert editor.rows[3].cells["colour"] == "grey"


def test_a_cell_keeps_what_it_cannot_take_and_nothing_is_saved(
    screen: RulebooksScreen, qtbot: QtBot
) -> None:
    editor = rows_of(screen, "bar", "discs")
    type_in_cell(qtbot, at_cell(editor, 3, "weight"), "heavy")
    assert editor.table.sentence == "Type a number, with a point or a comma."
    assert not screen.save_unsaved()
    assert is_editing(screen)
    type_in_cell(qtbot, at_cell(editor, 3, "weight"), "7.5")
    assert editor.table.sentence == ""
    assert screen.save_unsaved()


def test_a_fault_in_a_cell_leads_to_that_cell(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "divisions", "divisions")
    type_in_cell(qtbot, at_cell(editor, 2, "to_age"), "18")
    open_section(screen, "kit")
    assert not screen.save_unsaved()
    assert screen.editing.sections.currentRow() == section("divisions")
    assert "a whole number from 19 to 120 (divisions.to_age, line " in editor.table.sentence
    index = editor.table.view.currentIndex()
    assert (index.row(), editor.table.model.columns[index.column()].key) == (2, "to_age")


def test_a_choice_in_a_cell_is_made_from_a_list(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "divisions", "divisions")
    view = at_cell(editor, 0, "age_rule")
    qtbot.keyClick(view, Qt.Key.Key_Return)
    box = view.viewport().findChild(QComboBox)
    assert box is not None
    assert [box.itemText(at) for at in range(box.count())] == ["by calendar year", "on the day"]
    qtbot.keyClick(box, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: editor.rows[0].cells["age_rule"] == "on_the_day")


def test_several_are_ticked_in_a_list_over_the_cell(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "classes", "classes")
    view = at_cell(editor, 0, "reserved_for")
    qtbot.keyClick(view, Qt.Key.Key_Return)
    ticks = view.viewport().findChild(QListWidget)
    assert ticks is not None
    assert ticks.item(0).text() == "Open"
    qtbot.keyClick(ticks, Qt.Key.Key_Space)
    qtbot.keyClick(ticks, Qt.Key.Key_Return)
    assert editor.rows[0].cells["reserved_for"] == "open, sub_junior, junior"
    assert screen.save_unsaved()
    women = screen.context.desk.rulebooks.get("county").class_sets[0]
    assert sorted(women.classes[0].divisions or ()) == ["junior", "open", "sub_junior"]


def test_rows_are_added_and_taken_out_by_keys(screen: RulebooksScreen, qtbot: QtBot) -> None:
    editor = rows_of(screen, "groups", "groups.small")
    view = at_cell(editor, 0, "up_to")
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert [row.cells["up_to"] for row in editor.rows] == ["8", "7", "6", "5"]
    qtbot.keyClick(editor.add_button, Qt.Key.Key_Space)
    qtbot.keyClicks(line_in(view), "4")
    qtbot.keyClick(line_in(view), Qt.Key.Key_Return)
    until_taken(qtbot, view)
    type_in_cell(qtbot, at_cell(editor, 4, "extra_minutes"), "6")
    assert screen.save_unsaved()
    small = screen.context.desk.rulebooks.get("county").groups.small
    assert [(each.up_to, each.extra_minutes) for each in small] == [
        (4, 6), (5, 5), (6, 4), (7, 3), (8, 2),
    ]  # fmt: skip


def test_an_order_is_changed_by_keys(screen: RulebooksScreen, qtbot: QtBot) -> None:
    open_section(screen, "scoring")
    field = screen.editing.page("scoring").form.field("ties")
    control = field.control()
    assert isinstance(control, QListWidget)
    control.setFocus()
    qtbot.keyClick(control, Qt.Key.Key_Down, CTRL)
    assert field.value() == "first_to_total\nlighter_bodyweight"
    assert screen.save_unsaved()
    ties = screen.context.desk.rulebooks.get("county").ties
    assert list(ties) == ["first_to_total", "lighter_bodyweight"]


def test_looking_through_all_sections_changes_nothing(screen: RulebooksScreen) -> None:
    before = screen.presenter.draft("county")
    for each in SECTIONS:
        open_section(screen, each.key)
    assert not screen.has_unsaved()
    assert screen.save_unsaved()
    assert screen.presenter.draft("county").source == before.source
    assert earlier_rulebooks(screen.context.desk) == ()


def test_escape_leaves_and_asks_where_something_was_changed(
    screen: RulebooksScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = answer("no", monkeypatch, edit_page)
    open_section(screen, "bar")
    bar = screen.editing.page("bar").form.field("bar")
    qtbot.keyClick(bar.control(), Qt.Key.Key_Escape)
    assert not is_editing(screen)
    assert asked == []
    open_section(screen, "bar")
    bar = screen.editing.page("bar").form.field("bar")
    bar.set_value("25")
    qtbot.keyClick(bar.control(), Qt.Key.Key_Escape)
    assert is_editing(screen)
    assert len(asked) == 1
    answer("yes", monkeypatch, edit_page)
    qtbot.keyClick(bar.control(), Qt.Key.Key_Escape)
    assert not is_editing(screen)
    assert screen.context.desk.rulebooks.get("county").bar == kilograms(20)


def test_delete_asks_says_what_becomes_of_the_file_and_can_be_taken_back(
    screen: RulebooksScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = answer("yes", monkeypatch, screen_module)
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Delete)
    assert "Undo does not bring it back" in asked[0]
    assert "county" not in screen.context.desk.rulebooks.books
    qtbot.waitUntil(lambda: all(row.key != "county" for row in screen.table.rows))
    in_dialog(lambda dialog: qtbot.keyClick(dialog.findChild(QAbstractItemView), Qt.Key.Key_Return))
    qtbot.keyClick(screen.earlier_button, Qt.Key.Key_Space)
    assert screen.context.desk.rulebooks.get("county").name == "County rules"
    assert screen.name.text() == "County rules"


def test_delete_on_a_shipped_rulebook_does_nothing(
    screen: RulebooksScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = answer("yes", monkeypatch, screen_module)
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Down)
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Delete)
    assert asked == []
    assert "ipf_2021" in screen.context.desk.rulebooks.books


def test_a_faulty_file_says_why_and_is_mended_in_the_form(screen: RulebooksScreen) -> None:
    desk = screen.context.desk
    file = desk.rulebooks.own_folder / "county.toml"
    source = file.read_text(encoding="utf-8")
    file.write_text(source.replace('unit = "kg"', 'unit = "stone"'), encoding="utf-8")
    desk.rulebooks.read_again()
    screen.reload()
    assert screen.fault.text().startswith("county.toml, line ")
    assert "unit should be one of these words in quotes: kg, lb" in screen.fault.text()
    assert not screen.copy_button.isEnabled()
    screen.edit()
    unit = screen.editing.page("imprint").form.field("unit")
    assert unit.value() == "stone"
    unit.set_value("kg")
    assert screen.save_unsaved()
    assert desk.rulebooks.get("county").bar == kilograms(20)
    assert not screen.fault.isVisible()


def test_everything_that_takes_keys_has_a_name(screen: RulebooksScreen) -> None:
    for each in SECTIONS:
        open_section(screen, each.key)
    kinds = (QLineEdit, QPlainTextEdit, QComboBox, QAbstractItemView)
    nameless = [
        widget
        for widget in screen.findChildren(QWidget)
        if isinstance(widget, kinds)
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.isVisibleTo(screen)
        and not widget.accessibleName()
    ]
    assert nameless == []


def test_the_list_has_the_room_beside_the_rulebook(
    window: MainWindow, context: Context, qtbot: QtBot
) -> None:
    """Names that wrap go by that room, and not by the width that their head needs."""
    window.resize(1280, 800)
    window.work_with(context)
    with qtbot.waitExposed(window):
        window.show()
    screen = window.screen_at("rulebooks")
    assert isinstance(screen, RulebooksScreen)
    screen.read_ahead()
    window.go_to("rulebooks")
    qtbot.wait(50)
    view = screen.table.view
    assert view.columnWidth(0) == view.viewport().width()
    two_lines = 2 * view.fontMetrics().lineSpacing() + 20
    assert all(view.rowHeight(row) <= two_lines for row in range(len(screen.table.rows)))
