"""The picture of a lift's strength: training days, trend, forecast, and what was forecast once."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from coachdesk.services.strength_history import StrengthPicture
from coachdesk.ui.theme import Theme
from coachdesk.ui.widgets.chart_tools import ChartTools, set_axes
from coachdesk.wording.wording import Wording

_DOT_PX, _JUDGED_PX, _EARLIER_PX = 5, 9, 9
_TREND_PX, _LINE_PX = 2.4, 1.4
"""Sizes [px]."""


def draw_strength(plot: Any, picture: StrengthPicture, theme: Theme, words: Wording) -> Any:
    """Draw a picture in place of the one before; answers the line that marks a day."""
    import pyqtgraph  # noqa: PLC0415 - loaded with the plot

    plot.clear()
    days = (picture.first, picture.last)
    axis = words(f"blocks.strength.axis.{picture.unit}")
    scale = set_axes(plot, days, picture.kg_range(), picture.unit, words, axis)
    tools = ChartTools(pyqtgraph, plot, theme, words, scale)
    tools.band(picture.level, QColor(theme.chosen), Qt.BrushStyle.SolidPattern)
    tools.band(picture.forecast, QColor(theme.quiet), Qt.BrushStyle.BDiagPattern)
    for judged, symbol, size in ((False, "o", _DOT_PX), (True, "d", _JUDGED_PX)):
        seen = [(day.on, day.kg) for day in picture.days if day.judged is judged]
        tools.dots(seen, symbol, size, theme.ink, full=not judged)
    pen = tools.pen(theme.accent, _TREND_PX)
    plot.addItem(tools.curve([(day.on, day.kg) for day in picture.level], pen))
    earlier = [(each.on, each.kept.expected.kg) for each in picture.earlier]
    tools.dots(earlier, "t", _EARLIER_PX, theme.quiet, full=False)
    if picture.forecast:
        middle = picture.forecast[len(picture.forecast) // 2]
        tools.say(words("blocks.strength.likely"), middle.on, middle.kg, (0.5, 0.5))
    _draw_platform(tools, picture)
    return tools.cursor()


def _draw_platform(tools: ChartTools, picture: StrengthPicture) -> None:
    """What is planned on at the meet, as a bar from end to end of its band."""
    platform = picture.platform
    if platform is None:
        return
    ends = [(platform.on, platform.low_kg), (platform.on, platform.high_kg)]
    tools.plot.addItem(tools.curve(ends, tools.pen(tools.theme.ink, 2 * _LINE_PX)))
    tools.dots([(platform.on, platform.kg)], "s", _JUDGED_PX, tools.theme.ink, full=True)
    said = tools.words("blocks.strength.platform")
    tools.say(said, platform.on, platform.high_kg, (1.0, 0.0))
