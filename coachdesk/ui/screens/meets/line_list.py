"""Sentences below each other, each in its role."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from coachdesk.ui.plain import label, set_role, small
from coachdesk.ui.screens.meets.look_words import Line


class LineList(QWidget):
    """Says as many sentences as it is given; its labels are used again."""

    def __init__(self, *, is_small: bool = False) -> None:
        super().__init__()
        self._is_small = is_small
        self._labels: list[QLabel] = []
        self._said: tuple[Line, ...] = ()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        # A stretch rather than an alignment: an aligned layout gets no more height than it asks for
        # in its favourite width, and cuts sentences in a narrower one.
        self._layout.addStretch(1)

    @property
    def words(self) -> tuple[str, ...]:
        """What is said."""
        return tuple(line.words for line in self._said)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Say these sentences."""
        if tuple(lines) == self._said:
            return
        self._said = tuple(lines)
        while len(self._labels) < len(lines):
            self._labels.append(small() if self._is_small else label(wrap=True))
            self._layout.insertWidget(len(self._labels) - 1, self._labels[-1])
        for at, shown in enumerate(self._labels):
            shown.setVisible(at < len(lines))
            if at < len(lines):
                shown.setText(lines[at].words)
                if (shown.property("role") or "") != lines[at].role:
                    set_role(shown, lines[at].role)
