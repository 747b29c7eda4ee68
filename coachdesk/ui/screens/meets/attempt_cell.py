"""One attempt: its weight in either unit, both units and the discs below, and why not."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.services.entry_look import AttemptKey
from coachdesk.ui.plain import label, small
from coachdesk.ui.screens.meets.became_row import BecameRow
from coachdesk.ui.screens.meets.entry_presenter import CellLook, ResultLook
from coachdesk.ui.widgets.line import TypingLine
from coachdesk.wording.wording import Wording

_WIDTH = 118
"""The least width of a cell [px]: the discs of a heavy bar fit in two lines."""


class AttemptCell(QWidget):
    """A cell of the attempts grid. It keeps what was typed, whether it can be taken or not."""

    edited = Signal()
    """Something else stands in the field now."""
    left = Signal()
    """Enter was pressed or the focus went on: what is typed wants to be kept."""
    became = Signal()
    """What became of the attempt was chosen."""
    went = Signal(int)
    """The arrow up (-1) or down (1) leads to the lift above or below."""

    def __init__(self, key: AttemptKey, words: Wording) -> None:
        super().__init__()
        self.key = key
        self._words = words
        self._kept = ""
        lift, number = key
        which = words(f"attempt.{number}")
        self._names = {
            "lift": words(f"lift.{lift}"),
            "which": which,
        }
        self.line = _Line()
        self.line.setAccessibleName(words("meets.cell.name", **self._names))
        self._which = small(which)
        self._both = small()
        self._discs = small()
        self.sentence = label(role="bad", wrap=True)
        self.became_row: BecameRow | None = None
        """Made when there is something to record: most entries are of meets to come."""
        self.setMinimumWidth(_WIDTH)
        self._layout = layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self._which)
        layout.addWidget(self.line)
        for widget in (self._both, self._discs, self.sentence):
            layout.addWidget(widget)
        layout.addStretch(1)
        self.line.textEdited.connect(lambda _: self.edited.emit())
        self.line.editingFinished.connect(self.left)
        self.line.put_back.connect(self.put_back)
        self.line.went.connect(self.went)

    @property
    def typed(self) -> str:
        """What stands in the field."""
        return self.line.text().strip()

    @property
    def is_kept(self) -> bool:
        """Whether the field says what is on file."""
        return self.typed == self._kept

    def set_kept(self, words: str, *, drop_draft: bool) -> None:
        """Show what is on file; a draft that could not be taken stays unless it is dropped."""
        stays = not drop_draft and not self.is_kept
        self._kept = words
        if not stays:
            self.line.setText(words)

    def put_back(self) -> None:
        """Let go of what was typed."""
        self.line.setText(self._kept)
        self.edited.emit()

    def show_which(self, *, shown: bool) -> None:
        """Say above the field which attempt it is; the first lift says it for all."""
        self._which.setVisible(shown)

    def show_look(self, look: CellLook) -> None:
        """Show what the weight comes to, or why it cannot be taken."""
        words = self._words
        planned = words("meets.cell.placeholder", weight=look.proposal) if look.proposal else ""
        self.line.setPlaceholderText(planned)
        for shown, said in ((self._both, look.both), (self._discs, look.discs)):
            shown.setText(said)
            shown.setVisible(bool(said))
        self.sentence.setText(look.sentence)
        self.sentence.setVisible(bool(look.sentence))
        if bool(self.line.property("refused")) != bool(look.sentence):
            self.line.setProperty("refused", bool(look.sentence))
            self.line.style().unpolish(self.line)
            self.line.style().polish(self.line)
        self.line.setAccessibleDescription(look.sentence or f"{look.both} {look.discs}")

    def show_result(self, look: ResultLook | None, causes: list[tuple[str, str]]) -> None:
        """Show what became of the attempt; None while there is nothing to record."""
        if look is None:
            if self.became_row is not None:
                self.became_row.hide()
            return
        if self.became_row is None:
            self.became_row = BecameRow(self._words, self._names)
            self.became_row.edited.connect(self.became)
            self._layout.insertWidget(self._layout.count() - 1, self.became_row)
        self.became_row.show_result(look, causes)
        self.became_row.show()


class _Line(TypingLine):
    """Escape puts back what is on file; arrows lead to the lift above or below."""

    put_back = Signal()
    went = Signal(int)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that are not text."""
        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.put_back.emit()
            self.setModified(False)
        elif event.key() in {Qt.Key.Key_Up, Qt.Key.Key_Down}:
            self.went.emit(-1 if event.key() == Qt.Key.Key_Up else 1)
        else:
            super().keyPressEvent(event)
