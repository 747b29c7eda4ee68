"""The Roster by keyboard, as a coach uses it: nothing typed is lost, everything can be undone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QListWidget,
    QMessageBox,
    QPlainTextEdit,
    QTableView,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import Athlete, AthleteData, Handler, Reading, ReadingData
from coachdesk.domain.lifting import Sex
from coachdesk.domain.meet import Attempt
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete, add_readings, archive_athlete, edit_athlete
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.screens.roster.handlers_dialog import HandlersDialog
from coachdesk.ui.screens.roster.presenter import Shown
from coachdesk.ui.screens.roster.profile_part import ProfilePart
from coachdesk.ui.screens.roster.readings_part import ReadingsPart
from coachdesk.ui.screens.roster.results_part import ResultsPart
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.screens.roster.sets_part import SetsPart
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.line_report import LineReport

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


def _athlete(desk: Desk, given: str, family: str, unit: Unit = Unit.KG) -> int:
    data = AthleteData(
        given_name=given,
        family_name=family,
        sex=Sex.FEMALE,
        birth_date=date(1999, 3, 1),
        unit=unit,
    )
    return add_athlete(desk, data).value


@pytest.fixture
def screen(context: Context, qtbot: QtBot, desk: Desk) -> RosterScreen:
    """The screen, seen, with three athletes."""
    for given, family in (("Łucja", "Bąk"), ("Mia", "Oster"), ("Zoë", "Żółw")):
        _athlete(desk, given, family)
    return seen(context, qtbot)


def seen(context: Context, qtbot: QtBot) -> RosterScreen:
    made = RosterScreen(context)
    qtbot.addWidget(made)
    made.resize(1200, 760)
    with qtbot.waitActive(made):
        made.show()
    qtbot.wait(20)
    return made


def press(widget: QWidget, key: Qt.Key, modifier: Qt.KeyboardModifier | None = None) -> None:
    """Press a key where the focus is within `widget`."""
    if QApplication.activeWindow() is not widget.window():
        widget.window().activateWindow()  # without a display nobody else does after a dialog
        QTest.qWaitForWindowActive(widget.window())
    target = QApplication.focusWidget() or widget
    QTest.keyClick(target, key, modifier or Qt.KeyboardModifier.NoModifier)


def type_in(widget: QWidget, words: str) -> None:
    """Type over what a line holds."""
    assert isinstance(widget, QLineEdit | QPlainTextEdit)
    widget.setFocus()
    widget.selectAll()
    QTest.keyClicks(widget, words)


def _close_all() -> None:
    """A dialog must not wait for ever when a test fails within it."""
    while isinstance(dialog := QApplication.activeModalWidget(), QDialog):
        dialog.done(0)
        QApplication.processEvents()


def type_on(words: str) -> None:
    """Type where the focus is."""
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClicks(focused, words)


class Coach:
    """Answers the dialogs that open, one after the other, those within others too."""

    def __init__(self) -> None:
        self._acts: list[Callable[[QWidget], object]] = []
        self._is_here = True
        self._answered: list[QWidget] = []

    def will(self, *acts: Callable[[QWidget], object]) -> None:
        self._acts.extend(acts)
        QTimer.singleShot(5, self._look)

    def leave(self) -> None:
        self._acts.clear()
        self._is_here = False

    @property
    def done(self) -> bool:
        return not self._acts

    def _look(self) -> None:
        if not (self._is_here and self._acts):
            return
        QTimer.singleShot(5, self._look)  # a new one each time: a dialog may open within a dialog
        dialog = QApplication.activeModalWidget()
        if dialog is None or not dialog.isActiveWindow():
            return
        if any(dialog is each for each in self._answered):
            return
        self._answered.append(dialog)
        try:
            self._acts.pop(0)(dialog)
        except BaseException:
            self.leave()
            _close_all()
            raise


@pytest.fixture
def coach() -> Iterator[Coach]:
    made = Coach()
    yield made
    made.leave()


def choose(words: str) -> Callable[[QWidget], object]:
    """Press the button with these words."""

    def act(dialog: QWidget) -> None:
        (found,) = (each for each in dialog.findChildren(QAbstractButton) if each.text() == words)
        found.click()

    return act


def names(screen: RosterScreen) -> list[str]:
    return [row.line.given_name for row in screen.list.table.shown_rows()]


def shown_name(screen: RosterScreen) -> str:
    assert screen.side.detail is not None
    return screen.side.detail.athlete.given_name


def profile(screen: RosterScreen) -> ProfilePart:
    part = screen.side.part("profile")
    assert isinstance(part, ProfilePart)
    return part


def readings(screen: RosterScreen) -> ReadingsPart:
    screen.side.go_to("readings")
    part = screen.side.part("readings")
    assert isinstance(part, ReadingsPart)
    return part


def on_file(desk: Desk) -> dict[str, Athlete]:
    with desk.reading() as reader:
        return {each.given_name: each for each in reader.list(Athlete)}


def weights(desk: Desk) -> list[str]:
    with desk.reading() as reader:
        return [
            f"{each.on}: {each.weight.number} {each.weight.unit}" for each in reader.list(Reading)
        ]


def test_an_athlete_is_added_and_a_bad_date_costs_nothing_typed(
    screen: RosterScreen, coach: Coach, desk: Desk, qtbot: QtBot
) -> None:
    seen_sentences: list[str] = []

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        form = dialog.form
        type_in(form.field("given_name").control(), "Ana")
        press(dialog, Key.Key_Tab)
        type_on("Ruiz & Co")
        press(dialog, Key.Key_Tab)
        press(dialog, Key.Key_Down)  # women
        press(dialog, Key.Key_Tab)
        type_on("31.2.2001")
        press(dialog, Key.Key_Return)
        seen_sentences.append(form.sentence_at("birth_date"))
        assert form.values()["given_name"] == "Ana"
        assert form.values()["family_name"] == "Ruiz & Co"
        assert form.values()["sex"] == "female"
        line = form.field("birth_date").control()
        assert isinstance(line, QLineEdit)
        assert line.text() == "31.2.2001"
        assert QApplication.focusWidget() is line
        type_in(line, "28.2.2001")
        press(dialog, Key.Key_Return)

    coach.will(fill_in)
    press(screen, Key.Key_N, CONTROL)
    assert coach.done
    assert "date" in seen_sentences[0]
    assert on_file(desk)["Ana"].birth_date == date(2001, 2, 28)
    qtbot.waitUntil(lambda: shown_name(screen) == "Ana")
    assert names(screen) == ["Łucja", "Mia", "Ana", "Zoë"]
    assert screen.list.table.current_key() == on_file(desk)["Ana"].id


def test_leaving_a_half_filled_dialog_asks_first(
    screen: RosterScreen, coach: Coach, desk: Desk
) -> None:
    def type_and_leave(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        type_in(dialog.form.field("given_name").control(), "Ana")
        press(dialog, Key.Key_Escape)

    coach.will(type_and_leave, choose("Discard"))
    screen.add()
    assert coach.done
    assert list(on_file(desk)) == ["Łucja", "Mia", "Zoë"]


def test_the_list_narrows_while_typing_and_enter_leads_to_it(screen: RosterScreen) -> None:
    press(screen, Key.Key_F, CONTROL)
    assert QApplication.focusWidget() is screen.list.search
    QTest.keyClicks(screen.list.search, "zol")
    assert names(screen) == ["Zoë"]
    assert shown_name(screen) == "Zoë"
    press(screen, Key.Key_Return)
    assert QApplication.focusWidget() is screen.list.table.view
    screen.list.search.setFocus()
    press(screen, Key.Key_Escape)
    assert names(screen) == ["Łucja", "Mia", "Zoë"]
    assert shown_name(screen) == "Zoë"
    QTest.keyClicks(screen.list.search, "nobody")
    assert names(screen) == []
    assert screen.side.detail is None


def test_arrows_walk_through_the_athletes(screen: RosterScreen) -> None:
    assert shown_name(screen) == "Łucja"
    screen.list.table.view.setFocus()
    press(screen, Key.Key_Down)
    assert shown_name(screen) == "Mia"
    press(screen, Key.Key_Return)
    focused = QApplication.focusWidget()
    assert focused is not None
    assert profile(screen).form.isAncestorOf(focused)
    press(screen, Key.Key_Escape)
    assert QApplication.focusWidget() is screen.list.table.view


def test_several_weights_are_typed_one_after_the_other(
    screen: RosterScreen, desk: Desk, qtbot: QtBot
) -> None:
    press(screen, Key.Key_2, ALT)
    quick = readings(screen).quick
    line = quick.fields["weight"].control()
    assert QApplication.focusWidget() is line
    QTest.keyClicks(line, "63,2")
    press(screen, Key.Key_Return)
    type_on("139.5 lb")
    press(screen, Key.Key_Tab)
    type_in(quick.fields["on"].control(), "24.11.2026")
    press(screen, Key.Key_Return)
    assert QApplication.focusWidget() is line
    assert quick.values()["weight"] == ""
    assert weights(desk) == ["2026-11-25: 63.2 kg", "2026-11-24: 139.5 lb"]
    table = readings(screen).table
    qtbot.waitUntil(lambda: len(table.rows) == 2)
    assert [row.weight for row in table.rows] == ["63.2", "63.28"]
    assert QApplication.focusWidget() is line


def test_a_weight_that_cannot_be_stays_as_typed_with_the_sentence(
    screen: RosterScreen, desk: Desk
) -> None:
    quick = readings(screen).quick
    type_in(quick.fields["at"].control(), "6:30")
    type_in(quick.fields["weight"].control(), "6320")
    press(screen, Key.Key_Return)
    assert "20 kg to 400 kg" in quick.sentence
    assert quick.values()["weight"] == "6320"
    assert quick.values()["at"] == "6:30"
    assert QApplication.focusWidget() is quick.fields["weight"].control()
    type_in(quick.fields["weight"].control(), "63.20")
    assert quick.sentence == ""
    press(screen, Key.Key_Return)
    assert weights(desk) == ["2026-11-25: 63.20 kg"]


def test_an_athlete_in_pounds_types_and_sees_pounds(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    _athlete(desk, "Bo", "Li", Unit.LB)
    screen = seen(context, qtbot)
    part = readings(screen)
    type_in(part.quick.fields["weight"].control(), "165.5")
    press(screen, Key.Key_Return)
    with desk.reading() as reader:
        assert reader.list(Reading)[0].weight == pounds("165.5")
    qtbot.waitUntil(lambda: len(part.table.rows) == 1)
    assert part.table.model.columns[1].head == "Weight, lb"
    assert part.table.rows[0].weight == "165.5"


def test_a_profile_is_changed_saved_and_undone(
    screen: RosterScreen, desk: Desk, context: Context, qtbot: QtBot
) -> None:
    form = profile(screen).form
    type_in(form.field("squat_rack").control(), "14, in")
    assert screen.has_unsaved()
    press(screen, Key.Key_S, CONTROL)
    assert on_file(desk)["Łucja"].squat_rack == "14, in"
    assert not screen.has_unsaved()
    qtbot.wait(20)
    type_in(form.field("bench_rack").control(), "7")
    press(screen, Key.Key_Return)
    assert on_file(desk)["Łucja"].bench_rack == "7"
    qtbot.wait(20)
    context.runner.now(lambda: undo(desk))
    qtbot.waitUntil(lambda: form.values()["bench_rack"] == "")
    assert form.values()["squat_rack"] == "14, in"


def test_a_profile_that_cannot_be_is_refused_beside_its_field_and_keeps_the_rest(
    screen: RosterScreen, desk: Desk
) -> None:
    form = profile(screen).form
    type_in(form.field("phone").control(), "0123")
    type_in(form.field("height_cm").control(), "1,66")
    press(screen, Key.Key_Return)
    assert "whole" in form.sentence_at("height_cm")
    assert form.values()["phone"] == "0123"
    assert on_file(desk)["Łucja"].phone == ""
    type_in(form.field("height_cm").control(), "166")
    press(screen, Key.Key_Return)
    assert (on_file(desk)["Łucja"].phone, on_file(desk)["Łucja"].height_cm) == ("0123", 166)


def test_enter_in_a_note_begins_a_new_line(screen: RosterScreen, desk: Desk) -> None:
    form = profile(screen).form
    note = form.field("health_note").control()
    type_in(note, "left knee")
    press(screen, Key.Key_Return)
    QTest.keyClicks(note, "no jumps")
    press(screen, Key.Key_S, CONTROL)
    assert on_file(desk)["Łucja"].health_note == "left knee\nno jumps"


def test_escape_puts_back_after_asking(screen: RosterScreen, coach: Coach, desk: Desk) -> None:
    form = profile(screen).form
    type_in(form.field("phone").control(), "0123")
    coach.will(choose("Go on editing"))
    press(screen, Key.Key_Escape)
    assert form.values()["phone"] == "0123"
    coach.will(choose("Discard"))
    press(screen, Key.Key_Escape)
    assert form.values()["phone"] == ""
    assert not screen.has_unsaved()
    assert on_file(desk)["Łucja"].phone == ""


@pytest.mark.parametrize(
    ("answer", "stays", "kept"),
    [("Save", False, "0123"), ("Discard", False, ""), ("Go on editing", True, "")],
)
def test_leaving_an_unsaved_profile_asks(
    screen: RosterScreen, coach: Coach, desk: Desk, answer: str, stays: bool, kept: str
) -> None:
    type_in(profile(screen).form.field("phone").control(), "0123")
    coach.will(choose(answer))
    screen.list.table.view.setFocus()
    press(screen, Key.Key_Down)
    assert coach.done
    assert shown_name(screen) == ("Łucja" if stays else "Mia")
    assert screen.list.table.current_key() == screen.side.detail.id if screen.side.detail else 0
    assert on_file(desk)["Łucja"].phone == kept
    assert screen.has_unsaved() == stays


def test_saving_what_cannot_be_on_leaving_stays_with_the_sentence(
    screen: RosterScreen, coach: Coach
) -> None:
    screen.side.go_to("readings")
    type_in(profile(screen).form.field("height_cm").control(), "17")
    coach.will(choose("Save"))
    screen.list.table.view.setFocus()
    press(screen, Key.Key_Down)
    assert shown_name(screen) == "Łucja"
    assert profile(screen).form.sentence_at("height_cm")
    assert profile(screen).isVisible()


def test_a_weight_half_typed_is_let_go_when_the_coach_says_so(
    screen: RosterScreen, coach: Coach, desk: Desk
) -> None:
    quick = readings(screen).quick
    type_in(quick.fields["weight"].control(), "63")
    coach.will(choose("Discard"))
    screen.list.table.select(on_file(desk)["Zoë"].id)
    assert shown_name(screen) == "Zoë"
    assert quick.values()["weight"] == ""
    assert weights(desk) == []


def test_a_weight_half_typed_counts_as_unsaved_too(
    screen: RosterScreen, coach: Coach, desk: Desk
) -> None:
    type_in(readings(screen).quick.fields["weight"].control(), "63")
    assert screen.has_unsaved()
    coach.will(choose("Save"))
    screen.list.table.select(on_file(desk)["Zoë"].id)
    assert weights(desk) == ["2026-11-25: 63 kg"]
    assert shown_name(screen) == "Zoë"


def test_text_typed_survives_a_change_made_elsewhere_and_is_not_saved_over_it(
    screen: RosterScreen, desk: Desk, context: Context, qtbot: QtBot, coach: Coach
) -> None:
    form = profile(screen).form
    type_in(form.field("phone").control(), "0123")
    lucja = on_file(desk)["Łucja"]
    changed = AthleteData(given_name="Łucja", family_name="Bąk", sex=Sex.FEMALE, email="a@b")
    context.runner.now(lambda: edit_athlete(desk, lucja.id, lucja.version, changed))
    qtbot.wait(30)
    assert form.values()["phone"] == "0123"
    press(screen, Key.Key_S, CONTROL)
    assert "changed meanwhile" in context.notices.words
    assert form.values()["phone"] == "0123"
    coach.will(choose("Discard"))
    press(screen, Key.Key_Escape)
    assert form.values()["email"] == "a@b"
    assert form.values()["phone"] == ""


def test_deleting_names_what_goes_along_and_undo_brings_it_back(
    context: Context, qtbot: QtBot, desk: Desk, coach: Coach
) -> None:
    for given in ("Ana", "Bea", "Cem"):
        _athlete(desk, given, given)
    bea = on_file(desk)["Bea"].id
    reading = ReadingData(athlete_id=bea, on=date(2026, 11, 1), weight=kilograms(63))
    add_readings(desk, [reading, reading])
    screen = seen(context, qtbot)
    screen.list.table.select(bea)
    asked: list[str] = []

    def read_and_keep(box: QWidget) -> None:
        assert isinstance(box, QMessageBox)
        asked.append(f"{box.text()} {box.informativeText()}")
        choose("Keep")(box)

    screen.list.table.view.setFocus()
    coach.will(read_and_keep)
    press(screen, Key.Key_Delete)
    assert asked == [
        "Delete Bea Bea? Also deleted: 2 bodyweight readings. It can be undone with Ctrl+Z."
    ]
    assert "Bea" in on_file(desk)
    coach.will(choose("Delete"))
    press(screen, Key.Key_Delete)
    qtbot.waitUntil(lambda: names(screen) == ["Ana", "Cem"])
    assert shown_name(screen) == "Cem"
    context.runner.now(lambda: undo(desk))
    qtbot.waitUntil(lambda: names(screen) == ["Ana", "Bea", "Cem"])
    assert len(weights(desk)) == 2


def test_archived_athletes_are_out_of_sight_until_asked_for(
    screen: RosterScreen, qtbot: QtBot
) -> None:
    screen.archive()
    qtbot.waitUntil(lambda: names(screen) == ["Mia", "Zoë"])
    assert shown_name(screen) == "Mia"
    box = screen.list.shown.box
    box.setFocus()
    box.setCurrentIndex(box.findData(Shown.ARCHIVED))
    box.activated.emit(box.currentIndex())
    assert names(screen) == ["Łucja"]
    assert shown_name(screen) == "Łucja"
    screen.archive()
    qtbot.waitUntil(lambda: names(screen) == [])


def test_closing_the_desk_can_save_what_is_typed(screen: RosterScreen, desk: Desk) -> None:
    type_in(profile(screen).form.field("phone").control(), "0123")
    assert screen.has_unsaved()
    assert screen.save_unsaved()
    assert on_file(desk)["Łucja"].phone == "0123"
    assert not screen.has_unsaved()


def test_another_screen_can_lead_to_an_athlete_who_is_not_listed(
    screen: RosterScreen, desk: Desk
) -> None:
    mia = on_file(desk)["Mia"]
    archive_athlete(desk, mia, archived=True)
    screen.reload()
    screen.list.search.setText("zo")
    screen.show_record(mia.id)
    assert shown_name(screen) == "Mia"
    assert screen.list.search.text() == ""
    assert "Mia" in names(screen)


def test_erasing_for_good_takes_the_name_typed(
    screen: RosterScreen, desk: Desk, qtbot: QtBot, coach: Coach, context: Context
) -> None:
    said: list[str] = []

    def type_wrong_then_right(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        line = dialog.form.field("name").control()
        type_in(line, "Bak")
        press(dialog, Key.Key_Return)
        said.append(dialog.form.sentence_at("name"))
        assert isinstance(line, QLineEdit)
        line.setText("Łucja Bąk")
        press(dialog, Key.Key_Return)

    def go_on(box: QWidget) -> None:
        assert isinstance(box, QMessageBox)
        said.append(box.informativeText())
        choose("Go on")(box)

    coach.will(go_on, type_wrong_then_right)
    screen.erase()
    qtbot.waitUntil(lambda: names(screen) == ["Mia", "Zoë"], timeout=5000)
    assert "cannot be undone" in said[0]
    assert str(context.backups) in said[0]
    assert "Łucja Bąk" in said[1]
    assert "Łucja" not in on_file(desk)
    undo(desk)
    assert "Łucja" not in on_file(desk)


def test_rows_are_pasted_all_or_none_with_a_report(
    screen: RosterScreen, desk: Desk, qtbot: QtBot, coach: Coach
) -> None:
    part = readings(screen)
    reports: list[str] = []

    def read(dialog: QWidget) -> None:
        assert isinstance(dialog, LineReport)
        reports.append(dialog.report.toPlainText())
        choose("Close")(dialog)

    part.table.view.setFocus()
    QGuiApplication.clipboard().setText("Day\tWeight\n2026-11-20\t63,1\n2026-11-21\tx\n")
    coach.will(read)
    press(screen, Key.Key_V, CONTROL)
    assert reports == ["Line 3: “2026-11-21  x”: Type a weight such as 82.5, 82,5 kg or 182 lb."]
    assert weights(desk) == []
    QGuiApplication.clipboard().setText("2026-11-20\t63,1\r\n21.11.2026\t139 lb\r\n")
    press(screen, Key.Key_V, CONTROL)
    assert weights(desk) == ["2026-11-20: 63.1 kg", "2026-11-21: 139 lb"]
    qtbot.waitUntil(lambda: len(part.table.rows) == 2)
    part.table.view.selectAll()
    part.table.view.setFocus()
    press(screen, Key.Key_C, CONTROL)
    copied = QGuiApplication.clipboard().text().splitlines()
    assert copied[0] == "Day\tWeight, kg\tHour\tWorn\tScale\tNote\tOdd"
    press(screen, Key.Key_V, CONTROL)
    assert len(weights(desk)) == 4


def test_readings_are_changed_and_deleted_by_keys(
    screen: RosterScreen, desk: Desk, qtbot: QtBot, coach: Coach
) -> None:
    part = readings(screen)
    for weight in ("63", "64"):
        type_in(part.quick.fields["weight"].control(), weight)
        press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: len(part.table.rows) == 2)

    def mend(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        type_in(dialog.form.field("weight").control(), "64,5 kg")
        press(dialog, Key.Key_Return)

    part.table.view.setFocus()
    part.table.view.selectRow(0)
    coach.will(mend)
    press(screen, Key.Key_Return)
    assert weights(desk)[1] == "2026-11-25: 64.5 kg"
    qtbot.wait(30)
    part.table.view.selectAll()
    part.table.view.setFocus()
    coach.will(choose("Delete"))
    press(screen, Key.Key_Delete)
    assert weights(desk) == []


def test_old_readings_show_on_demand(context: Context, qtbot: QtBot, desk: Desk) -> None:
    ana = _athlete(desk, "Ana", "Ruiz")
    add_readings(
        desk,
        [
            ReadingData(athlete_id=ana, on=date(2026, 1, day % 28 + 1), weight=kilograms(60))
            for day in range(70)
        ],
    )
    screen = seen(context, qtbot)
    part = readings(screen)
    qtbot.waitUntil(lambda: len(part.table.rows) == 60)
    choose("Show all 70")(part)
    assert len(part.table.rows) == 70


def test_a_result_is_added_from_a_sheet_and_only_the_events_lifts_are_asked_for(
    screen: RosterScreen, desk: Desk, qtbot: QtBot, coach: Coach
) -> None:
    screen.side.go_to("results")
    part = screen.side.part("results")
    assert isinstance(part, ResultsPart)

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        form = dialog.form
        type_in(form.field("meet").control(), "Spring Cup")
        type_in(form.field("on").control(), "9.5.2026")
        event = form.field("event").control()
        assert isinstance(event, QComboBox)
        event.setCurrentIndex(event.findData("bench_only"))
        event.activated.emit(event.currentIndex())
        assert form.field("squat").isHidden()
        type_in(form.field("bench").control(), "60 -65 62,5")
        press(dialog, Key.Key_Return)
        assert "goes down" in form.sentence_at("bench")
        type_in(form.field("bench").control(), "60 -62,5 62,5")
        press(dialog, Key.Key_Return)

    coach.will(fill_in)
    part.add()
    qtbot.waitUntil(lambda: len(part.table.rows) == 1)
    assert part.table.rows[0].bench == "60 -62.5 62.5"
    assert part.table.rows[0].total == "62.5 kg"
    with desk.reading() as reader:
        assert len(reader.list(Attempt)) == 3
    part.table.view.selectRow(0)
    coach.will(lambda dialog: press(dialog, Key.Key_Escape))
    part.change()
    coach.will(choose("Delete"))
    part.delete()
    qtbot.waitUntil(lambda: part.table.rows == ())


def test_sets_are_added_with_the_cause_of_a_red_one(
    screen: RosterScreen, desk: Desk, qtbot: QtBot, coach: Coach
) -> None:
    screen.side.go_to("sets")
    part = screen.side.part("sets")
    assert isinstance(part, SetsPart)

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        form = dialog.form
        lift = form.field("lift").control()
        assert isinstance(lift, QComboBox)
        lift.setCurrentIndex(lift.findData("bench"))
        lift.activated.emit(lift.currentIndex())
        form.field("cause").set_value("bench.chest")
        assert form.field("cause").value() == "bench.chest"
        type_in(form.field("weight").control(), "62,5")
        type_in(form.field("reps").control(), "1")
        press(dialog, Key.Key_Return)
        assert form.sentence_at("cause")
        form.field("result").set_value("no_lift")
        press(dialog, Key.Key_Return)

    coach.will(fill_in)
    part.add()
    qtbot.waitUntil(lambda: len(part.table.rows) == 1)
    with desk.reading() as reader:
        (kept,) = reader.list(LoggedSet)
    assert (kept.judged, kept.cause) == (True, "bench.chest")

    def mend(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        assert dialog.form.values()["cause"] == "bench.chest"
        type_in(dialog.form.field("weight").control(), "65")
        press(dialog, Key.Key_Return)

    part.table.view.selectRow(0)
    coach.will(mend)
    part.change()
    qtbot.waitUntil(lambda: [row.weight for row in part.table.rows] == ["65"])
    assert part.table.rows[0].call.startswith("no lift: Bar not lowered")
    part.table.view.selectRow(0)
    coach.will(choose("Delete"))
    part.delete()
    qtbot.waitUntil(lambda: part.table.rows == ())


def test_handlers_are_kept_in_a_dialog_of_their_own(
    screen: RosterScreen, desk: Desk, coach: Coach
) -> None:
    def names_of() -> list[str]:
        with desk.reading() as reader:
            return [each.name for each in reader.list(Handler)]

    def name_it(name: str) -> Callable[[QWidget], object]:
        def act(dialog: QWidget) -> None:
            assert isinstance(dialog, FormDialog)
            type_in(dialog.form.field("name").control(), name)
            press(dialog, Key.Key_Return)

        return act

    def add_two_and_delete_one(dialog: QWidget) -> None:
        assert isinstance(dialog, HandlersDialog)
        dialog.add()
        dialog.add()
        assert [row.handler.name for row in dialog.table.rows] == ["Bo", "Ida"]
        dialog.change()
        dialog.delete()
        choose("Close")(dialog)

    coach.will(
        add_two_and_delete_one, name_it("Ida"), name_it("Bo"), name_it("Bob"), choose("Delete")
    )
    screen.show_handlers()
    assert names_of() == ["Ida"]


def test_an_empty_roster_says_what_to_do(context: Context, qtbot: QtBot) -> None:
    screen = seen(context, qtbot)
    assert screen.side.detail is None
    shown = [each.text() for each in screen.findChildren(QLabel) if each.isVisible()]
    assert any("Ctrl+N" in words for words in shown)


def test_names_show_letter_by_letter(context: Context, qtbot: QtBot, desk: Desk) -> None:
    nasty = "<b>A</b> & \u202eevil"
    _athlete(desk, nasty, "x" * 200)
    screen = seen(context, qtbot)
    assert screen.list.table.view.model().index(0, 0).data().endswith(nasty)
    labels = [each for each in screen.findChildren(QLabel) if nasty in each.text()]
    assert labels
    assert all(each.textFormat() is Qt.TextFormat.PlainText for each in labels)
    assert screen.minimumSizeHint().width() < 853 - 170


@pytest.mark.parametrize("section", ["profile", "readings", "results", "sets"])
def test_every_control_has_a_name_for_a_screen_reader(screen: RosterScreen, section: str) -> None:
    screen.side.go_to(section)
    controls = (QLineEdit, QComboBox, QPlainTextEdit, QTableView, QListWidget)
    nameless = [
        each
        for kind in controls
        for each in screen.findChildren(kind)
        if each.isVisible() and not each.accessibleName() and not _inside(each, QComboBox)
    ]
    nameless += [
        each
        for each in screen.findChildren(QAbstractButton)
        if each.isVisible()
        and each.focusPolicy() is not Qt.FocusPolicy.NoFocus
        and not (each.text() or each.accessibleName())
    ]
    assert nameless == []


def _inside(widget: QWidget, kind: type[QWidget]) -> bool:
    parent = widget.parentWidget()
    return parent is not None and (isinstance(parent, kind) or _inside(parent, kind))


def test_a_dialog_left_by_escape_changes_nothing(
    screen: RosterScreen, coach: Coach, desk: Desk
) -> None:
    def leave(dialog: QWidget) -> None:
        assert isinstance(dialog, QDialog)
        press(dialog, Key.Key_Escape)

    coach.will(leave)
    screen.add()
    coach.will(leave)
    screen.erase()
    assert list(on_file(desk)) == ["Łucja", "Mia", "Zoë"]
