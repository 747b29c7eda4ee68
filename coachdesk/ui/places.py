"""The list of screens at the window's side: names with icons, or icons alone where it is narrow."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QListWidget

from coachdesk.ui.plain import plain_tip
from coachdesk.ui.screens import SCREENS
from coachdesk.wording.wording import Wording

_ICON_PX = 20
_WIDE, _NARROW = 142, 48
NARROW_BELOW = 1000
"""Widths [px]."""


class Places(QListWidget):
    """The screens, in their order."""

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._names: list[str] = []
        self._is_narrow = False
        self._has_icons = False
        self.setObjectName("places")
        self.setIconSize(QSize(_ICON_PX, _ICON_PX))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.addItems([place.key for place in SCREENS])
        self.speak(words)

    def speak(self, words: Wording) -> None:
        """Name the screens."""
        self._names = [words(f"screen.{place.key}") for place in SCREENS]
        self.setAccessibleName(words("frame.screens"))
        self._lay_out()

    def show_icons(self, icons: Mapping[str, QIcon]) -> None:
        """Put an icon beside each name."""
        for at, place in enumerate(SCREENS):
            self.item(at).setIcon(icons[place.key])
        self._has_icons = True
        self._lay_out()

    def fit(self, window_width: int) -> None:
        """Keep to the icons in a narrow window: what stands beside needs the room."""
        if self._is_narrow != (window_width < NARROW_BELOW):
            self._is_narrow = not self._is_narrow
            self._lay_out()

    def _lay_out(self) -> None:
        icons_alone = self._is_narrow and self._has_icons
        self.setFixedWidth(_NARROW if icons_alone else _WIDE)
        for at, name in enumerate(self._names):
            item = self.item(at)
            item.setText("" if icons_alone else name)
            item.setToolTip(plain_tip(name) if icons_alone else "")
            item.setData(Qt.ItemDataRole.AccessibleTextRole, name)
