"""Compare as a coach uses it: choices take effect, rows are copied, charts have words."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QComboBox, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Sex
from coachdesk.services.roster import delete_athlete
from coachdesk.ui.context import Context
from coachdesk.ui.screens.compare.presenter import ComparePresenter
from coachdesk.ui.screens.compare.screen import CompareScreen
from coachdesk.ui.widgets.fields import ChoiceField, DateField

if TYPE_CHECKING:
    from tests.conftest import Results

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def club(results: Results) -> dict[str, int]:
    spring = results.meet("Harbour Open", date(2026, 5, 2))
    autumn = results.meet("Autumn Cup", date(2026, 10, 3))
    ana = results.athlete("Ana Ruiz")
    bo = results.athlete("Bo <b>Berg</b>", sex=Sex.MALE)
    results.day(ana, spring, (140, 75, 160), bodyweight="62.4")
    results.day(ana, autumn, (145, 80, 170), bodyweight="62.9")
    results.day(bo, autumn, (200, 130, 220), bodyweight="91.3")
    return {"ana": ana, "bo": bo}


@pytest.fixture
def screen(context: Context, qtbot: QtBot, club: dict[str, int]) -> CompareScreen:
    assert club
    made = CompareScreen(context)
    qtbot.addWidget(made)
    made.resize(1100, 700)
    with qtbot.waitExposed(made):
        made.show()
    return made


def choose(qtbot: QtBot, screen: CompareScreen, key: str, value: str) -> None:
    """Choose with the keys: the arrows, then what Qt sends when a choice was made."""
    field = screen.choices.field(key)
    assert isinstance(field, ChoiceField)
    field.box.setFocus()
    field.box.setCurrentIndex(0)
    for _ in range(field.box.findData(value)):
        qtbot.keyClick(field.box, Qt.Key.Key_Down)
    assert field.value() == value


def names(screen: CompareScreen) -> list[str]:
    return [line.athlete.name for line in screen.table.shown_rows()]


def test_everybody_stands_there_best_first(screen: CompareScreen) -> None:
    assert names(screen) == ["Ana Ruiz", "Bo <b>Berg</b>"]


def test_a_choice_takes_effect_at_once(screen: CompareScreen, qtbot: QtBot) -> None:
    before = screen.table.rows[0].points
    choose(qtbot, screen, "formula", "wilks_2020")
    assert screen.table.rows[0].points != before
    choose(qtbot, screen, "lift", "bench")
    assert screen.table.rows[0].grams == 80_000


def test_kilograms_to_equal_show_when_somebody_is_chosen(
    screen: CompareScreen, club: dict[str, int]
) -> None:
    keys = [column.key for column in screen.table.model.columns]
    at = keys.index("equal_total")
    assert screen.table.view.isColumnHidden(at)
    screen.show_record(club["ana"])
    assert not screen.table.view.isColumnHidden(at)
    bo = next(line for line in screen.table.rows if line.athlete.id == club["bo"])
    assert bo.equal is not None
    screen.show_record(0)
    assert screen.table.view.isColumnHidden(at)


def test_a_date_that_cannot_be_read_is_said_and_the_rows_stay(
    screen: CompareScreen, qtbot: QtBot
) -> None:
    first = screen.choices.field("first")
    assert isinstance(first, DateField)
    with qtbot.waitActive(screen):
        screen.activateWindow()
    first.line.setFocus()
    qtbot.keyClicks(first.line, "2026-06-0")
    qtbot.waitUntil(lambda: bool(screen.choices.sentence))
    assert first.line.hasFocus()
    assert len(names(screen)) == 2
    qtbot.keyClicks(first.line, "1")
    qtbot.waitUntil(lambda: screen.choices.sentence == "")
    assert [line.day is not None and line.day.meet for line in screen.table.rows] == [
        "Autumn Cup",
        "Autumn Cup",
    ]


def test_all_rows_are_copied_with_the_formula_that_scored_them(
    screen: CompareScreen, qtbot: QtBot
) -> None:
    choose(qtbot, screen, "formula", "wilks_1994")
    screen.table.view.selectAll()
    qtbot.keyClick(screen.table.view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().split("\n")
    assert len(lines) == 3
    heads, first = lines[0].split("\t"), lines[1].split("\t")
    row = dict(zip(heads, first, strict=True))
    assert (row["Athlete"], row["Scored by"], row["Total, kg"]) == (
        "Ana Ruiz",
        "Wilks 1994",
        "395",
    )


def test_what_is_typed_in_find_narrows_the_rows(screen: CompareScreen, qtbot: QtBot) -> None:
    with qtbot.waitActive(screen):
        screen.activateWindow()
    qtbot.keyClick(screen, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert screen.search.hasFocus()
    qtbot.keyClicks(screen.search, "berg")
    assert names(screen) == ["Bo <b>Berg</b>"]


def test_a_change_elsewhere_is_shown(
    screen: CompareScreen, context: Context, qtbot: QtBot, club: dict[str, int]
) -> None:
    with context.desk.reading() as reader:
        bo = reader.get(Athlete, club["bo"])
    context.runner.now(lambda: delete_athlete(context.desk, bo))
    qtbot.waitUntil(lambda: names(screen) == ["Ana Ruiz"])


def test_the_charts_are_drawn_and_said_in_words(screen: CompareScreen, qtbot: QtBot) -> None:
    for chart, at in ((screen.points_chart, 1), (screen.shares_chart, 2)):
        screen.tabs.setCurrentIndex(at)
        qtbot.wait(1)
        assert chart.is_drawn
        assert "Ana Ruiz: " in chart.said
    screen.tabs.setCurrentIndex(1)
    choose(qtbot, screen, "lift", "squat")
    assert "Squat" not in screen.points_chart.said
    choose(qtbot, screen, "formula", "ipf_gl")
    assert not screen.points_chart.is_drawn
    assert screen.points_chart.said == "Nobody has points for these choices."


def test_much_on_file_is_compared_in_the_background(
    screen: CompareScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ComparePresenter, "is_slow", lambda _: True)
    choose(qtbot, screen, "formula", "dots")
    choose(qtbot, screen, "lift", "bench")
    choose(qtbot, screen, "lift", "deadlift")
    qtbot.waitUntil(lambda: screen.table.rows[0].grams == 170_000)


def test_every_control_has_a_name(screen: CompareScreen) -> None:
    for kind in (QComboBox, QLineEdit):
        controls: list[QWidget] = screen.findChildren(kind)
        unnamed = [each for each in controls if not each.accessibleName()]
        assert [each for each in unnamed if each.objectName() != "qt_spinbox_lineedit"] == []


def test_pyqtgraph_is_loaded_with_the_first_chart_only() -> None:
    code = (
        "import sys; import coachdesk.ui.screens.compare.screen;"
        "sys.exit(sorted({'pyqtgraph', 'numpy'} & set(sys.modules)) != [])"
    )
    ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False)
    assert ran.returncode == 0
