"""Another language, chosen on the Settings screen: the whole window at once, and what it prints."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QLocale, Qt, QTranslator
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QDialogButtonBox,
    QMessageBox,
    QTabWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.app.bugs import BugWatch
from coachdesk.app.qt_language import language_of_system
from coachdesk.app.window import Program
from coachdesk.app.words import wording as words_of
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.services.meets import upcoming_meets
from coachdesk.services.preferences import Preferences
from coachdesk.services.print_choice import PrintChoice, no_progress
from coachdesk.ui.guide_dialog import GuideDialog
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.screens.settings.screen import SettingsScreen
from coachdesk.ui.widgets.fields import DateField, NumberField
from coachdesk.wording.wording import Wording
from tests.app.french_paper import check_french
from tests.app.words_seen import left_in_english, shown

pytestmark = pytest.mark.usefixtures("qt_as_it_was", "no_bugs")
SOON = 20_000


@pytest.fixture
def french() -> Wording:
    return words_of("fr")


@pytest.fixture
def qt_as_it_was(qapp: QApplication) -> Iterator[None]:
    """Qt's own language belongs to the whole process."""
    before = QLocale()
    yield
    QLocale.setDefault(before)
    for each in qapp.findChildren(QTranslator):
        QCoreApplication.removeTranslator(each)


