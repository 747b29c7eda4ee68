"""Our own icons: lines in the ink of the theme, drawn from SVG at any size."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from coachdesk.ui.theme import Theme

_SIZES = (20, 30, 40, 60)
"""At 100 to 300 per cent of the list's icons [px]."""
_OF_APPLICATION = (16, 32, 64, 128, 256)


def icon(folder: Path, name: str, theme: Theme) -> QIcon:
    """The icon `name` of the folder in the theme's ink; in its accent where it is chosen."""
    drawing = (folder / f"{name}.svg").read_text(encoding="utf-8")
    made = QIcon()
    for mode, colour in ((QIcon.Mode.Normal, theme.quiet), (QIcon.Mode.Selected, theme.accent)):
        for size in _SIZES:
            made.addPixmap(_drawn(drawing.replace("currentColor", colour), size), mode)
    return made


def application_icon(folder: Path) -> QIcon:
    """The program's own icon, in its own colours."""
    drawing = (folder / "coachdesk.svg").read_text(encoding="utf-8")
    made = QIcon()
    for size in _OF_APPLICATION:
        made.addPixmap(_drawn(drawing, size))
    return made


def _drawn(drawing: str, size: int) -> QPixmap:
    pixmap = QPixmap(size, size)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    QSvgRenderer(QByteArray(drawing.encode())).render(painter, QRectF(0, 0, size, size))
    painter.end()
    return pixmap
