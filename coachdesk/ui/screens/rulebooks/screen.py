"""Rulebooks: the list on the left; on the right one to read, or one to edit."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QStackedWidget, QVBoxLayout, QWidget

from coachdesk.services.rulebook_draft import Draft
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, ask, button, heading, label, small
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.rulebooks.document import Document
from coachdesk.ui.screens.rulebooks.earlier_dialog import EarlierDialog
from coachdesk.ui.screens.rulebooks.edit_page import EditPage
from coachdesk.ui.screens.rulebooks.presenter import (
    BookPage,
    BookRow,
    Origin,
    RulebooksPresenter,
)
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.screen_head import screen_head
from coachdesk.ui.widgets.table import Table

_SIDES = (320, 740)


class RulebooksScreen(Screen):
    """The shelf of rulebooks: read, copy, edit, put back."""

    kinds: ClassVar[frozenset[str]] = frozenset({"rulebook"})

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = self.words
        self.presenter = RulebooksPresenter(context.desk, words)
        self.table = self._table()
        self.name = heading()
        self.fault = label(role="bad", wrap=True)
        self.reading = Document(context.theme, words("rulebook.reading"))
        self.copy_button = button(words("rulebook.copy"), self.copy)
        self.edit_button = button(words("rulebook.edit"), self.edit, leading=True)
        self.delete_button = button(words("rulebook.delete"), self.delete)
        self.earlier_button = button(words("rulebook.earlier.dots"), self.show_earlier)
        self.editing = EditPage(context, self.presenter)
        self.stack = QStackedWidget()
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.table)

    def reload(self) -> None:
        """Read the shelf anew; who is chosen stays chosen."""
        rows = self.presenter.rows()
        self.table.set_rows(rows)
        if self.table.current_row() is None and rows:
            self.table.select(rows[0].key)
        self._show_current()

    def has_unsaved(self) -> bool:
        """Whether something changed is not kept yet."""
        return self.editing.is_dirty()

    def save_unsaved(self) -> bool:
        """Keep what was changed; answers whether it could be."""
        return self.editing.save()

    def copy(self) -> None:
        """Ask for a name, copy the current rulebook under it, and begin to edit the copy."""
        row, words = self.table.current_row(), self.words
        if row is None or self.editing.is_open or row.origin is Origin.FAULTY:
            return
        form = Form(words)
        form.add("name", "rulebook.copy.name", TextField())
        form.add("key", "rulebook.copy.key", TextField(), "rulebook.copy.key_hint")
        form.set_values(self.presenter.copy_values(row.key))
        asked = FormDialog(
            self.context,
            words("rulebook.copy.title"),
            form,
            lambda values: self.presenter.copy(row.key, values),
            save_words=words("rulebook.copy.do"),
            about=words("rulebook.copy.about", name=row.name),
            parent=self,
        )
        asked.exec()
        asked.deleteLater()
        if isinstance(asked.answer, str):
            self._go_to(asked.answer)
            self.edit()

    def edit(self) -> None:
        """Edit the current rulebook, where it is the coach's own."""
        row = self.table.current_row()
        if row is not None and row.can_edit and not self.editing.is_open:
            self.context.runner.now(
                lambda: self.presenter.draft(row.key),
                then=lambda draft: self._begin(row.key, draft),
            )

    def delete(self) -> None:
        """Ask, saying which meets go by it, and take the current rulebook off the shelf."""
        row, words = self.table.current_row(), self.words
        if row is None or not row.can_edit or self.editing.is_open:
            return
        question = words("rulebook.delete.question", name=row.name)
        more = self.presenter.delete_means(row.key)
        if ask(self, question, words("rulebook.delete.yes"), words("rulebook.keep"), more=more):
            self.context.runner.now(
                lambda: self.presenter.delete(row.key),
                then=lambda _: self.context.notices.say(words("rulebook.deleted", name=row.name)),
            )

    def show_earlier(self) -> None:
        """Show earlier files, and go to the one put back."""
        shown = EarlierDialog(self.context, self.presenter, self)
        accepted = shown.exec()
        shown.deleteLater()
        if accepted:
            self._go_to(shown.restored)
            self.context.notices.say(self.words("rulebook.restored", key=shown.restored))

    def _begin(self, key: str, draft: Draft) -> None:
        self.stack.setCurrentWidget(self.editing)
        self.editing.open(key, draft)

    def _end(self) -> None:
        self.stack.setCurrentIndex(0)
        self.table.setFocus()

    def _saved(self, key: str) -> None:
        self._end()
        self._go_to(key)
        self.context.notices.say(self.words("rulebook.saved"))

    def _go_to(self, key: str) -> None:
        self.reload()
        self.table.select(key)
        self._show_current()

    def _show_current(self) -> None:
        row = self.table.current_row()
        if row is None:
            return
        self.context.runner.now(lambda: self.presenter.page(row.key), then=self._show)
        self.copy_button.setEnabled(row.origin is not Origin.FAULTY)
        self.edit_button.setEnabled(row.can_edit)
        self.delete_button.setEnabled(row.can_edit)

    def _show(self, page: BookPage) -> None:
        self.name.setText(page.name)
        self.fault.setText(page.fault)
        self.fault.setVisible(bool(page.fault))
        self.reading.show_sections(page.sections)

    def _opened(self) -> None:
        row = self.table.current_row()
        if row is not None and row.can_edit:
            self.edit()
        else:
            self.reading.setFocus(Qt.FocusReason.OtherFocusReason)

    def _table(self) -> Table[BookRow]:
        words = self.words
        return Table(
            self.context,
            "rulebooks",
            [
                Column(
                    "name",
                    words("rulebook.column.name"),
                    lambda row: words("rulebook.list.row", name=row.name, whose=row.whose),
                    tip=_file,
                    role=lambda row: "bad" if row.origin is Origin.FAULTY else "",
                ),
            ],
            lambda row: row.key,
            about=words("rulebook.list"),
            sortable=False,
            fills="name",
            wraps=True,
        )

    def _connect(self) -> None:
        words = self.words
        self.table.moved.connect(self._show_current)
        self.table.opened.connect(lambda _: self._opened())
        self.table.delete_asked.connect(self.delete)
        self.editing.saved.connect(self._saved)
        self.editing.left.connect(self._end)
        action(self, words("rulebook.copy"), self.copy, shortcuts.NEW)

    def _lay_out(self) -> None:
        words = self.words
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, GAP, 0)
        column.addWidget(self.table, 1)
        column.addWidget(self.earlier_button)
        column.addWidget(small(self.presenter.no_para))
        right = QWidget()
        page = QVBoxLayout(right)
        page.setContentsMargins(GAP, 0, 0, 0)
        page.setSpacing(GAP)
        self.name.setWordWrap(True)
        page.addWidget(self.name)
        page.addWidget(label(words("rulebook.check"), role="warn", wrap=True))
        page.addWidget(self.fault)
        page.addWidget(self.reading, 1)
        ways = QHBoxLayout()
        for each in (self.edit_button, self.copy_button, self.delete_button):
            ways.addWidget(each)
        ways.addStretch(1)
        page.addLayout(ways)
        both = QSplitter(Qt.Orientation.Horizontal)
        both.setChildrenCollapsible(False)
        both.addWidget(left)
        both.addWidget(right)
        both.setSizes(list(_SIDES))
        self.stack.addWidget(both)
        self.stack.addWidget(self.editing)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(words, "rulebooks"))
        layout.addWidget(self.stack, 1)


def _file(row: BookRow) -> str:
    return f"{row.key}.toml"
