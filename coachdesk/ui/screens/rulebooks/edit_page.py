"""Editing a rulebook of the coach's own: sections on the left, one at a time on the right."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QListWidget, QStackedWidget, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.services.rulebook_draft import Draft
from coachdesk.services.rulebook_fields import DIVISIONS, SECTIONS
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, ask, button, heading, label
from coachdesk.ui.screens.rulebooks.presenter import RulebooksPresenter
from coachdesk.ui.screens.rulebooks.section_page import SectionPage
from coachdesk.ui.theme import GAP

_SECTIONS_WIDTH = 150


class EditPage(QWidget):
    """A draft in sections; each is made when it is first looked at."""

    saved = Signal(str)
    """A rulebook was saved: its key."""
    left = Signal()

    def __init__(self, context: Context, presenter: RulebooksPresenter) -> None:
        super().__init__()
        self._context = context
        self._words = context.words
        self._presenter = presenter
        self._key = ""
        self._draft: Draft | None = None
        self._pages: dict[str, SectionPage] = {}
        self.title = heading()
        self.sections = QListWidget()
        self.sections.setAccessibleName(self._words("rulebook.sections"))
        self.sections.setFixedWidth(_SECTIONS_WIDTH)
        for section in SECTIONS:
            self.sections.addItem(self._words(f"rulebook.section.{section.key}"))
        self.sections.currentRowChanged.connect(self._show_section)
        self.stack = QStackedWidget()
        self.sentence = label(role="bad", wrap=True)
        self.sentence.hide()
        self.save_button = button(self._words("rulebook.save"), self.save, leading=True)
        self.leave_button = button(self._words("rulebook.leave"), self.leave)
        action(self, self._words("rulebook.save"), self.save, shortcuts.SAVE)
        self._lay_out()

    @property
    def is_open(self) -> bool:
        """Whether a rulebook is being edited."""
        return self._draft is not None

    def open(self, key: str, draft: Draft) -> None:
        """Begin to edit a rulebook."""
        self._close()
        self._key, self._draft = key, draft
        self.title.setText(self._words("rulebook.editing", file=f"{key}.toml"))
        self.sections.scheduleDelayedItemsLayout()
        self.sections.setCurrentRow(0)
        self._show_section(0)
        self.page(SECTIONS[0].key).focus_first()

    def page(self, key: str) -> SectionPage:
        """A section's page."""
        if self._draft is None:
            raise LookupError(key)
        if key not in self._pages:
            section = next(section for section in SECTIONS if section.key == key)
            made = SectionPage(self._context, section, self._draft, self._divisions)
            self._pages[key] = made
            self.stack.addWidget(made)
        return self._pages[key]

    def is_dirty(self) -> bool:
        """Whether the coach changed something."""
        return any(page.is_dirty() for page in self._pages.values())

    def save(self) -> bool:
        """Save; stay, and say it at the field, where something cannot be taken."""
        draft = self._draft
        if draft is None or not self._is_readable():
            return False
        self.sentence.hide()
        for page in self._pages.values():
            page.clear_errors()
        changed = self._changed(draft)
        return self._context.runner.now(
            lambda: self._presenter.save(self._key, changed),
            then=lambda _: self._end_saved(),
            invalid=self._refuse,
        )

    def leave(self) -> None:
        """Leave; what was changed is let go only when the coach says so."""
        words = self._words
        if self.is_dirty() and not ask(
            self, words("rulebook.discard"), words("rulebook.discard.yes"), words("rulebook.stay")
        ):
            return
        self.discard()

    def discard(self) -> None:
        """Leave without saving."""
        self._close()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves."""
        if event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)

    def _changed(self, draft: Draft) -> Draft:
        values, rows = dict(draft.values), dict(draft.rows)
        for page in self._pages.values():
            values |= page.changed_values()
            rows |= page.rows()
        return replace(draft, values=values, rows=rows)

    def _is_readable(self) -> bool:
        """Whether every cell could be taken; where one could not, go there."""
        for key, page in self._pages.items():
            editor = page.editor_with_draft()
            if editor is not None:
                self._go_to(key)
                editor.table.setFocus()
                self._say(self._words("rulebook.cell_refused"))
                return False
        return True

    def _refuse(self, error: InvalidInput) -> None:
        name = error.field.split("/")[0]
        for section in SECTIONS:
            if any(part.name == name for part in section.parts):
                self._go_to(section.key)
                self.page(section.key).show_error(error)
                where = self._words(f"rulebook.section.{section.key}")
                self._say(self._words("rulebook.not_saved", section=where))
                return
        self._say(self._words.say(text("rulebook.not_saved_because", why=error.text)))

    def _say(self, sentence: str) -> None:
        self.sentence.setText(sentence)
        self.sentence.show()

    def _go_to(self, key: str) -> None:
        self.sections.setCurrentRow([section.key for section in SECTIONS].index(key))

    def _show_section(self, at: int) -> None:
        if self._draft is not None and at >= 0:
            self.stack.setCurrentWidget(self.page(SECTIONS[at].key))

    def _divisions(self) -> list[tuple[str, str]]:
        """The divisions as they are now, for classes kept for some of them."""
        if self._draft is None:
            return []
        page = self._pages.get("divisions")
        rows = self._draft.rows if page is None else page.rows()
        return [(row.cells["key"], row.cells["name"]) for row in rows[DIVISIONS.name]]

    def _end_saved(self) -> None:
        key = self._key
        self._close()
        self.saved.emit(key)

    def _close(self) -> None:
        self._draft = None
        for page in self._pages.values():
            self.stack.removeWidget(page)
            page.deleteLater()
        self._pages.clear()
        self.sentence.hide()

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(GAP * 2)
        middle.addWidget(self.sections)
        middle.addWidget(self.stack, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.sentence, 1)
        foot.addStretch(0)
        foot.addWidget(self.leave_button)
        foot.addWidget(self.save_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.title)
        layout.addWidget(label(self._words("rulebook.editing.about"), role="quiet", wrap=True))
        layout.addLayout(middle, 1)
        layout.addLayout(foot)
