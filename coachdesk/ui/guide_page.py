"""A page of the guide: text with pictures that fit beside each other however wide the window is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QPixmap, QTextDocument
from PySide6.QtWidgets import QTextBrowser


class GuidePage(QTextBrowser):
    """Shows Markdown; its pictures come from `folder`, no wider than `width` [px]."""

    def __init__(self, folder: Path, width: int) -> None:
        super().__init__()
        self._folder = folder
        self._width = width

    def loadResource(self, kind: int, name: QUrl | str) -> Any:
        """A picture of the guide's own folder; nothing else is ever loaded."""
        if kind != QTextDocument.ResourceType.ImageResource.value:
            return None
        picture = QPixmap(str(self._folder / QUrl(name).path()))
        dots = self.devicePixelRatio()
        widest = round(self._width * dots)
        if picture.width() > widest:
            picture = picture.scaledToWidth(widest, Qt.TransformationMode.SmoothTransformation)
        picture.setDevicePixelRatio(dots)
        return picture
