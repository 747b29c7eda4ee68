"""Bar as a coach uses it: typing, putting discs on by keys, keeping sets, printing."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QComboBox, QDialog, QFileDialog, QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.contrast import contrast
from coachdesk.domain.disc_look import ink_on, paint_of
from coachdesk.domain.disc_set import DiscSet
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.screens.bar import set_row
from coachdesk.ui.screens.bar.screen import BarScreen
from coachdesk.ui.screens.bar.set_values import joined
from coachdesk.ui.theme import DARK, LIGHT
from coachdesk.ui.widgets.fields import TextField


@pytest.fixture
def screen(context: Context, qtbot: QtBot) -> BarScreen:
    made = BarScreen(context)
    qtbot.addWidget(made)
    made.resize(1000, 700)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def type_weight(qtbot: QtBot, screen: BarScreen, entered: str) -> None:
    screen.load.weight.line.selectAll()
    qtbot.keyClicks(screen.load.weight.line, entered)


def sets(context: Context) -> tuple[DiscSet, ...]:
    with context.desk.reading() as reader:
        return reader.list(DiscSet)


def test_a_weight_is_shown_in_both_units_while_it_is_typed(screen: BarScreen, qtbot: QtBot) -> None:
    """100 kg is 220.46 lb (1 lb is 0.45359237 kg exactly)."""
    type_weight(qtbot, screen, "100")
    assert screen.load.both.text() == "100 kg (220.46 lb)"
    assert screen.load.each_side.text().endswith(": 25, 10, 2.5")
    assert screen.load.weight.value() == "100"
    said = screen.load.drawing.accessibleDescription()
    assert "25 kg red, 10 kg, 2.5 kg" in said


def test_what_cannot_be_loaded_is_said_and_the_bar_stays(screen: BarScreen, qtbot: QtBot) -> None:
    type_weight(qtbot, screen, "100")
    type_weight(qtbot, screen, "1")
    assert "less than the bar" in screen.load.sentence.text()
    assert screen.load.both.text() == "100 kg (220.46 lb)"
    type_weight(qtbot, screen, "101")
    assert screen.load.below.isVisible()
    screen.load.above.click()
    assert screen.shown.total == kilograms("102.5")
    assert screen.load.weight.value() == "102.5 kg"
    assert not screen.load.above.isVisible()


def test_discs_are_put_on_and_taken_off_by_keys(screen: BarScreen, qtbot: QtBot) -> None:
    """25 kg with collars, 25 kg twice on each side: 125 kg."""
    plus = screen.load.discs.plus(1)
    plus.setFocus()
    for key in (Qt.Key.Key_Plus, Qt.Key.Key_Return):
        qtbot.keyClick(plus, key)
    assert screen.shown.total == kilograms(125)
    assert screen.load.weight.value() == "125 kg"
    assert plus.accessibleName().endswith("there are 2")
    qtbot.keyClick(plus, Qt.Key.Key_Minus)
    assert screen.shown.total == kilograms(75)
    screen.load.strip.click()
    assert screen.shown.total == kilograms(25)
    assert not screen.load.strip.isEnabled()


def test_a_click_on_a_disc_takes_it_off(screen: BarScreen, qtbot: QtBot) -> None:
    type_weight(qtbot, screen, "100")
    place = screen.load.drawing.place_of(1)
    qtbot.mouseClick(screen.load.drawing, Qt.MouseButton.LeftButton, pos=place.center().toPoint())
    assert screen.load.each_side.text().endswith(": 25, 2.5")
    assert screen.shown.total == kilograms(80)


def test_the_table_has_the_weights_around_and_enter_loads_one(
    screen: BarScreen, qtbot: QtBot
) -> None:
    type_weight(qtbot, screen, "100")
    table = screen.weights.table
    assert table.current_key() == 100_000
    table.view.setFocus()
    qtbot.keyClick(table.view, Qt.Key.Key_Down)
    qtbot.keyClick(table.view, Qt.Key.Key_Return)
    assert screen.shown.total == kilograms("102.5")
    assert table.current_key() == 102_500
    step = screen.weights.choices.field("step")
    assert isinstance(step, TextField)
    step.line.selectAll()
    qtbot.keyClicks(step.line, "0")
    assert screen.weights.choices.sentence
    step.line.selectAll()
    qtbot.keyClicks(step.line, "5")
    assert screen.weights.choices.sentence == ""
    assert {row.weight.grams % 5000 for row in table.rows} == {0}


def test_a_set_is_kept_chosen_changed_and_deleted(
    screen: BarScreen, context: Context, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    dialog = screen.sets.dialog("bar.set.new.title", {"unit": "lb"}, None)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.form.field("name").set_value("Garage")
    dialog.form.field("bar").set_value("45")
    dialog.form.field("disc_1").set_value(joined("45", "x", "black"))
    dialog.save()
    assert dialog.isVisible()
    assert dialog.form.sentence_at("disc_1")
    assert dialog.form.values()["disc_1"] == joined("45", "x", "black")
    dialog.form.field("disc_1").set_value(joined("45", "2", "black"))
    dialog.save()
    assert not dialog.isVisible()
    screen._choose(f"own:{dialog.answer}")
    assert screen.sets.sets.box.currentText() == "Garage"
    assert screen.shown.total.grams == pounds(45).grams
    assert screen.sets.change.isEnabled()
    assert [each.bar for each in sets(context)] == [pounds(45)]
    monkeypatch.setattr(set_row, "ask", lambda *_, **__: False)
    screen.sets.ask_to_delete()
    assert len(sets(context)) == 1
    monkeypatch.setattr(set_row, "ask", lambda *_, **__: True)
    screen.sets.ask_to_delete()
    qtbot.waitUntil(lambda: not screen.sets.change.isEnabled())
    assert sets(context) == ()
    context.runner.now(lambda: undo(context.desk))
    qtbot.waitUntil(lambda: screen.sets.sets.box.findText("Garage") >= 0)


def test_new_copy_and_change_open_a_filled_form(
    screen: BarScreen, context: Context, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[dict[str, str]] = []

    def leave(dialog: QDialog) -> int:
        opened.append(dialog.form.values())  # type: ignore[attr-defined]
        return 0

    monkeypatch.setattr(QDialog, "exec", leave)
    screen.sets.copy.click()
    screen.sets.new.click()
    screen.sets.change.click()
    assert opened[0]["disc_1"] == joined("50 kg", "", "green")
    assert opened[0]["name"].endswith(", copy")
    assert opened[1]["name"] == ""
    assert len(opened) == 2
    assert sets(context) == ()


def test_the_chart_is_printed_where_the_coach_says(
    screen: BarScreen,
    context: Context,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file = tmp_path / "chart.pdf"
    opened: list[QUrl] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", opened.append)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    qtbot.keyClick(screen, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    printing = context.printing
    qtbot.waitUntil(lambda: bool(opened))
    ((chart, paper, printed),) = printing.charts  # type: ignore[attr-defined]
    assert (paper, printed) == ("a4", file)
    assert chart.rows[-1].weight == kilograms(350)
    assert str(file) in context.notices.words
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    screen.print_chart()
    assert not context.runner.is_busy


def test_an_end_below_the_bar_is_said_at_the_chart(screen: BarScreen) -> None:
    screen.weights.choices.set_values({"last": "10"})
    screen.print_chart()
    assert "less than the bar" in screen.weights.choices.sentence


def test_every_control_has_a_name(screen: BarScreen) -> None:
    for kind in (QComboBox, QLineEdit):
        controls: list[QWidget] = screen.findChildren(kind)
        assert [each for each in controls if not each.accessibleName()] == []
    buttons: list[QPushButton] = screen.findChildren(QPushButton)
    shown = [each for each in buttons if each.isVisible()]
    assert [each for each in shown if not (each.accessibleName() or each.text())] == []
    assert screen.load.drawing.accessibleName()


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_the_numbers_on_discs_stand_out(theme: object) -> None:
    """WCAG 2.2, 1.4.3 (AA): at least 4.5 to 1 for text."""
    room = LIGHT if theme is LIGHT else DARK
    for colour in ("red", "blue", "yellow", "green", "white", "black", "silver", "", "teal"):
        paint = paint_of(colour, room.raised)
        assert contrast(paint, ink_on(paint)) >= 4.5, colour


def test_the_last_set_is_chosen_again(context: Context, screen: BarScreen, qtbot: QtBot) -> None:
    screen._choose("records:ipf_2021")
    again = BarScreen(context)
    qtbot.addWidget(again)
    assert again.presenter.chosen.key == "records:ipf_2021"
    assert again.presenter.chosen.step == kilograms("0.5")
