"""Drawing lines of words.

The same words stand on a document many times over, so what a font makes of them is kept for as
long as the document is in the making: a quarter of the time of a page otherwise.
"""

from __future__ import annotations

from typing import Any, TypeAlias
from weakref import WeakKeyDictionary

from coachdesk.reports.text_runs import drawable
from coachdesk.reports.theme import Style, font_of

Canvas: TypeAlias = Any
"""A reportlab canvas; the library comes without types."""

_KEPT: WeakKeyDictionary[Canvas, dict[tuple[str, Style], str]] = WeakKeyDictionary()


def draw_line(canvas: Canvas, x: float, baseline: float, line: str, style: Style) -> None:
    """Draw one cleaned line starting at `x`."""
    kept = _KEPT.setdefault(canvas, {})
    key = line, style
    shown = kept.get(key)
    if shown is None:
        shown = kept[key] = " ".join(
            _set(canvas, face, words, style.size) for face, words in drawable(line, style.face)
        )
    canvas.addLiteral(f"{style.grey:.4g} g BT 1 0 0 1 {x:.3f} {baseline:.3f} Tm {shown} ET")


def _set(canvas: Canvas, face: str, words: str, size: float) -> str:
    """Operators that show words in a document's own subsets of a font, one after the other."""
    font, document, escape = font_of(face), canvas._doc, canvas._escape  # noqa: SLF001
    return " ".join(
        f"{font.getSubsetInternalName(subset, document)} {size:.4g} Tf ({escape(letters)}) Tj"
        for subset, letters in _split(font, words, document)
    )


def _split(font: Any, words: str, document: Any) -> list[tuple[int, bytes]]:
    """Words cut into a document's subsets of a font.

    The library keeps the first subset readable: ASCII stands in it under its own codes, and most
    words need not be looked up letter by letter.
    """
    if document in font.state and words.isascii() and words.isprintable():
        return [(0, words.encode("ascii"))]
    found: list[tuple[int, bytes]] = font.splitString(words, document)
    return found