@pytest.fixture
def no_bugs(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    found: list[str] = []
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(BugWatch, "_show", lambda _self, words: found.append(words))
    yield
    assert found == []


@pytest.fixture
def program(club_file: Path, tmp_path: Path, wording: Wording, qtbot: QtBot) -> Iterator[Program]:
    """The desk on the invented club, where the system speaks English."""
    shutil.copy(club_file, tmp_path / "club.db")
    made = opened(tmp_path, wording, qtbot)
    yield made
    qtbot.waitUntil(lambda: not made.window.runner.is_busy, timeout=SOON)
    made.window.close()


def opened(folder: Path, of_system: Wording, qtbot: QtBot) -> Program:
    made = Program(of_system, folder, folder / "club.db", demo=False)
    qtbot.addWidget(made.window)
    made.window.resize(1280, 800)
    made.window.show()
    made.open_desk()
    qtbot.waitUntil(lambda: not made.window.runner.is_busy, timeout=SOON)
    return made


def choose(program: Program, language: str, qtbot: QtBot) -> None:
    """Go to the settings and choose a language as a coach does, by keys."""
    program.window.go_to("settings")
    screen = program.window.screen_at("settings")
    assert isinstance(screen, SettingsScreen)
    box = screen.form.field("language").control()
    assert isinstance(box, QComboBox)
    box.setFocus()
    while box.findData(language) != box.currentIndex():
        down = box.findData(language) > box.currentIndex()
        qtbot.keyClick(box, Qt.Key.Key_Down if down else Qt.Key.Key_Up)
        settings = program.window.screen_at("settings")
        assert isinstance(settings, SettingsScreen)
        found = settings.form.field("language").control()
        assert isinstance(found, QComboBox)
        box = found
    qtbot.waitUntil(lambda: not program.window.runner.is_busy, timeout=SOON)


def names(program: Program) -> list[str]:
    places = program.window.places
    return [
        str(places.item(at).data(Qt.ItemDataRole.AccessibleTextRole))
        for at in range(places.count())
    ]


def menus(program: Program) -> list[str]:
    return [each.text() for each in program.window.menuBar().actions()]


def test_the_whole_window_speaks_another_language_at_once_and_back(
    program: Program, wording: Wording, french: Wording, qtbot: QtBot
) -> None:
    for words in (wording, french, wording):
        choose(program, words.catalogue.language, qtbot)
        assert names(program) == [words(f"screen.{place.key}") for place in SCREENS]
        assert words("frame.menu.desk") in menus(program)
        assert program.window.current_key == "settings"
        said = shown(program.window.screen_at("settings"))
        assert words("settings.hint.paper") in said
        program.window.go_to("today")
        assert words("screen.today") in shown(program.window.screen_at("today"))


def test_it_is_kept_over_a_restart(
    program: Program, tmp_path: Path, wording: Wording, french: Wording, qtbot: QtBot
) -> None:
    choose(program, "fr", qtbot)
    program.window.close()
    again = opened(tmp_path, wording, qtbot)
    assert names(again)[0] == french("screen.today")
    choose(again, "system", qtbot)
    assert names(again)[0] == wording("screen.today")
    again.window.close()


def test_what_can_be_undone_is_said_in_the_new_language(
    program: Program, french: Wording, qtbot: QtBot
) -> None:
    before = program.window.taking_back.undo.text()
    choose(program, "fr", qtbot)
    after = program.window.taking_back.undo.text()
    assert after != before
    assert after.startswith(french("frame.undo"))


def test_what_is_typed_is_asked_about_first(
    program: Program, wording: Wording, monkeypatch: pytest.MonkeyPatch
) -> None:
    program.window.go_to("roster")
    roster = program.window.screen_at("roster")
    assert isinstance(roster, RosterScreen)
    monkeypatch.setattr(roster, "has_unsaved", lambda: True)
    asked: list[str] = []

    def stay(box: QMessageBox) -> int:
        asked.append(box.text())
        box.escapeButton().click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", stay)
    program.set_preferences(Preferences(language="fr"))
    assert asked == [wording("frame.unsaved")]
    assert names(program)[0] == wording("screen.today")
    assert program.window.screen_at("roster") is roster
    monkeypatch.setattr(roster, "has_unsaved", lambda: False)


def test_qts_own_buttons_and_calendars_speak_it_too(program: Program, qtbot: QtBot) -> None:
    def cancel() -> str:
        box = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        qtbot.addWidget(box)
        return box.buttons()[0].text().replace("&", "")

    assert cancel() == "Cancel"
    choose(program, "fr", qtbot)
    assert cancel() == "Annuler"
    assert QLocale().dayName(1) == "lundi"
    choose(program, "en", qtbot)
    assert cancel() == "Cancel"
    assert QLocale().dayName(1) == "Monday"


def test_the_guide_opens_in_it(
    program: Program, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened_with: list[str] = []
    monkeypatch.setattr(
        GuideDialog, "exec", lambda dialog: opened_with.append(dialog.page.toPlainText())
    )
    choose(program, "fr", qtbot)
    program.show_guide()
    first = paths.guide("fr", "first_steps").read_text(encoding="utf-8").splitlines()[0]
    assert opened_with[0].startswith(first.lstrip("# "))


def test_a_page_that_a_language_does_not_have_is_shown_in_english() -> None:
    assert paths.guide("xx", "weights") == paths.guide("en", "weights")


def tabs_of(screen: QWidget) -> Iterator[None]:
    """Each tab of a screen in turn, those within tabs too."""
    for tabs in screen.findChildren(QTabWidget):
        for at in range(tabs.count()):
            tabs.setCurrentIndex(at)
            yield
    yield


def test_the_walk_would_find_english(program: Program) -> None:
    for place in SCREENS:
        program.window.go_to(place.key)
        assert left_in_english(shown(program.window.screen_at(place.key))), place.key


def test_no_screen_keeps_english_words(program: Program, qtbot: QtBot) -> None:
    choose(program, "fr", qtbot)
    left: dict[str, list[str]] = {}
    for place in SCREENS:
        program.window.go_to(place.key)
        screen = program.window.screen_at(place.key)
        for _ in tabs_of(screen):
            qtbot.wait(1)
            qtbot.waitUntil(lambda: not program.window.runner.is_busy, timeout=SOON)
            if found := left_in_english(shown(program.window)):
                left[place.key] = found
            assert not screen.has_unsaved(), place.key
    assert left == {}


def test_a_decimal_comma_is_only_how_a_number_is_shown(program: Program, qtbot: QtBot) -> None:
    """What is on file stays as it was: weights, and a class that is named by a number."""
    choose(program, "fr", qtbot)
    field = NumberField()
    qtbot.addWidget(field)
    for given, seen in (("2.5 kg", "2,5 kg"), ("67.5", "67,5"), ("12, 2.5, 1", "12, 2,5, 1")):
        field.set_value(given)
        assert field.line.text() == seen
        assert field.value() == given
    field.line.setText("82,5")
    assert field.value() == "82.5"


def test_a_day_is_typed_as_is_usual_in_the_language(program: Program, qtbot: QtBot) -> None:
    choose(program, "fr", qtbot)
    field = DateField(pick="")
    qtbot.addWidget(field)
    for typed in ("25/11/2026", "25.11.2026", "2026-11-25"):
        field.line.setText(typed)
        assert field.value() == "2026-11-25"


def test_rulebooks_and_templates_are_named_in_it(program: Program, qtbot: QtBot) -> None:
    def named() -> tuple[str, str]:
        desk = program.window.screen_at("settings").context.desk
        template = desk.block_templates.get("base_three_days")
        return desk.rulebooks.get("ipf_2021").name, template.name

    choose(program, "fr", qtbot)
    assert named() == ("IPF, classique et équipé (depuis 2021)", "Base sur trois jours")
    choose(program, "en", qtbot)
    assert named() == ("IPF, classic and equipped (classes since 2021)", "Base on three days")


@pytest.mark.parametrize(
    ("environment", "language"),
    [
        ({"LANG": "fr_FR.UTF-8"}, "fr"),
        ({"LANG": "fr_FR.UTF-8", "LC_MESSAGES": "en_GB.UTF-8"}, "en"),
        ({"LANG": "en_GB.UTF-8", "LC_ALL": "fr_BE.UTF-8"}, "fr"),
        ({"LANG": "xx_XX.UTF-8"}, "en"),
    ],
)
def test_the_system_says_its_language_by_its_environment(
    environment: dict[str, str], language: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    assert language_of_system() == language


def test_trouble_is_said_in_it(program: Program, french: Wording, qtbot: QtBot) -> None:
    trouble = text("file.disk_full", file="club.db")

    def fail() -> None:
        raise Trouble(trouble)

    choose(program, "fr", qtbot)
    program.window.runner.now(fail)
    assert program.window.notices.words == french.say(trouble)


def test_paper_is_printed_in_the_language_of_the_window(
    program: Program, tmp_path: Path, qtbot: QtBot
) -> None:
    choose(program, "fr", qtbot)
    program.window.go_to("meets")
    meets = program.window.screen_at("meets")
    assert isinstance(meets, MeetsScreen)
    meet_id = upcoming_meets(meets.context.desk)[0].id
    printed = meets.context.printing.meet(meet_id, tmp_path, PrintChoice("a4"), no_progress)
    assert printed.failures == ()
    check_french(printed.files)
