"""The sessions of a meet and their flights."""

from __future__ import annotations

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout

from coachdesk.domain.lifting import Lift
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, ask, button
from coachdesk.ui.screens.meets.page_view import PageView, SessionRow
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.tall_part import Tall
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import MomentField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table
from coachdesk.wording.wording import Wording

_LEAST_ROWS = 3
"""Room for the words of an empty table."""


class SessionsPart(Tall):
    """Lists sessions; each is changed in a dialog, its flights included."""

    def __init__(self, context: Context, presenter: MeetsPresenter) -> None:
        super().__init__()
        self._context = context
        self._presenter = presenter
        words = context.words
        self.table: Table[SessionRow] = Table(
            context,
            "sessions",
            _columns(words),
            lambda row: row.id,
            about=words("meets.session.list"),
            empty=words("meets.session.empty"),
        )
        self.table.opened.connect(self.edit)
        self.table.delete_asked.connect(self.delete)
        buttons = QHBoxLayout()
        buttons.addWidget(button(words("meets.session.add"), self.add))
        buttons.addWidget(button(words("meets.session.edit"), self._edit_chosen))
        buttons.addWidget(button(words("meets.session.delete"), self.delete))
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.addLayout(buttons)
        layout.addWidget(self.table)
        layout.addStretch(1)
        action(self, words("meets.session.add"), self.add, "Ctrl+Shift+N")

    def show_page(self, page: PageView) -> None:
        """Show a meet's sessions."""
        self.table.set_rows(page.sessions)
        self.table.fit_columns()
        self.table.show_at_once(max(len(page.sessions), _LEAST_ROWS))
        if self.table.current_key() is None and page.sessions:
            self.table.select(page.sessions[0].id)

    def showEvent(self, event: QShowEvent) -> None:
        """No time is cut off: where there is less room the table scrolls."""
        super().showEvent(event)
        self.table.fit_columns()

    def add(self) -> None:
        """Ask for a new session."""
        self._ask(None, self._context.words("meets.session.add"))

    def edit(self, session_id: object) -> None:
        """Ask for changes to a session."""
        if isinstance(session_id, int):
            self._ask(session_id, self._context.words("meets.session.edit"))

    def delete(self) -> None:
        """Ask, saying what goes along, and delete the session chosen."""
        row, words = self.table.current_row(), self._context.words
        if row is None:
            return
        question = words("meets.delete.session", name=row.name)
        more = self._presenter.session_deletion(row.id)
        if ask(self, question, words("meets.delete.yes"), words("meets.delete.no"), more=more):
            self._context.runner.now(lambda: self._presenter.delete_session(row.id))

    def _edit_chosen(self) -> None:
        self.edit(self.table.current_key())

    def _ask(self, session_id: int | None, title: str) -> None:
        form = session_form(self._context.words, self._presenter.lifts)
        form.set_values(self._presenter.session_values(session_id))
        dialog = FormDialog(
            self._context,
            title,
            form,
            lambda values: self._presenter.save_session(session_id, _complete(values)),
            parent=self,
        )
        dialog.exec()
        dialog.deleteLater()


def session_form(words: Wording, lifts: tuple[Lift, ...]) -> Form:
    """The form of a session, with the flights of the meet's lifts."""
    form = Form(words)
    form.add("name", "meets.session.name", TextField())
    form.add("starts_at", "meets.session.starts", MomentField(), "meets.session.moment.hint")
    form.add("platform", "meets.session.platform", TextField())
    for number, lift in enumerate(lifts, start=1):
        hint = "meets.session.flights.hint" if number == len(lifts) else ""
        form.add(f"flights_{lift}", f"meets.session.flights_{lift}", TextField(), hint)
    form.add("weigh_in_opens", "meets.session.weigh_in_opens", MomentField())
    hint = "meets.session.weigh_in.hint"
    form.add("weigh_in_closes", "meets.session.weigh_in_closes", MomentField(), hint)
    return form


def _complete(values: dict[str, str]) -> dict[str, str]:
    """Lifts the rulebook does not have have no flights."""
    return {**{f"flights_{lift}": "" for lift in Lift}, **values}


def _columns(words: Wording) -> list[Column[SessionRow]]:
    return [
        Column("name", words("meets.session.name"), lambda row: row.name),
        Column(
            "starts",
            words("meets.session.starts"),
            lambda row: row.starts,
            lambda row: row.by_start,
        ),
        Column("weigh_in", words("meets.session.weigh_in"), lambda row: row.weigh_in),
        Column("platform", words("meets.session.platform"), lambda row: row.platform),
        Column("flights", words("meets.session.flights"), lambda row: row.flights),
    ]
