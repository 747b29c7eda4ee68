"""Asking for a file to import."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog, QWidget

from coachdesk.wording.wording import Wording


def ask_for_file(words: Wording, title: str, parent: QWidget) -> Path | None:
    """A file of separated values, asked for under the title of the code; None when left."""
    folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    name, _kind = QFileDialog.getOpenFileName(parent, words(title), folder, words("weights.files"))
    return Path(name) if name else None
