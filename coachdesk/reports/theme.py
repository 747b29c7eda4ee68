"""Paper, fonts, sizes and greys of everything printed: dark on white, no meaning in colour."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import NamedTuple

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfbase.pdfmetrics import getFont, getRegisteredFontNames, registerFont
from reportlab.pdfbase.ttfonts import TTFont

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text

REGULAR = "coachdesk-regular"
BOLD = "coachdesk-bold"
FALLBACK = "coachdesk-fallback"

_FILES = {
    REGULAR: "NotoSans-Regular.ttf",
    BOLD: "NotoSans-Bold.ttf",
    FALLBACK: "DejaVuSans.ttf",
}

_UNREAD: dict[str, Path] = {}

INK = 0.1
QUIET = 0.35
RULE = 0.6
TINT = 0.92
"""Greys from 0 (black) to 1 (white)."""

MARGIN = 40.0
HEAD_HEIGHT = 58.0
FOOT_HEIGHT = 44.0
GUTTER = 18.0


class Paper(StrEnum):
    """The paper a report is made for."""

    A4 = "a4"
    LETTER = "letter"

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [pt], upright."""
        width, height = A4 if self is Paper.A4 else LETTER
        return float(width), float(height)


class Style(NamedTuple):
    """How words are set: the face, its size and the step from line to line [pt], the grey.

    A tuple, since what is laid out is kept by style and a tuple is looked up in no time.
    """

    face: str
    size: float
    leading: float
    grey: float = INK

    def sized(self, size: float) -> Style:
        """The same style at another size [pt]."""
        return self._replace(size=size, leading=self.leading * size / self.size)


BODY = Style(REGULAR, 10, 13.5)
STRONG = Style(BOLD, 10, 13.5)
LABEL = Style(REGULAR, 9.5, 12.5, QUIET)
COLUMN_HEAD = Style(BOLD, 9.5, 12.5)
SECTION = Style(BOLD, 14, 18)
SUBSECTION = Style(BOLD, 11.5, 15)
NAME = Style(BOLD, 18, 22)
CLOCK = Style(BOLD, 13, 16)
FIGURE = Style(BOLD, 24, 29)
SECOND_FIGURE = Style(BOLD, 17, 20)
FOOT = Style(REGULAR, 8, 10, QUIET)


def load_fonts(folder: Path) -> None:
    """Make the fonts in `folder` known; doing it again changes nothing.

    Raises Trouble when a font file is missing.
    """
    for face, file in _FILES.items():
        path = folder / file
        if not path.is_file():
            raise Trouble(text("print.font_missing", file=str(path)))
        if face not in getRegisteredFontNames():
            _UNREAD[face] = path


def font_of(face: str) -> TTFont:
    """A font that was made known, read when it is first needed: most sheets need no fallback."""
    if face in _UNREAD:
        registerFont(TTFont(face, str(_UNREAD.pop(face))))
    return getFont(face)
