"""The entry chosen: its attempts, what they come to, and its form."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.services.entry_look import AttemptKey
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, button, heading, small, tip
from coachdesk.ui.screens.meets.attempts_grid import AttemptsGrid
from coachdesk.ui.screens.meets.entry_form import EntryForm
from coachdesk.ui.screens.meets.entry_presenter import EntryPresenter
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.widgets.elided import NameHeading
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.more_button import more_button

_SIDE_BY_SIDE = 800
"""From this width [px] on the form stands beside the attempts, below them otherwise."""


class EntryPanel(QWidget):
    """Edits one entry. Attempts are kept one by one, the form as a whole."""

    delete_asked = Signal()
    print_asked = Signal()
    """The sheets of the entry shown are wanted."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._context = context
        self._words = context.words
        self._presenter: EntryPresenter | None = None
        self._seen: EntryPresenter | None = None
        self.grid = AttemptsGrid(context)
        self.form = EntryForm(context.words)
        self.totals = LineList()
        self.standing = LineList()
        self.points = LineList()
        self._name = NameHeading()
        self._unsaved = small(context.words("meets.entry.unsaved"), role="warn")
        self._attempts_head = heading()
        self._lay_out()
        self._connect()
        self.show_entry(None)

    @property
    def shown_id(self) -> int | None:
        """The id of the entry shown."""
        return None if self._presenter is None else self._presenter.id

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return self._presenter is not None and (self.form.is_dirty() or self.grid.has_drafts)

    def show_entry(self, presenter: EntryPresenter | None) -> None:
        """Show an entry as it is on file; of the one shown already, what is typed stays."""
        stays = presenter is not None and presenter.id == self.shown_id
        self._presenter = presenter
        self._nothing.setVisible(presenter is None)
        self._body.setVisible(presenter is not None)
        if presenter is None:
            self._seen = None
            return
        if not stays or not self.form.is_dirty():
            self._fill_form(presenter)
        elif self._seen is not None and presenter.values() == self._seen.values():
            self._seen = presenter
        self.grid.show_entry(presenter, drop_drafts=not stays)
        self._name.setText(presenter.title)
        self._ahead.setVisible(not presenter.is_over)
        self._attempts_head.setText(self._words("meets.section.attempts", unit=presenter.unit))
        code = "meets.entry.reinstate" if presenter.is_withdrawn else "meets.entry.withdraw"
        self._withdraw.setText(self._words(code))
        self.look()

    def look(self) -> None:
        """Show what is typed comes to."""
        presenter = self._presenter
        if presenter is None:
            return
        self.form.offer(presenter.choices(self.form.values()))
        values = self.form.values()
        look = presenter.look(values, self.grid.typed())
        lifts = presenter.lifts_of(values)
        self.form.show_lifts(lifts)
        self.grid.show_lifts(lifts)
        self.grid.show_look(look)
        self.totals.show_lines(look.totals)
        self.standing.show_lines(look.standing)
        nothing = (Line(self._words("meets.nothing_open"), "good"),)
        self.points.show_lines(tuple(Line(point) for point in look.points) or nothing)
        self._show_unsaved()

    def save(self) -> bool:
        """Keep the form; answers whether it could be."""
        seen = self._seen
        if seen is None or not self.form.is_dirty():
            return not self.grid.has_drafts
        return self._context.runner.now(
            lambda: seen.save(self.form.values()), then=self._saved, invalid=self.form.show_error
        )

    def put_back(self) -> None:
        """Let go of what is typed: show what is on file."""
        self.grid.put_back()
        if self._presenter is not None:
            self._fill_form(self._presenter)
            self.look()

    def plan(self) -> None:
        """Plan the attempts anew."""
        presenter = self._presenter
        if presenter is not None:
            self._context.runner.now(presenter.plan)

    def ask_print(self) -> None:
        """Keep what is typed, and ask for the sheets of this entry where all of it could be."""
        for key in self.grid.drafts():
            self._keep(key)
        if self._presenter is not None and self.save():
            self.print_asked.emit()

    def withdraw(self) -> None:
        """Withdraw the entry, or bring it back."""
        presenter = self._presenter
        if presenter is not None:
            self._context.runner.now(presenter.withdraw)

    def _fill_form(self, presenter: EntryPresenter) -> None:
        self._seen = presenter
        values = presenter.values()
        self.form.offer(presenter.choices(values))
        self.form.set_values(values)

    def _saved(self, _done: object) -> None:
        self.form.mark_clean()
        self._show_unsaved()

    def _keep(self, key: AttemptKey) -> None:
        """Keep what was typed for an attempt; what cannot be taken stays with its sentence."""
        presenter, cell = self._presenter, self.grid.cell(*key)
        if presenter is not None and not cell.is_kept:
            typed = cell.typed
            if self._context.runner.now(lambda: presenter.choose(key, typed), invalid=_said_there):
                cell.set_kept(typed, drop_draft=True)
                self._show_unsaved()

    def _record(self, key: AttemptKey) -> None:
        presenter, row = self._presenter, self.grid.cell(*key).became_row
        if presenter is not None and row is not None:
            became = row.values()
            self._context.runner.now(lambda: presenter.record(key, *became))

    def _show_unsaved(self) -> None:
        is_dirty = self.form.is_dirty()
        self._unsaved.setVisible(is_dirty)
        self._save.setEnabled(is_dirty)
        self._put_back.setEnabled(is_dirty or self.grid.has_drafts)

    def _connect(self) -> None:
        words = self._words
        self.form.edited.connect(self.look)
        self.grid.edited.connect(self.look)
        self.grid.left.connect(self._keep)
        self.grid.became.connect(self._record)
        action(self, words("meets.entry.save"), self.save, shortcuts.SAVE)
        action(self, words("meets.entry.plan"), self.plan, "Ctrl+L")
        action(self, words("meets.entry.print"), self.ask_print, "Ctrl+Shift+P")

    def _lay_out(self) -> None:
        words = self._words
        self._nothing = small(words("meets.entry.none"))
        self._body = QWidget()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._nothing, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self._body, 1)
        self._save = button(words("meets.entry.save"), self.save, leading=True, hint="Ctrl+S")
        self._put_back = button(words("meets.entry.put_back"), self.put_back)
        plan = button(words("meets.entry.plan"), self.plan)
        tip(plan, words("meets.entry.plan.hint"))
        more, (self._withdraw, _delete) = more_button(
            words("meets.more"),
            words("meets.more.entry"),
            [
                (words("meets.entry.withdraw"), self.withdraw),
                (words("meets.entry.delete"), self.delete_asked.emit),
            ],
        )
        packet = button(
            words("meets.entry.print"), self.ask_print, hint=words("meets.entry.print.hint")
        )
        buttons = FlowLayout()
        buttons.addWidget(self._name)
        for each in (self._save, self._put_back, plan, packet, more):
            buttons.addWidget(each)
        self._sides = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._sides.setSpacing(WIDE_GAP)
        self._sides.addWidget(self._figures(), 3)
        self._sides.addWidget(self._form_side(), 2)
        body = QVBoxLayout(self._body)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(GAP)
        body.addLayout(buttons)
        body.addWidget(self._unsaved)
        body.addLayout(self._sides, 1)

    def _figures(self) -> QWidget:
        """Attempts, totals, standing to the class, open points."""
        words = self._words
        side = QWidget()
        layout = QVBoxLayout(side)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        head = QHBoxLayout()
        head.setSpacing(WIDE_GAP)
        head.addWidget(self._attempts_head, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self.totals, 1)
        layout.addLayout(head)
        layout.addWidget(self.grid)
        self._ahead = QWidget()
        ahead = QVBoxLayout(self._ahead)
        ahead.setContentsMargins(0, 0, 0, 0)
        for code, lines in (
            ("meets.section.standing", self.standing),
            ("meets.section.open", self.points),
        ):
            ahead.addWidget(heading(words(code)))
            ahead.addWidget(lines)
        layout.addWidget(self._ahead)
        layout.addStretch(1)
        return side

    def _form_side(self) -> QWidget:
        side = QWidget()
        layout = QVBoxLayout(side)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(heading(self._words("meets.entry.form")))
        layout.addWidget(self.form)
        layout.addStretch(1)
        return side

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A narrow panel has the form below the attempts."""
        super().resizeEvent(event)
        wide = event.size().width() >= _SIDE_BY_SIDE
        directions = QBoxLayout.Direction
        self._sides.setDirection(directions.LeftToRight if wide else directions.TopToBottom)


def _said_there(_error: InvalidInput) -> None:
    """The cell says it already: what is typed is looked at letter by letter."""
