"""Meets by keyboard, as a coach uses it: add a meet, enter athletes, change attempts, undo."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QMessageBox,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift, Result, Sex
from coachdesk.domain.meet import Attempt, AttemptData, Entry, Flight, Meet, MeetData, Session
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.attempt_editing import choose_attempt
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, record_attempts
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.screens.meets.attempt_cell import AttemptCell
from coachdesk.ui.screens.meets.enter_dialog import EnterDialog
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form_dialog import FormDialog

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


class Coach:
    """Answers the dialogs that open, one after the other."""

    def __init__(self) -> None:
        self._acts: list[Callable[[QWidget], object]] = []
        self._timer = QTimer()
        self._timer.setInterval(5)
        self._timer.timeout.connect(self._look)
        self._busy = False

    def will(self, *acts: Callable[[QWidget], object]) -> None:
        self._acts.extend(acts)
        self._timer.start()

    def leave(self) -> None:
        self._acts.clear()
        self._timer.stop()

    @property
    def done(self) -> bool:
        return not self._acts

    def _look(self) -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is None or not dialog.isActiveWindow() or self._busy or not self._acts:
            return
        self._busy = True
        try:
            self._acts.pop(0)(dialog)
        except BaseException:
            self.leave()
            while isinstance(opened := QApplication.activeModalWidget(), QDialog):
                opened.done(0)
                QApplication.processEvents()
            raise
        finally:
            self._busy = False


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


def press(widget: QWidget, key: Qt.Key, modifier: Qt.KeyboardModifier | None = None) -> None:
    """Press a key where the focus is within `widget`."""
    target = QApplication.focusWidget() or widget
    QTest.keyClick(target, key, modifier or Qt.KeyboardModifier.NoModifier)


def type_on(words: str) -> None:
    """Type where the focus is, over what stands there."""
    focused = QApplication.focusWidget()
    assert focused is not None
    if isinstance(focused, QLineEdit):
        focused.selectAll()
    QTest.keyClicks(focused, words)


def back(screen: MeetsScreen, qtbot: QtBot, widget: QWidget) -> None:
    """The dialog is closed: the window is active again, and the focus on `widget`."""
    screen.activateWindow()
    qtbot.waitUntil(screen.isActiveWindow)
    widget.setFocus()
    assert QApplication.focusWidget() is not None


def athlete(desk: Desk, name: str, kg: str = "65.6") -> int:
    athlete_id = add_athlete(
        desk,
        AthleteData(
            given_name=name,
            family_name="Ruiz",
            sex=Sex.FEMALE,
            birth_date=date(1996, 5, 4),
            height_cm=168,
            meets_before=2,
        ),
    ).value
    day = desk.today() - timedelta(days=1)
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=day, weight=kilograms(kg))])
    return athlete_id


def enter(desk: Desk, context: Context, meet_id: int, *athlete_ids: int) -> None:
    presenter = MeetsPresenter(desk, context.words)
    presenter.page(meet_id)
    presenter.entering().enter(athlete_ids, "")


def seen(context: Context, qtbot: QtBot) -> MeetsScreen:
    """The screen as it opens."""
    made = MeetsScreen(context)
    qtbot.addWidget(made)
    made.resize(1130, 760)
    with qtbot.waitActive(made):
        made.show()
    qtbot.wait(20)
    return made


@pytest.fixture
def screen(context: Context, qtbot: QtBot, desk: Desk) -> MeetsScreen:
    """The screen with a meet that Ana and Bea are entered to."""
    meet_id = add_meet(desk, MEET).value
    enter(desk, context, meet_id, athlete(desk, "Ana"), athlete(desk, "Bea", "62.5"))
    return seen(context, qtbot)


def entries(desk: Desk) -> list[Entry]:
    with desk.reading() as reader:
        return list(reader.list(Entry))


def squats(desk: Desk, entry_id: int | None = None) -> dict[int, str]:
    wanted = entries(desk)[0].id if entry_id is None else entry_id
    with desk.reading() as reader:
        of_entry = [each for each in reader.list(Attempt) if each.entry_id == wanted]
    found = standing(of_entry, Lift.SQUAT)
    return {number: f"{each.weight.number} {each.weight.unit}" for number, each in found.items()}


def cell(screen: MeetsScreen, number: int, lift: Lift = Lift.SQUAT) -> AttemptCell:
    return screen.entries.panel.grid.cell(lift, number)


def go_to(cell_: AttemptCell) -> None:
    cell_.line.setFocus()


def box(screen: MeetsScreen, key: str) -> QComboBox:
    control = screen.entries.panel.form.field(key).control()
    assert isinstance(control, QComboBox)
    return control


def test_a_meet_is_added_by_keys_and_is_the_one_shown(
    context: Context, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    screen = seen(context, qtbot)
    screen.setFocus()
    sentences: list[str] = []

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        type_on("Harbour & Open <b>")
        press(dialog, Key.Key_Tab)
        type_on("31.2.2027")
        press(dialog, Key.Key_Return)
        sentences.append(dialog.form.sentence_at("starts_on"))
        assert dialog.form.values()["name"] == "Harbour & Open <b>"
        type_on("20.2.2027")
        press(dialog, Key.Key_Return)

    coach.will(fill_in)
    press(screen, Key.Key_N, CONTROL)
    assert coach.done
    assert sentences[0]
    assert screen.page is not None
    assert screen.page.title == "Harbour & Open <b>"
    with desk.reading() as reader:
        (meet,) = reader.list(Meet)
    assert meet.starts_on == date(2027, 2, 20)
    undo(desk)
    screen.reload()
    assert screen.page is None


def test_two_athletes_are_found_ticked_and_entered_by_keys(
    context: Context, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    add_meet(desk, MEET)
    for name in ("Ana", "Bea", "Cleo"):
        athlete(desk, name)
    screen = seen(context, qtbot)

    def tick(dialog: QWidget) -> None:
        assert isinstance(dialog, EnterDialog)
        for name in ("cleo", "ana"):
            dialog.search.setFocus()
            type_on(name)
            assert dialog.list.count() == 1
            press(dialog, Key.Key_Down)
            press(dialog, Key.Key_Space)
        assert dialog.lines.words == (
            "Cleo Ruiz: Three lifts, Classic, Open, 69 class",
            "Ana Ruiz: Three lifts, Classic, Open, 69 class",
        )
        press(dialog, Key.Key_Return)

    coach.will(tick)
    press(screen, Key.Key_T, CONTROL)
    assert coach.done
    qtbot.waitUntil(lambda: len(screen.entries.table.rows) == 2)
    assert [row.athlete for row in screen.entries.table.rows] == ["Ana Ruiz", "Cleo Ruiz"]
    undo(desk)
    assert entries(desk) == []


def test_an_opener_is_kept_by_enter_and_the_table_and_total_follow(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    """100 + 60 + 120, three attempts each: 280 in all."""
    for lift, kg in ((Lift.SQUAT, "100"), (Lift.BENCH, "60"), (Lift.DEADLIFT, "120")):
        for number in (1, 2, 3):
            go_to(cell(screen, number, lift))
            type_on(kg)
    totals = screen.entries.panel.totals.words
    assert totals[1].startswith("Every attempt good: 280 kg, ")  # before the last one is kept
    press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: screen.entries.table.rows[0].total == "280")
    assert squats(desk) == {1: "100 kg", 2: "100 kg", 3: "100 kg"}
    go_to(cell(screen, 3))
    type_on("105")
    assert screen.entries.panel.totals.words[1].startswith("Every attempt good: 285 kg, ")
    assert squats(desk)[3] == "100 kg"
    press(screen, Key.Key_Tab)
    qtbot.waitUntil(lambda: screen.entries.table.rows[0].total == "285")
    undo(desk)
    assert squats(desk)[3] == "100 kg"


def test_an_off_step_weight_stays_with_its_sentence_and_nothing_is_kept(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    """405 lb is 183.70 kg: no step of 2.5 kg."""
    opener = cell(screen, 1)
    go_to(opener)
    type_on("405 lb")
    assert "steps of 2.5 kg" in opener.sentence.text()
    assert "182.5 kg and 185 kg" in opener.sentence.text()
    press(screen, Key.Key_Return)
    go_to(cell(screen, 2))
    type_on("190")
    press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: squats(desk) == {2: "190 kg"})
    qtbot.wait(20)
    assert opener.typed == "405 lb"  # nothing typed is lost when the rest is kept
    assert opener.sentence.text()
    assert screen.has_unsaved()
    go_to(opener)
    type_on("182,5")
    press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: squats(desk) == {1: "182.5 kg", 2: "190 kg"})
    assert not screen.has_unsaved()


def test_escape_puts_back_an_attempt_and_arrows_change_the_lift(
    screen: MeetsScreen, desk: Desk
) -> None:
    opener = cell(screen, 1)
    go_to(opener)
    type_on("180")
    press(screen, Key.Key_Escape)
    assert opener.typed == ""
    press(screen, Key.Key_Down)
    assert cell(screen, 1, Lift.BENCH).line.hasFocus()
    assert squats(desk) == {}


def test_discs_and_both_units_stand_below_what_is_typed(screen: MeetsScreen) -> None:
    opener = cell(screen, 1)
    go_to(opener)
    type_on("182.5")
    assert (
        opener.line.accessibleDescription() == "182.5 kg (402.34 lb) each side: 50, 25, 2.5, 1.25"
    )
    assert opener.line.accessibleName() == "Squat, opener"


def test_the_class_is_changed_by_keys_and_its_verdict_follows_at_once(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    """Ana weighs 65.6 kg: in 69; 63 is 4 % below with 12 weeks left: comfortable."""
    panel = screen.entries.panel
    assert "Where this stands: in the class." in panel.standing.words
    box(screen, "weight_class").setFocus()
    press(screen, Key.Key_Up)  # from 69 to 63
    assert "Way down: comfortable." in panel.standing.words
    assert entries(desk)[0].weight_class == "69"
    press(screen, Key.Key_S, CONTROL)
    assert entries(desk)[0].weight_class == "63"
    qtbot.waitUntil(lambda: screen.entries.table.rows[0].weight_class == "63")
    assert not screen.has_unsaved()
    undo(desk)
    screen.reload()
    assert box(screen, "weight_class").currentText() == "69"


def test_a_field_that_cannot_be_taken_keeps_what_is_typed(screen: MeetsScreen, desk: Desk) -> None:
    form = screen.entries.panel.form
    line = form.field("lot").control()
    line.setFocus()
    type_on("seven")
    press(screen, Key.Key_S, CONTROL)
    assert form.sentence_at("lot")
    assert form.values()["lot"] == "seven"
    assert entries(desk)[0].lot is None
    type_on("7")
    press(screen, Key.Key_S, CONTROL)
    assert entries(desk)[0].lot == 7


def test_an_attempt_kept_while_the_form_is_half_typed_leaves_the_form_alone(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    form = screen.entries.panel.form
    form.field("note").control().setFocus()
    type_on("belt on the last hole")
    go_to(cell(screen, 1))
    type_on("100")
    press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: squats(desk) == {1: "100 kg"})
    qtbot.wait(20)
    assert form.values()["note"] == "belt on the last hole"
    press(screen, Key.Key_S, CONTROL)
    assert entries(desk)[0].note == "belt on the last hole"


def test_going_to_another_entry_asks_about_what_is_typed(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    panel = screen.entries.panel
    first = panel.shown_id

    def half_type() -> None:
        panel.form.field("note").control().setFocus()
        type_on("x")
        screen.entries.table.setFocus()

    half_type()
    coach.will(choose("Go on editing"))
    press(screen, Key.Key_Down)
    assert coach.done
    assert panel.shown_id == first
    assert panel.form.is_dirty()
    back(screen, qtbot, screen.entries.table)
    coach.will(choose("Discard"))
    press(screen, Key.Key_Down)
    assert panel.shown_id != first
    back(screen, qtbot, screen.entries.table)
    press(screen, Key.Key_Up)
    half_type()
    coach.will(choose("Save"))
    press(screen, Key.Key_Down)
    qtbot.wait(20)
    assert [each.note for each in entries(desk)] == ["x", ""]
    assert coach.done


def test_attempts_and_lots_are_typed_into_the_table(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    table = screen.entries.table
    table.setFocus()
    keys = [column.key for column in table.model.columns]

    def type_into(key: str, words: str) -> None:
        row = table.view.currentIndex().row()
        table.view.setCurrentIndex(table.view.model().index(row, keys.index(key)))
        press(screen, Key.Key_Return)
        type_on(words)
        press(screen, Key.Key_Return)

    type_into("squat_1", "221 lb")
    qtbot.waitUntil(lambda: "steps of 2.5 kg" in table.sentence)
    type_into("squat_1", "100")
    qtbot.waitUntil(lambda: squats(desk) == {1: "100 kg"})
    assert table.sentence == ""
    type_into("lot", "9")
    qtbot.waitUntil(lambda: entries(desk)[0].lot == 9)
    qtbot.waitUntil(lambda: cell(screen, 1).typed == "100")


def test_attempts_are_planned_by_keys_for_one_and_for_all(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    """Travis et al. 2021: 91 % of 200 down to a step is 180."""
    form = screen.entries.panel.form
    form.field("expected_squat").control().setFocus()
    type_on("200")
    press(screen, Key.Key_S, CONTROL)
    press(screen, Key.Key_L, CONTROL)
    qtbot.waitUntil(lambda: cell(screen, 1).line.placeholderText() == "plan: 180")
    undo(desk)
    screen.reload()
    assert cell(screen, 1).line.placeholderText() == ""
    QTest.keyClick(QApplication.focusWidget() or screen, Key.Key_L, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: cell(screen, 1).line.placeholderText() == "plan: 180")
    told = screen.context.notices.words  # nothing is known of Bea's lifts
    assert "Bea Ruiz, Squat, Bench press, Deadlift: no plan. No sets" in told


def test_entries_are_deleted_with_words_about_what_goes_along(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    go_to(cell(screen, 1))
    type_on("100")
    press(screen, Key.Key_Return)
    said: list[str] = []

    def read_and_keep(dialog: QWidget) -> None:
        assert isinstance(dialog, QMessageBox)
        said.extend([dialog.text(), dialog.informativeText()])
        press(dialog, Key.Key_Escape)

    coach.will(read_and_keep)
    screen.entries.table.setFocus()
    press(screen, Key.Key_Delete)
    assert said == [
        "Delete the entry of Ana Ruiz?",
        "With it go: 1 attempt. It can be undone.",
    ]
    assert len(entries(desk)) == 2
    back(screen, qtbot, screen.entries.table)
    coach.will(choose("Delete"))
    press(screen, Key.Key_Delete)
    qtbot.waitUntil(lambda: len(screen.entries.table.rows) == 1)
    undo(desk)
    assert len(entries(desk)) == 2


def test_an_entry_is_withdrawn_and_brought_back(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    screen.entries.panel.withdraw()
    qtbot.waitUntil(lambda: screen.entries.table.rows[-1].state == "withdrawn")
    screen.entries.panel.withdraw()
    qtbot.waitUntil(lambda: screen.entries.table.rows[-1].state == "")
    assert not any(each.withdrawn for each in entries(desk))


def test_a_session_with_its_flights_is_added_changed_and_chosen_by_keys(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    sentences: list[str] = []

    def fill_in(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        type_on("Morning")
        press(dialog, Key.Key_Tab)
        type_on("soon")
        press(dialog, Key.Key_Return)
        sentences.append(dialog.form.sentence_at("starts_at"))
        type_on("2027-02-20 9:00")
        dialog.form.field("flights_squat").control().setFocus()
        type_on("A (12), B")
        press(dialog, Key.Key_Return)

    screen.sessions.setFocus()
    coach.will(fill_in)
    screen.sessions.add()
    assert coach.done
    assert sentences[0]
    qtbot.waitUntil(lambda: len(screen.sessions.table.rows) == 1)

    def rename(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        assert dialog.form.values()["flights_squat"] == "A (12), B"
        dialog.form.field("flights_squat").control().setFocus()
        type_on("B, A (12)")
        press(dialog, Key.Key_Return)

    coach.will(rename)
    screen.sessions.edit(screen.sessions.table.current_key())
    assert coach.done
    with desk.reading() as reader:
        flights = [each for each in reader.list(Flight) if each.lift is Lift.SQUAT]
    ordered = sorted(flights, key=lambda each: each.position)
    assert [(each.name, each.lifters) for each in ordered] == [("B", None), ("A", 12)]
    qtbot.wait(20)
    back(screen, qtbot, box(screen, "session_id"))
    press(screen, Key.Key_Down)
    assert [box(screen, "flight_squat").itemText(at) for at in range(3)] == ["–", "B", "A"]
    box(screen, "flight_squat").setFocus()
    press(screen, Key.Key_Down)
    press(screen, Key.Key_S, CONTROL)
    qtbot.waitUntil(lambda: screen.entries.table.rows[0].flights == "Squat B")
    coach.will(choose("Delete"))
    screen.sessions.delete()
    with desk.reading() as reader:
        assert reader.list(Session) == ()
    assert entries(desk)[0].session_id is None


def test_a_meet_is_changed_and_deleted_and_undo_brings_all_of_it_back(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    def change(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        type_on("Harbour Cup")
        press(dialog, Key.Key_Return)

    coach.will(change)
    press(screen, Key.Key_M, CONTROL)
    qtbot.waitUntil(lambda: screen.page is not None and screen.page.title == "Harbour Cup")
    said: list[str] = []

    def read_and_delete(dialog: QWidget) -> None:
        assert isinstance(dialog, QMessageBox)
        said.append(dialog.informativeText())
        choose("Delete")(dialog)

    coach.will(read_and_delete)
    back(screen, qtbot, screen.list.list)
    press(screen, Key.Key_Delete)
    qtbot.waitUntil(lambda: screen.page is None)
    assert said == ["With it go: 2 entries. It can be undone."]
    undo(desk)
    screen.reload()
    assert [row.athlete for row in screen.entries.table.rows] == ["Ana Ruiz", "Bea Ruiz"]


def test_enter_leads_from_the_list_to_the_table_to_the_attempts_and_escape_back(
    screen: MeetsScreen,
) -> None:
    screen.list.list.setFocus()
    press(screen, Key.Key_Return)
    assert screen.entries.table.view.hasFocus()
    press(screen, Key.Key_Return)
    assert cell(screen, 1).line.hasFocus()
    press(screen, Key.Key_Escape)
    assert screen.entries.table.view.hasFocus()
    press(screen, Key.Key_Escape)
    assert screen.list.list.hasFocus()
    press(screen, Key.Key_F, CONTROL)
    assert screen.entries.search.hasFocus()
    type_on("bea")
    assert [row.athlete for row in screen.entries.table.shown_rows()] == ["Bea Ruiz"]


def test_results_are_recorded_where_the_meet_has_begun(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    meet_id = add_meet(desk, replace(MEET, starts_on=date(2026, 11, 25))).value
    enter(desk, context, meet_id, athlete(desk, "Ana"))
    entry_id = entries(desk)[0].id
    record_attempts(
        desk,
        [AttemptData(entry_id=entry_id, lift=Lift.SQUAT, number=1, weight=pounds("220.462"))],
    )
    screen = seen(context, qtbot)
    assert cell(screen, 2).became_row is None
    opener = cell(screen, 1).became_row
    assert opener is not None
    _choose_by_key(screen, opener.result, "n")  # no lift
    qtbot.waitUntil(opener.cause.isVisible)
    _choose_by_key(screen, opener.cause, "d")  # depth

    def kept() -> Attempt:
        with desk.reading() as reader:
            return reader.list(Attempt)[0]

    qtbot.waitUntil(lambda: kept().cause == "squat.depth")
    assert kept().result is Result.NO_LIFT
    qtbot.waitUntil(lambda: screen.entries.table.rows[0].attempts[Lift.SQUAT, 1].role == "bad")


def _choose_by_key(screen: MeetsScreen, field: ChoiceField, key: str) -> None:
    """Choose from a closed box by the first letter, as its own keys do."""
    field.control().setFocus()
    QTest.keyClicks(field.control(), key)
    assert isinstance(field.box, QComboBox)
    field.box.activated.emit(field.box.currentIndex())
    assert screen.isVisible()


def test_a_meet_can_be_gone_to_from_another_screen(
    screen: MeetsScreen, desk: Desk, qtbot: QtBot
) -> None:
    later = add_meet(desk, replace(MEET, name="Later", starts_on=date(2027, 6, 5))).value
    screen.reload()
    screen.show_record(later)
    qtbot.waitUntil(lambda: screen.page is not None and screen.page.title == "Later")


def test_an_empty_list_says_what_to_do_next(context: Context, qtbot: QtBot) -> None:
    screen = seen(context, qtbot)
    assert screen.page is None
    for act in (screen.edit, screen.delete, screen.enter, screen.plan_all, screen.print):
        act()  # nothing to do, and nothing happens
    assert not screen.has_unsaved()


def test_going_to_another_meet_asks_about_what_is_typed_in_the_table_too(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    later = add_meet(desk, replace(MEET, name="Later", starts_on=date(2027, 6, 5))).value
    screen.reload()
    table = screen.entries.table
    table.setFocus()
    keys = [column.key for column in table.model.columns]
    table.view.setCurrentIndex(table.view.model().index(0, keys.index("squat_1")))
    press(screen, Key.Key_Return)
    type_on("heavy")
    press(screen, Key.Key_Return)
    qtbot.waitUntil(lambda: bool(table.sentence))
    assert screen.has_unsaved()
    assert not screen.save_unsaved()
    coach.will(choose("Go on editing"))
    screen.list.select(later)
    assert screen.page is not None
    assert screen.page.title == "Harbour Open"
    coach.will(choose("Discard"))
    screen.list.select(later)
    assert screen.page.title == "Later"
    assert coach.done
    assert not screen.has_unsaved()


def test_what_a_new_rulebook_takes_from_entries_is_said(
    screen: MeetsScreen, qtbot: QtBot, coach: Coach, desk: Desk
) -> None:
    """The traditional set has no 69 kg class for women."""

    def change(dialog: QWidget) -> None:
        assert isinstance(dialog, FormDialog)
        dialog.form.field("rulebook").set_value("traditional_two_hour")
        press(dialog, Key.Key_Return)

    coach.will(change)
    press(screen, Key.Key_M, CONTROL)
    qtbot.waitUntil(lambda: entries(desk)[0].weight_class is None)
    assert "Ana Ruiz: class or division is not in the new rulebook" in screen.context.notices.words


def test_the_plans_are_reached_and_left_by_keys(screen: MeetsScreen, qtbot: QtBot) -> None:
    press(screen, Key.Key_T, CONTROL | SHIFT)
    qtbot.waitUntil(screen.plans.table.view.hasFocus)
    assert [row.athlete for row in screen.plans.table.rows] == ["Ana Ruiz", "Bea Ruiz"]
    press(screen, Key.Key_Return)
    assert screen.plans.turns.view.hasFocus()
    press(screen, Key.Key_Escape)
    assert screen.plans.table.view.hasFocus()
    press(screen, Key.Key_Escape)
    assert screen.list.isAncestorOf(QApplication.focusWidget() or screen)


def test_warm_ups_follow_the_opener_and_say_what_to_do_when_time_is_short(
    screen: MeetsScreen, qtbot: QtBot, desk: Desk
) -> None:
    part = screen.warm_ups
    screen.tabs.setCurrentWidget(part)
    assert not part.table.rows
    assert "opener" in " ".join(part.lines.words).casefold()
    choose_attempt(desk, entries(desk)[0].id, Lift.SQUAT, 1, kilograms(100), seen=None)
    screen.reload()
    sets = [row.weight for row in part.table.rows]
    weights = [float(words.split()[0]) for words in sets]
    assert weights == sorted(weights)
    assert 88 <= weights[-1] <= 93  # common practice: the last single is 88 to 93 % of the opener
    assert sets[-1].split()[1:] == ["×", "1"]
    assert "Short of time" in " ".join(part.lines.words)
    part.athlete.box.setFocus()
    QTest.keyClick(part.athlete.box, Key.Key_Down)
    qtbot.waitUntil(lambda: not part.table.rows)
