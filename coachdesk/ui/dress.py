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
    parts = (_fields, _buttons, _bars, _lists, _words)
    return "".join(part(theme) for part in parts)


def _fields(theme: Theme) -> str:
    """Fields, choices and boxes to tick."""
    return f"""
    QLineEdit, QPlainTextEdit, QAbstractSpinBox {{
        background: {theme.panel}; color: {theme.ink};
        border: 1px solid {theme.rule}; border-radius: 4px; padding: 4px 6px;
        selection-background-color: {theme.accent}; selection-color: {theme.on_accent};
    }}
    QLineEdit:focus, QPlainTextEdit:focus {{ border: 2px solid {theme.accent}; }}
    QTableView:focus, QListWidget:focus, QTreeView:focus, QTextBrowser:focus {{
        border: 1px solid {theme.accent};
    }}
    QLineEdit[refused="true"], QPlainTextEdit[refused="true"] {{
        border: 2px solid {theme.bad};
    }}
    QCheckBox {{ border: 2px solid transparent; border-radius: 4px; padding: 1px 3px; }}
    QCheckBox:focus {{ border-color: {theme.accent}; }}
    QScrollArea:focus {{ border: 2px solid {theme.accent}; }}
    QWidget[drawing="true"] {{ border: 2px solid transparent; }}
    QWidget[drawing="true"]:focus {{ border-color: {theme.accent}; }}
    QCheckBox::indicator:unchecked, QListWidget::indicator:unchecked {{
        width: 12px; height: 12px; border: 1px solid {theme.quiet}; border-radius: 2px;
        background: {theme.panel};
    }}
    QComboBox {{
        background: {theme.panel}; color: {theme.ink}; border: 1px solid {theme.rule};
        border-radius: 4px; padding: 4px 6px;
    }}
    QComboBox:hover {{ border-color: {theme.accent}; }}
    QComboBox:focus {{ border: 2px solid {theme.accent}; padding: 3px 5px; }}
    QComboBox:disabled {{ color: {theme.quiet}; }}
    QComboBox::drop-down {{ border: none; width: 20px; }}
    QComboBox::down-arrow {{
        image: none; width: 0; height: 0; border-top: 5px solid {theme.quiet};
        border-left: 4px solid {theme.panel}; border-right: 4px solid {theme.panel};
    }}
    """


def _buttons(theme: Theme) -> str:
    """Buttons; the one that carries on stands out."""
    return f"""
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
    QPushButton[leading="true"]:focus {{
        border: 5px double {theme.on_accent}; padding: 1px 10px;
    }}
    QToolButton {{
        background: {theme.raised}; color: {theme.ink}; border: 1px solid {theme.rule};
        border-radius: 4px; padding: 3px 8px;
    }}
    QToolButton:hover, QToolButton:pressed {{ border-color: {theme.accent}; }}
    QToolButton:focus {{ border: 2px solid {theme.accent}; padding: 2px 7px; }}
    QToolButton::menu-indicator {{ image: none; }}
    QTabBar QToolButton, QCalendarWidget QToolButton {{ padding: 0 2px; border: none; }}
    """


def _bars(theme: Theme) -> str:
    """Tabs and scroll bars."""
    return f"""
    QTabBar::tab {{
        background: transparent; color: {theme.quiet}; border: none; padding: 7px 9px 5px 9px;
        border-bottom: 3px solid transparent;
    }}
    QTabBar::tab:hover {{ color: {theme.ink}; }}
    QTabBar::tab:selected {{ color: {theme.ink}; border-bottom-color: {theme.accent}; }}
    QTabBar::tab:selected:focus {{
        background: {theme.chosen}; padding: 5px 7px 5px 7px; border: 2px solid {theme.accent};
        border-bottom-width: 3px;
    }}
    QTabBar {{ qproperty-drawBase: 0; }}
    QTabWidget::pane {{ border: none; }}
    QScrollBar, QAbstractScrollArea::corner {{ background: transparent; border: none; }}
    QScrollBar:vertical {{ width: 12px; }}
    QScrollBar:horizontal {{ height: 12px; }}
    QScrollBar::handle {{
        background: {_see_through(theme.quiet)}; border-radius: 4px; margin: 2px;
    }}
    QScrollBar::handle:vertical {{ min-height: 28px; }}
    QScrollBar::handle:horizontal {{ min-width: 28px; }}
    QScrollBar::handle:hover, QScrollBar::handle:pressed {{ background: {theme.quiet}; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: none; }}
    """


def _lists(theme: Theme) -> str:
    """Tables, lists and pages of text."""
    return f"""
    QTableView {{
        outline: none;
        border: 1px solid {theme.rule}; gridline-color: {theme.rule};
        alternate-background-color: {theme.paper};
    }}
    QTableView::item {{ padding: 0 8px; }}
    QTableView::item:focus {{ border: 1px solid {theme.accent}; padding: 0 7px; }}
    QHeaderView::section {{
        background: {theme.raised}; color: {theme.ink}; border: none;
        border-bottom: 1px solid {theme.rule}; padding: 5px 10px; font-weight: bold;
    }}
    QHeaderView:horizontal {{ background: {theme.raised}; }}
    QTableCornerButton::section {{
        background: {theme.raised}; border: none; border-bottom: 1px solid {theme.rule};
    }}
    QTextBrowser {{ border: 1px solid {theme.rule}; }}
    QListWidget {{ border: 1px solid {theme.rule}; outline: none; }}
    QListWidget::item {{ padding: 5px 8px; }}
    QListWidget#places {{ border: none; background: transparent; }}
    QListWidget#places::item {{ padding: 8px 10px; border-radius: 4px; color: {theme.ink}; }}
    QListWidget#places::item:selected {{ background: {theme.chosen}; font-weight: bold; }}
    QListWidget#places::item:disabled {{ color: {theme.quiet}; }}
    QListWidget#places:focus {{ border: none; }}
    QListWidget#places::item:selected:focus {{ border: 2px solid {theme.accent}; }}
    """


def _words(theme: Theme) -> str:
    """Words by their role."""
    return f"""
    QToolTip {{ color: {theme.ink}; background: {theme.raised}; border: 1px solid {theme.rule}; }}
    QLabel[role="quiet"] {{ color: {theme.quiet}; }}
    QLabel[role="bad"] {{ color: {theme.bad}; }}
    QLabel[role="warn"] {{ color: {theme.warn}; }}
    QLabel[role="good"] {{ color: {theme.good}; }}
    """


def _see_through(colour: str) -> str:
    """A colour that lets half of what is below it through."""
    return f"#80{colour[1:]}"


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
