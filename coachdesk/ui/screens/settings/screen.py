"""Settings: what the coach prefers, the data file, and its backups."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QMessageBox, QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import ask, button, heading, label, small
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.settings.blocker import Blocker
from coachdesk.ui.screens.settings.presenter import BackupRow, SettingsPresenter
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.screen_head import screen_head
from coachdesk.ui.widgets.table import Table

_CHOICES = ("unit", "formula", "paper", "room", "language")
_TABLE_HEIGHT, _CHOICE_WIDTH = 190, 300
_REMEMBERED = "settings/choice"


class SettingsScreen(Screen):
    """Choices take effect at once; anything that goes far asks first."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = self.words
        self.presenter = SettingsPresenter(
            context.desk, words, context.preferences, context.backups, context.languages()
        )
        self.form = self._form()
        self.file = label(wrap=True)
        self.open_button = button(words("settings.file.open"), self.open_another)
        self.new_button = button(words("settings.file.new"), self.make_new)
        self.usual_button = button(words("settings.file.usual"), self.open_usual)
        self.usual_button.setVisible(bool(context.preferences.data_file))
        self.table = self._table()
        self.back_up_button = button(words("settings.back_up"), self.back_up, leading=True)
        self.restore_button = button(words("settings.restore"), self.restore)
        self.table.opened.connect(lambda _: self.restore())
        self._lay_out()
        self._take_up_focus()

    def reload(self) -> None:
        """Look at the file and the backups anew."""
        self.context.runner.now(self.presenter.file_words, then=self.file.setText)
        self._show_backups()

    def open_another(self) -> None:
        """Ask for a data file and go on with it."""
        words = self.words
        name, _kind = QFileDialog.getOpenFileName(
            self, words("settings.file.open"), str(self._folder), self._filter
        )
        self._go_on_with(name, "settings.file.open.question")

    def make_new(self) -> None:
        """Ask for a name and go on with a new, empty file; one that is there is opened."""
        words = self.words
        name, _kind = QFileDialog.getSaveFileName(
            self,
            words("settings.file.new"),
            str(self._folder),
            self._filter,
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        if name and not Path(name).suffix:
            name = f"{name}.db"
        is_there = bool(name) and Path(name).exists()
        code = "settings.file.open.question" if is_there else "settings.file.new.question"
        self._go_on_with(name, code)

    def open_usual(self) -> None:
        """Ask, and go back to the usual data file."""
        words = self.words
        question = words("settings.file.usual.question")
        if ask(self, question, words("settings.file.go_on"), words("settings.stay")):
            self.context.open_file(None)

    def back_up(self) -> None:
        """Make the backup of the day, in the background."""
        self.context.runner.background(
            lambda _: self.presenter.back_up(),
            about=self.words("settings.backing_up"),
            then=self._backed_up,
            can_stop=False,
        )

    def restore(self) -> None:
        """Ask, put the chosen backup in the place of the data file, and open that anew."""
        row, words = self.table.current_row(), self.words
        if row is None:
            return
        question = words("settings.restore.question", made=row.made)
        more = words("settings.restore.means", folder=str(self.context.backups))
        if not ask(
            self, question, words("settings.restore.yes"), words("settings.stay"), more=more
        ):
            return
        if self.context.runner.is_busy:
            self.context.notices.trouble(words("settings.restore.busy"))
            return
        blocker = Blocker(words("settings.restoring"), self)
        blocker.show()
        self.context.runner.background(
            lambda _: self.presenter.restore(row.file),
            about=words("settings.restoring"),
            then=lambda saved: self._restored(blocker, saved),
            refused=lambda sentence: self._not_restored(blocker, sentence),
            can_stop=False,
        )

    @property
    def _folder(self) -> Path:
        return self.presenter.data_file.parent

    @property
    def _filter(self) -> str:
        return f"{self.words('settings.file.kind')} (*.db)"

    def _go_on_with(self, name: str, code: str) -> None:
        """Check the file before anything is let go, ask, and go on with it."""
        words = self.words
        if not name or Path(name) == self.presenter.data_file:
            return
        question = words(code, file=name)
        more = words("settings.file.means", file=str(self.presenter.data_file))

        def go_on(file: Path) -> None:
            yes, no = words("settings.file.go_on"), words("settings.stay")
            if ask(self, question, yes, no, more=more):
                self.context.open_file(file)

        self.context.runner.now(lambda: self.presenter.check(Path(name)), then=go_on)

    def _backed_up(self, made: Path) -> None:
        self.context.notices.say(self.words("settings.backed_up", file=str(made)))
        self._show_backups()

    def _restored(self, blocker: Blocker, saved: Path | None) -> None:
        blocker.end()
        _tell(self, self.words("settings.restored", saved=str(saved or "")))
        self.context.open_file(self.presenter.data_file)

    def _not_restored(self, blocker: Blocker, sentence: str) -> None:
        blocker.end()
        self.context.notices.trouble(sentence)

    def _show_backups(self) -> None:
        self.context.runner.now(self.presenter.backups, then=self._show)

    def _show(self, rows: tuple[BackupRow, ...]) -> None:
        self.table.set_rows(rows)
        if rows and self.table.current_row() is None:
            self.table.select(rows[0].file.name)
        self.restore_button.setEnabled(bool(rows))

    def _form(self) -> Form:
        form = Form(self.words)
        for key in _CHOICES:
            field = ChoiceField(self.presenter.choices(key))
            field.control().setMaximumWidth(_CHOICE_WIDTH)
            form.add(key, f"settings.{key}", field, f"settings.hint.{key}")
            field.edited.connect(_remembering(self, key))
        form.set_values(self.presenter.values())
        return form

    def choose(self, key: str) -> None:
        """Keep a choice. The screens are made anew by it, this one too, and the focus comes back
        here; where it could not be kept, this one stays and shows what holds."""
        self.context.remembered.setValue(_REMEMBERED, key)
        chosen = self.presenter.chosen(self.form.values())
        self.context.runner.now(lambda: self.context.set_preferences(chosen))
        self.form.set_values(self.presenter.values())

    def _take_up_focus(self) -> None:
        """Begin with the choice that was made last, else with the first."""
        key = self.context.remembered.value(_REMEMBERED)
        self.context.remembered.remove(_REMEMBERED)
        field = self.form.field(key if key in _CHOICES else _CHOICES[0])
        self.setFocusProxy(field.control())

    def _table(self) -> Table[BackupRow]:
        words = self.words
        return Table(
            self.context,
            "backups",
            [
                Column("made", words("settings.backup.made"), lambda row: row.made),
                Column("why", words("settings.backup.why"), lambda row: row.why),
                Column("size", words("settings.backup.size"), lambda row: row.size, to_right=True),
                Column("file", words("settings.backup.file"), lambda row: row.file.name),
            ],
            lambda row: row.file.name,
            about=words("settings.backups"),
            empty=words("settings.backups.empty"),
            sortable=False,
        )

    def _lay_out(self) -> None:
        words = self.words
        body = QWidget()
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, GAP, GAP)
        column.setSpacing(GAP)
        column.addWidget(self.form)
        column.addSpacing(GAP)
        column.addWidget(heading(words("settings.file")))
        column.addWidget(self.file)
        column.addLayout(_row(self.open_button, self.new_button, self.usual_button))
        column.addSpacing(GAP)
        column.addWidget(heading(words("settings.backups")))
        column.addWidget(small(self.presenter.kept_words()))
        column.addLayout(_row(self.back_up_button, self.restore_button))
        self.table.setFixedHeight(_TABLE_HEIGHT)
        column.addWidget(self.table)
        column.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(words, "settings"))
        layout.addWidget(scrolled(body), 1)


def _remembering(screen: SettingsScreen, key: str) -> Callable[[], None]:
    return lambda: screen.choose(key)


def _row(*widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    for widget in widgets:
        row.addWidget(widget)
    row.addStretch(1)
    return row


def _tell(parent: QWidget, sentence: str) -> None:
    """Say something that has to be read before the desk goes on."""
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Information)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(sentence)
    box.exec()
