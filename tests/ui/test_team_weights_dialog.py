"""The team's weights by keys alone: typed, pasted, asked about, kept, taken back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData, Reading, ReadingData
from coachdesk.domain.lifting import Sex
from coachdesk.domain.units import Unit, kilograms
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.screens.today.screen import TodayScreen
from coachdesk.ui.weights.team_dialog import TeamDialog
from coachdesk.ui.weights.team_presenter import TeamPresenter
from coachdesk.ui.widgets.line_report import LineReport

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
BY_NAME = ("Łucja", "Mia", "Zoë")


@pytest.fixture
def ids(desk: Desk) -> dict[str, int]:
    """Łucja weighs in pounds; Mia weighed 82 kg the day before."""
    found = {}
    for given, family, unit in (
        ("Łucja", "Bąk", Unit.LB),
        ("Mia", "Oster", Unit.KG),
        ("Zoë", "Żółw <b>", Unit.KG),
    ):
        data = AthleteData(given_name=given, family_name=family, sex=Sex.FEMALE, unit=unit)
        found[given] = add_athlete(desk, data).value
    add_readings(
        desk, [ReadingData(athlete_id=found["Mia"], on=date(2026, 11, 24), weight=kilograms(82))]
    )
    return found


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    """What dialogs stand on; they go with it."""
    made = QWidget()
    made.resize(1200, 760)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def dialog(
    context: Context, desk: Desk, ids: dict[str, int], parent: QWidget, qtbot: QtBot
) -> TeamDialog:
    assert ids
    made = TeamDialog(context, TeamPresenter(desk, context.words, DayOrder.DAY_FIRST), parent)
    with qtbot.waitActive(made):
        made.show()
    return made


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press a key where the focus is."""
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClick(focused, key, modifier)
    QApplication.processEvents()


def type_on(words: str) -> None:
    """Type letter by letter where the focus is: the first one may open a cell."""
    for letter in words:
        focused = QApplication.focusWidget()
        assert focused is not None
        QTest.keyClicks(focused, letter)


def shown(dialog: TeamDialog, row: int, column: int) -> str:
    model = dialog.table.view.model()
    return str(model.index(row, column).data())


def remarks(dialog: TeamDialog) -> list[str]:
    return [shown(dialog, row, 5) for row in range(3)]


def kept(desk: Desk) -> list[str]:
    with desk.reading() as reader:
        return [
            f"{each.on} {each.weight.number} {each.weight.unit}"
            for each in reader.list(Reading)
            if each.on > date(2026, 11, 24) or each.weight != kilograms(82)
        ]


def answer(words: str) -> None:
    """Press the button with these words in the dialog that opens."""

    def act() -> None:
        box = QApplication.activeModalWidget()
        if box is None:
            QTimer.singleShot(5, act)
            return
        (found,) = (each for each in box.findChildren(QAbstractButton) if each.text() == words)
        found.click()

    QTimer.singleShot(5, act)


def test_three_weights_are_typed_kept_and_taken_back(
    dialog: TeamDialog, desk: Desk, context: Context
) -> None:
    for typed in ("131,5", "82.4", "128 lb"):
        type_on(typed)
        press(Key.Key_Return)
    assert remarks(dialog) == ["131.5 lb", "82.4 kg", "128 lb"]
    assert kept(desk) == []
    press(Key.Key_Return)
    assert not dialog.isVisible()
    assert kept(desk) == ["2026-11-25 131.5 lb", "2026-11-25 82.4 kg", "2026-11-25 128 lb"]
    assert context.notices.words == "3 readings added."
    undo(desk)
    assert kept(desk) == []


def test_the_arrows_lead_from_row_to_row_and_keep_what_is_typed(dialog: TeamDialog) -> None:
    type_on("131")
    press(Key.Key_Down)
    type_on("82")
    press(Key.Key_Up)
    type_on("132")
    press(Key.Key_Down)
    assert [shown(dialog, row, 3) for row in range(3)] == ["132", "82", ""]


def test_a_fault_is_said_beside_its_row_and_nothing_is_lost(dialog: TeamDialog, desk: Desk) -> None:
    for typed in ("131.5", "eighty", "61"):
        type_on(typed)
        press(Key.Key_Return)
    press(Key.Key_Return)
    assert dialog.isVisible()
    assert remarks(dialog)[1] == "Type a weight such as 82.5, 82,5 kg or 182 lb."
    assert dialog.beside.text() == "Mia Oster: Type a weight such as 82.5, 82,5 kg or 182 lb."
    assert dialog.sentence.text().startswith("Nothing is kept yet: 1 weight cannot be taken.")
    assert [shown(dialog, row, 3) for row in range(3)] == ["131.5", "eighty", "61"]
    assert kept(desk) == []
    type_on("82.1")
    press(Key.Key_S, CONTROL)
    assert len(kept(desk)) == 3


