"""The bodyweight section's chart, weeks, odd readings and cycle notes, by keys and mouse."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit, kilograms
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.services.cycle_notes import cycle_notes
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.ui.context import Context
from coachdesk.ui.screens.roster.cycle_notes_dialog import CycleNotesDialog
from coachdesk.ui.screens.roster.readings_part import ReadingsPart
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.theme import DARK
from tests.domain.bodyweights import noisy

Key = Qt.Key
TODAY = date(2026, 11, 25)
ROOT = Path(__file__).resolve().parents[2]


def lifter(desk: Desk, *, unit: Unit = Unit.KG, sex: Sex = Sex.FEMALE, days: int = 120) -> int:
    """An athlete with a reading each day, the last but two an odd one."""
    ana = add_athlete(
        desk,
        AthleteData(
            given_name="Ana",
            family_name="Ruiz",
            sex=sex,
            unit=unit,
            birth_date=date(1996, 5, 4),
            height_cm=168,
            meets_before=2,
        ),
    ).value
    weights = noisy(days, start_kg=66.0)
    if days > 2:
        weights[-3] = 73.5
    add_readings(
        desk,
        [
            ReadingData(
                athlete_id=ana,
                on=TODAY - timedelta(days=days - 1 - at),
                weight=kilograms(str(kg)),
            )
            for at, kg in enumerate(weights)
        ],
    )
    return ana


def enter(desk: Desk, athlete_id: int) -> None:
    """An entry to the 63 class in ten weeks, with a way down agreed on today."""
    on = TODAY + timedelta(weeks=10)
    meet = add_meet(
        desk,
        MeetData(name="Cup", starts_on=on, rulebook="ipf_2021", time_zone="Europe/Berlin"),
    ).value
    entry = enter_athlete(
        desk,
        EntryData(
            athlete_id=athlete_id,
            meet_id=meet,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            weight_class="63",
        ),
    ).value
    with desk.action(text("did.edit_entry", name="Ana")) as work:
        work.insert(
            WeightPlanData(
                entry_id=entry,
                agreed_on=TODAY,
                from_weight=kilograms("66"),
                to_weight=kilograms("63"),
                weight_class="63",
                arrive_on=on - timedelta(weeks=1),
            )
        )


@pytest.fixture
def show(context: Context, qtbot: QtBot) -> Callable[[], ReadingsPart]:
    """Shows the first athlete's bodyweight section."""

    def shown() -> ReadingsPart:
        screen = RosterScreen(context)
        qtbot.addWidget(screen)
        screen.resize(1200, 760)
        with qtbot.waitActive(screen):
            screen.show()
        screen.side.go_to("readings")
        part = screen.side.part("readings")
        assert isinstance(part, ReadingsPart)
        qtbot.waitUntil(lambda: part.detail is not None)
        return part

    return shown


def draw(part: ReadingsPart, qtbot: QtBot) -> None:
    """Go to the chart by keys and wait until it is drawn."""
    part.views.setFocus()
    QTest.keyClick(part.views, Key.Key_Right)
    assert part.views.currentIndex() == 1
    chart = part.chart.chart
    qtbot.waitUntil(lambda: bool(chart.said))
    chart.setFocus()


def test_arrow_keys_read_out_a_days_figures(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, lifter(desk))
    part = show()
    draw(part, qtbot)
    chart = part.chart.chart
    assert "arrow keys" in chart.said
    QTest.keyClick(chart, Key.Key_Left)
    assert chart.day == TODAY
    assert chart.said.startswith("Wed 25 Nov 2026: reading ")
    for each in ("trend ", "plan 66 kg", " above class 63."):
        assert each in chart.said
    QTest.keyClick(chart, Key.Key_Left)
    QTest.keyClick(chart, Key.Key_Left)
    assert "reading 73.5 kg, an odd one" in chart.said
    QTest.keyClick(chart, Key.Key_PageDown)
    assert chart.day == date(2026, 11, 30)
    assert "likely between " in chart.said
    assert "reading" not in chart.said
    QTest.keyClick(chart, Key.Key_End)
    assert chart.day == TODAY + timedelta(weeks=10)
    assert "plan 63 kg" in chart.said
    QTest.keyClick(chart, Key.Key_Right)
    assert chart.day == TODAY + timedelta(weeks=10)
    QTest.keyClick(chart, Key.Key_Home)
    assert chart.day == TODAY - timedelta(days=91)
    assert chart.accessibleDescription() == chart.said


