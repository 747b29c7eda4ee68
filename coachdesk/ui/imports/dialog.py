"""Importing records from a file: how it is read, every line as understood, kept or not at all."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Generic

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QProgressBar, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.domain.athlete import Athlete
from coachdesk.services.import_file import KEPT, Fate, Line, Progress
from coachdesk.services.typed import yes
from coachdesk.ui.context import Context
from coachdesk.ui.imports.asking import ask_for_file
from coachdesk.ui.imports.athletes_presenter import AthletesPresenter
from coachdesk.ui.imports.choices import ImportChoices
from coachdesk.ui.imports.presenter import ImportPresenter, Opened, R
from coachdesk.ui.imports.sets_presenter import SetsPresenter
from coachdesk.ui.imports.weights_presenter import WeightsPresenter
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button, label, set_role, small
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.weights.system_days import system_order
from coachdesk.ui.widgets.fields import ChoiceField, YesNoField
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.line_report import LineReport
from coachdesk.ui.widgets.table import Table

_SIZE = (980, 700)
_AROUND = 40
"""Sizes [px]."""
_FELT_MS = 300
"""From here on a wait is felt, and its progress shown."""
_ALL, _DOUBTFUL = "all", "doubtful"


def import_athletes(context: Context, parent: QWidget, file: Path | None = None) -> None:
    """Show what a file of athletes would bring, having asked for the file where none is named."""
    presenter = AthletesPresenter(context.desk, context.words, system_order())
    _import(context, presenter, parent, file)


def import_weights(context: Context, parent: QWidget) -> None:
    """Ask for a file of weights, and show what it would bring."""
    _import(context, WeightsPresenter(context.desk, context.words, system_order()), parent)


def import_sets(context: Context, owner: Athlete, parent: QWidget) -> None:
    """Ask for a file of logged sets, `owner`'s where it names nobody, and show what it brings."""
    _import(context, SetsPresenter(context.desk, context.words, system_order(), owner), parent)


def _import(
    context: Context, presenter: ImportPresenter[R], parent: QWidget, named: Path | None = None
) -> None:
    file = named or ask_for_file(context.words, presenter.codes.title, parent)
    if file is not None:
        dialog = ImportDialog(context, presenter, file, parent)
        dialog.exec()
        dialog.deleteLater()


