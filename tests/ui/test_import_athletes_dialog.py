"""Athletes from a file on screen: what is understood, a namesake, a faulty line."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Sex
from coachdesk.services.desk import Desk
from coachdesk.services.on_file import on_file
from coachdesk.services.roster import add_athlete
from coachdesk.ui.context import Context
from coachdesk.ui.imports.athletes_presenter import AthletesPresenter
from coachdesk.ui.imports.dialog import ImportDialog
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.widgets.line_report import LineReport

CONTENT = (
    "Name,Sex,Born,Bodyweight,Equipment\n"
    "Ana <b>Lee</b>,f,2001-03-14,63.4,raw\n"
    "Bo Lind,m,1990-01-01,,\n"
    "Bo Lind,m,1991-01-01,,\n"
    "Cid,neither,,,\n"
)
"""Bo Lind, born in 1990, is on file."""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / "club.csv"
    made.write_text(CONTENT, "utf-8")
    return made


@pytest.fixture
def bo(desk: Desk) -> None:
    add_athlete(
        desk,
        AthleteData(given_name="Bo", family_name="Lind", sex=Sex.MALE, birth_date=date(1990, 1, 1)),
    )


@pytest.mark.usefixtures("bo")
def test_every_line_is_said_in_words(context: Context, desk: Desk, file: Path) -> None:
    presenter = AthletesPresenter(desk, context.words, None)
    opened = presenter.open(file, lambda _done, _of: None)
    assert presenter.summary(opened) == (
        "Lines: 1 new, 1 new but odd, 1 on file already, skipped, 1 faulty"
    )
    assert presenter.report(opened) == (
        (
            "Line 2: added: <b>Lee</b>, Ana, Women, born Wed 14 Mar 2001, kg, Classic, "
            "63.4 kg on Wed 25 Nov 2026"
        ),
        (
            "Line 3: skipped: Lind, Bo, Men, born Mon 1 Jan 1990, kg, Classic  Bo Lind, of the "
            "same birth date, is on the roster already. Nothing of this line is taken."
        ),
        (
            "Line 4: added, odd: Lind, Bo, Men, born Tue 1 Jan 1991, kg, Classic  Bo Lind is on "
            "the roster with another birth date, or one of the two is not known. Is this "
            "somebody else?"
        ),
        "Line 5: left out: Cid | neither  “neither” says neither women nor men.",
    )


@pytest.mark.usefixtures("bo")
def test_the_roster_imports_by_its_keys_once_the_faulty_line_is_left_out(
    context: Context,
    desk: Desk,
    file: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    screen = RosterScreen(context)
    qtbot.addWidget(screen)
    screen.resize(1200, 700)
    with qtbot.waitActive(screen):
        screen.show()
    reports: list[str] = []

    def act() -> None:
        shown: QWidget | None = QApplication.activeModalWidget()
        if isinstance(shown, LineReport):
            reports.append(shown.words)
            shown.accept()
            return
        if isinstance(shown, ImportDialog) and not shown.is_busy:
            assert len(on_file(desk).athletes) == 1
            shown.leave_out.set_value("yes")
            shown.leave_out.edited.emit()
            QTest.keyClick(shown, Qt.Key.Key_Return)
        QTimer.singleShot(10, act)

    QTimer.singleShot(10, act)
    modifiers = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(screen.list.table, Qt.Key.Key_I, modifiers)
    assert len(reports) == 1
    assert sorted(each.name for each in on_file(desk).athletes) == [
        "Ana <b>Lee</b>",
        "Bo Lind",
        "Bo Lind",
    ]
    qtbot.waitUntil(lambda: len(screen.list.table.shown_rows()) == 3)
