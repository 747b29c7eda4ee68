"""What is seen of a window or a page, and what of it is still English."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from babel.messages.pofile import read_po
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QTableView,
    QTabWidget,
    QWidget,
)

from coachdesk.app import paths
from coachdesk.app.words import wording as words_of

LONG = 12
"""Letters from which on a text of the catalogue is unlikely to be a name somebody typed."""


def shown(widget: QWidget) -> set[str]:
    """Every text that is seen on a widget and within it, and its names for a screen reader."""
    found: set[str] = set()
    for each in (widget, *widget.findChildren(QWidget)):
        found |= {each.accessibleName(), each.accessibleDescription(), _plain(each.toolTip())}
        if isinstance(each, QLabel | QAbstractButton):
            found.add(each.text().replace("&&", "&"))
        elif isinstance(each, QGroupBox):
            found.add(each.title())
        elif isinstance(each, QLineEdit):
            found.add(each.placeholderText())
        elif isinstance(each, QComboBox):
            found |= {each.itemText(at) for at in range(each.count())}
        elif isinstance(each, QTabWidget):
            found |= {each.tabText(at) for at in range(each.count())}
        elif isinstance(each, QListWidget):
            found |= {each.item(at).text() for at in range(each.count())}
        elif isinstance(each, QTableView) and each.model() is not None:
            found |= _cells(each)
    found |= {action.text().replace("&&", "&") for action in widget.findChildren(QAction)}
    return found - {""}


def _cells(table: QTableView) -> set[str]:
    model = table.model()
    columns = range(model.columnCount())
    heads = {str(model.headerData(at, Qt.Orientation.Horizontal) or "") for at in columns}
    cells = {
        str(model.index(row, at).data() or "") for row in range(model.rowCount()) for at in columns
    }
    return heads | cells


def _plain(tip: str) -> str:
    return re.sub(r"</?qt>", "", tip)


@cache
def english() -> tuple[re.Pattern[str], ...]:
    """What English texts look like with values in them: those long enough to be no name, and
    unlike their French."""
    found = []
    told = words_of("fr").catalogue
    for file in paths.resources().glob("catalogues/en/LC_MESSAGES/*.po"):
        with file.open("rb") as source:
            messages = [each for each in read_po(source) if each.id]
        for message in messages:
            code = message.id if isinstance(message.id, str) else message.id[0]
            said = message.string or ""
            forms = (said,) if isinstance(said, str) else said
            for form in forms:
                parts = re.split(r"\{\w+\}", form)
                if len("".join(parts)) > LONG and form != told.words(code):
                    found.append(re.compile(".+".join(map(re.escape, parts)), re.DOTALL))
    return tuple(found)


def left_in_english(said: Iterable[str]) -> list[str]:
    return sorted(
        each for each in said if len(each) > LONG and any(one.fullmatch(each) for one in english())
    )
