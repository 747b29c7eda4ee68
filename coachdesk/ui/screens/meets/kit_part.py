"""Kit and tasks of a meet: the team, and below it one entry's tasks beside the kit to check."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.change import Change
from coachdesk.domain.kit_rounds import Sight
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, ask, button, heading, label, small
from coachdesk.ui.screens.meets.kit_presenter import AFTER, KitLook, KitPresenter
from coachdesk.ui.screens.meets.kit_rows import ItemRow, TaskRow, TeamRow
from coachdesk.ui.screens.meets.kit_tables import items_table, tasks_table, team_table
from coachdesk.ui.screens.meets.tall_part import TallPart
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.elided import NameHeading
from coachdesk.ui.widgets.fields import ChoiceField, DateField, TextField
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog

KINDS = frozenset({"kit_check", "task"})
"""The tables that a tick changes."""
_NARROW = 860
"""In less [px] the kit goes below the tasks."""
_TEAM_AT_ONCE, _TASKS_AT_ONCE, _ITEMS_AT_ONCE = 6, 11, 13
_ROUND_LETTERS = 30
_SIGHTS = (
    ("ready.there", Sight.PRESENT, "Ctrl+Shift+Y"),
    ("ready.missing", Sight.MISSING, "Ctrl+Shift+M"),
    ("ready.not_looked", Sight.NOT_LOOKED, "Ctrl+Shift+U"),
)


class KitPart(TallPart):
    """Ticks kit and tasks; a usual task for all athletes chosen in the team."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._context = context
        self._presenter = KitPresenter(context.desk, words)
        self._is_filling = False
        self.shown: KitLook | None = None
        self.table = team_table(context)
        self.tasks = tasks_table(context)
        self.items = items_table(context)
        self._round = ChoiceRow(words)
        self.round = ChoiceField()
        self.round.box.setMinimumContentsLength(_ROUND_LETTERS)
        self._round.add("round", "ready.round.choose", self.round)
        self.bag, self.inspection, self.hint, self.limits = small(), small(), small(), small()
        self._who, self._several = NameHeading(), small()
        self.fault = label(role="bad", wrap=True)
        self._read_meet_id = 0
        self._lay_out()
        self.table.moved.connect(self._show_chosen)
        self.table.view.selectionModel().selectionChanged.connect(lambda *_: self._say_several())
        self.table.opened.connect(lambda _: self.tasks.setFocus())
        self.tasks.moved.connect(self._show_task)
        self.tasks.opened.connect(lambda _: self.tick_task())
        self.tasks.delete_asked.connect(self.delete_task)
        self.items.opened.connect(lambda _: self.cycle())
        self.items.moved.connect(self._show_item)
        self._round.edited.connect(self._show_chosen)
        for view in (self.tasks.view, self.items.view):
            view.installEventFilter(self)
        context.changed.changed.connect(self._changed)

    def read(self, meet_id: int) -> None:
        """Read a meet's kit and tasks; at another meet the rounds begin with the one due."""
        if meet_id != self._read_meet_id:
            self._read_meet_id = meet_id
            self.round.set_choices(())
        if not self._context.runner.now(
            lambda: self._presenter.rows(meet_id), then=self._show_rows
        ):
            self._show_rows(())

    def tick_task(self) -> None:
        """The task chosen is done, or not done after all."""
        row, chosen = self.tasks.current_row(), self._chosen()
        if row is not None and chosen and not row.by_records:
            self._context.runner.now(lambda: self._presenter.tick_task(chosen, row))

    def cycle(self) -> None:
        """The piece chosen goes on: there, missing, not looked for."""
        row = self.items.current_row()
        if row is not None:
            self._tick_item(row, AFTER[row.sight])

    def tick_item(self, sight: Sight) -> None:
        """Note what a look at the piece chosen came to, and go to the next piece."""
        row = self.items.current_row()
        if row is None:
            return
        codes = [each.code for each in self.items.rows]
        following = codes[min(codes.index(row.code) + 1, len(codes) - 1)]
        self._tick_item(row, sight)
        self.items.select(following)

    def tick_all(self) -> None:
        """Everything is there, for the athletes chosen in the team."""
        look, chosen = self.shown, self._chosen()
        if look is not None and look.round and chosen:
            self._context.runner.now(lambda: self._presenter.tick_all(chosen, look.round))

    def add_task(self) -> None:
        """Ask for a task of the coach's own, for the athletes chosen in the team."""
        chosen = self._chosen()
        if chosen:
            self._ask(None, "ready.add", lambda values: self._presenter.add_task(chosen, values))

    def change_task(self) -> None:
        """Ask for another day; for one of the coach's own, for other words too."""
        row, chosen = self.tasks.current_row(), self._chosen()
        if row is not None and chosen:
            self._ask(
                row,
                "ready.change",
                lambda values: self._presenter.change_task(chosen, row, values),
            )

    def delete_task(self) -> None:
        """Ask, and delete a task of the coach's own."""
        row, words = self.tasks.current_row(), self._context.words
        if row is None or row.code:
            return
        question = words("ready.delete.question", task=row.task)
        if ask(self, question, words("ready.delete"), words("ready.keep")):
            self._context.runner.now(lambda: self._presenter.delete_task(row))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Space ticks."""
        is_space = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Space
        if is_space and event.type() is QEvent.Type.KeyPress:
            (self.tick_task if watched is self.tasks.view else self.cycle)()
            return True
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Tasks and kit side by side where there is room."""
        ways = QBoxLayout.Direction
        is_narrow = event.size().width() < _NARROW
        self._both.setDirection(ways.TopToBottom if is_narrow else ways.LeftToRight)
        super().resizeEvent(event)

    def _changed(self, changes: frozenset[Change]) -> None:
        """Read again after a tick; the rest of the screen need not."""
        if any(change.kind in KINDS for change in changes):
            QTimer.singleShot(0, self, self.show_again)

    def _tick_item(self, row: ItemRow, sight: Sight) -> None:
        look = self.shown
        if look is not None:
            self._context.runner.now(
                lambda: self._presenter.tick_item(look.id, look.round, row.code, sight)
            )

    def _chosen(self) -> list[int]:
        """The entries that a tick is for: those selected, or the one the table stands on."""
        rows = self.table.selected_rows()
        current = self.table.current_row()
        return [row.id for row in rows] or ([] if current is None else [current.id])

    def _show_rows(self, rows: tuple[TeamRow, ...]) -> None:
        self._is_filling = True
        self.table.set_rows(rows)
        if rows and self.table.current_row() is None:
            self.table.select(rows[0].id)
        self.table.show_at_once(min(len(rows), _TEAM_AT_ONCE))
        self._is_filling = False
        self.fault.setText(self._presenter.fault())
        self.fault.setVisible(bool(self.fault.text()))
        self.table.setVisible(not self.fault.text())
        self.bag.setText(self._presenter.bag())
        self.inspection.setText(self._presenter.inspection())
        self._show_chosen()

    def _show_chosen(self) -> None:
        row = self.table.current_row()
        self._body.setVisible(row is not None)
        if self._is_filling or row is None:
            return
        self._say_several()
        look = self._presenter.look(row.id, self.round.value())
        is_same = self.shown is not None and look is not None and self.shown.id == look.id
        self.shown = look
        if look is None:
            return
        self._is_filling = True
        self._who.setText(look.title)
        self.tasks.set_rows(look.tasks)
        self.tasks.show_at_once(min(len(look.tasks), _TASKS_AT_ONCE))
        self.round.set_choices(list(look.rounds))
        self.round.set_value(look.round)
        self.items.set_rows(look.items)
        self.items.show_at_once(min(len(look.items), _ITEMS_AT_ONCE))
        if not is_same or self.tasks.current_row() is None:
            self._go_to_open(look)
        self._is_filling = False
        self._show_task()
        self._show_item()

    def _go_to_open(self, look: KitLook) -> None:
        """Begin at the first task that is not done, and at the first piece not looked for."""
        task = next((row.key for row in look.tasks if not row.is_done), None)
        item = next((row.code for row in look.items if row.sight is Sight.NOT_LOOKED), None)
        self.tasks.select(task or (look.tasks[0].key if look.tasks else None))
        self.items.select(item or (look.items[0].code if look.items else None))

    def _show_task(self) -> None:
        row = self.tasks.current_row()
        self.hint.setText("" if row is None else row.hint)
        self.hint.setVisible(row is not None and bool(row.hint))
        self._tick.setEnabled(row is not None and not row.by_records)
        self._delete.setEnabled(row is not None and not row.code)

    def _show_item(self) -> None:
        row = self.items.current_row()
        self.limits.setText("" if row is None else row.limits)
        self.limits.setVisible(row is not None and bool(row.limits))

    def _say_several(self) -> None:
        count = len(self._chosen())
        self._several.setText(self._context.words("ready.several_chosen", count=count))
        self._several.setVisible(count > 1)

    def _ask(
        self, row: TaskRow | None, code: str, keep: Callable[[dict[str, str]], object]
    ) -> None:
        words = self._context.words
        form = Form(words)
        if row is None or not row.code:
            form.add("words", "ready.form.words", TextField())
        hint = "ready.form.due_on.hint" if row is not None and row.code else ""
        form.add("due_on", "ready.form.due_on", DateField(pick=words("roster.pick")), hint)
        values = self._presenter.task_values(row)
        form.set_values({name: values[name] for name in form.values()})
        dialog = FormDialog(
            self._context,
            words(code),
            form,
            keep,
            about=row.task if row is not None and row.code else "",
            parent=self,
        )
        dialog.exec()
        dialog.deleteLater()

    def _lay_out(self) -> None:
        self._body = QWidget()
        self._both = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._both.setSpacing(WIDE_GAP)
        self._both.addWidget(self._tasks_side(), 1)
        self._both.addWidget(self._kit_side(), 1)
        body = QVBoxLayout(self._body)
        body.setContentsMargins(0, GAP, GAP, 0)
        body.setSpacing(GAP // 2)
        body.addWidget(self._who)
        body.addWidget(self._several)
        body.addLayout(self._both)
        body.addWidget(self.inspection)
        body.addWidget(self.bag)
        body.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.fault)
        layout.addWidget(self.table)
        layout.addWidget(self._body, 1)

    def _tasks_side(self) -> QWidget:
        words = self._context.words
        self._tick = button(words("ready.tick"), self.tick_task, hint="Space")
        self._delete = button(words("ready.delete.dots"), self.delete_task)
        buttons = FlowLayout()
        for each in (
            self._tick,
            button(words("ready.change.dots"), self.change_task),
            button(words("ready.add.dots"), self.add_task, hint="Ctrl+Shift+A"),
            self._delete,
        ):
            buttons.addWidget(each)
        action(self, words("ready.add.dots"), self.add_task, "Ctrl+Shift+A")
        return _side(heading(words("ready.tasks")), self.tasks, self.hint, buttons)

    def _kit_side(self) -> QWidget:
        words = self._context.words
        buttons = FlowLayout()
        for code, sight, keys in _SIGHTS:
            then = self._ticking(sight)
            buttons.addWidget(button(words(code), then, hint=keys))
            action(self, words(code), then, keys)
        buttons.addWidget(button(words("ready.all_there"), self.tick_all, hint="Ctrl+Shift+E"))
        action(self, words("ready.all_there"), self.tick_all, "Ctrl+Shift+E")
        return _side(heading(words("ready.kit")), self._round, self.items, self.limits, buttons)

    def _ticking(self, sight: Sight) -> Callable[[], None]:
        return lambda: self.tick_item(sight)


def _side(*parts: QWidget | FlowLayout) -> QWidget:
    side = QWidget()
    layout = QVBoxLayout(side)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(GAP // 2)
    for part in parts:
        if isinstance(part, QWidget):
            layout.addWidget(part)
        else:
            layout.addLayout(part)
    layout.addStretch(1)
    return side
