"""The tab of a block's weeks: what it is, its training maxima, the grid, and the cell in full."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, button, heading, label, small
from coachdesk.ui.screens.blocks.deeds import BlockDeeds
from coachdesk.ui.screens.blocks.grid_model import GridModel, Typed
from coachdesk.ui.screens.blocks.grid_view import GridView
from coachdesk.ui.screens.blocks.open_block import OpenBlock
from coachdesk.ui.screens.blocks.part import Part
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.more_button import HEADING_DROP, more_button

_LEAST_LINES, _MOST_LINES_IF_LOW, _MOST_LINES = 3, 4, 6
"""Room for the cell in full."""
_LINE_ROUNDED_PX = 1
"""What a label gives a line beyond its metrics [px]."""
_SHOWN = 3
"""Things to do that have a button of their own."""


class WeeksPart(Part):
    """Shows one block, or that there is none."""

    left = Signal()
    """Escape leads back to the lists."""

    def __init__(self, context: Context, deeds: BlockDeeds) -> None:
        super().__init__()
        words = context.words
        self._context = context
        self._words = words
        self._deeds = deeds
        self.block: OpenBlock | None = None
        self.model = GridModel(context.theme, self._save, lambda error: words.say(error.text))
        self.grid = GridView(self.model, words, words("blocks.grid.empty"))
        self._title = self.besides(heading())
        self._title.setContentsMargins(0, 0, 0, HEADING_DROP)
        self._facts = self.besides(small())
        self._maxima = self.besides(small(role=""))
        self.in_full = label(wrap=True)
        self.in_full.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self._in_full = scrolled(self.in_full)
        self._in_full.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._in_full.setAccessibleName(words("blocks.full"))
        self.sentence = label(role="bad", wrap=True)
        self.sentence.hide()
        self._nothing = label(role="quiet", wrap=True)
        self._pages = QStackedWidget()
        self._actions: list[QAction] = []
        self._lay_out()
        self.grid.moved.connect(self._say_cell)
        self.grid.left.connect(self.left)
        self.grid.refused.connect(self._say_sentence)
        self.model.refused.connect(self._say_sentence)
        self.show_block(None)

    def show_block(self, block: OpenBlock | None, nothing: str = "") -> None:
        """Show a block; without one, `nothing` says what to do next."""
        key = self.grid.current_key()
        same = block is not None and self.block is not None and block.id == self.block.id
        self.block = block
        self._deeds.block = block
        self._pages.setCurrentIndex(0 if block is None else 1)
        self._nothing.setText(nothing)
        self.model.show_grid(None if block is None else block.grid())
        for each in self._actions:
            each.setEnabled(block is not None)
        if block is None:
            return
        self._title.setText(block.title)
        self._facts.setText(block.facts)
        self._maxima.setText(block.maxima)
        self.grid.fit()
        grid = self.model.grid
        if same and key is not None:
            self.grid.go_to(key)
        if not self.grid.currentIndex().isValid() and grid is not None and grid.rows:
            self.grid.setCurrentIndex(self.model.index(0, max(0, grid.this_week - 1)))
        self._say_cell()

    def begin(self) -> None:
        """Go to the grid."""
        self.grid.setFocus()

    def go_to_exercise(self, exercise_id: object) -> None:
        """Stand on an exercise's first week, as after adding it."""
        if isinstance(exercise_id, int):
            self.grid.go_to((exercise_id, 1))
        self.grid.setFocus()

    def _save(self, typed: Typed, refuse: Callable[[InvalidInput], object]) -> bool:
        block = self.block
        if block is None:
            return False
        return self._context.runner.now(lambda: block.type_cells(typed), invalid=refuse)

    def _say_cell(self) -> None:
        self._say_in_full()
        self._say_sentence(self.model.sentence(self.grid.currentIndex()))

    def _say_sentence(self, sentence: str) -> None:
        self.sentence.setText(sentence)
        self.sentence.setVisible(bool(sentence))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The cell in full takes what room it needs, the grid the rest."""
        super().resizeEvent(event)
        self._say_in_full()

    def _say_in_full(self) -> None:
        """The cell in full, and room for it; where there is little, it begins beside its head."""
        key, block = self.grid.current_key(), self.block
        said = "" if key is None or block is None else block.in_full(key)
        self.in_full.setText(said if self.is_roomy else said.replace("\n", " ", 1))
        line = self.in_full.fontMetrics().lineSpacing() + _LINE_ROUNDED_PX
        most = _MOST_LINES if self.is_roomy else _MOST_LINES_IF_LOW
        wanted = self.in_full.heightForWidth(self.width())
        self._in_full.setFixedHeight(min(max(wanted, _LEAST_LINES * line), most * line))

    def _add_exercise(self) -> None:
        self.go_to_exercise(self._deeds.add_exercise())

    def _of_cell(self, then: Callable[[tuple[int, int]], object]) -> Callable[[], object]:
        """Something done to the cell the grid stands on; the grid has the focus again then."""

        def do() -> None:
            key = self.grid.current_key()
            if key is not None:
                then(key)
            self.grid.setFocus()

        return do

    def _lay_out(self) -> None:
        words = self._words
        self._nothing.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        self._nothing.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(self._head())
        layout.addWidget(self._facts)
        layout.addWidget(self._maxima)
        layout.addWidget(self.grid, 1)
        layout.addWidget(self.sentence)
        layout.addWidget(self._in_full)
        layout.addWidget(self.besides(small(words("blocks.legend"))))
        self._pages.addWidget(self._nothing)
        self._pages.addWidget(page)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._pages)

    def _head(self) -> FlowLayout:
        words, deeds = self._words, self._deeds
        of_cell = self._of_cell
        told = (
            ("exercise.add", self._add_exercise, "Ctrl+E"),
            ("log", of_cell(deeds.log), "Ctrl+L"),
            ("print", of_cell(lambda key: deeds.print_weeks(key[1])), shortcuts.PRINT),
            ("maxima", deeds.set_maxima, "Ctrl+B"),
            ("fill_right", self.grid.fill_right, "Ctrl+R"),
            ("fill_down", self.grid.fill_down, "Ctrl+D"),
            ("day", of_cell(deeds.note_day), "Ctrl+Shift+M"),
            ("exercise.change", of_cell(deeds.change_exercise), "Ctrl+Shift+E"),
            ("exercise.up", of_cell(lambda key: deeds.move_exercise(key, -1)), "Alt+Up"),
            ("exercise.down", of_cell(lambda key: deeds.move_exercise(key, 1)), "Alt+Down"),
            ("exercise.delete", of_cell(deeds.delete_exercise), "Ctrl+Shift+Delete"),
            ("copy_week", of_cell(deeds.copy_week), "Ctrl+Shift+C"),
            ("copy_block", deeds.copy_block, "Ctrl+Shift+B"),
            ("change", deeds.change_block, "Ctrl+M"),
            ("delete", deeds.delete_block, ""),
        )
        row = FlowLayout(line_gap=GAP // 2)
        row.addWidget(self._title)
        for code, then, keys in told:
            self._actions.append(action(self, words(f"blocks.action.{code}"), then, keys))
        for code, then, keys in told[:_SHOWN]:
            hint = QKeySequence(keys).toString()
            row.addWidget(button(words(f"blocks.{code}"), then, hint=hint))
        entries = [(words(f"blocks.action.{code}"), then) for code, then, _ in told[_SHOWN:]]
        more, _ = more_button(words("blocks.more"), words("blocks.more.block"), entries)
        row.addWidget(more)
        return row
