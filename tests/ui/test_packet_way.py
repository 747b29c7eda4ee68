"""From the start to a printed packet for a new athlete, with keys alone and few of them: the walk
as the guide's first steps tell it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.meet import Attempt, Entry
from coachdesk.services.roster import add_athletes
from coachdesk.services.roster_reading import roster
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from tests.ui.keyboard import CONTROL, PLAIN, SHIFT, Key, Keyboard, at_an_empty_desk

MOST_KEYS = 10
"""From an empty desk, beyond the text itself; it took 21 by Roster, Meets and the dialogs."""
MOST_KEYS_WITH_A_MEET = 8
"""Where the meet is on file; it took 17."""


@pytest.fixture
def keys(window: MainWindow, context: Context, qtbot: QtBot, tmp_path: Path) -> Keyboard:
    """A window on an empty desk; what is printed goes to a folder of the test."""
    return at_an_empty_desk(window, context, qtbot, tmp_path / "out")


def new_meet(keys: Keyboard, held: Qt.KeyboardModifier) -> Callable[[], None]:
    """Name and day of a meet."""

    def act() -> None:
        keys.text("Harbour Open")
        keys.press(Key.Key_Tab)
        keys.text("20.2.2027")
        keys.press(Key.Key_Return, held=held)

    return act


def enter_new(keys: Keyboard) -> Callable[[], None]:
    """Type the name of somebody new, say who she is, and have her entered."""

    def who_she_is() -> None:
        keys.text("w")
        keys.press(Key.Key_Tab)
        keys.text("1.3.1999")
        keys.press(Key.Key_Return)

    def act() -> None:
        keys.text("Mara Lindqvist")
        keys.in_dialog(Key.Key_Return, who_she_is, held=PLAIN)

    return act


def openers_and_print(keys: Keyboard) -> None:
    """Her openers, lift by lift, and her packet."""
    keys.text("100")
    keys.press(Key.Key_Down)
    keys.text("60")
    keys.press(Key.Key_Down)
    keys.text("120")
    keys.press(Key.Key_P, held=CONTROL | SHIFT)
    keys.qtbot.waitUntil(lambda: not keys.window.runner.is_busy, timeout=30_000)


def printed(out: Path) -> str:
    """The athlete's own sheet in words."""
    (sheet,) = out.rglob("Mara*athlete's sheet.pdf")
    return " ".join(page.extract_text() for page in PdfReader(sheet).pages)


def test_from_an_empty_desk_to_a_printed_packet(
    keys: Keyboard, context: Context, tmp_path: Path
) -> None:
    keys.control(Key.Key_4)
    keys.in_dialog(Key.Key_N, new_meet(keys, CONTROL), then=[enter_new(keys)])
    openers_and_print(keys)
    assert keys.pressed <= MOST_KEYS, keys.pressed

    (line,) = roster(context.desk)
    assert (line.given_name, line.family_name, line.sex) == ("Mara", "Lindqvist", Sex.FEMALE)
    with context.desk.reading() as reader:
        assert len(reader.list(Entry)) == 1
        assert {attempt.lift for attempt in reader.list(Attempt)} == set(Lift)
    words = printed(tmp_path / "out")
    assert all(weight in words for weight in ("100 kg", "60 kg", "120 kg"))
    assert not list((tmp_path / "out").rglob("*team*"))


def test_somebody_new_for_a_meet_on_file_takes_fewer(keys: Keyboard, tmp_path: Path) -> None:
    keys.control(Key.Key_4)
    keys.in_dialog(Key.Key_N, new_meet(keys, PLAIN))
    keys.control(Key.Key_1)
    keys.pressed = 0
    keys.control(Key.Key_4)
    keys.in_dialog(Key.Key_T, enter_new(keys))
    openers_and_print(keys)
    assert keys.pressed <= MOST_KEYS_WITH_A_MEET, keys.pressed
    assert "Mara Lindqvist" in printed(tmp_path / "out")


def test_who_is_on_the_roster_is_entered_by_a_part_of_her_name(
    keys: Keyboard, context: Context
) -> None:
    born = date(1999, 3, 1)
    mara = AthleteData(given_name="Mara", family_name="Lindqvist", sex=Sex.FEMALE, birth_date=born)
    add_athletes(context.desk, [mara, replace(mara, given_name="Ida")])
    keys.control(Key.Key_4)
    keys.in_dialog(Key.Key_N, new_meet(keys, PLAIN))
    keys.pressed = 0

    def find_her() -> None:
        keys.text("mar")
        keys.press(Key.Key_Return)

    keys.in_dialog(Key.Key_T, find_her)
    assert keys.pressed == 2
    with context.desk.reading() as reader:
        (entry,) = reader.list(Entry)
        assert reader.get(Athlete, entry.athlete_id).given_name == "Mara"
