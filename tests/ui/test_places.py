"""The list of screens gives way in a narrow window and still says what each icon is."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.ui.icons import icon
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.places import NARROW_BELOW
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.theme import LIGHT
from coachdesk.wording.wording import Wording


def test_a_narrow_window_keeps_icons_with_their_names(
    window: MainWindow, wording: Wording, qtbot: QtBot
) -> None:
    places = window.places
    window.resize(NARROW_BELOW + 100, 700)
    with qtbot.waitExposed(window):
        window.show()
    wide = places.width()
    window.resize(NARROW_BELOW - 100, 600)
    assert places.width() == wide  # without icons names are all there is
    folder = paths.resources() / "icons"
    places.show_icons({place.key: icon(folder, place.key, LIGHT) for place in SCREENS})
    assert places.width() < wide / 2
    for at, place in enumerate(SCREENS):
        item = places.item(at)
        assert item.text() == ""
        assert wording(f"screen.{place.key}") in item.toolTip()
        assert item.data(Qt.ItemDataRole.AccessibleTextRole) == wording(f"screen.{place.key}")
    told = QAccessible.queryAccessibleInterface(places)
    assert told is not None
    child = told.child(0)
    assert child is not None
    assert child.text(QAccessible.Text.Name) == wording(f"screen.{SCREENS[0].key}")
    window.resize(NARROW_BELOW + 100, 700)
    assert places.width() == wide
    assert [places.item(at).text() for at in range(places.count())] == [
        wording(f"screen.{place.key}") for place in SCREENS
    ]
