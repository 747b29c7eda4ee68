"""Fields: every one gives and takes a string, which services/typed.py reads."""

from __future__ import annotations

import re
from collections.abc import Iterable

from PySide6.QtCore import QDate, QLocale, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCalendarWidget,
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QToolButton,
    QWidget,
    QWidgetAction,
)

from coachdesk.services.typed import YES
from coachdesk.ui.widgets.line import TypingLine, TypingLines

LINES_SHOWN = 4

_POINT, _COMMA = (re.compile(rf"(?<=\d)[{mark}](?=\d)") for mark in ".,")
_WIDE = 1000
"""A stretch against which the empty room beside a field counts for nothing."""
SHORTEST_CHOICE = 10
"""Letters of a choice that always show; a longer one gives way where there is no room."""


class Field(QWidget):
    """Something to fill in. `edited` tells that the coach changed it."""

    edited = Signal()

    def value(self) -> str:
        """What is in it."""
        return ""

    def set_value(self, value: str) -> None:
        """Put something in."""

    def control(self) -> QWidget:
        """The widget that takes the keys, and that a label belongs to."""
        return self

    def set_refused(self, *, refused: bool) -> None:
        """Mark it as holding what cannot be taken."""
        control = self.control()
        control.setProperty("refused", refused)
        control.style().unpolish(control)
        control.style().polish(control)

    def _hold(self, *widgets: QWidget) -> None:
        """Side by side, the first as wide as it may be; what is narrower stands at the left."""
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for at, widget in enumerate(widgets):
            layout.addWidget(widget, _WIDE if at == 0 else 0)
        layout.addStretch(1)
        self.setFocusProxy(widgets[0])


class TextField(Field):
    """A line of words."""

    def __init__(self, *, placeholder: str = "") -> None:
        super().__init__()
        self.line = TypingLine()
        self.line.setPlaceholderText(placeholder)
        self.line.textEdited.connect(lambda _: self.edited.emit())
        self._hold(self.line)

    def value(self) -> str:
        """The words, without blanks around them."""
        return self.line.text().strip()

    def set_value(self, value: str) -> None:
        """Put words in."""
        self.line.setText(value)

    def control(self) -> QWidget:
        """The line."""
        return self.line

    def _keep_short(self, width: int) -> None:
        """No wider than what is typed needs, at the left."""
        self.line.setMaximumWidth(width)
        layout = self.layout()
        if isinstance(layout, QHBoxLayout):
            layout.setStretch(0, 0)
            layout.addStretch(1)


class NumberField(TextField):
    """A number or several, shown with the decimal mark of the language and given with a point."""

    def __init__(self, *, placeholder: str = "") -> None:
        super().__init__(placeholder=placeholder)
        self._keep_short(160)

    def value(self) -> str:
        """What is typed, with a decimal point."""
        typed = super().value()
        return typed if QLocale().decimalPoint() == "." else _COMMA.sub(".", typed)

    def set_value(self, value: str) -> None:
        """Put a number in."""
        super().set_value(_POINT.sub(QLocale().decimalPoint(), value))


class MassField(NumberField):
    """A weight, in either unit."""


class TimeField(NumberField):
    """A time of day, as 9:05."""


class MomentField(TextField):
    """A day and a time, as 2026-11-25 9:05."""

    def __init__(self, *, placeholder: str = "") -> None:
        super().__init__(placeholder=placeholder)
        self._keep_short(220)


class LongTextField(Field):
    """Several lines of words. Tab leads on to the next field."""

    def __init__(self, *, lines: int = LINES_SHOWN) -> None:
        super().__init__()
        self.box = TypingLines()
        self.box.setTabChangesFocus(True)
        self.box.setFixedHeight(self.box.fontMetrics().lineSpacing() * lines + 18)
        self._is_setting = False
        self.box.textChanged.connect(self._changed)
        self._hold(self.box)

    def value(self) -> str:
        """The words."""
        return self.box.toPlainText().strip()

    def set_value(self, value: str) -> None:
        """Put words in."""
        self._is_setting = True
        self.box.setPlainText(value)
        self._is_setting = False

    def control(self) -> QWidget:
        """The box."""
        return self.box

    def _changed(self) -> None:
        if not self._is_setting:
            self.edited.emit()


