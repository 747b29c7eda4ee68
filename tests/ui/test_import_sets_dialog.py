"""Logged sets from a file, and an athlete's whole record, from the Roster's windows."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.roster_reading import athlete, logged_sets
from coachdesk.ui.context import Context
from coachdesk.ui.imports.dialog import ImportDialog
from coachdesk.ui.imports.sets_presenter import SetsPresenter
from coachdesk.ui.screens.roster.record_file import write_record_of
from coachdesk.ui.widgets.line_report import LineReport


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    made = QWidget()
    made.resize(1200, 760)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def ana(desk: Desk) -> int:
    data = AthleteData(given_name="Ana", family_name="<b>Lee</b>", sex=Sex.FEMALE)
    return add_athlete(desk, data).value


def _close_report(reports: list[str]) -> None:
    report = QApplication.activeModalWidget()
    if isinstance(report, LineReport):
        reports.append(report.words)
        report.accept()
    else:
        QTimer.singleShot(5, lambda: _close_report(reports))


def test_a_column_is_chosen_and_the_sets_are_kept(
    context: Context, desk: Desk, ana: int, parent: QWidget, qtbot: QtBot, tmp_path: Path
) -> None:
    file = tmp_path / "log.csv"
    file.write_text(
        "date,lift,kilos,sets,reps,rpe\n2026-11-20,Squat,100,3,5,8\n2026-11-20,Curl,20,3,5,8\n",
        "utf-8",
    )
    presenter = SetsPresenter(desk, context.words, None, athlete(desk, ana))
    dialog = ImportDialog(context, presenter, file, parent)
    dialog.show()
    qtbot.waitUntil(lambda: not dialog.is_busy, timeout=20_000)
    assert dialog.summary.text() == "Choose the column that holds the weights."
    dialog.choices.parts.set_values({"weight": "2"})
    dialog.choices.edited.emit()
    qtbot.waitUntil(lambda: not dialog.is_busy, timeout=20_000)
    model = dialog.table.view.model()
    understood = str(model.index(0, 2).data())
    for words in ("Ana <b>Lee</b>", "Fri 20 Nov 2026", "Squat", "3 × 5", "100 kg", "2 in reserve"):
        assert words in understood
    assert str(model.index(1, 1).data()) == "faulty"
    dialog.leave_out.set_value("yes")
    dialog.leave_out.edited.emit()
    reports: list[str] = []
    QTimer.singleShot(5, lambda: _close_report(reports))
    QTest.keyClick(dialog, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(reports), timeout=20_000)
    assert "Curl" in reports[0]
    kept, count = logged_sets(desk, ana, None)
    assert (count, kept[0].lift, kept[0].rir) == (3, Lift.SQUAT, 2)


def test_the_whole_record_is_written_once_it_is_said_what_it_holds(
    context: Context,
    ana: int,
    parent: QWidget,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file = tmp_path / "record.zip"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    said: list[str] = []

    def answer(which: int) -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        said.append(box.text())
        box.buttons()[which].click()

    QTimer.singleShot(5, lambda: answer(_button("Leave")))
    write_record_of(context, ana, "Ana", parent)
    assert not file.exists()
    QTimer.singleShot(5, lambda: answer(_button("Choose file …")))
    write_record_of(context, ana, "Ana", parent)
    qtbot.waitUntil(file.exists, timeout=20_000)
    assert "personal matters" in said[0]
    assert "profile.csv" in zipfile.ZipFile(file).namelist()


def _button(words: str) -> int:
    box = QApplication.activeModalWidget()
    assert isinstance(box, QMessageBox)
    return [each.text().replace("&", "") for each in box.buttons()].index(words)
