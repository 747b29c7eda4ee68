"""Importing weights on screen: an ambiguous date, faulty lines, the report, a large file."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData, Reading, ReadingData
from coachdesk.domain.lifting import Sex
from coachdesk.services import weights_import
from coachdesk.services.desk import Desk
from coachdesk.services.import_file import Preview
from coachdesk.services.roster import add_athlete
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.imports.dialog import ImportDialog
from coachdesk.ui.imports.weights_presenter import WeightsPresenter
from coachdesk.ui.widgets.line_report import LineReport


def weights_of(context: Context) -> WeightsPresenter:
    return WeightsPresenter(context.desk, context.words, None)


Open = Callable[[str], ImportDialog[ReadingData]]


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    """What dialogs stand on; they go with it."""
    made = QWidget()
    made.resize(1200, 760)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def open_file(context: Context, desk: Desk, parent: QWidget, qtbot: QtBot, tmp_path: Path) -> Open:
    """Writes a file and opens the dialog on it, read."""
    for given, family in (("Mia", "Oster"), ("Łucja", "Bąk")):
        add_athlete(desk, AthleteData(given_name=given, family_name=family, sex=Sex.FEMALE))

    def make(content: str) -> ImportDialog[ReadingData]:
        file = tmp_path / "weights.csv"
        file.write_text(content, encoding="utf-8")
        made = ImportDialog(context, weights_of(context), file, parent)
        made.show()
        wait(made, qtbot)
        return made

    return make


def wait(dialog: ImportDialog[ReadingData], qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not dialog.is_busy, timeout=20_000)


def column(dialog: ImportDialog[ReadingData], at: int) -> list[str]:
    model = dialog.table.view.model()
    return [str(model.index(row, at).data()) for row in range(model.rowCount())]


def close_report(reports: list[str]) -> None:
    """Read the report that opens, and close it."""
    report = QApplication.activeModalWidget()
    if isinstance(report, LineReport):
        reports.append(report.words)
        report.accept()
    else:
        QTimer.singleShot(5, lambda: close_report(reports))


def keep(dialog: ImportDialog[ReadingData], qtbot: QtBot) -> list[str]:
    """Press Enter, and read the report."""
    reports: list[str] = []
    QTimer.singleShot(5, lambda: close_report(reports))
    QTest.keyClick(dialog, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(reports), timeout=20_000)
    return reports[0].splitlines()


def on_file(desk: Desk) -> list[date]:
    with desk.reading() as reader:
        return [each.on for each in reader.list(Reading)]


def test_an_ambiguous_date_waits_for_the_coach(open_file: Open, desk: Desk, qtbot: QtBot) -> None:
    dialog = open_file("Name;Date;Weight\nMia Oster;03/04/2026;82,5\n")
    assert column(dialog, 1) == ["not read yet"]
    assert "read in two ways" in dialog.summary.text()
    QTest.keyClick(dialog, Qt.Key.Key_Return)
    assert on_file(desk) == []
    box = dialog.choices.order.box
    offered = [box.itemText(at) for at in range(box.count())]
    assert offered[0] == "Choose how days are written"
    assert set(offered[1:]) == {
        "Day first: 03/04/2026 is Fri 3 Apr 2026",
        "Month first: 03/04/2026 is Wed 4 Mar 2026",
    }
    box.setFocus()
    while box.currentText() != "Day first: 03/04/2026 is Fri 3 Apr 2026":
        QTest.keyClick(box, Qt.Key.Key_Down)
        wait(dialog, qtbot)
    assert column(dialog, 2) == ["Mia Oster, 82.5 kg, Fri 3 Apr 2026"]
    report = keep(dialog, qtbot)
    assert report == [
        "1 reading added.",
        "",
        "Line 2: added: Mia Oster, 82.5 kg, Fri 3 Apr 2026",
    ]
    assert not dialog.isVisible()
    assert on_file(desk) == [date(2026, 4, 3)]
    undo(desk)
    assert on_file(desk) == []


def test_faulty_lines_stop_all_until_they_are_left_out(
    open_file: Open, desk: Desk, qtbot: QtBot
) -> None:
    dialog = open_file(
        "Name,Date,Weight,Note\n"
        "Mia Oster,2026-11-20,82.5,=cmd()\n"
        "<b>Bert</b>,2026-11-20,90,\n"
        "Łucja Bąk,2027-01-01,60,\n"
    )
    assert column(dialog, 1) == ["new", "faulty", "faulty"]
    assert dialog.summary.text() == "Lines: 1 new, 2 faulty"
    QTest.keyClick(dialog, Qt.Key.Key_Return)
    assert on_file(desk) == []
    dialog.shown.set_value("doubtful")
    dialog.shown.edited.emit()
    assert column(dialog, 0) == ["3", "4"]
    dialog.table.select(4)
    assert dialog.beside.text() == "Enter a day that is not in the future."
    assert dialog.leave_out.box.text() == "Leave 2 faulty lines out"
    dialog.leave_out.box.setFocus()
    QTest.keyClick(dialog.leave_out.box, Qt.Key.Key_Space)
    report = keep(dialog, qtbot)
    assert report[2:] == [
        "Line 2: added: Mia Oster, 82.5 kg, Fri 20 Nov 2026, =cmd()",
        (
            "Line 3: left out: <b>Bert</b> | 2026-11-20 | 90  Nobody here is called “<b>Bert</b>”. "
            "Give the given and the family name as on the roster."
        ),
        "Line 4: left out: Łucja Bąk | 2027-01-01 | 60  Enter a day that is not in the future.",
    ]
    assert on_file(desk) == [date(2026, 11, 20)]


def test_a_column_not_known_is_chosen(open_file: Open, qtbot: QtBot) -> None:
    dialog = open_file("Who,Date,Weight\nMia Oster,2026-11-20,82.5\n")
    assert dialog.summary.text().startswith("Choose the column that holds the athletes")
    name = dialog.choices.parts.field("name")
    name.set_value("0")
    name.edited.emit()
    wait(dialog, qtbot)
    assert column(dialog, 2) == ["Mia Oster, 82.5 kg, Fri 20 Nov 2026"]


def test_without_heads_the_first_line_counts(open_file: Open, qtbot: QtBot) -> None:
    dialog = open_file("Mia Oster,2026-11-20,82.5\nŁucja Bąk,2026-11-20,60\n")
    assert column(dialog, 0) == ["1", "2"]
    heads = dialog.choices.file.field("heads").control()
    heads.setFocus()
    QTest.keyClick(heads, Qt.Key.Key_Space)
    wait(dialog, qtbot)
    assert column(dialog, 0) == ["2"]


def test_trouble_with_the_file_is_said_in_the_dialog(open_file: Open) -> None:
    dialog = open_file('Name,Weight\n"Mia,80\n')
    assert "quotes of the row that begins on line 2" in dialog.summary.text()
    assert not dialog.choices.isEnabled()


def test_a_report_can_be_saved_as_text(
    open_file: Open, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "report.txt"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    dialog = open_file("Name,Date,Weight\nMia Oster,2026-11-20,82.5\n")
    dialog._save_report("\n".join(keep(dialog, qtbot)))
    assert "Line 2: added: Mia Oster" in file.read_text(encoding="utf-8")


def test_twenty_thousand_lines_are_read_while_the_window_is_alive(
    open_file: Open, desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """They are read in a thread of their own."""
    last = date(2026, 11, 25)
    lines = [
        f"{name},{last - timedelta(days=at // 4)},{hour}:00,82.{at % 10}"
        for at in range(0, 20_000, 4)
        for name in ("Mia Oster", "Łucja Bąk")
        for hour in (6, 7)
    ]
    threads: set[int] = set()
    read = weights_import.preview

    def preview(*given: Any) -> Preview[ReadingData]:
        threads.add(threading.get_ident())
        return read(*given)

    monkeypatch.setattr(weights_import, "preview", preview)
    dialog = open_file("\n".join(["Name,Date,Time,Weight", *lines]))
    assert threads
    assert threading.get_ident() not in threads
    assert dialog.summary.text() == "Lines: 20000 new"
    report = keep(dialog, qtbot)
    assert len(report) == 20_002
    assert len(on_file(desk)) == 20_000


def test_leaving_stops_reading_and_adds_nothing(
    context: Context, desk: Desk, parent: QWidget, qtbot: QtBot, tmp_path: Path
) -> None:
    file = tmp_path / "large.csv"
    lines = ["Name,Date,Weight", *(["Nobody,2026-11-20,82"] * 20_000)]
    file.write_text("\n".join(lines), encoding="utf-8")
    dialog = ImportDialog(context, weights_of(context), file, parent)
    dialog.show()
    dialog.reject()
    qtbot.waitUntil(lambda: not dialog.is_busy, timeout=20_000)
    assert dialog.table.rows == ()
    assert on_file(desk) == []
