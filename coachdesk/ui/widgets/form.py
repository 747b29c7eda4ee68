"""A form: label, field and hint in a row, and below it the sentence on what cannot be taken."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.plain import heading, label, small, without_mnemonic
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import Field
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class _Row:
    field: Field
    label: QLabel
    sentence: QLabel
    hint: QLabel | None = None


class Form(QWidget):
    """Rows to fill in. What cannot be taken is said at its field, and nothing typed is lost."""

    edited = Signal()
    """The coach changed something."""

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self._rows: dict[str, _Row] = {}
        self._clean: dict[str, str] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(GAP * 2)
        self._grid.setVerticalSpacing(GAP // 2)
        self._grid.setColumnStretch(1, 1)
        self._general = label(role="bad", wrap=True)
        self._general.hide()

    def add(self, key: str, label_code: str, field: Field, hint_code: str = "") -> Field:
        """Add a row. `key` is the name values and errors go by; codes name words."""
        at = self._grid.rowCount()
        words = self._words(label_code)
        name = label(without_mnemonic(words))
        name.setBuddy(field.control())
        name.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        name.setContentsMargins(0, 5, 0, 0)
        name.setText(words)
        field.control().setAccessibleName(words)
        sentence = label(role="bad", wrap=True)
        sentence.hide()
        self._grid.addWidget(name, at, 0)
        self._grid.addWidget(field, at, 1)
        hint = None
        if hint_code:
            hint = small(self._words(hint_code))
            field.control().setAccessibleDescription(hint.text())
            self._grid.addWidget(hint, at + 1, 1)
        self._grid.addWidget(sentence, at + 2, 1)
        field.edited.connect(lambda: self._touched(key))
        self._rows[key] = _Row(field, name, sentence, hint)
        return field

    def add_heading(self, code: str) -> None:
        """Add a heading for the rows below."""
        words = heading(self._words(code))
        words.setContentsMargins(0, GAP, 0, 0)
        self._grid.addWidget(words, self._grid.rowCount(), 0, 1, 2)

    def add_widget(self, widget: QWidget) -> None:
        """Add something across both columns."""
        self._grid.addWidget(widget, self._grid.rowCount(), 0, 1, 2)

    def field(self, key: str) -> Field:
        """The field of a row."""
        return self._rows[key].field

    def show_row(self, key: str, *, shown: bool) -> None:
        """Show or hide a row."""
        row = self._rows[key]
        row.field.setVisible(shown)
        row.label.setVisible(shown)
        if row.hint is not None:
            row.hint.setVisible(shown)

    def values(self) -> dict[str, str]:
        """What is in the fields, by key."""
        return {key: row.field.value() for key, row in self._rows.items()}

    def set_values(self, values: dict[str, str]) -> None:
        """Fill in; what is not among `values` stays. Sentences go, and the form counts as clean."""
        for key, value in values.items():
            if key in self._rows:
                self._rows[key].field.set_value(value)
        self.clear_errors()
        self.mark_clean()

    def is_dirty(self) -> bool:
        """Whether something differs from what was filled in."""
        return self.values() != self._clean

    def mark_clean(self) -> None:
        """What is in the fields now is what is kept."""
        self._clean = self.values()

    def put_back(self) -> None:
        """Fill in what was there before the coach changed it."""
        self.set_values(self._clean)

    def show_error(self, error: InvalidInput) -> None:
        """Say beside its field why it cannot be taken, and go there."""
        self.clear_errors()
        sentence = self._words.say(error.text)
        row = self._rows.get(error.field)
        if row is None:
            self._say_generally(sentence)
            return
        row.sentence.setText(sentence)
        row.sentence.show()
        row.field.set_refused(refused=True)
        row.field.control().setAccessibleDescription(sentence)
        row.field.control().setFocus(Qt.FocusReason.OtherFocusReason)

    def clear_errors(self) -> None:
        """All is well."""
        self._general.hide()
        for row in self._rows.values():
            if not row.sentence.isHidden():
                row.sentence.hide()
                row.sentence.clear()
                row.field.set_refused(refused=False)

    def sentence_at(self, key: str) -> str:
        """What is said at a field; empty when nothing is wrong."""
        return self._rows[key].sentence.text()

    def focus_first(self) -> None:
        """Put the focus on the first field."""
        for row in self._rows.values():
            row.field.control().setFocus(Qt.FocusReason.OtherFocusReason)
            return

    def _touched(self, key: str) -> None:
        row = self._rows[key]
        if not row.sentence.isHidden():
            row.sentence.hide()
            row.sentence.clear()
            row.field.set_refused(refused=False)
        self.edited.emit()

    def _say_generally(self, sentence: str) -> None:
        """A sentence that belongs to no field here."""
        if self._grid.indexOf(self._general) < 0:
            self._grid.addWidget(self._general, self._grid.rowCount(), 0, 1, 2)
        self._general.setText(sentence)
        self._general.show()
