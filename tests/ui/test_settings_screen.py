"""Settings by keys: choices take effect at once, whatever goes far asks first."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QFileDialog, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.app.wiring import open_desk
from coachdesk.app.words import own_names
from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk
from coachdesk.services.preferences import Preferences
from coachdesk.services.roster import add_athlete
from coachdesk.services.safe_keeping import Occasion, backups_in
from coachdesk.ui.context import Context
from coachdesk.ui.screens.settings import screen as screen_module
from coachdesk.ui.screens.settings.presenter import SettingsPresenter
from coachdesk.ui.screens.settings.screen import SettingsScreen
from coachdesk.wording.wording import Wording

ANA = AthleteData(given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE)
BO = AthleteData(given_name="Bo", family_name="Lind", sex=Sex.MALE)


@dataclass
class Wishes:
    """What the screen asked of the program."""

    preferences: list[Preferences] = field(default_factory=list)
    files: list[Path | None] = field(default_factory=list)


@pytest.fixture
def wishes() -> Wishes:
    return Wishes()


@pytest.fixture
def screen(context: Context, wishes: Wishes, qtbot: QtBot) -> SettingsScreen:
    made = SettingsScreen(
        replace(context, set_preferences=wishes.preferences.append, open_file=wishes.files.append)
    )
    qtbot.addWidget(made)
    made.resize(1000, 720)
    with qtbot.waitActive(made):
        made.show()
    return made


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What message boxes said."""
    said: list[str] = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: said.append(box.text()))
    return said


def answer(monkeypatch: pytest.MonkeyPatch, *, yes: bool) -> list[str]:
    """Answer questions; what was asked."""
    asked: list[str] = []

    def ask(_parent: QWidget, question: str, _yes: str, _no: str, *, more: str = "") -> bool:
        asked.append(f"{question} {more}")
        return yes

    monkeypatch.setattr(screen_module, "ask", ask)
    return asked


