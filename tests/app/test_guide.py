"""The guide tells the truth: its figures are the program's, its sentences hold, and it opens."""

from __future__ import annotations

import re
from itertools import groupby
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.app.window import GUIDE_PAGES, Program
from coachdesk.app.words import ENGLISH
from coachdesk.ui.guide_dialog import GuideDialog
from coachdesk.wording.wording import Wording
from tests.bench.guide_example import Example
from tests.bench.guide_words import LANGUAGES, GuideWords
from tests.bench.simulate_plans import Row, rows
from tests.bench.write_guide import PAGES, blocks_of, filled, page_file, places

STALE = "the page is stale: run python -m tests.bench.write_guide and read it again"
WRITTEN = [
    (language, page)
    for language in LANGUAGES
    for page in PAGES
    if page_file(language, page).is_file()
]


@pytest.fixture(scope="module")
def example() -> dict[str, str]:
    return Example(GuideWords(ENGLISH)).blocks()


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


@pytest.mark.parametrize(("language", "page"), WRITTEN)
def test_every_figure_on_a_page_is_what_the_program_works_out(language: str, page: str) -> None:
    """Computed: the example by the planner, the simulated days by the script anyone can run, the
    limits on weight with their sources."""
    blocks = blocks_of(page, GuideWords(language))
    on_file = page_file(language, page).read_text(encoding="utf-8")
    assert sorted(places(on_file)) == sorted(blocks)
    assert filled(on_file, blocks) == on_file, STALE


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_page_is_there_in_every_language_of_the_guide(language: str) -> None:
    assert [page for page in GUIDE_PAGES if not page_file(language, page).is_file()] == []


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("page", GUIDE_PAGES)
def test_a_page_has_the_sections_of_the_english_one(language: str, page: str) -> None:
    """As many headings, tables and points: nothing was left out in translating."""
    told, english = (
        page_file(each, page).read_text(encoding="utf-8") for each in (language, ENGLISH)
    )
    for mark in ("# ", "## ", "- ", "|"):
        counted = [
            sum(line.startswith(mark) for line in text.splitlines()) for text in (told, english)
        ]
        assert counted[0] == counted[1], (page, mark)


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
    tmp_path: Path, wording: Wording, qtbot: QtBot, qapp: QApplication
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
    attempts = page_file(ENGLISH, "attempts").read_text(encoding="utf-8")
    (title,) = re.findall(r"^# (.+)$", attempts, re.MULTILINE)
    assert shown[0].startswith("First steps")
    assert title in shown[0]
