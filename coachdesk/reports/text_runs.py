"""Words as lines that can be drawn: cleaned, cut into runs of one font each, wrapped to a width.

Nothing here knows markup, so whatever people typed is drawn letter by letter as it stands.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from itertools import groupby

from reportlab.pdfbase.pdfmetrics import stringWidth

from coachdesk.reports.right_to_left import visual_order
from coachdesk.reports.theme import FALLBACK, Style, font_of

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"
ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"

Run = tuple[str, str]
"""A font and the words set in it."""

_DROPPED = {"Cc", "Cf"}
_NO_LETTER = {"Cs", "Co", "Cn"}


def cleaned(words: str) -> str:
    """`words` without control characters, composed, and with U+FFFD for what is no letter.

    Line breaks and no-break spaces stay; any other blank becomes a space.
    """
    if words.isascii() and words.isprintable():
        return words
    kept = "".join(_kept(one) for one in words.replace("\r\n", "\n"))
    return unicodedata.normalize("NFC", kept)


def _kept(one: str) -> str:
    if one in "\n\N{LINE SEPARATOR}\N{PARAGRAPH SEPARATOR}":
        return "\n"
    if one.isspace():
        return one if one == "\N{NO-BREAK SPACE}" else " "
    category = unicodedata.category(one)
    if category in _NO_LETTER:
        return REPLACEMENT
    return "" if category in _DROPPED else one


@cache
def _letters_of(face: str) -> frozenset[str]:
    return frozenset(map(chr, font_of(face).face.charToGlyph))


def runs(line: str, face: str) -> tuple[Run, ...]:
    """One cleaned line as runs: `face` where it has the letter, the fallback font elsewhere.

    A letter neither font has becomes U+FFFD.
    """
    known = _letters_of(face)
    if known.issuperset(line):
        return ((face, line),)
    spare = _letters_of(FALLBACK)

    def set_in(one: str) -> Run:
        if one in known:
            return face, one
        return (FALLBACK, one) if one in spare else (face, REPLACEMENT)

    return tuple(
        (font, "".join(letter for _, letter in letters))
        for font, letters in groupby(map(set_in, line), key=lambda run: run[0])
    )


@lru_cache(maxsize=4096)
def drawable(line: str, face: str) -> tuple[Run, ...]:
    """One cleaned line as runs in the order they are drawn from left to right."""
    return runs(visual_order(line), face)


@lru_cache(maxsize=8192)
def width_of(line: str, style: Style) -> float:
    """The width of one cleaned line [pt]."""
    widths = (stringWidth(words, font, style.size) for font, words in runs(line, style.face))
    return float(sum(widths))


@lru_cache(maxsize=4096)
def wrapped(words: str, style: Style, width: float) -> tuple[str, ...]:
    """`words` as lines no wider than `width` [pt]; a word wider than that is broken."""
    lines: list[str] = []
    for paragraph in cleaned(words).split("\n"):
        lines.extend(_wrapped_paragraph(paragraph, style, width))
    return tuple(lines)


def _wrapped_paragraph(paragraph: str, style: Style, width: float) -> Iterable[str]:
    if width_of(paragraph, style) <= width:
        return [paragraph]
    lines: list[str] = []
    line, used, space = "", 0.0, width_of(" ", style)
    for word in paragraph.split(" "):
        needed = width_of(word, style)
        if line and used + space + needed <= width:
            line, used = f"{line} {word}", used + space + needed
            continue
        if line:
            lines.append(line)
        line, used = word, needed
        if needed > width:
            while (fits := _letters_that_fit(line, style, width)) < len(line):
                lines.append(line[:fits])
                line = line[fits:]
            used = width_of(line, style)
    return [*lines, line]


def _letters_that_fit(word: str, style: Style, width: float) -> int:
    """How many letters of `word` fit into `width`, at least one."""
    used = 0.0
    for count, letter in enumerate(word):
        used += width_of(letter, style)
        if used > width and count > 0:
            return count
    return len(word)


def shortened(words: str, style: Style, width: float, lines: int = 1) -> tuple[str, ...]:
    """`words` in at most `lines` lines of `width` [pt]; an ellipsis stands for what is left out."""
    found = wrapped(words, style, width)
    if len(found) <= lines:
        return found
    rest = " ".join(found[lines - 1 :])
    fits = _letters_that_fit(rest, style, width - width_of(ELLIPSIS, style))
    return (*found[: lines - 1], rest[:fits].rstrip() + ELLIPSIS)


@lru_cache(maxsize=4096)
def fitted(words: str, style: Style, width: float, smallest: float) -> tuple[str, Style]:
    """`words` on one line of `width` [pt]: set smaller down to `smallest` [pt], then shortened."""
    line = " ".join(cleaned(words).split())
    needed = width_of(line, style)
    if needed > width:
        style = style.sized(max(smallest, style.size * width / needed))
    return shortened(line, style, width + 0.01)[0], style


@lru_cache(maxsize=1024)
def whole_words(words: str, style: Style, width: float, smallest: float = 6.0) -> Style:
    """The style as small as it must be, down to `smallest` [pt], for no word to be broken."""
    longest = max((width_of(word, style) for word in cleaned(words).split()), default=0.0)
    if longest <= width:
        return style
    return style.sized(max(smallest, style.size * width / longest * 0.999))
