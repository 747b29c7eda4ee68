"""Entering several athletes at once: found by name, ticked, and shown as they would be entered.
Whoever is not on the roster yet is added on the way."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from coachdesk.domain.errors import InvalidInput
from coachdesk.services.desk import Done
from coachdesk.ui.athletes.person_form import ask_new_athlete
from coachdesk.ui.context import Context
from coachdesk.ui.plain import button, heading, label, small
from coachdesk.ui.screens.meets.enter_presenter import EnterPresenter
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.line import TypingLine

_SIZE = (560, 560)
_LINES_HEIGHT = 110


class EnterDialog(QDialog):
    """Enter enters whom is ticked, the one who is found, or somebody new of the name typed; the
    space bar ticks. `entered` holds the ids of the entries made."""

    def __init__(self, context: Context, presenter: EnterPresenter, parent: QWidget) -> None:
        super().__init__(parent)
        self._context = context
        self._presenter = presenter
        self._ticked: list[int] = []
        self.entered: tuple[int, ...] = ()
        words = context.words
        self.setWindowTitle(words("meets.enter.title"))
        self.search = _Search()
        self.search.setPlaceholderText(words("meets.enter.find"))
        self.search.setAccessibleName(words("meets.enter.find"))
        self.list = QListWidget()
        self.list.setAccessibleName(words("meets.enter.list"))
        self.event_choice = ChoiceField(presenter.event_choices())
        self.event_choice.control().setAccessibleName(words("meets.enter.event"))
        self.lines = LineList()
        self.sentence = label(role="bad", wrap=True)
        self._unknown = label(wrap=True)
        self._new = button(words("meets.enter.new"), self.add_new)
        self._enter = button("", self.accept, leading=True)
        self._lay_out()
        self.search.textChanged.connect(lambda _: self._show_found())
        self.search.list = self.list
        self.list.itemChanged.connect(self._tick)
        self.event_choice.edited.connect(self._show_lines)
        self._show_found()
        self._show_lines()
        self.search.setFocus()
        open_at(self, *_SIZE)

    def accept(self) -> None:
        """Enter whom is ticked; stay where that cannot be."""
        self.sentence.hide()
        ticked, event = list(self._ticked), self.event_choice.value()
        self._context.runner.now(
            lambda: self._presenter.enter(ticked, event),
            then=self._done,
            invalid=self._refuse,
        )

    def add_new(self) -> None:
        """Put somebody new on the roster, by the name typed, and enter whom is ticked by then."""
        words = self._context.words
        name = "" if self.list.count() else self.search.text()
        new_id = ask_new_athlete(
            self._context, self, self._presenter.add, name=name, save_words=words("meets.enter.add")
        )
        if new_id is not None:
            self._ticked.append(new_id)
            self._show_found()
            self._show_lines()
            self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter enters, wherever the focus is."""
        if event.key() not in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            super().keyPressEvent(event)
            return
        found, typed = self.list.count(), self.search.text().strip()
        if self._ticked or not typed or found > 1:
            self.accept()
        elif found:
            self.list.item(0).setCheckState(Qt.CheckState.Checked)
            self.accept()
        else:
            self.add_new()

    def _done(self, done: Done[tuple[int, ...]]) -> None:
        self.entered = done.value
        super().accept()

    def _refuse(self, error: InvalidInput) -> None:
        self.sentence.setText(self._context.words.say(error.text))
        self.sentence.show()

    def _show_found(self) -> None:
        """Show who is found; who is ticked stays ticked, shown or not."""
        self.list.blockSignals(True)
        self.list.clear()
        for row in self._presenter.found(self.search.text()):
            item = QListWidgetItem(row.words)
            item.setData(Qt.ItemDataRole.UserRole, row.id)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            states = Qt.CheckState
            item.setCheckState(states.Checked if row.id in self._ticked else states.Unchecked)
            self.list.addItem(item)
        if self.list.count():
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        typed = self.search.text().strip()
        is_unknown = bool(typed) and not self.list.count()
        self._unknown.setText(self._context.words("meets.enter.unknown", name=typed))
        self._unknown.setVisible(is_unknown)

    def _tick(self, item: QListWidgetItem) -> None:
        athlete_id = item.data(Qt.ItemDataRole.UserRole)
        if item.checkState() is Qt.CheckState.Checked and athlete_id not in self._ticked:
            self._ticked.append(athlete_id)
        elif item.checkState() is Qt.CheckState.Unchecked and athlete_id in self._ticked:
            self._ticked.remove(athlete_id)
        self._show_lines()

    def _show_lines(self) -> None:
        words = self._context.words
        found = self._presenter.lines(self._ticked, self.event_choice.value())
        lines = [Line(line.words, "" if line.can_be else "bad") for line in found]
        self.lines.show_lines(lines or [Line(words("meets.enter.none"), "quiet")])
        self._enter.setText(words("meets.enter.save", count=len(self._ticked)))
        self._enter.setEnabled(bool(self._ticked))
        self.sentence.hide()

    def _lay_out(self) -> None:
        words = self._context.words
        event = QHBoxLayout()
        name = label(words("meets.enter.event"))
        name.setBuddy(self.event_choice.control())
        event.addWidget(name)
        event.addWidget(self.event_choice, 1)
        lines = scrolled(self.lines)
        lines.setFixedHeight(_LINES_HEIGHT)
        buttons = QHBoxLayout()
        buttons.addWidget(self._new)
        buttons.addStretch(1)
        buttons.addWidget(button(words("frame.leave"), self.reject))
        buttons.addWidget(self._enter)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("meets.enter.about")))
        if not self._presenter.found(""):
            layout.addWidget(label(words("meets.enter.no_athletes"), role="warn", wrap=True))
        layout.addWidget(self.search)
        layout.addWidget(self._unknown)
        layout.addWidget(self.list, 1)
        layout.addLayout(event)
        layout.addWidget(heading(words("meets.enter.how")))
        layout.addWidget(lines)
        layout.addWidget(self.sentence)
        layout.addLayout(buttons)


class _Search(TypingLine):
    """The arrow down leads into the list."""

    list: QListWidget | None = None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that are not text."""
        if event.key() == Qt.Key.Key_Down and self.list is not None:
            self.list.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().keyPressEvent(event)
