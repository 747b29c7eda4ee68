"""A chart over days with a day to look at, chosen by the mouse or the arrow keys."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any, Generic, Protocol, TypeVar

from PySide6.QtCore import QEvent, QObject, QPointF, QSize, Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.plain import label
from coachdesk.ui.theme import GAP, Theme
from coachdesk.ui.widgets.chart_tools import new_plot
from coachdesk.wording.wording import Wording

_STEPS = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_PageUp: -7,
    Qt.Key.Key_PageDown: 7,
}
"""Days that a key moves on."""
_HEIGHT, _FRAME_PX = 320, 3
"""Sizes [px]; the frame shows the focus."""


class Picture(Protocol):
    """What is drawn: from the day `first` to the day `last`, seen on `today`."""

    @property
    def first(self) -> date:
        """The first day drawn."""

    @property
    def today(self) -> date:
        """The day it is seen on."""

    @property
    def last(self) -> date:
        """The last day drawn."""


P = TypeVar("P", bound=Picture)


class DayChart(QWidget, Generic[P]):
    """Draws a picture by `draw`, which is given the plot, the picture, the theme and the words and
    answers the line that marks a day. `say_day` puts a day's figures in words, `hint` says how to
    move."""

    def __init__(
        self,
        theme: Theme,
        words: Wording,
        say_day: Callable[[P, date], str],
        draw: Callable[[Any, P, Theme, Wording], Any],
        *,
        about: str,
        hint: str,
    ) -> None:
        super().__init__()
        self._theme = theme
        self._words = words
        self._say_day = say_day
        self._draw_picture = draw
        self._hint = hint
        self._picture: P | None = None
        self._day: date | None = None
        self._plot: Any = None
        self._cursor: Any = None
        self._said = label(wrap=True)
        self._said.setMinimumHeight(2 * self._said.fontMetrics().lineSpacing())
        self._said.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.setAccessibleName(about)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setProperty("drawing", True)
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(*[_FRAME_PX] * 4)
        self._layout.setSpacing(GAP // 2)
        self._layout.addWidget(self._said)

    @property
    def day(self) -> date | None:
        """The day looked at; None as long as none is chosen."""
        return self._day

    @property
    def said(self) -> str:
        """The figures of the day looked at, or how to choose one."""
        return self._said.text()

    def show_picture(self, picture: P, words: Wording) -> None:
        """Draw another picture, masses in the unit of `words`; the day looked at stays if drawn."""
        self._picture, self._words = picture, words
        if self._day is not None and not picture.first <= self._day <= picture.last:
            self._day = None
        if self._plot is None:
            self._plot = new_plot(self._theme)
            self._plot.installEventFilter(self)
            self._layout.insertWidget(0, self._plot, 1)
        self._draw()

    def forget(self) -> None:
        """Draw nothing until there is another picture."""
        self._picture = self._day = None
        self._say("")
        if self._plot is not None:
            self._plot.clear()

    def look_at(self, day: date) -> None:
        """Look at a day, or the nearest one that is drawn."""
        if self._picture is not None:
            self._day = min(max(day, self._picture.first), self._picture.last)
            self._mark()

    def sizeHint(self) -> QSize:
        """High enough to read a trend off."""
        return QSize(super().sizeHint().width(), _HEIGHT)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move by days, page keys by weeks, Home and End to the ends."""
        picture = self._picture
        if picture is None or event.modifiers() & Qt.KeyboardModifier.AltModifier:
            super().keyPressEvent(event)
        elif event.key() in _STEPS:
            steps = _STEPS[Qt.Key(event.key())]
            begin = self._day or picture.today - timedelta(days=steps)
            self.look_at(begin + timedelta(days=steps))
        elif event.key() == Qt.Key.Key_Home:
            self.look_at(picture.first)
        elif event.key() == Qt.Key.Key_End:
            self.look_at(picture.last)
        else:
            super().keyPressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The day below the mouse is the one looked at."""
        super().mouseMoveEvent(event)
        if self._picture is not None and self._plot.geometry().contains(event.position().toPoint()):
            self.look_at(self._day_at(event.position()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Ticks and words go by the room that the plot has."""
        if watched is self._plot and event.type() is QEvent.Type.Resize:
            self._draw()
        return super().eventFilter(watched, event)

    def _day_at(self, place: QPointF) -> date:
        within = self._plot.mapFrom(self, place)
        at = self._plot.getViewBox().mapSceneToView(within).x()
        return date.fromordinal(max(1, round(at)))

    def _draw(self) -> None:
        if self._picture is not None:
            self._cursor = self._draw_picture(self._plot, self._picture, self._theme, self._words)
            self._mark()

    def _mark(self) -> None:
        picture, day = self._picture, self._day
        if picture is None:
            self._say("")
        elif day is None:
            self._say(self._hint, f"{self._in_words(picture)} {self._hint}")
        else:
            self._cursor.setValue(day.toordinal())
            self._cursor.show()
            self._say(self._say_day(picture, day))

    def _in_words(self, picture: P) -> str:
        """Where the picture begins, stands and leads to, for those who do not see it."""
        days = dict.fromkeys((picture.first, picture.today, picture.last))
        return " ".join(self._say_day(picture, day) for day in days)

    def _say(self, words: str, heard: str = "") -> None:
        self._said.setText(words)
        self.setAccessibleDescription(heard or words)
        told = QAccessibleEvent(self, QAccessible.Event.DescriptionChanged)
        QAccessible.updateAccessibility(told)
