"""The left side: athletes, found while typing, and the blocks of the one chosen."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button
from coachdesk.ui.screens.blocks.presenter import AthleteRow, BlockRow
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.line import SearchLine
from coachdesk.ui.widgets.more_button import more_button
from coachdesk.ui.widgets.table import Table

_LEAST_WIDTH = 250
_BLOCKS_SHOWN = 4


class ListSide(QWidget):
    """Search box, athletes, blocks, and ways to start one."""

    narrowed = Signal()
    add_asked = Signal()
    generate_asked = Signal()
    template_asked = Signal()

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self.search = SearchLine()
        self.search.setPlaceholderText(words("blocks.search"))
        self.search.setAccessibleName(words("blocks.search"))
        self.search.setClearButtonEnabled(True)
        self.athletes: Table[AthleteRow] = Table(
            context,
            "blocks.athletes",
            [
                Column(
                    "name",
                    words("blocks.column.athlete"),
                    lambda row: row.name,
                    lambda row: row.by_name,
                ),
                Column(
                    "meet",
                    words("blocks.column.meet_in"),
                    lambda row: row.meet,
                    lambda row: row.meet_on,
                ),
            ],
            lambda row: row.id,
            about=words("blocks.athletes"),
            empty=words("blocks.athletes.empty"),
            fills="name",
        )
        self.blocks: Table[BlockRow] = Table(
            context,
            "blocks.blocks",
            [
                Column("name", words("blocks.column.block"), lambda row: row.name),
                Column("state", words("blocks.column.state"), lambda row: row.state, _starts_on),
            ],
            lambda row: row.id,
            about=words("blocks.blocks"),
            empty=words("blocks.blocks.empty"),
            fills="name",
        )
        self.blocks.show_at_least(_BLOCKS_SHOWN)
        self.buttons = FlowLayout(line_gap=GAP // 2)
        hint = words("blocks.action.add")
        self.buttons.addWidget(
            button(words("blocks.add"), self.add_asked.emit, leading=True, hint=hint)
        )
        to_meet = button(words("blocks.generate"), self.generate_asked.emit, hint="Ctrl+Shift+G")
        self.buttons.addWidget(to_meet)
        more, _ = more_button(
            words("blocks.more"),
            words("blocks.more.start"),
            [(words("blocks.action.template"), self.template_asked.emit)],
        )
        self.buttons.addWidget(more)
        self.search.textChanged.connect(lambda _: self.narrowed.emit())
        self.search.went_on.connect(self.athletes.setFocus)
        self.setMinimumWidth(_LEAST_WIDTH)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, GAP, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.search)
        layout.addWidget(self.athletes, 3)
        layout.addWidget(self.blocks, 2)
        layout.addLayout(self.buttons)

    def focus_search(self) -> None:
        """Go to the search box."""
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()


def _starts_on(row: BlockRow) -> object:
    return row.block.starts_on
