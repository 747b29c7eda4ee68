"""How days are written on this computer."""

from __future__ import annotations

from PySide6.QtCore import QLocale

from coachdesk.services.day_reading import DayOrder


def system_order() -> DayOrder | None:
    """Whether the system's short dates begin with the day or the month; None for the year."""
    short = QLocale().dateFormat(QLocale.FormatType.ShortFormat)
    first = next((letter for letter in short if letter in "dMy"), "y")
    return {"d": DayOrder.DAY_FIRST, "M": DayOrder.MONTH_FIRST}.get(first)
