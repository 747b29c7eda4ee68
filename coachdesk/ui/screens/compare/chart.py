"""Bars drawn by pyqtgraph, which is loaded when the first one is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFontMetrics
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.plain import heading, small
from coachdesk.ui.screens.compare.drawing import Bar, Drawn
from coachdesk.ui.theme import GAP, Theme
from coachdesk.ui.widgets.form_dialog import scrolled

_BAR_PX = 28
_AXIS_PX = 64
_LONGEST_NAME_PX = 240
_THICKNESS = 0.68
_ROOM_FOR_WORDS = 1.12
_ROOM_AT_END = 1.02


class CompareChart(QWidget):
    """Horizontal bars with their values written at them, and the whole in words for those who
    cannot see them."""

    def __init__(self, theme: Theme, about: str) -> None:
        super().__init__()
        self._theme = theme
        self._plot: Any = None
        self._about = about
        self._title = heading()
        self._note = small()
        self._holder = QWidget()
        self._holder_layout = QVBoxLayout(self._holder)
        self._holder_layout.setContentsMargins(0, 0, 0, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, GAP, GAP, 0)
        layout.setSpacing(GAP // 2)
        layout.addWidget(self._title)
        layout.addWidget(self._note)
        self._area = scrolled(self._holder)
        self._area.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        layout.addWidget(self._area, 1)
        self._area.setAccessibleName(about)

    @property
    def is_drawn(self) -> bool:
        """Whether there are bars."""
        return self._plot is not None

    @property
    def said(self) -> str:
        """The chart in words."""
        return self._area.accessibleDescription()

    def draw(self, drawn: Drawn) -> None:
        """Draw bars in place of those before."""
        self._title.setText(drawn.title)
        self._note.setText(drawn.note)
        self._note.setVisible(bool(drawn.note))
        self._area.setAccessibleDescription(drawn.said)
        if self._plot is not None:
            self._holder_layout.removeWidget(self._plot)
            self._plot.deleteLater()
            self._plot = None
        if drawn.bars:
            self._plot = _plot(drawn, self._theme)
            self._holder_layout.addWidget(self._plot, 0, Qt.AlignmentFlag.AlignTop)


def _plot(drawn: Drawn, theme: Theme) -> Any:
    import pyqtgraph  # noqa: PLC0415 - 270 ms that only those who look at a chart wait for

    plot = pyqtgraph.PlotWidget(background=theme.panel)
    plot.setFixedHeight(len(drawn.bars) * _BAR_PX + _AXIS_PX)
    plot.setFrameShape(plot.Shape.NoFrame)
    plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    plot.setMenuEnabled(False)
    plot.setMouseEnabled(x=False, y=False)
    plot.hideButtons()
    plot.viewport().setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    shades = _shades(theme)
    for row, bar in enumerate(drawn.bars):
        _add_bar(pyqtgraph, plot, row, bar, shades)
    longest = max(sum(part.length for part in bar.parts) for bar in drawn.bars)
    is_single = all(len(bar.parts) <= 1 for bar in drawn.bars)
    plot.setXRange(0, longest * (_ROOM_FOR_WORDS if is_single else _ROOM_AT_END), padding=0)
    plot.setYRange(-len(drawn.bars) + 0.5, 0.5, padding=0)
    _dress_axes(plot, drawn, theme)
    return plot


def _shades(theme: Theme) -> list[tuple[QColor, QColor]]:
    """The ground and the ink of a bar's first, second and third part."""
    pairs = (
        (theme.accent, theme.on_accent),
        (theme.chosen, theme.ink),
        (theme.raised, theme.ink),
    )
    return [(QColor(ground), QColor(ink)) for ground, ink in pairs]


def _add_bar(
    pyqtgraph: Any, plot: Any, row: int, bar: Bar, shades: list[tuple[QColor, QColor]]
) -> None:
    if not bar.parts:
        heading = pyqtgraph.TextItem(text=bar.name, color=shades[1][1], anchor=(0, 0.5))
        heading.setPos(0, -row)
        plot.addItem(heading)
    begin = 0.0
    edge = pyqtgraph.mkPen(shades[0][0])
    for part, (ground, ink) in zip(bar.parts, shades, strict=False):
        plot.addItem(
            pyqtgraph.BarGraphItem(
                x0=[begin],
                width=[part.length],
                y=[-row],
                height=_THICKNESS,
                brush=pyqtgraph.mkBrush(ground),
                pen=edge,
            )
        )
        alone = len(bar.parts) == 1
        words = pyqtgraph.TextItem(
            text=part.words, color=shades[1][1] if alone else ink, anchor=(0 if alone else 0.5, 0.5)
        )
        words.setPos(begin + part.length * (1 if alone else 0.5), -row)
        plot.addItem(words)
        begin += part.length


def _dress_axes(plot: Any, drawn: Drawn, theme: Theme) -> None:
    left, bottom = plot.getAxis("left"), plot.getAxis("bottom")
    names, width = _fitted(
        [bar.name if bar.parts else "" for bar in drawn.bars], plot.fontMetrics()
    )
    left.setTicks([[(-row, name) for row, name in enumerate(names)]])
    left.setWidth(width + 2 * GAP)
    left.setStyle(tickLength=0)
    bottom.setLabel(drawn.axis, color=theme.ink)
    bottom.enableAutoSIPrefix(False)
    bottom.setStyle(hideOverlappingLabels=False)
    for axis in (left, bottom):
        axis.setPen(theme.rule)
        axis.setTextPen(theme.ink)


def _fitted(names: Sequence[str], metrics: QFontMetrics) -> tuple[list[str], int]:
    """Names no longer than there is room for, and the room they take [px]."""
    elide = Qt.TextElideMode.ElideRight
    fitted = [metrics.elidedText(name, elide, _LONGEST_NAME_PX) for name in names]
    return fitted, max(metrics.horizontalAdvance(name) for name in fitted)
