"""One line to type bodyweight readings into: Enter keeps one, and the next can be typed."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.athletes.profile_values import Values
from coachdesk.ui.plain import button, label, small, tip
from coachdesk.ui.theme import GAP
from coachdesk.ui.weights.vocabulary import dress_choices
from coachdesk.ui.widgets.choice_row import below
from coachdesk.ui.widgets.fields import ChoiceField, DateField, Field, MassField, TimeField
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.wording.wording import Wording

_WIDTHS = {"weight": 84, "on": 104, "at": 64}
"""Room for what is typed [px]."""


class QuickWeight(QWidget):
    """Weight, day, hour and dress side by side; what cannot be taken is said below them."""

    entered = Signal()
    """Enter was pressed: keep what is typed."""

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self.fields: dict[str, Field] = {
            "weight": MassField(),
            "on": DateField(pick=words("roster.pick")),
            "at": TimeField(),
            "dress": ChoiceField(dress_choices(words)),
        }
        for name, width in _WIDTHS.items():
            self.fields[name].control().setFixedWidth(width)
        self._labels = {name: small() for name in self.fields}
        self._clean: Values = {}
        self._sentence = label(role="bad", wrap=True)
        self._sentence.hide()
        self._lay_out()
        self.set_unit("kg")

    def set_unit(self, unit: str) -> None:
        """Say which unit a bare number is taken in."""
        for name, field in self.fields.items():
            code = f"roster.field.weight.{unit}" if name == "weight" else f"roster.field.{name}"
            self._labels[name].setText(self._words(code))
            field.control().setAccessibleName(self._words(code))
        tip(self.fields["weight"].control(), self._words(f"roster.quick.hint.{unit}"))

    def values(self) -> Values:
        """What is typed."""
        return {name: field.value() for name, field in self.fields.items()}

    def begin(self, values: Values) -> None:
        """Begin a new line."""
        for name, field in self.fields.items():
            field.set_value(values[name])
        self._clear()
        self._clean = self.values()

    def has_unsaved(self) -> bool:
        """Whether a weight or an hour is typed and not kept."""
        values = self.values()
        return any(values[name] != self._clean.get(name, "") for name in ("weight", "at"))

    def show_error(self, error: InvalidInput) -> None:
        """Say what cannot be taken, and go to its field."""
        self._clear()
        self._sentence.setText(self._words.say(error.text))
        self._sentence.show()
        field = self.fields.get(error.field)
        if field is not None:
            field.set_refused(refused=True)
            field.control().setAccessibleDescription(self._sentence.text())
            field.control().setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def sentence(self) -> str:
        """Why the line could not be taken; empty when all is well."""
        return self._sentence.text()

    def focus_weight(self) -> None:
        """Go to the weight."""
        self.fields["weight"].control().setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps the line."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.entered.emit()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        flow = FlowLayout(line_gap=GAP // 2)
        for name, field in self.fields.items():
            self._labels[name].setBuddy(field.control())
            self._labels[name].setWordWrap(False)
            flow.addWidget(below(self._labels[name], field))
            field.edited.connect(self._clear)
        flow.addWidget(button(self._words("roster.add"), self.entered.emit, leading=True))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 4)
        layout.addLayout(flow)
        layout.addWidget(self._sentence)

    def _clear(self) -> None:
        if self._sentence.isHidden():
            return
        self._sentence.hide()
        self._sentence.clear()
        for field in self.fields.values():
            field.set_refused(refused=False)
            field.control().setAccessibleDescription("")