def test_an_odd_weight_is_kept_when_the_coach_keeps_again(dialog: TeamDialog, desk: Desk) -> None:
    press(Key.Key_Down)
    type_on("28.4")
    press(Key.Key_S, CONTROL)
    assert remarks(dialog)[1] == "28.4 kg? It was 82 kg on Tue 24 Nov 2026."
    assert kept(desk) == []
    type_on("88.4")
    press(Key.Key_S, CONTROL)
    assert kept(desk) == [], "another odd weight is asked about anew"
    press(Key.Key_S, CONTROL)
    assert kept(desk) == ["2026-11-25 88.4 kg"]


def test_two_pasted_columns_find_their_rows_and_strangers_are_reported(
    dialog: TeamDialog, desk: Desk
) -> None:
    reports: list[str] = []

    def read_report() -> None:
        report = QApplication.activeModalWidget()
        if not isinstance(report, LineReport):
            QTimer.singleShot(5, read_report)
            return
        reports.append(report.report.toPlainText())
        report.accept()

    QGuiApplication.clipboard().setText("Oster, Mia\t82,3\nBert\t90\nzolw <b>, zoe\t60.5")
    QTimer.singleShot(5, read_report)
    press(Key.Key_V, CONTROL)
    assert reports == [
        (
            "Line 2: “Bert  90”: Nobody here is called “Bert”. Give the given and the family name "
            "as on the roster."
        )
    ]
    assert [shown(dialog, row, 3) for row in range(3)] == ["", "82,3", "60.5"]
    dialog.keep()
    assert kept(desk) == ["2026-11-25 82.3 kg", "2026-11-25 60.5 kg"]


def test_a_pasted_column_fills_from_the_row_the_coach_is_on(dialog: TeamDialog) -> None:
    QGuiApplication.clipboard().setText("82,3\n60.5\n")
    press(Key.Key_Down)
    press(Key.Key_V, CONTROL)
    assert [shown(dialog, row, 3) for row in range(3)] == ["", "82,3", "60.5"]


def test_a_pasted_day_in_the_systems_form_is_shown_in_words(dialog: TeamDialog, desk: Desk) -> None:
    QGuiApplication.clipboard().setText("Mia Oster\t82,3\t04/11/2026\t7:30")
    press(Key.Key_V, CONTROL)
    assert remarks(dialog)[1] == "82.3 kg on Wed 4 Nov 2026"
    press(Key.Key_S, CONTROL)
    assert kept(desk) == ["2026-11-04 82.3 kg"]


def test_a_day_to_come_is_said_at_the_day(dialog: TeamDialog, desk: Desk) -> None:
    type_on("131")
    dialog.common.set_values({"on": "2026-11-26"})
    press(Key.Key_S, CONTROL)
    assert dialog.common.sentence == "Enter a day that is not in the future."
    assert kept(desk) == []
    assert shown(dialog, 0, 3) == "131"


def test_leaving_with_typed_weights_asks(dialog: TeamDialog) -> None:
    type_on("131")
    answer("Go on editing")
    dialog.reject()
    assert dialog.isVisible()
    assert shown(dialog, 0, 3) == "131"
    answer("Discard")
    dialog.reject()
    assert not dialog.isVisible()


def test_leaving_an_untouched_dialog_does_not_ask(dialog: TeamDialog) -> None:
    press(Key.Key_Escape)
    press(Key.Key_Escape)
    assert not dialog.isVisible()


@pytest.mark.parametrize("screen", [RosterScreen, TodayScreen])
def test_a_key_leads_there_from_two_screens(
    context: Context,
    ids: dict[str, int],
    qtbot: QtBot,
    screen: Callable[[Context], QWidget],
) -> None:
    assert ids
    made = screen(context)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
    opened: list[QWidget | None] = []

    def look() -> None:
        found = QApplication.activeModalWidget()
        opened.append(found)
        if isinstance(found, QDialog):
            found.reject()

    QTimer.singleShot(200, look)
    QTest.keyClick(made, Key.Key_W, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    assert isinstance(opened[0], TeamDialog)
