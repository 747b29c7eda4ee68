"""Writing a calendar file from the Meets screen, by keyboard."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from icalendar import Calendar
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QMessageBox,
)
from pytestqt.qtbot import QtBot

from coachdesk.domain.meet import MeetData
from coachdesk.services.desk import Desk
from coachdesk.services.meet_editing import delete_meet, edit_meet
from coachdesk.services.meets import add_meet, upcoming_meets
from coachdesk.ui.context import Context
from coachdesk.ui.screens.meets.calendar_dialog import CalendarDialog
from coachdesk.ui.screens.meets.calendar_presenter import CalendarPresenter
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.screen import MeetsScreen

Key = Qt.Key


def meet_named(desk: Desk, name: str, on: date) -> int:
    data = MeetData(name=name, starts_on=on, rulebook="ipf_2021", time_zone="Europe/Berlin")
    return add_meet(desk, data).value


@pytest.fixture
def meet_id(desk: Desk) -> int:
    """The first of two meets ahead; a third is over."""
    first = meet_named(desk, "Harbour <b>Open</b>", date(2027, 2, 20))
    meet_named(desk, "Quellmark Cup", date(2027, 3, 20))
    meet_named(desk, "Autumn Cup", date(2026, 10, 3))
    return first


def opened(context: Context, qtbot: QtBot, meet_id: int) -> CalendarDialog:
    page = MeetsPresenter(context.desk, context.words).page(meet_id)
    presenter = CalendarPresenter(context.desk, context.words, page)
    dialog = CalendarDialog(context, presenter, context.notices.window())
    qtbot.addWidget(dialog)
    with qtbot.waitActive(dialog):
        dialog.show()
    return dialog


def type_file(dialog: CalendarDialog, file: Path | str) -> None:
    line = dialog.form.field("file").control()
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, str(file))


def press(dialog: CalendarDialog, key: Qt.Key) -> None:
    QTest.keyClick(QApplication.focusWidget() or dialog, key)


def titles_in(file: Path) -> set[str]:
    calendar = Calendar.from_ical(file.read_bytes())
    assert isinstance(calendar, Calendar)
    return {str(event["summary"]) for event in calendar.events}


def test_the_meet_shown_is_written_by_enter_and_its_file_remembered(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    dialog = opened(context, qtbot, meet_id)
    type_file(dialog, tmp_path / "team")
    press(dialog, Key.Key_Return)
    assert not dialog.isVisible()
    assert titles_in(tmp_path / "team.ics") == {"Harbour <b>Open</b>"}
    again = opened(context, qtbot, meet_id)
    assert again.form.values()["file"] == str(tmp_path / "team.ics")
    press(again, Key.Key_Return)  # its own file is replaced without a question
    assert not again.isVisible()


def test_all_meets_ahead_are_chosen_by_arrow_and_weights_only_by_space(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    dialog = opened(context, qtbot, meet_id)
    meets, weights = (dialog.form.field(key).control() for key in ("meets", "weights"))
    assert isinstance(meets, QComboBox)
    assert isinstance(weights, QCheckBox)
    assert not weights.isChecked()
    assert "private" in weights.accessibleDescription()
    assert meets.hasFocus()
    press(dialog, Key.Key_Down)
    assert meets.currentText() == "All meets ahead (2)"
    press(dialog, Key.Key_Tab)
    press(dialog, Key.Key_Space)
    assert dialog.form.values()["weights"]
    type_file(dialog, tmp_path / "all.ics")
    press(dialog, Key.Key_Return)
    assert titles_in(tmp_path / "all.ics") == {"Harbour <b>Open</b>", "Quellmark Cup"}


def test_what_cannot_be_a_file_is_said_at_its_field_and_nothing_is_lost(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    (tmp_path / "taken").write_text("", encoding="utf-8")
    dialog = opened(context, qtbot, meet_id)
    for typed, said in (
        ("", "Choose the file"),
        ("meets.ics", "whole path"),
        (tmp_path / "meets.pdf", "ends in .ics"),
        (tmp_path / "taken" / "meets.ics", "cannot be written"),
    ):
        type_file(dialog, typed)
        if not str(typed):
            press(dialog, Key.Key_Delete)
        press(dialog, Key.Key_Return)
        assert dialog.isVisible()
        assert said in dialog.form.sentence_at("file")
        assert dialog.form.values()["file"] == str(typed)
    press(dialog, Key.Key_Escape)
    assert not dialog.isVisible()


def test_somebody_elses_file_is_replaced_only_when_the_coach_says_so(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "holidays.ics"
    other.write_text("mine", encoding="utf-8")
    asked: list[str] = []
    key = Key.Key_Escape

    def answer(box: QMessageBox) -> int:
        asked.append(box.text())
        box.show()
        target = box if key is Key.Key_Escape else box.buttons()[0]
        QTest.keyClick(target, key)
        return 0

    monkeypatch.setattr(QMessageBox, "exec", answer)
    dialog = opened(context, qtbot, meet_id)
    type_file(dialog, other)
    press(dialog, Key.Key_Return)
    assert str(other) in asked[0]
    assert other.read_text(encoding="utf-8") == "mine"
    assert dialog.isVisible()
    key = Key.Key_Space
    press(dialog, Key.Key_Return)
    assert titles_in(other) == {"Harbour <b>Open</b>"}


def test_a_file_is_chosen_by_enter_on_the_button(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chosen = tmp_path / "chosen.ics"
    chosen.write_text("", encoding="utf-8")  # the system's dialog has asked about it already
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(chosen), ""))
    dialog = opened(context, qtbot, meet_id)
    dialog.choose_button.setFocus()
    press(dialog, Key.Key_Return)
    assert dialog.isVisible()
    assert dialog.form.values()["file"] == str(chosen)
    dialog.form.field("file").control().setFocus()
    press(dialog, Key.Key_Return)
    assert titles_in(chosen)


def test_a_meet_deleted_meanwhile_is_said_in_the_dialog(
    context: Context, qtbot: QtBot, desk: Desk, meet_id: int, tmp_path: Path
) -> None:
    dialog = opened(context, qtbot, meet_id)
    (meet,) = [meet for meet in upcoming_meets(desk) if meet.id == meet_id]
    delete_meet(desk, meet)
    type_file(dialog, tmp_path / "meets.ics")
    press(dialog, Key.Key_Return)
    assert "no meet" in dialog.form.sentence_at("file")
    assert not (tmp_path / "meets.ics").exists()


def test_the_screen_opens_it_by_its_keys_and_says_what_was_written(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def write(dialog: CalendarDialog) -> int:
        type_file(dialog, tmp_path / "meets.ics")
        dialog.save()
        return dialog.result()

    monkeypatch.setattr(CalendarDialog, "exec", write)
    screen = MeetsScreen(context)
    qtbot.addWidget(screen)
    screen.resize(1200, 700)
    with qtbot.waitActive(screen):
        screen.show()
    screen.show_record(meet_id)
    modifiers = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(screen.list, Key.Key_D, modifiers)
    said = context.notices.words
    assert said == f"1 date written to {tmp_path / 'meets.ics'}"


def test_it_is_said_how_much_a_later_file_calls_off(
    context: Context, qtbot: QtBot, desk: Desk, meet_id: int, tmp_path: Path
) -> None:
    presenter = opened(context, qtbot, meet_id)._presenter
    values = {"meets": "this", "weights": "", "file": str(tmp_path / "meets.ics")}
    said = []
    for deadline in (date(2027, 2, 1), None):
        (meet,) = (each for each in upcoming_meets(desk) if each.id == meet_id)
        known = {name: getattr(meet, name) for name in MeetData.__dataclass_fields__}
        edit_meet(desk, meet, MeetData(**{**known, "entry_deadline": deadline}))
        said.append(presenter.done(presenter.write(values)))
    assert said == [
        f"2 dates written to {tmp_path / 'meets.ics'}",
        f"1 date written to {tmp_path / 'meets.ics'}. 1 earlier date is called off.",
    ]
