"""What is asked before something is done with a block: its dialogs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import QStandardPaths

from coachdesk.services.block_generating import Proposal
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.blocks import forms
from coachdesk.ui.screens.blocks.generate_dialog import GenerateDialog
from coachdesk.ui.screens.blocks.grid_rows import CellKey
from coachdesk.ui.screens.blocks.open_block import OpenBlock
from coachdesk.ui.screens.blocks.presenter import BlocksPresenter
from coachdesk.ui.screens.blocks.sheet_printing import print_weeks
from coachdesk.ui.weights.day_words import short_day
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog

_FOLDER = "blocks/print folder"


class BlockDeeds:
    """Asks in dialogs that stand on `parent`, which shows what came of it; `block` is the one
    shown."""

    def __init__(self, context: Context, presenter: BlocksPresenter, parent: Screen) -> None:
        self._context = context
        self._words = context.words
        self._presenter = presenter
        self._parent = parent
        self.block: OpenBlock | None = None

    def add_block(self, athlete_id: int) -> object:
        """Ask for a new block; answers its id, None when nothing came of it."""
        presenter = self._presenter
        form = forms.block_form(self._words, self._meets(), self._presenter.discs())
        form.set_values(presenter.new_values(athlete_id))
        return self._ask("add", form, lambda values: presenter.add(athlete_id, values))

    def generate(self, athlete_id: int) -> object:
        """Lay out blocks to a meet; answers the first one's id, None when nothing came of it."""
        meets = self._meets()
        first = self._presenter.first_meet(athlete_id)
        if first is None:
            self._context.notices.trouble(self._words("blocks.generate.no_meet"))
            return None
        ahead, answer = self._presenter.ahead(athlete_id), None

        def show(proposal: Proposal) -> None:
            nonlocal answer
            dialog = GenerateDialog(self._context, ahead, proposal, meets, self._parent)
            dialog.exec()
            answer = dialog.answer
            dialog.deleteLater()

        self._context.runner.now(lambda: ahead.first(first.id), then=show)
        return answer[0] if answer else None

    def from_template(self, athlete_id: int) -> object:
        """Ask for a template; answers the new block's id."""
        ahead = self._presenter.ahead(athlete_id)
        form = forms.template_form(self._words, ahead.templates(), ahead.unit)
        starts_on = self._presenter.new_values(athlete_id)["starts_on"]
        form.set_values(ahead.template_values(starts_on))
        return self._ask("template", form, ahead.start)

    def change_block(self) -> None:
        """Ask how the block is to be."""
        if self.block is not None:
            form = forms.block_form(self._words, self._meets(), self._presenter.discs())
            form.set_values(self.block.values())
            self._ask("change", form, self.block.edit)

    def delete_block(self) -> None:
        """Ask, and delete the block with what is planned in it."""
        block = self.block
        if block is None:
            return
        words = self._words
        question = words("blocks.delete.question", name=block.title)
        more = words("blocks.delete.more")
        if ask(self._parent, question, words("roster.delete"), words("roster.keep"), more=more):
            self._context.runner.now(block.delete)

    def copy_block(self) -> object:
        """Ask for whom and from when on the block is copied; answers the new one's id."""
        block = self.block
        if block is None:
            return None
        athletes = [(str(row.id), row.name) for row in self._presenter.athletes("")]
        form = forms.copy_block_form(self._words, athletes)
        form.set_values(block.copy_values())
        return self._ask("copy_block", form, block.copy)

    def copy_week(self, key: CellKey) -> None:
        """Ask into which week a week is copied."""
        if self.block is not None:
            form = forms.copy_week_form(self._words, self.block.page.block.weeks)
            form.set_values(self.block.week_values(key[1]))
            self._ask("copy_week", form, self.block.copy_week)

    def set_maxima(self) -> None:
        """Ask for the training maxima."""
        if self.block is not None:
            form = forms.maxima_form(self._words, self.block.page.athlete.unit)
            form.set_values(self.block.maxima_values())
            about = self._words("blocks.maxima.about")
            self._ask("maxima", form, self.block.set_maxima, about=about)

    def add_exercise(self) -> object:
        """Ask for a new exercise; answers its id."""
        block = self.block
        if block is None:
            return None
        form = forms.exercise_form(self._words, block.days())
        form.set_values(block.new_exercise_values())
        return self._ask("exercise.add", form, block.add_exercise)

    def change_exercise(self, key: CellKey) -> None:
        """Ask how an exercise is to be."""
        block = self.block
        if block is not None:
            form = forms.exercise_form(self._words, block.days())
            form.set_values(block.exercise_values(key[0]))
            self._ask("exercise.change", form, lambda values: block.edit_exercise(key[0], values))

    def move_exercise(self, key: CellKey, step: int) -> None:
        """Put an exercise further up or down."""
        block = self.block
        if block is not None:
            self._context.runner.now(lambda: block.move_exercise(key[0], step))

    def delete_exercise(self, key: CellKey) -> None:
        """Ask, and delete an exercise with what is planned of it."""
        block = self.block
        if block is None:
            return
        words = self._words
        question = words("blocks.exercise.delete.question")
        more = words("blocks.delete.more")
        if ask(self._parent, question, words("roster.delete"), words("roster.keep"), more=more):
            self._context.runner.now(lambda: block.delete_exercise(key[0]))

    def note_day(self, key: CellKey) -> None:
        """Ask what became of the training day of a cell."""
        block = self.block
        if block is not None:
            form = forms.day_form(self._words)
            form.set_values(block.day_values(key))
            self._ask(
                "day",
                form,
                lambda values: block.note_day(key, values),
                about=block.day_in_words(key),
            )

    def log(self, key: CellKey) -> None:
        """Ask what was lifted of what is planned in a cell."""
        block = self.block
        if block is None:
            return
        planned = block.planned(key)
        if not planned:
            self._context.notices.trouble(self._words("blocks.log.nothing_planned"))
            return
        exercise, logging = block.exercise(key[0]), block.logging
        choices = [(str(each.id), block.shown(each)) for each in planned]
        form = forms.log_form(self._words, logging.unit, choices, logging.causes(exercise.lift))
        todo = block.to_do(key)
        form.set_values(logging.values(exercise, todo))
        chosen = form.field("planned")
        if isinstance(chosen, ChoiceField):
            by_id = {str(each.id): each for each in planned}
            chosen.edited.connect(
                lambda: form.set_values(logging.values(exercise, by_id[chosen.value()]))
            )
        self._ask("log", form, logging.log, about=block.day_in_words(key))

    def print_weeks(self, week: int) -> None:
        """Ask which weeks to print and where to, beginning with a week."""
        block, context = self.block, self._context
        if block is None:
            return
        form = forms.print_form(self._words, block.page.block.weeks)
        form.set_values(
            {
                "week": str(week),
                "last": str(week),
                "paper": context.preferences.paper,
                "folder": _first_folder(context),
            }
        )

        def written(values: dict[str, str]) -> tuple[Path, ...]:
            files = print_weeks(context.printing, block.id, values)
            context.remembered.setValue(_FOLDER, values["folder"])
            return files

        files = self._ask("print", form, written, save_words=self._words("blocks.print.print"))
        if isinstance(files, tuple):
            context.notices.say(self._words("blocks.print.done", file=str(files[0])))

    def _meets(self) -> Sequence[tuple[str, str]]:
        words = self._words
        meets = list(self._presenter.meets())
        own = None if self.block is None else self.block.page.meet
        if own is not None and own not in meets:
            meets.append(own)
        return [
            (
                str(each.id),
                words("blocks.meet", meet=each.name, day=short_day(words, each.starts_on)),
            )
            for each in meets
        ]

    def _ask(
        self,
        code: str,
        form: Form,
        save: Callable[[dict[str, str]], Any],
        *,
        about: str = "",
        save_words: str = "",
    ) -> object:
        dialog = FormDialog(
            self._context,
            self._words(f"blocks.action.{code}"),
            form,
            save,
            save_words=save_words,
            about=about,
            parent=self._parent,
        )
        dialog.exec()
        answer: object = dialog.answer
        dialog.deleteLater()
        self._parent.refresh()
        return answer


def _first_folder(context: Context) -> str:
    """The folder used last, else the one preferred, else the system's for documents."""
    usual = QStandardPaths.StandardLocation.DocumentsLocation
    return (
        str(context.remembered.value(_FOLDER) or "")
        or context.preferences.print_folder
        or QStandardPaths.writableLocation(usual)
    )