class ImportDialog(QDialog, Generic[R]):
    """Reads in the background; leaving stops it."""

    def __init__(
        self, context: Context, presenter: ImportPresenter[R], file: Path, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._context = context
        self._words = words = context.words
        self._presenter = presenter
        self._opened: Opened[R] | None = None
        self._is_fitted = False
        self._is_keeping = False
        self._stop: Callable[[], None] | None = None
        self.setWindowTitle(words(presenter.codes.title))
        self.found = label(wrap=True)
        self.choices = ImportChoices(words, self._presenter)
        self._choices_area = scrolled(self.choices)
        self.summary = label(wrap=True)
        self.shown = ChoiceField([(each, words(f"weights.show.{each}")) for each in _SHOWN])
        self.shown.control().setAccessibleName(words("weights.show"))
        self.table = self._make_table()
        self.beside = label(wrap=True)
        self.leave_out = YesNoField("")
        self._bar = QProgressBar()
        self._bar.setAccessibleName(words("frame.progress"))
        self._felt = QTimer(self)
        self._felt.setSingleShot(True)
        self._felt.setInterval(_FELT_MS)
        self._felt.timeout.connect(self._bar.show)
        self._keep = button("", self.keep, leading=True)
        self._lay_out()
        self.choices.edited.connect(self._read_again)
        self.shown.edited.connect(self._show_lines)
        self.table.moved.connect(self._show_beside)
        self.leave_out.edited.connect(self._show_keep)
        room = parent.window().size()
        self.resize(min(_SIZE[0], room.width()), min(_SIZE[1], room.height() - _AROUND))
        self._run(lambda progress: self._presenter.open(file, progress))

    @property
    def is_busy(self) -> bool:
        """Whether something is read or kept in the background."""
        return self._stop is not None

    def keep(self) -> None:
        """Keep what is shown, all of it or nothing, and report line by line."""
        opened = self._opened
        if opened is None or not self._keep.isEnabled():
            return
        leave_out = yes(self.leave_out.value())
        self._begin()
        self._is_keeping = True
        self._stop = self._context.runner.background(
            lambda _: self._presenter.keep(opened, leave_out=leave_out),
            about=self._words(self._presenter.codes.keeping),
            then=lambda _: self._kept(opened),
            refused=self._refused,
            can_stop=False,
            quiet=True,
        )

    def reject(self) -> None:
        """Leave; reading is stopped, and nothing is kept. What is being kept is waited for."""
        if self._is_keeping:
            return
        if self._stop is not None:
            self._stop()
        super().reject()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.keep()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the window is low the choices scroll, so that lines stay in sight."""
        super().resizeEvent(event)
        wanted = self.choices.heightForWidth(self.width() - 2 * MARGIN)
        self._choices_area.setFixedHeight(min(wanted, self.height() * 3 // 10))

    def _read_again(self) -> None:
        opened, values = self._opened, self.choices.values()
        if opened is not None:
            self._run(lambda progress: self._presenter.read_again(opened, values, progress))

    def _run(self, task: Callable[[Progress], Opened[R]]) -> None:
        focused = self.focusWidget()
        self._begin()
        self._stop = self._context.runner.background(
            task,
            about=self._words(self._presenter.codes.reading),
            then=lambda opened: self._show(opened, focused),
            refused=self._refused,
            stopped=self._end,
            progress=self._show_progress,
            quiet=True,
        )

    def _begin(self) -> None:
        self.choices.setEnabled(False)
        self._keep.setEnabled(False)
        self._bar.setRange(0, 0)
        self._felt.start()

    def _end(self) -> bool:
        """What was under way has ended; answers whether the dialog is still there."""
        if not isValid(self):
            return False
        self._stop = None
        self._is_keeping = False
        self._felt.stop()
        self._bar.hide()
        self.choices.setEnabled(self._opened is not None)
        return True

    def _show_progress(self, done: int, of: int) -> None:
        if isValid(self):
            self._bar.setRange(0, of)
            self._bar.setValue(done)

    def _show(self, opened: Opened[R], focused: QWidget | None) -> None:
        if not isValid(self):
            return
        self._opened = opened
        self._end()
        self.choices.show_opened(opened)
        self.found.setText(self._presenter.found(opened))
        self.summary.setText(self._presenter.summary(opened))
        preview = opened.preview
        faulty = preview.count(Fate.FAULTY)
        set_role(self.summary, "warn" if preview.lacking or faulty else "")
        self.leave_out.setVisible(bool(faulty))
        self.leave_out.set_value("")
        self.leave_out.box.setText(self._words("weights.leave_out", count=faulty))
        self._show_lines()
        self._show_keep()
        (focused or self.table).setFocus()

    def _show_lines(self) -> None:
        lines = () if self._opened is None else self._opened.preview.lines
        if self.shown.value() == _DOUBTFUL:
            lines = tuple(line for line in lines if line.remarks)
        is_read = self._opened is not None and self._opened.preview.lacking is None
        if is_read and not self._is_fitted:
            self._is_fitted = True
            self.table.view.widths_are_set = False  # lines not read yet have narrow words
        self.table.set_rows(lines)

    def _show_beside(self) -> None:
        """The current line's remark in full: a long one does not fit in its cell."""
        line = self.table.current_row()
        remark = "" if line is None else self._presenter.remark(line)
        self.beside.setText(remark)
        self.beside.setVisible(bool(remark))

    def _show_keep(self) -> None:
        if self._opened is None:
            return
        preview = self._opened.preview
        count = preview.count(*KEPT)
        may = not preview.count(Fate.FAULTY) or yes(self.leave_out.value())
        self._keep.setText(self._words(self._presenter.codes.keep, count=count))
        self._keep.setEnabled(bool(count) and may)

    def _kept(self, opened: Opened[R]) -> None:
        if not self._end():
            return
        words, count = self._words, opened.preview.count(*KEPT)
        said = words(self._presenter.codes.done, count=count)
        self._context.notices.say(said)
        title, report = words(self._presenter.codes.report_title), self._presenter.report(opened)
        LineReport(words, title, said, report, self, save=self._save_report).exec()
        self.accept()

    def _refused(self, sentence: str) -> None:
        if self._end():
            self.summary.setText(sentence)
            set_role(self.summary, "bad")
            self._show_keep()

    def _save_report(self, report: str) -> None:
        words = self._words
        suggested = words(self._presenter.codes.report_file)
        name, _kind = QFileDialog.getSaveFileName(
            self,
            words("frame.report.save"),
            suggested,
            words("weights.texts"),
        )
        if name:
            self._context.runner.now(lambda: self._presenter.save_report(Path(name), report))

    def _make_table(self) -> Table[Line[R]]:
        words, say = self._words, self._presenter
        return Table(
            self._context,
            "import_weights",
            [
                Column("line", words("weights.column.line"), _number, to_right=True),
                Column("fate", words("weights.column.fate"), say.fate, role=say.role),
                Column(
                    "understood",
                    words("weights.column.understood"),
                    say.understood,
                    tip=say.understood,
                ),
                Column("remark", words("weights.column.remark"), say.remark, tip=say.remark),
                Column("written", words("weights.column.written"), say.as_written),
            ],
            lambda line: line.number,
            about=words("weights.lines"),
            sortable=False,
            several=True,
        )

    def _lay_out(self) -> None:
        words = self._words
        self._bar.hide()
        self.beside.hide()
        self.leave_out.hide()
        self.choices.setEnabled(False)
        self._keep.setText(words(self._presenter.codes.keep, count=0))
        self._keep.setEnabled(False)
        above = QHBoxLayout()
        above.addWidget(self.summary, 1)
        above.addWidget(self.shown)
        buttons = QHBoxLayout()
        buttons.addWidget(self._bar)
        buttons.addWidget(self.leave_out)
        buttons.addStretch(1)
        buttons.addWidget(button(words("frame.leave"), self.reject))
        buttons.addWidget(self._keep)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words(self._presenter.codes.about)))
        layout.addWidget(self.found)
        layout.addWidget(self._choices_area)
        layout.addLayout(above)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.beside)
        layout.addLayout(buttons)


_SHOWN = (_ALL, _DOUBTFUL)


def _number(line: Line[R]) -> str:
    return str(line.number)