class DateField(TextField):
    """A day, typed as 2026-11-25, as 25.11.2026 or in the usual short form; or picked."""

    def __init__(self, *, pick: str) -> None:
        super().__init__()
        self.line.setMaximumWidth(160)
        self.line.setMinimumWidth(self.line.fontMetrics().horizontalAdvance("2000-00-00") + 24)
        calendar = QCalendarWidget()
        calendar.setAccessibleName(pick)
        calendar.clicked.connect(self._picked)
        calendar.activated.connect(self._picked)
        self._calendar = calendar
        self._menu = QMenu(self)
        holder = QWidgetAction(self._menu)
        holder.setDefaultWidget(calendar)
        self._menu.addAction(holder)
        self._menu.aboutToShow.connect(self._show_present)
        opener = QToolButton()
        opener.setText("▾")
        opener.setAccessibleName(pick)
        opener.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        opener.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        opener.setMenu(self._menu)
        layout = self.layout()
        if isinstance(layout, QHBoxLayout):
            layout.insertWidget(1, opener)

    def value(self) -> str:
        """The day as 2026-11-25 where it can be read, else what was typed."""
        typed = super().value()
        found = self._day(typed)
        return found.toString(Qt.DateFormat.ISODate) if found.isValid() else typed

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The arrow down opens the calendar."""
        if event.key() == Qt.Key.Key_Down:
            self._menu.popup(self.mapToGlobal(self.rect().bottomLeft()))
        else:
            super().keyPressEvent(event)

    def _day(self, typed: str) -> QDate:
        for form in ("yyyy-MM-dd", "d.M.yyyy"):
            found = QDate.fromString(typed, form)
            if found.isValid():
                return found
        locale = QLocale()
        short = locale.dateFormat(QLocale.FormatType.ShortFormat)
        long_year = short if "yyyy" in short else short.replace("yy", "yyyy")
        return locale.toDate(typed, long_year)

    def _show_present(self) -> None:
        found = self._day(super().value())
        if found.isValid():
            self._calendar.setSelectedDate(found)
        self._calendar.setFocus()

    def _picked(self, day: QDate) -> None:
        self.set_value(day.toString(Qt.DateFormat.ISODate))
        self._menu.close()
        self.line.setFocus()
        self.edited.emit()


class ChoiceField(Field):
    """One of several, each a value and its words."""

    def __init__(self, choices: Iterable[tuple[str, str]] = ()) -> None:
        super().__init__()
        self.box = QComboBox()
        self.box.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.box.setMinimumContentsLength(SHORTEST_CHOICE)
        self.box.activated.connect(lambda _: self.edited.emit())
        self._hold(self.box)
        self.set_choices(choices)

    def set_choices(self, choices: Iterable[tuple[str, str]]) -> None:
        """Offer these; the value stays where it is still offered."""
        value = self.value()
        self.box.clear()
        for each, words in choices:
            self.box.addItem(words, each)
        self.set_value(value)

    def value(self) -> str:
        """The value chosen."""
        found = self.box.currentData()
        return "" if found is None else str(found)

    def set_value(self, value: str) -> None:
        """Choose a value; the first where it is not offered."""
        self.box.setCurrentIndex(max(self.box.findData(value), 0))

    def control(self) -> QWidget:
        """The box."""
        return self.box


class ManyChoicesField(Field):
    """Any of several, ticked; the values stand on lines of their own."""

    def __init__(self, choices: Iterable[tuple[str, str]] = (), *, lines: int = 5) -> None:
        super().__init__()
        self.list = QListWidget()
        self.list.setFixedHeight((self.list.fontMetrics().height() + 6) * lines)
        self.list.itemChanged.connect(lambda _: self.edited.emit())
        self._hold(self.list)
        self.set_choices(choices)

    def set_choices(self, choices: Iterable[tuple[str, str]]) -> None:
        """Offer these; what is ticked stays ticked where it is still offered."""
        ticked = self.value()
        self.list.blockSignals(True)
        self.list.clear()
        for each, words in choices:
            item = QListWidgetItem(words)
            item.setData(Qt.ItemDataRole.UserRole, each)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            self.list.addItem(item)
        self.list.blockSignals(False)
        self.set_value(ticked)

    def value(self) -> str:
        """The values ticked."""
        items = [self.list.item(at) for at in range(self.list.count())]
        return "\n".join(
            str(item.data(Qt.ItemDataRole.UserRole))
            for item in items
            if item.checkState() is Qt.CheckState.Checked
        )

    def set_value(self, value: str) -> None:
        """Tick these."""
        wanted = set(value.split("\n"))
        self.list.blockSignals(True)
        for at in range(self.list.count()):
            item = self.list.item(at)
            is_wanted = item.data(Qt.ItemDataRole.UserRole) in wanted
            item.setCheckState(Qt.CheckState.Checked if is_wanted else Qt.CheckState.Unchecked)
        self.list.blockSignals(False)

    def control(self) -> QWidget:
        """The list."""
        return self.list


class YesNoField(Field):
    """A box to tick, with its words beside it."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.box = QCheckBox(words.replace("&", "&&"))
        self.box.clicked.connect(lambda _: self.edited.emit())
        self._hold(self.box)

    def value(self) -> str:
        """ "yes" or nothing."""
        return YES if self.box.isChecked() else ""

    def set_value(self, value: str) -> None:
        """Tick or untick."""
        self.box.setChecked(value == YES)

    def control(self) -> QWidget:
        """The box."""
        return self.box
