"""What became of one attempt: good or no lift, how it moved, why it was missed."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from coachdesk.domain.lifting import Result, Seen
from coachdesk.ui.screens.meets.entry_presenter import ResultLook
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.wording.wording import Wording


class BecameRow(QWidget):
    """Three choices side by side, of which those that apply are shown."""

    edited = Signal()
    """Another was chosen."""

    def __init__(self, words: Wording, names: Mapping[str, str]) -> None:
        super().__init__()
        self._words = words
        self._names = names
        self.result = self._choice("meets.cell.result")
        self.moved = self._choice("meets.cell.moved")
        self.cause = self._choice("meets.cell.cause")
        none = ("", words("result.none"))
        self.result.set_choices([none, *((each, words(f"result.{each}")) for each in Result)])
        moved = ("", words("meets.moved.none"))
        self.moved.set_choices([moved, *((each, words(f"seen.{each}")) for each in Seen)])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        for choice in (self.result, self.moved, self.cause):
            layout.addWidget(choice)

    def values(self) -> tuple[str, str, str]:
        """Result, how it moved and cause, as chosen."""
        return self.result.value(), self.moved.value(), self.cause.value()

    def show_result(self, look: ResultLook, causes: list[tuple[str, str]]) -> None:
        """Show what is on file."""
        self.result.set_value(look.result)
        self.moved.setVisible(look.result == Result.GOOD)
        self.moved.set_value(look.moved)
        self.cause.set_choices(causes)
        self.cause.setVisible(look.result == Result.NO_LIFT)
        self.cause.set_value(look.cause)

    def _choice(self, code: str) -> ChoiceField:
        made = ChoiceField()
        made.control().setAccessibleName(self._words(code, **self._names))
        made.control().setMinimumWidth(40)
        made.edited.connect(self.edited)
        return made
