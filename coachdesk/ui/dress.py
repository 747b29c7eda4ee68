"""Putting a theme on the application: palette, fonts, and the few rules a palette cannot say."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from coachdesk.ui.theme import DARK, LIGHT, TEXT_PT, Room, Theme

_FONTS = ("NotoSans-Regular.ttf", "NotoSans-Bold.ttf")
FAMILY = "Noto Sans"


def load_fonts(folder: Path) -> None:
    """Make the program's own fonts known, so that letters show where the system has none."""
    for name in _FONTS:
        QFontDatabase.addApplicationFont(str(folder / name))


def theme_of(room: Room) -> Theme:
    """The theme for a choice; the system's own when none was made."""
    if room is Room.SYSTEM:
        dark = QApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
        return DARK if dark else LIGHT
    return DARK if room is Room.DARK else LIGHT


def put_on(application: QApplication, theme: Theme) -> None:
    """Give every window the style, the colours and the font."""
    application.setStyle("Fusion")
    application.setPalette(_palette(theme))
    font = QFont(FAMILY)
    font.setPointSizeF(TEXT_PT)
    application.setFont(font)


def rules(theme: Theme) -> str:
    """What a palette cannot say, as a style sheet for the main window and its dialogs.

    On the application it would be worked through anew for each widget put into another: most of
    the time a screen takes to be made.
    """
    return f"""
    QLineEdit, QPlainTextEdit, QAbstractSpinBox {{
        background: {theme.panel}; color: {theme.ink};
        border: 1px solid {theme.rule}; border-radius: 4px; padding: 4px 6px;
        selection-background-color: {theme.accent}; selection-color: {theme.on_accent};
    }}
    QLineEdit:focus, QPlainTextEdit:focus, QTableView:focus, QListWidget:focus,
    QTreeView:focus, QTextBrowser:focus {{ border: 2px solid {theme.accent}; }}
    QLineEdit[refused="true"], QPlainTextEdit[refused="true"] {{
        border: 2px solid {theme.bad};
    }}
    QPushButton {{
        background: {theme.raised}; color: {theme.ink}; border: 1px solid {theme.rule};
        border-radius: 4px; padding: 5px 14px;
    }}
    QPushButton:hover {{ border-color: {theme.accent}; }}
    QPushButton:focus {{ border: 2px solid {theme.accent}; padding: 4px 13px; }}
    QPushButton:disabled {{ color: {theme.quiet}; }}
    QPushButton[leading="true"] {{
        background: {theme.accent}; color: {theme.on_accent}; border-color: {theme.accent};
    }}
    QPushButton[leading="true"]:disabled {{
        background: {theme.raised}; color: {theme.quiet}; border-color: {theme.rule};
    }}
    QPushButton[leading="true"]:focus {{ border: 2px solid {theme.ink}; }}
    QTableView {{
        border: 1px solid {theme.rule}; gridline-color: {theme.rule};
        alternate-background-color: {theme.paper};
    }}
    QTableView::item {{ padding: 0 8px; }}
    QHeaderView::section {{
        background: {theme.raised}; color: {theme.ink}; border: none;
        border-bottom: 1px solid {theme.rule}; padding: 5px 10px; font-weight: bold;
    }}
    QTextBrowser {{ border: 1px solid {theme.rule}; }}
    QListWidget {{ border: 1px solid {theme.rule}; outline: none; }}
    QListWidget::item {{ padding: 5px 8px; }}
    QListWidget#places {{ border: none; background: transparent; }}
    QListWidget#places::item {{ padding: 8px 10px; border-radius: 4px; color: {theme.ink}; }}
    QListWidget#places::item:selected {{ background: {theme.chosen}; font-weight: bold; }}
    QListWidget#places:focus {{ border: none; }}
    QListWidget#places::item:selected:focus {{ border: 2px solid {theme.accent}; }}
    QToolTip {{ color: {theme.ink}; background: {theme.raised}; border: 1px solid {theme.rule}; }}
    QLabel[role="quiet"] {{ color: {theme.quiet}; }}
    QLabel[role="bad"] {{ color: {theme.bad}; }}
    QLabel[role="warn"] {{ color: {theme.warn}; }}
    QLabel[role="good"] {{ color: {theme.good}; }}
    """


def _palette(theme: Theme) -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    colours = {
        role.Window: theme.paper,
        role.WindowText: theme.ink,
        role.Base: theme.panel,
        role.AlternateBase: theme.paper,
        role.Text: theme.ink,
        role.Button: theme.raised,
        role.ButtonText: theme.ink,
        role.BrightText: theme.bad,
        role.Highlight: theme.chosen,
        role.HighlightedText: theme.ink,
        role.Link: theme.accent,
        role.LinkVisited: theme.accent,
        role.ToolTipBase: theme.raised,
        role.ToolTipText: theme.ink,
        role.PlaceholderText: theme.quiet,
        role.Accent: theme.accent,
        role.Mid: theme.rule,
        role.Dark: theme.rule,
        role.Light: theme.panel,
    }
    for each, colour in colours.items():
        palette.setColor(each, QColor(colour))
    for each in (role.Text, role.WindowText, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, each, QColor(theme.quiet))
    return palette