def pick(monkeypatch: pytest.MonkeyPatch, file: Path | str) -> None:
    """Pick a file in the system's dialog."""
    for name in ("getOpenFileName", "getSaveFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_, **__: (str(file), ""))


def names(file: Path) -> list[str]:
    with closing(sqlite3.connect(file)) as connection:
        rows = connection.execute("SELECT given_name FROM athlete ORDER BY id").fetchall()
    return [name for (name,) in rows]


def test_choices_are_shown_in_words(desk: Desk, wording: Wording, tmp_path: Path) -> None:
    chosen = Preferences(
        unit=Unit.LB, formula=Formula.DOTS, paper="letter", room="dark", language="en"
    )
    presenter = SettingsPresenter(desk, wording, chosen, tmp_path, own_names())
    assert presenter.values() == {
        "unit": "lb", "formula": "dots", "paper": "letter", "room": "dark", "language": "en",
    }  # fmt: skip
    assert presenter.chosen(presenter.values()) == chosen
    assert presenter.choices("unit") == [("kg", "kilograms"), ("lb", "pounds")]
    assert presenter.choices("paper") == [("a4", "A4"), ("letter", "Letter")]
    assert dict(presenter.choices("formula"))["wilks_2020"] == "Wilks 2020"
    assert len(presenter.choices("room")) == 3
    assert dict(presenter.choices("language"))["en"] == "English"


def test_what_the_screen_does_not_show_stays_chosen(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    chosen = Preferences(data_file="/somewhere/else.db", print_folder="/prints")
    presenter = SettingsPresenter(desk, wording, chosen, tmp_path)
    after = presenter.chosen({**presenter.values(), "unit": "lb"})
    assert (after.data_file, after.print_folder) == ("/somewhere/else.db", "/prints")
    assert after.unit is Unit.LB


def test_a_choice_takes_effect_at_once(
    screen: SettingsScreen, wishes: Wishes, qtbot: QtBot
) -> None:
    unit = screen.form.field("unit").control()
    unit.setFocus()
    qtbot.keyClick(unit, Qt.Key.Key_Down)
    assert [each.unit for each in wishes.preferences] == [Unit.LB]


def test_the_focus_comes_back_to_the_choice_made_last(screen: SettingsScreen, qtbot: QtBot) -> None:
    """The program makes the screens anew when a preference changes."""
    paper = screen.form.field("paper").control()
    qtbot.keyClick(paper, Qt.Key.Key_Down)
    again = SettingsScreen(screen.context)
    qtbot.addWidget(again)
    assert again.focusProxy() is again.form.field("paper").control()
    third = SettingsScreen(screen.context)
    qtbot.addWidget(third)
    assert third.focusProxy() is third.form.field("unit").control()


def test_a_choice_that_cannot_be_kept_goes_back(context: Context, qtbot: QtBot) -> None:
    def refuse(_preferences: Preferences) -> None:
        raise Trouble(text("file.disk_full", file="p.json"))

    screen = SettingsScreen(replace(context, set_preferences=refuse))
    qtbot.addWidget(screen)
    unit = screen.form.field("unit").control()
    assert isinstance(unit, QComboBox)
    qtbot.keyClick(unit, Qt.Key.Key_Down)
    assert "p.json" in context.notices.words
    assert unit.currentData() == "kg"


def test_back_up_now_says_where_and_lists_it(screen: SettingsScreen, qtbot: QtBot) -> None:
    add_athlete(screen.context.desk, ANA)
    assert not screen.restore_button.isEnabled()
    qtbot.keyClick(screen.back_up_button, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(screen.table.rows) == 1)
    (row,) = screen.table.rows
    assert names(row.file) == ["Ana"]
    assert (row.made, row.why) == ("Wed 25 Nov 2026", "backup of the day")
    assert screen.context.notices.words == f"Backed up and verified: {row.file}"
    assert screen.restore_button.isEnabled()


def test_a_backup_is_put_back_and_the_desk_opened_anew(
    screen: SettingsScreen,
    wishes: Wishes,
    told: list[str],
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    context = screen.context
    file = context.desk.store.file
    add_athlete(context.desk, ANA)
    screen.presenter.back_up()
    add_athlete(context.desk, BO)
    screen.reload()
    asked = answer(monkeypatch, yes=True)
    screen.table.setFocus()
    qtbot.keyClick(screen.table.view, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(wishes.files))
    assert asked[0].startswith("Put the backup of Wed 25 Nov 2026 in the place of the data file?")
    assert "The present file is saved first" in asked[0]
    assert wishes.files == [file]
    (saved,) = [
        each for each in backups_in(context.backups) if each.occasion is Occasion.BEFORE_RESTORE
    ]
    assert told == [f"The backup is in place. The file that was there is kept as {saved.file}."]
    assert names(saved.file) == ["Ana", "Bo"]
    again = open_desk(file, context.desk.now)
    with again.reading() as reader:
        assert [athlete.given_name for athlete in reader.list(Athlete)] == ["Ana"]
    again.store.close()


def test_without_a_yes_nothing_is_put_back(
    screen: SettingsScreen, wishes: Wishes, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen.presenter.back_up()
    add_athlete(screen.context.desk, BO)
    screen.reload()
    answer(monkeypatch, yes=False)
    qtbot.keyClick(screen.restore_button, Qt.Key.Key_Space)
    assert not screen.context.runner.is_busy
    assert wishes.files == []
    assert len(backups_in(screen.context.backups)) == 1


def test_a_damaged_backup_is_refused_and_the_desk_stays(
    screen: SettingsScreen, wishes: Wishes, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    add_athlete(screen.context.desk, ANA)
    made = screen.presenter.back_up()
    screen.reload()
    made.write_bytes(b"only words, no database" * 300)
    answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.restore_button, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "is not a coachdesk data file" in screen.context.notices.words)
    assert wishes.files == []
    with screen.context.desk.reading() as reader:
        assert len(reader.list(Athlete)) == 1


def test_another_data_file_is_opened_after_asking(
    screen: SettingsScreen,
    wishes: Wishes,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    other = tmp_path / "other.db"
    open_desk(other).store.close()
    pick(monkeypatch, other)
    asked = answer(monkeypatch, yes=False)
    qtbot.keyClick(screen.open_button, Qt.Key.Key_Space)
    assert asked[0].startswith(f"Go on with {other}?")
    assert wishes.files == []
    answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.open_button, Qt.Key.Key_Space)
    assert wishes.files == [other]


def test_a_file_of_another_kind_is_refused_before_anything_is_asked(
    screen: SettingsScreen,
    wishes: Wishes,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    letter = tmp_path / "letter.db"
    letter.write_text("Dear coach, " * 200, encoding="utf-8")
    pick(monkeypatch, letter)
    asked = answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.open_button, Qt.Key.Key_Space)
    assert asked == []
    assert wishes.files == []
    assert "is not a coachdesk data file" in screen.context.notices.words


def test_a_new_file_gets_its_ending_and_is_asked_for_as_new(
    screen: SettingsScreen,
    wishes: Wishes,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    pick(monkeypatch, tmp_path / "club 2027")
    asked = answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.new_button, Qt.Key.Key_Space)
    assert asked[0].startswith("Make a new, empty data file")
    assert wishes.files == [tmp_path / "club 2027.db"]


def test_a_new_file_over_one_that_is_there_opens_that(
    screen: SettingsScreen,
    wishes: Wishes,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    other = tmp_path / "other.db"
    desk = open_desk(other)
    add_athlete(desk, ANA)
    desk.store.close()
    pick(monkeypatch, other)
    asked = answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.new_button, Qt.Key.Key_Space)
    assert asked[0].startswith("Go on with")
    assert wishes.files == [other]
    assert names(other) == ["Ana"]


def test_leaving_the_file_dialog_changes_nothing(
    screen: SettingsScreen, wishes: Wishes, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    pick(monkeypatch, "")
    asked = answer(monkeypatch, yes=True)
    qtbot.keyClick(screen.open_button, Qt.Key.Key_Space)
    qtbot.keyClick(screen.new_button, Qt.Key.Key_Space)
    assert (asked, wishes.files) == ([], [])


def test_the_way_back_to_the_usual_file_is_offered_where_another_is_open(
    context: Context, wishes: Wishes, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    elsewhere = replace(context.preferences, data_file=str(context.desk.store.file))
    screen = SettingsScreen(replace(context, preferences=elsewhere, open_file=wishes.files.append))
    qtbot.addWidget(screen)
    screen.show()
    answer(monkeypatch, yes=True)
    assert screen.usual_button.isVisible()
    qtbot.keyClick(screen.usual_button, Qt.Key.Key_Space)
    assert wishes.files == [None]


def test_it_says_where_and_how_many_backups_are_kept(screen: SettingsScreen) -> None:
    words = screen.presenter.kept_words()
    assert "the latest 10 days and 12 months" in words
    assert str(screen.context.backups) in words
    assert screen.file.text().startswith(str(screen.context.desk.store.file))
