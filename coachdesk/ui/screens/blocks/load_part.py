"""The tab of the load: volume, intensity and heavy lifts by week, as bars and as a table."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from coachdesk.domain.lifting import Lift
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import label, small
from coachdesk.ui.screens.blocks.forms import lift_choices
from coachdesk.ui.screens.blocks.load_rows import LoadRow, Measure
from coachdesk.ui.screens.blocks.open_block import OpenBlock
from coachdesk.ui.screens.blocks.part import Part
from coachdesk.ui.theme import GAP, Theme
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.table import Table
from coachdesk.wording.wording import Wording

_LEAST_BARS_PX, _MOST_BARS_PX = 90, 200
_HEAD_PX, _FOOT_PX = 20, 20
_SHARE_OF_WEEK = 0.36
_NOT_COUNTED = 1 + 2 * len(Measure)
"""The column that is filled only where a weight is open."""


class LoadPart(Part):
    """Shows the load of one block."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._words = words
        self._block: OpenBlock | None = None
        lifts = [("", words("blocks.load.all")), *lift_choices(words)]
        measures = [(each.value, words(f"blocks.load.{each}")) for each in Measure]
        self.choices = ChoiceRow(words)
        self.choices.add("lift", "blocks.field.lift", ChoiceField(lifts))
        self.choices.add("measure", "blocks.load.bars", ChoiceField(measures))
        self.bars = LoadBars(context.theme, words)
        self.table = _table(context)
        self._nothing = label(role="quiet", wrap=True)
        self.setFocusProxy(self.choices.field("lift").control())
        self.choices.edited.connect(self._draw)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.choices)
        layout.addWidget(self._nothing)
        layout.addWidget(self.bars, 1)
        layout.addWidget(self.table, 2)
        layout.addWidget(self.besides(small(words("blocks.load.about"))))

    def show_block(self, block: OpenBlock | None, nothing: str = "") -> None:
        """Show a block's load; without a block, `nothing` says what to do next."""
        self._block = block
        self._nothing.setText(nothing)
        self._nothing.setVisible(block is None)
        for view in (self.choices, self.bars, self.table):
            view.setVisible(block is not None)
        self._draw()

    def _draw(self) -> None:
        if self._block is None:
            return
        values = self.choices.values()
        rows = self._block.load(Lift(values["lift"]) if values["lift"] else None)
        self.table.set_rows(rows)
        self.table.view.setColumnHidden(_NOT_COUNTED, not any(row.open for row in rows))
        self.bars.show_rows(rows, Measure(values["measure"]))


class LoadBars(QWidget):
    """Two bars a week: hollow what is planned, full what is done, figures above them."""

    def __init__(self, theme: Theme, words: Wording) -> None:
        super().__init__()
        self._theme = theme
        self._words = words
        self._rows: tuple[LoadRow, ...] = ()
        self._measure = Measure.VOLUME
        self.setMinimumHeight(_LEAST_BARS_PX)
        self.setMaximumHeight(_MOST_BARS_PX)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)

    def show_rows(self, rows: tuple[LoadRow, ...], measure: Measure) -> None:
        """Draw a measure of the weeks."""
        self._rows, self._measure = rows, measure
        said = self._words("blocks.load.bars_of", measure=self._words(f"blocks.load.{measure}"))
        self.setAccessibleName(said)
        self.setAccessibleDescription("; ".join(self._in_words()))
        self.update()

    def _in_words(self) -> Iterator[str]:
        """The figures of each week that has any."""
        words = self._words
        for row in self._rows:
            planned, done = (each[self._measure].words for each in (row.planned, row.done))
            if planned or done:
                none = words("blocks.load.none")
                said = {"planned": planned or none, "done": done or none}
                yield words("blocks.load.bars_said", week=row.head, **said)

    def sizeHint(self) -> QSize:
        """As low as it can be read."""
        return QSize(super().sizeHint().width(), _LEAST_BARS_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.panel))
        lengths = [
            figure.length
            for row in self._rows
            for figure in (row.planned[self._measure], row.done[self._measure])
            if figure.length
        ]
        foot = self.height() - _FOOT_PX
        painter.setPen(QColor(self._theme.rule))
        painter.drawLine(0, foot, self.width(), foot)
        longest = max(lengths, default=1.0)
        wide = self.width() / max(1, len(self._rows))
        for at, row in enumerate(self._rows):
            self._draw_week(painter, row, QRectF(at * wide, 0, wide, foot), longest)
        painter.end()

    def _draw_week(self, painter: QPainter, row: LoadRow, room: QRectF, longest: float) -> None:
        theme, wide = self._theme, room.width() * _SHARE_OF_WEEK
        painter.setPen(QColor(theme.ink))
        below = QRectF(room.left(), room.bottom(), room.width(), _FOOT_PX)
        fits = painter.fontMetrics().horizontalAdvance(row.head) < below.width()
        head = row.head if fits else str(row.week)
        painter.drawText(below, Qt.AlignmentFlag.AlignCenter, head)
        pairs = ((row.planned, theme.panel, -1.0), (row.done, theme.accent, 0.0))
        for figures, ground, side in pairs:
            figure = figures[self._measure]
            if figure.length is None:
                continue
            high = (room.height() - 2 * _HEAD_PX) * figure.length / longest
            left = room.center().x() + side * wide
            bar = QRectF(left + 1, room.bottom() - high, wide - 2, high)
            painter.setPen(QPen(QColor(theme.accent), 1.5))
            painter.setBrush(QColor(ground))
            painter.drawRect(bar)
            painter.setPen(QColor(theme.ink))
            fits = painter.fontMetrics().horizontalAdvance(figure.words) <= wide
            if fits:
                above = QRectF(left, bar.top() - _HEAD_PX, wide, _HEAD_PX)
                painter.drawText(above, Qt.AlignmentFlag.AlignCenter, figure.words)


def _table(context: Context) -> Table[LoadRow]:
    words = context.words
    columns: list[Column[LoadRow]] = [
        Column("week", words("blocks.column.week"), lambda row: row.head, lambda row: row.week)
    ]
    sides = ("planned", "done")
    columns += [_figure_column(words, each, side) for each in Measure for side in sides]
    columns.append(Column("open", words("blocks.column.open"), lambda row: row.open))
    return Table(
        context,
        "blocks.load",
        columns,
        lambda row: row.week,
        about=words("blocks.load.table"),
        several=True,
    )


def _figure_column(words: Wording, measure: Measure, side: str) -> Column[LoadRow]:
    def figure(row: LoadRow) -> tuple[str, float | None]:
        found = (row.planned if side == "planned" else row.done)[measure]
        return found.words, found.length

    return Column(
        f"{measure}_{side}",
        words(f"blocks.load.{measure}.{side}"),
        lambda row: figure(row)[0],
        lambda row: figure(row)[1],
        to_right=True,
    )
