"""Asks for which meets a calendar file is written, what goes along, and where it goes."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QStandardPaths, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFileDialog, QWidget

from coachdesk.services.calendar_file import ENDING, CalendarWritten
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, button, to_right
from coachdesk.ui.screens.meets.calendar_presenter import THIS, CalendarPresenter
from coachdesk.ui.widgets.fields import ChoiceField, TextField, YesNoField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog

_REMEMBERED = "meets/calendar file"


class CalendarDialog(FormDialog):
    """Writes the file; what was chosen stays when something goes wrong."""

    def __init__(self, context: Context, presenter: CalendarPresenter, parent: QWidget) -> None:
        words = context.words
        remembered = str(context.remembered.value(_REMEMBERED) or "")
        self._presenter = presenter
        self._replaced = {remembered}
        self.choose_button = button(words("calendar.choose"), self.choose)
        form = Form(words)
        form.add("meets", "calendar.meets", ChoiceField(presenter.meets()))
        weights = YesNoField(words("calendar.weights"))
        form.add("weights", "calendar.goes_along", weights, "calendar.weights.hint")
        form.add("file", "calendar.file", TextField())
        form.add_widget(to_right(self.choose_button))
        file = remembered or str(_usual_folder(context) / f"{words('calendar.file_name')}{ENDING}")
        form.set_values({"meets": THIS, "weights": "", "file": file})
        super().__init__(
            context,
            words("calendar.title"),
            form,
            presenter.write,
            save_words=words("calendar.write"),
            about=words("calendar.about"),
            parent=parent,
        )

    def save(self) -> None:
        """Write; over a file that was not written before from here only when the coach agrees."""
        words, typed = self._context.words, self.form.values()["file"]
        is_agreed = typed in self._replaced or not self._presenter.would_replace(typed)
        question = words("calendar.replace.question", file=typed)
        if is_agreed or ask(self, question, words("calendar.replace"), words("frame.go_on")):
            super().save()
            if isinstance(self.answer, CalendarWritten):
                self._context.remembered.setValue(_REMEMBERED, str(self.answer.file))

    def choose(self) -> None:
        """Choose the file to write."""
        field = self.form.field("file")
        title = self._context.words("calendar.choose")
        found, _kind = QFileDialog.getSaveFileName(
            self, title, field.value(), f"iCalendar (*{ENDING})"
        )
        if found:
            field.set_value(found)
            self._replaced.add(found)

    def reject(self) -> None:
        """Leave without a question: no records are typed here."""
        self.form.mark_clean()
        super().reject()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter on the button chooses a file; anywhere else it writes."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self.choose_button.hasFocus():
            self.choose()
        else:
            super().keyPressEvent(event)


def _usual_folder(context: Context) -> Path:
    documents = QStandardPaths.StandardLocation.DocumentsLocation
    folder = context.preferences.print_folder or QStandardPaths.writableLocation(documents)
    return Path(folder)
