"""Printing a meet: sheets, paper, athletes and folder; to watch, to stop, to open the folder."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QStandardPaths, Qt, QUrl
from PySide6.QtGui import QDesktopServices, QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.context import Context
from coachdesk.ui.plain import button, to_right
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.screens.meets.print_presenter import Outcome, PrintPresenter
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.fields import ChoiceField, ManyChoicesField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import scrolled

_SIZE = (560, 600)
_REMEMBERED = "meets/print folder"


class PrintDialog(QDialog):
    """Prints in the background; what was chosen stays when something goes wrong."""

    def __init__(
        self,
        context: Context,
        presenter: PrintPresenter,
        chosen: Sequence[int],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self._context = context
        self._presenter = presenter
        self._stop: Callable[[], None] | None = None
        self._written: Path | None = None
        words = context.words
        self.setWindowTitle(presenter.title)
        self.form = self._made_form(chosen)
        self.bar = QProgressBar()
        self.bar.setAccessibleName(words("frame.progress"))
        self.bar.hide()
        self.lines = LineList()
        self.print_button = button(words("meets.print.print"), self.print, leading=True)
        self.stop_button = button(words("frame.stop"), self.stop)
        self.open_button = button(words("meets.print.open_folder"), self.open_folder)
        self.close_button = button(words("frame.close"), self.reject)
        self._lay_out()
        self._show_running(is_running=False)
        self.open_button.hide()
        self.print_button.setFocus()
        open_at(self, *_SIZE)

    def print(self) -> None:
        """Print what is chosen, unless that cannot be."""
        self.form.clear_errors()
        self.lines.show_lines(())
        self.open_button.hide()
        values = self.form.values()
        try:
            folder = self._presenter.folder(values["folder"])
            choice = self._presenter.choice(
                _listed(values["sheets"]), values["paper"], _listed(values["athletes"])
            )
        except InvalidInput as error:
            self.form.show_error(error)
            return
        self._context.remembered.setValue(_REMEMBERED, values["folder"])
        self._show_running(is_running=True)
        self._stop = self._context.runner.background(
            self._presenter.task(self._context.printing, folder, choice),
            about=self._presenter.title,
            then=self._done,
            refused=self._refused,
            stopped=self._stopped,
            progress=self._progress,
        )

    def stop(self) -> None:
        """Stop printing; what is written stays."""
        if self._stop is not None:
            self._stop()

    def open_folder(self) -> None:
        """Show the folder that was written to."""
        if self._written is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._written)))

    def reject(self) -> None:
        """Leave; while printing, Escape stops that first."""
        if self._stop is not None:
            self.stop()
            return
        super().reject()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter does what the button in focus says, and prints elsewhere."""
        if event.key() not in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            super().keyPressEvent(event)
            return
        focused = self.focusWidget()
        if isinstance(focused, QPushButton):
            focused.click()
        elif self._stop is None:
            self.print()

    def _done(self, outcome: Outcome) -> None:
        self._show_running(is_running=False)
        self._written = outcome.printed.folder
        lines = [Line(self._presenter.done(outcome), "good")]
        lines += [Line(words, "bad") for words in self._presenter.trouble(outcome)]
        self.lines.show_lines(lines)
        self.open_button.show()
        self.open_button.setFocus()

    def _refused(self, sentence: str) -> None:
        self._show_running(is_running=False)
        self.lines.show_lines([Line(sentence, "bad")])

    def _stopped(self) -> None:
        self._show_running(is_running=False)
        self.lines.show_lines([Line(self._context.words("meets.print.stopped"), "warn")])

    def _progress(self, done: int, of: int) -> None:
        self.bar.setRange(0, of)
        self.bar.setValue(done)

    def _show_running(self, *, is_running: bool) -> None:
        if not is_running:
            self._stop = None
        self.bar.setRange(0, 0)
        self.bar.setVisible(is_running)
        self.stop_button.setVisible(is_running)
        self.form.setEnabled(not is_running)
        self.print_button.setEnabled(not is_running)
        self.close_button.setEnabled(not is_running)
        if is_running:
            self.stop_button.setFocus()

    def _made_form(self, chosen: Sequence[int]) -> Form:
        words, presenter = self._context.words, self._presenter
        sheets, athletes = presenter.sheets(), presenter.athletes()
        form = Form(words)
        form.add("sheets", "meets.print.sheets", ManyChoicesField(sheets, lines=len(sheets) + 1))
        form.add("paper", "meets.print.paper", ChoiceField(presenter.papers()))
        form.add("athletes", "meets.print.athletes", ManyChoicesField(athletes, lines=8))
        form.add_widget(self._all_or_none())
        form.add("folder", "meets.print.folder", TextField(), "meets.print.folder.hint")
        form.add_widget(to_right(button(words("meets.print.choose_folder"), self._choose_folder)))
        everybody = [entry_id for entry_id, _ in athletes]
        some = [entry_id for entry_id in everybody if int(entry_id) in chosen]
        form.set_values(
            {
                "sheets": "\n".join(sheet for sheet, _ in sheets),
                "paper": self._context.preferences.paper,
                "athletes": "\n".join(some if len(some) > 1 else everybody),
                "folder": first_folder(self._context),
            }
        )
        return form

    def _all_or_none(self) -> QWidget:
        words = self._context.words
        everybody = "\n".join(entry_id for entry_id, _ in self._presenter.athletes())
        return to_right(
            button(words("meets.print.all"), partial(self._tick, everybody)),
            button(words("meets.print.none"), partial(self._tick, "")),
        )

    def _tick(self, entry_ids: str) -> None:
        self.form.field("athletes").set_value(entry_ids)

    def _choose_folder(self) -> None:
        field = self.form.field("folder")
        title = self._context.words("meets.print.choose_folder")
        found = QFileDialog.getExistingDirectory(self, title, field.value())
        if found:
            field.set_value(found)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        for each in (self.close_button, self.open_button, self.stop_button, self.print_button):
            buttons.addWidget(each)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(scrolled(self.form), 1)
        layout.addWidget(self.bar)
        layout.addWidget(self.lines)
        layout.addLayout(buttons)


def first_folder(context: Context) -> str:
    """The folder printed to last, else the one preferred, else the system's for documents."""
    remembered = context.remembered.value(_REMEMBERED)
    usual = QStandardPaths.StandardLocation.DocumentsLocation
    return (
        str(remembered or "")
        or context.preferences.print_folder
        or QStandardPaths.writableLocation(usual)
    )


def _listed(value: str) -> list[str]:
    return [each for each in value.split("\n") if each]