def test_the_mouse_reads_out_the_day_below_it(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    lifter(desk)
    part = show()
    draw(part, qtbot)
    chart = part.chart.chart
    days: list[date] = []
    for x in (chart.width() // 3, chart.width() - 40):
        qtbot.mouseMove(chart, QPoint(x, 60))
        qtbot.waitUntil(lambda: chart.day not in {None, *days})
        assert chart.day is not None
        days.append(chart.day)
        assert "trend" in chart.said
    assert days[0] < days[1] <= TODAY


def _has_widths(part: ReadingsPart) -> bool:
    return part.table.view.widths_are_set


def test_the_columns_stand_in_their_order_each_time(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    """What is odd stands beside the weight, and stays there when widths are remembered."""
    lifter(desk)
    for _ in range(3):
        part = show()
        qtbot.waitUntil(partial(_has_widths, part))
        header = part.table.view.horizontalHeader()
        order = [header.logicalIndex(at) for at in range(header.count())]
        heads = [part.table.model.columns[at].head for at in order]
        assert heads == ["Day", "Weight, kg", "Odd", "Hour", "Worn", "Scale", "Note"]
        part.table.remember_columns()


def test_the_weeks_open_at_the_current_one(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    """Those to come stand above it, with a meet ahead more than there is room for."""
    enter(desk, lifter(desk))
    part = show()
    part.go_to("weeks")
    view = part.chart.weeks.view
    qtbot.waitUntil(lambda: view.currentIndex().data() == "23 Nov 2026")
    row = view.currentIndex().row()
    assert row > 2
    qtbot.waitUntil(
        lambda: all(
            view.viewport().rect().contains(view.visualRect(view.model().index(at, 0)))
            for at in (row - 1, row, row + 1)
        )
    )


def test_how_it_stands_is_said_in_a_sentence(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, lifter(desk))
    part = show()
    draw(part, qtbot)
    said = part.chart.present.text()
    assert said.startswith("The trend stands at 6")
    assert "No clear way up or down" in said
    assert "Last reading: " in said
    assert "At the weigh-in of Cup on 3 Feb 2027 the scale is likely to show between 6" in said


def test_a_pound_thinkers_figures_are_in_pounds(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, lifter(desk, unit=Unit.LB))
    part = show()
    draw(part, qtbot)
    QTest.keyClick(part.chart.chart, Key.Key_Right)
    assert "plan 145.5 lb" in part.chart.chart.said
    assert " kg" not in part.chart.chart.said + part.chart.present.text()


def test_the_same_stands_week_by_week_in_a_table(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, lifter(desk))
    part = show()
    draw(part, qtbot)
    part.go_to("weeks")
    part.begin()
    assert QApplication.focusWidget() is part.chart.weeks.view
    now = part.chart.weeks.current_row()
    assert now is not None
    assert now.begins == date(2026, 11, 23)
    assert now.readings.endswith("(3), 1 odd")
    assert (now.plan, now.gap[-8:]) == ("66", "class 63")
    rows = part.chart.weeks.rows
    assert rows[0].begins == date(2027, 2, 1)
    assert rows[0].trend.startswith("likely ")
    assert rows[0].plan == "63"
    assert rows[-1].plan == ""
    QTest.keyClick(part.chart.weeks.view, Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    copied = QGuiApplication.clipboard().text().splitlines()
    assert copied[0] == "Week from\tReadings, kg\tTrend, kg\tPlan, kg\tClass"


def test_the_span_is_chosen(show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk) -> None:
    lifter(desk)
    part = show()
    assert part.span.isHidden()
    draw(part, qtbot)
    assert not part.span.isHidden()
    part.span.box.setFocus()
    QTest.keyClick(part.span.box, Key.Key_End)
    part.span.box.activated.emit(part.span.box.currentIndex())
    QTest.keyClick(part.chart.chart, Key.Key_Home)
    assert part.chart.chart.day == TODAY - timedelta(days=119)


def test_odd_readings_are_marked_with_why(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    lifter(desk)
    part = show()
    column = next(at for at, each in enumerate(part.table.model.columns) if each.key == "odd")

    def cell(row: int, role: Qt.ItemDataRole = Qt.ItemDataRole.DisplayRole) -> object:
        return part.table.view.model().index(row, column).data(role)

    qtbot.waitUntil(lambda: cell(2) == "odd")
    assert [cell(row) for row in (0, 1, 3)] == ["", "", ""]
    why = "far off what the other days lead to expect (about 66"
    assert str(cell(2, Qt.ItemDataRole.AccessibleDescriptionRole)).startswith(why)
    assert part.why == "Odd: far off what the other days lead to expect; kept, and counted less."
    part.table.view.selectRow(2)
    assert part.why.startswith(f"73.5 kg on 23 Nov 2026: {why}")
    assert part.why.endswith("; kept, and counted less.")


def test_without_a_reading_it_says_what_to_do(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    lifter(desk, days=0)
    part = show()
    part.go_to("chart")
    qtbot.waitUntil(lambda: "Enter one" in part.chart.state)
    part.go_to("readings")
    part.begin()
    field = part.quick.fields["weight"].control()
    assert QApplication.focusWidget() is field
    QTest.keyClicks(field, "66")
    QTest.keyClick(field, Key.Key_Return)
    qtbot.waitUntil(lambda: part.chart.state == "")
    draw(part, qtbot)
    QTest.keyClick(part.chart.chart, Key.Key_Left)
    assert "reading 66 kg" in part.chart.chart.said


def test_it_is_drawn_in_a_dark_room(context: Context, qtbot: QtBot, desk: Desk) -> None:
    enter(desk, lifter(desk))
    screen = RosterScreen(replace(context, theme=DARK))
    qtbot.addWidget(screen)
    with qtbot.waitActive(screen):
        screen.show()
    screen.side.go_to("readings")
    part = screen.side.part("readings")
    assert isinstance(part, ReadingsPart)
    draw(part, qtbot)
    chart = part.chart.chart
    qtbot.waitUntil(lambda: chart.grab().toImage().pixelColor(3, 3).name() == DARK.panel)


def _in_dialog(act: Callable[[CycleNotesDialog], object]) -> None:
    """Does something in the dialog that is about to open, and closes it."""

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, CycleNotesDialog):
            QTimer.singleShot(5, look)
            return
        try:
            act(dialog)
        finally:
            dialog.form.mark_clean()
            dialog.done(QDialog.DialogCode.Rejected)

    QTimer.singleShot(5, look)


def _type(dialog: CycleNotesDialog, first: str, last: str) -> None:
    for name, words in (("first", first), ("last", last)):
        line = dialog.form.field(name).control()
        line.setFocus()
        dialog.form.field(name).set_value("")
        QTest.keyClicks(line, words)
    QTest.keyClick(dialog.form.field("last").control(), Key.Key_Return)


def _button(parent: QWidget, words: str) -> QAbstractButton:
    return next(each for each in parent.findChildren(QAbstractButton) if each.text() == words)


def test_cycle_notes_are_added_by_keys_and_refused_beside_their_field(
    show: Callable[[], ReadingsPart], desk: Desk
) -> None:
    ana = lifter(desk)
    part = show()

    def act(dialog: CycleNotesDialog) -> None:
        _type(dialog, "2026-11-09", "2026-11-08")
        assert "before the first" in dialog.form.sentence_at("last")
        _type(dialog, "2026-11-09", "2026-11-29")
        assert "at most 14 days" in dialog.form.sentence_at("last")
        assert dialog.form.values()["first"] == "2026-11-09"
        _type(dialog, "", "2026-11-12")
        assert dialog.form.sentence_at("first")
        assert cycle_notes(desk, ana) == ()
        _type(dialog, "9.11.2026", "13.11.2026")
        assert [note.last for note in dialog.table.rows] == [date(2026, 11, 13)]
        assert dialog.form.values() == {"first": "", "last": ""}

    _in_dialog(act)
    _button(part, "Cycle notes …").click()
    (note,) = cycle_notes(desk, ana)
    assert (note.first, note.last) == (date(2026, 11, 9), date(2026, 11, 13))


def test_cycle_notes_are_deleted_after_asking(
    show: Callable[[], ReadingsPart], desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    ana = lifter(desk)
    part = show()
    assert part.detail is not None
    part.detail.cycle_notes.add({"first": "2026-11-09", "last": ""})
    asked: list[str] = []

    def yes(_: QWidget, question: str, *_words: str, **_more: str) -> bool:
        asked.append(question)
        return True

    monkeypatch.setattr("coachdesk.ui.screens.roster.cycle_notes_dialog.ask", yes)

    def act(dialog: CycleNotesDialog) -> None:
        dialog.table.view.selectRow(0)
        QTest.keyClick(dialog.table.view, Key.Key_Delete)

    _in_dialog(act)
    part.show_cycle_notes()
    assert asked == ["Delete this cycle note?"]
    assert cycle_notes(desk, ana) == ()


def test_notes_are_offered_where_they_can_be_expected_or_are_kept(
    show: Callable[[], ReadingsPart], qtbot: QtBot, desk: Desk
) -> None:
    lifter(desk, sex=Sex.MALE)
    part = show()
    offered = _button(part, "Cycle notes …")
    qtbot.waitUntil(lambda: bool(part.table.rows))
    assert offered.isHidden()
    assert part.detail is not None
    detail = part.detail
    part.context.runner.now(lambda: detail.cycle_notes.add({"first": "2026-11-09", "last": ""}))
    qtbot.waitUntil(lambda: not offered.isHidden())


def test_the_library_is_loaded_for_the_chart_alone() -> None:
    script = """
import sys
from coachdesk.ui.screens.roster import screen
assert "pyqtgraph" not in sys.modules
"""
    subprocess.run([sys.executable, "-c", script], check=True, cwd=ROOT)
