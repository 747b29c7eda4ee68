"""The entries of a meet: the table, and below it the entry chosen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout

from coachdesk.domain.meet import Entry
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, small
from coachdesk.ui.screens.meets.entries_table import entries_table
from coachdesk.ui.screens.meets.entry_panel import EntryPanel
from coachdesk.ui.screens.meets.page_view import PageView
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.tall_part import Tall
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.line import TypingLine
from coachdesk.ui.widgets.unsaved import Answer, ask_unsaved

_FIND_WIDTH = 200
_LEGEND_FROM = 640
"""Sizes [px]."""
_LEAST_ROWS, _MOST_ROWS = 3, 8
"""Rows the table has room for at once."""


class EntriesPart(Tall):
    """Finds, chooses, edits and deletes entries."""

    def __init__(self, context: Context, presenter: MeetsPresenter) -> None:
        super().__init__()
        self._context = context
        self._presenter = presenter
        self._is_settling = False
        self.search = TypingLine()
        self.table = entries_table(context, presenter)
        self.panel = EntryPanel(context)
        self._legend = small()
        self._lay_out()
        self.search.textChanged.connect(self.table.set_filter)
        self.search.returnPressed.connect(self.table.setFocus)
        self.table.moved.connect(self._row_moved)
        self.table.opened.connect(lambda _: self.panel.grid.focus_first())
        self.table.delete_asked.connect(self.delete)
        self.panel.delete_asked.connect(self.delete)

    def show_page(self, page: PageView) -> None:
        """Show a meet's entries; who is chosen stays chosen where they can."""
        self._legend.setText(page.legend)
        self._is_settling = True
        self.table.set_rows(page.entries)
        self.table.show_at_once(min(max(len(page.entries), _LEAST_ROWS), _MOST_ROWS))
        if self.table.current_key() is None and page.entries:
            self.table.select(page.entries[0].id)
        self._is_settling = False
        self._show_chosen()

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet, in the table or below it."""
        return self.panel.has_unsaved() or self.table.model.has_drafts

    def save(self) -> bool:
        """Keep what is typed; answers whether all of it could be."""
        return self.panel.save() and not self.has_unsaved()

    def settle(self) -> bool:
        """Ask what to do with what is typed; answers whether the way is free."""
        if not self.has_unsaved():
            return True
        free = self._settle_panel(self.save)
        if free:
            self.table.model.forget_drafts()
        return free

    def _settle_panel(self, save: Callable[[], bool]) -> bool:
        self._is_settling = True
        answer = ask_unsaved(self, self._context.words, self._context.words("meets.entry.unsaved"))
        saved = answer is Answer.SAVE and save()
        if answer is Answer.DISCARD:
            self.panel.put_back()
        self._is_settling = False
        return saved or answer is Answer.DISCARD

    def focus_search(self) -> None:
        """Go to the search box."""
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def delete(self) -> None:
        """Ask, saying what goes along, and delete the entries chosen."""
        words, chosen = self._context.words, self._chosen()
        if not chosen:
            return
        row = self.table.current_row()
        if len(chosen) == 1 and row is not None:
            question = words("meets.delete.entry", name=row.athlete)
        else:
            question = words("meets.delete.entries", count=len(chosen))
        more = self._presenter.entries_deletion(chosen)
        if ask(self, question, words("meets.delete.yes"), words("meets.delete.no"), more=more):
            self.panel.put_back()
            self._context.runner.now(lambda: self._presenter.delete_entries(chosen))

    def _chosen(self) -> list[Entry]:
        rows = self.table.selected_rows()
        if not rows:
            current = self.table.current_row()
            rows = () if current is None else (current,)
        return [row.entry for row in rows]

    def _row_moved(self) -> None:
        """Show the entry the table stands on, once what is typed about another is settled."""
        key, shown = self.table.current_key(), self.panel.shown_id
        if self._is_settling or key == shown:
            return
        if not self.panel.has_unsaved() or self._settle_panel(self.panel.save):
            self._show_chosen()
        elif shown is not None:
            self.table.select(shown)

    def _show_chosen(self) -> None:
        key = self.table.current_key()
        if not isinstance(key, int):
            self.panel.show_entry(None)
            return
        if not self._context.runner.now(
            lambda: self._presenter.entry(key), then=self.panel.show_entry
        ):
            self.panel.show_entry(None)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where it is narrow, the table's heads and tips have to do."""
        super().resizeEvent(event)
        self._legend.setVisible(event.size().width() >= _LEGEND_FROM)

    def _lay_out(self) -> None:
        words = self._context.words
        self.search.setPlaceholderText(words("meets.find"))
        self.search.setAccessibleName(words("meets.action.find"))
        self.search.setClearButtonEnabled(True)
        self.search.setMaximumWidth(_FIND_WIDTH)
        top = QHBoxLayout()
        top.addWidget(self.search)
        top.addWidget(self._legend, 1)
        top.addStretch(0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(top)
        layout.addWidget(self.table)
        layout.addSpacing(GAP)
        layout.addWidget(self.panel, 1)
