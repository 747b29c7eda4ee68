"""Choices in a row: they break where the room ends, and say what cannot be taken."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField, MassField
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.wording.wording import Wording


def test_a_line_breaks_where_the_room_ends(qtbot: QtBot) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = FlowLayout(holder, gap=10, line_gap=4)
    labels = [QLabel(holder) for _ in range(4)]
    for each in labels:
        each.setFixedSize(100, 20)
        flow.addWidget(each)
    assert flow.heightForWidth(430) == 20
    assert flow.heightForWidth(429) == 44
    assert flow.heightForWidth(100) == 4 * 20 + 3 * 4
    labels[0].hide()
    assert flow.heightForWidth(320) == 20
    holder.resize(215, 200)
    holder.show()
    assert [(each.x(), each.y()) for each in labels[1:]] == [(0, 0), (110, 0), (0, 24)]


def test_what_cannot_be_taken_is_said_once_and_forgotten(qtbot: QtBot, wording: Wording) -> None:
    row = ChoiceRow(wording)
    qtbot.addWidget(row)
    field = MassField()
    row.add("weight", "bar.weight", field)
    assert field.line.accessibleName() == wording("bar.weight")
    row.show_error(InvalidInput("weight", text("typed.mass")))
    assert row.sentence == wording("typed.mass")
    assert field.line.property("refused") is True
    row.clear_errors()
    assert row.sentence == ""
    assert field.line.property("refused") is False
    row.show_error(InvalidInput("elsewhere", text("typed.mass")))
    assert row.sentence
    row.set_values({"weight": "5", "unknown": "x"})
    assert (row.values(), row.sentence) == ({"weight": "5"}, "")


def test_what_is_typed_takes_effect_when_the_keys_rest(qtbot: QtBot, wording: Wording) -> None:
    row = ChoiceRow(wording)
    qtbot.addWidget(row)
    field = MassField()
    row.add("weight", "bar.weight", field, typed=True)
    row.add("set", "bar.set", ChoiceField([("a", "A"), ("b", "B")]))
    told: list[dict[str, str]] = []
    row.edited.connect(lambda: told.append(row.values()))
    qtbot.keyClicks(field.line, "100")
    assert told == []
    qtbot.waitUntil(lambda: told == [{"weight": "100", "set": "a"}])
