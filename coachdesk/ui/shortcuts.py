"""Keys that mean the same on every screen."""

from __future__ import annotations

from PySide6.QtGui import QKeySequence

NEW = QKeySequence.StandardKey.New
FIND = QKeySequence.StandardKey.Find
SAVE = QKeySequence.StandardKey.Save
LEAVE = QKeySequence.StandardKey.Cancel
PRINT = QKeySequence.StandardKey.Print
HELP = QKeySequence.StandardKey.HelpContents
GUIDE = QKeySequence("Ctrl+F1")
GO_TO = QKeySequence("Ctrl+G")
UNDO = QKeySequence.StandardKey.Undo
TEAM_WEIGHTS = QKeySequence("Ctrl+Shift+W")
REDO = QKeySequence("Ctrl+Shift+Z")
