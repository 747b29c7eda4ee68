"""The guide tells the truth: its figures are the program's, its sentences hold, and it opens."""

from __future__ import annotations

import re
from itertools import groupby
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.app.window import Program
from coachdesk.ui.guide_dialog import GuideDialog
from coachdesk.wording.wording import Wording
from tests.bench.guide_example import Example
from tests.bench.simulate_plans import Row, rows
from tests.bench.write_guide import PAGE, WEIGHTS, filled, places, simulation, weight_limits

STALE = "the page is stale: run python -m tests.bench.write_guide and read it again"


@pytest.fixture(scope="module")
def page() -> str:
    return PAGE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def example(wording: Wording) -> dict[str, str]:
    return Example(wording).blocks()


@pytest.fixture(scope="module")
def simulated() -> dict[str, tuple[Row, ...]]:
    return {name: tuple(found) for name, found in groupby(rows(), key=lambda row: row.athlete)}


def _cells(block: str) -> list[list[str]]:
    """A table's rows without its head."""
    return [
        [cell.strip() for cell in line.strip("|").split("|")] for line in block.splitlines()[2:]
    ]


def _figure(cell: str) -> float:
    found = re.match(r"[\d.]+", cell)
    assert found is not None
    return float(found.group())


def test_every_figure_on_the_page_is_what_the_program_works_out(
    page: str, example: dict[str, str]
) -> None:
    """Computed: the example by the planner, the simulated days by the script anyone can run."""
    blocks = {**example, **simulation()}
    assert sorted(places(page)) == sorted(blocks)
    assert filled(page, blocks) == page, STALE


def test_every_limit_on_weight_stands_on_the_page_with_its_source() -> None:
    page = WEIGHTS.read_text(encoding="utf-8")
    assert places(page) == ["weight limits"]
    assert filled(page, weight_limits()) == page, STALE


def test_a_heavier_opener_raises_the_expected_total_and_costs_on_the_whole(
    example: dict[str, str],
) -> None:
    """What the page says of its table."""
    table = _cells(example["overruled"])
    totals, none, on_the_whole = ([_figure(row[column]) for row in table] for column in (2, 3, 5))
    assert totals == sorted(totals)
    assert none == sorted(none)
    assert on_the_whole == sorted(on_the_whole, reverse=True)


def test_what_the_page_says_of_simulated_days(simulated: dict[str, tuple[Row, ...]]) -> None:
    ahead = {}
    for name, (believed, too_high, too_low, wider, careless) in simulated.items():
        none = [row.figures[0].none for row in (believed, too_high, too_low, wider, careless)]
        assert too_high.figures[0].none > 2 * believed.figures[0].none
        assert too_low.figures[0].none <= believed.figures[0].none
        assert max(none) == wider.figures[0].none
        ahead[name] = believed.figures[0].utility_kg - max(
            each.utility_kg for each in believed.figures[1:]
        )
    assert ahead["first-timer"] > 3.0
    assert 0.5 < ahead["experienced"] < 1.5
    cautious = [row.figures[0].none / row.figures[2].none for row in simulated["experienced"]]
    assert all(0.5 < each < 1.5 for each in cautious)


def test_the_key_opens_the_guide_without_a_desk(
    tmp_path: Path, wording: Wording, qtbot: QtBot, qapp: QApplication, page: str
) -> None:
    program = Program(wording, tmp_path, tmp_path / "club.db", demo=False)
    qtbot.addWidget(program.window)
    with qtbot.waitActive(program.window):
        program.window.show()
        program.window.activateWindow()
    shown: list[str] = []

    def look() -> None:
        dialog = qapp.activeModalWidget()
        assert isinstance(dialog, GuideDialog)
        shown.append(dialog.page.toPlainText())
        dialog.reject()

    QTimer.singleShot(0, look)
    qtbot.keyClick(program.window, Qt.Key.Key_F1, Qt.KeyboardModifier.ControlModifier)
    (title,) = re.findall(r"^# (.+)$", page, re.MULTILINE)
    assert shown[0].startswith("First steps")
    assert title in shown[0]
