"""The head of a meet's page: what it is called, its facts, and what can be done to it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.plain import button, label, small
from coachdesk.ui.screens.meets.page_view import PageView
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.elided import NameHeading
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.more_button import more_button
from coachdesk.wording.wording import Wording


class PageHead(QWidget):
    """Name and facts, and the buttons beside them."""

    enter_asked = Signal()
    print_asked = Signal()
    plan_asked = Signal()
    calendar_asked = Signal()
    edit_asked = Signal()
    delete_asked = Signal()

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self._title = NameHeading()
        self._facts = small()
        self._note = small()
        self._fault = label(role="bad", wrap=True)
        more, _actions = more_button(
            words("meets.more"),
            words("meets.more.meet"),
            [
                (words("meets.action.calendar"), self.calendar_asked.emit),
                (words("meets.action.edit"), self.edit_asked.emit),
                (words("meets.action.delete"), self.delete_asked.emit),
            ],
        )
        plan = words("meets.action.plan_all")
        row = FlowLayout()
        for widget in (
            self._title,
            button(words("meets.action.enter"), self.enter_asked.emit, hint="Ctrl+T"),
            button(words("meets.action.print"), self.print_asked.emit, hint="Ctrl+P"),
            button(plan, self.plan_asked.emit, hint=words("meets.action.plan_all.hint")),
            more,
        ):
            row.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(row)
        for line in (self._facts, self._note, self._fault):
            layout.addWidget(line)

    def show_page(self, page: PageView) -> None:
        """Show what a meet is about."""
        self._title.setText(page.title)
        self._facts.setText(self._words("meets.facts.joint").join(page.facts))
        for shown, said in ((self._note, page.note), (self._fault, page.fault)):
            shown.setText(said)
            shown.setVisible(bool(said))
