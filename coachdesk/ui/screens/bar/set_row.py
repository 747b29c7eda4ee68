"""Choosing a disc set, and keeping one's own."""

from __future__ import annotations

from PySide6.QtCore import Signal

from coachdesk.domain.disc_set import DiscSet
from coachdesk.services.disc_sets import delete_disc_set
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, button
from coachdesk.ui.screens.bar.presenter import BarPresenter
from coachdesk.ui.screens.bar.set_form import set_form
from coachdesk.ui.screens.bar.set_values import keep_set, values_of
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form_dialog import FormDialog

_SETS_PX = 330
_DIALOG_PX = (560, 640)


class SetRow(ChoiceRow):
    """The set, and what can be done with it. A rulebook's own set can only be copied."""

    chosen = Signal(str)
    """Another set was chosen or made: its key."""

    def __init__(self, context: Context, presenter: BarPresenter) -> None:
        super().__init__(context.words)
        self._context = context
        self._presenter = presenter
        words = context.words
        self.sets = ChoiceField()
        self.sets.box.setMinimumWidth(_SETS_PX)
        self.add("set", "bar.set", self.sets)
        self.new = button(words("bar.set.new"), self.add_new)
        self.change = button(words("bar.set.change"), self.edit)
        self.copy = button(words("bar.set.copy"), self.add_copy, hint=words("bar.set.copy.hint"))
        self.delete = button(words("bar.set.delete"), self.ask_to_delete)
        for each in (self.new, self.change, self.copy, self.delete):
            self.add_widget(each)
        self.edited.connect(lambda: self.chosen.emit(self.sets.value()))

    def show_sets(self) -> None:
        """Offer the sets that were read."""
        self.sets.set_choices(self._presenter.set_choices())
        self.sets.set_value(self._presenter.chosen.key)
        own = self._presenter.chosen.own is not None
        self.change.setEnabled(own)
        self.delete.setEnabled(own)

    def add_new(self) -> None:
        """Fill in a new set, from nothing."""
        unit = self._context.words.unit.value
        self._open("bar.set.new.title", {"unit": unit}, None)

    def add_copy(self) -> None:
        """Fill in a new set, beginning with the one that is chosen."""
        chosen = self._presenter.chosen
        name = self._context.words("bar.set.copy.name", name=chosen.name)
        self._open("bar.set.new.title", values_of(chosen, name), None)

    def edit(self) -> None:
        """Change the set that is chosen."""
        own = self._presenter.chosen.own
        if own is not None:
            values = values_of(self._presenter.chosen, own.name)
            self._open("bar.set.change.title", values, own)

    def ask_to_delete(self) -> None:
        """Delete the set that is chosen, having asked."""
        own, words = self._presenter.chosen.own, self._context.words
        if own is None or not ask(
            self,
            words("bar.set.delete.question", name=own.name),
            words("bar.set.delete.yes"),
            words("bar.set.delete.no"),
            more=words("bar.set.delete.more"),
        ):
            return
        self._context.runner.now(lambda: delete_disc_set(self._context.desk, own))

    def dialog(self, title_code: str, values: dict[str, str], own: DiscSet | None) -> FormDialog:
        """The dialog for a set."""
        context = self._context
        made = FormDialog(
            context,
            context.words(title_code),
            set_form(context.words, values),
            lambda filled: keep_set(context.desk, filled, own),
            about=context.words("bar.set.about"),
            parent=self,
        )
        width, height = _DIALOG_PX
        made.resize(width, min(height, self.window().height()))
        return made

    def _open(self, title_code: str, values: dict[str, str], own: DiscSet | None) -> None:
        dialog = self.dialog(title_code, values, own)
        if dialog.exec():
            self.chosen.emit(f"own:{dialog.answer}")
