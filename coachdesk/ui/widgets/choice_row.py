"""Choices in a row, each below its name, with one sentence for what cannot be taken."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.plain import label, small
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.widgets.fields import Field
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.wording.wording import Wording

_REST_MS = 500


class ChoiceRow(QWidget):
    """Fields that take effect at once; narrow windows break the row."""

    edited = Signal()
    """The coach changed a choice."""

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self._fields: dict[str, Field] = {}
        self._flow = FlowLayout(gap=WIDE_GAP, line_gap=GAP // 2)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self.edited)
        self._sentence = label(role="bad", wrap=True)
        self._sentence.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self._flow)
        layout.addWidget(self._sentence)

    def add(self, key: str, label_code: str, field: Field, *, typed: bool = False) -> Field:
        """Add a choice; `key` is the name its value and its errors go by.

        One that is `typed` takes effect when the keys rest: half a date is no date.
        """
        words = self._words(label_code)
        name = small(words)
        name.setWordWrap(False)
        name.setBuddy(field.control())
        field.control().setAccessibleName(words)
        self.add_widget(below(name, field))
        field.edited.connect(self._rest.start if typed else self.edited)
        self._fields[key] = field
        return field

    def add_ticked(self, key: str, field: Field) -> Field:
        """Add a box to tick, which has its words beside it."""
        self.add_widget(field)
        field.edited.connect(self.edited)
        self._fields[key] = field
        return field

    def add_widget(self, widget: QWidget) -> None:
        """Add something else."""
        self._flow.addWidget(widget)

    def field(self, key: str) -> Field:
        """The field of a choice."""
        return self._fields[key]

    def show_choice(self, key: str, *, shown: bool) -> None:
        """Show or hide a choice, its name included."""
        holder = self._fields[key].parentWidget()
        if holder is not None and holder.isHidden() is shown:
            holder.setVisible(shown)
            self._flow.invalidate()

    def values(self) -> dict[str, str]:
        """What is chosen, by key."""
        return {key: field.value() for key, field in self._fields.items()}

    def set_values(self, values: dict[str, str]) -> None:
        """Choose; what is not among `values` stays."""
        for key, value in values.items():
            if key in self._fields:
                self._fields[key].set_value(value)
        self.clear_errors()

    @property
    def sentence(self) -> str:
        """Why something cannot be taken; empty when all is well."""
        return self._sentence.text()

    def show_error(self, error: InvalidInput) -> None:
        """Say why something cannot be taken and mark its field; the focus stays, since choices
        take effect while they are typed."""
        self.clear_errors()
        sentence = self._words.say(error.text)
        self._sentence.setText(sentence)
        self._sentence.show()
        if error.field in self._fields:
            field = self._fields[error.field]
            field.set_refused(refused=True)
            field.control().setAccessibleDescription(sentence)

    def clear_errors(self) -> None:
        """All is well."""
        if self._sentence.isHidden():
            return
        self._sentence.clear()
        self._sentence.hide()
        for field in self._fields.values():
            field.set_refused(refused=False)
            field.control().setAccessibleDescription("")


def below(name: QWidget, field: Field) -> QWidget:
    """A field below its name."""
    both = QWidget()
    layout = QVBoxLayout(both)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(1)
    layout.addWidget(name, 0, Qt.AlignmentFlag.AlignLeft)
    layout.addWidget(field)
    return both
