"""The order in which a line with Hebrew or Arabic letters is drawn.

A short form of the Unicode bidirectional algorithm (UAX #9) for a single line: embedding levels
come from the letters' own classes, without explicit directions or brackets. Arabic letters take
their joined shapes from the Unicode presentation forms.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from itertools import groupby

_RIGHT = {"R", "AL"}
_NUMBER = {"EN", "AN"}
_FORMS = range(0xFE70, 0xFF00)


def visual_order(line: str) -> str:
    """`line` in drawing order, left to right; a line without such letters comes back as it is."""
    if line.isascii() or not any(_class(one) in _RIGHT for one in line):
        return line
    letters = _clusters(_joined(line))
    levels = _levels([_class(cluster[0]) for cluster in letters])
    for level in range(max(levels), 0, -1):
        letters, levels = _turned(letters, levels, level)
    return "".join(letters)


def _class(letter: str) -> str:
    return unicodedata.bidirectional(letter)


def _clusters(line: str) -> list[str]:
    """Letters with the marks that sit on them."""
    clusters: list[str] = []
    for one in line:
        if clusters and unicodedata.combining(one):
            clusters[-1] += one
        else:
            clusters.append(one)
    return clusters


def _levels(classes: list[str]) -> list[int]:
    """0 for left to right, 1 for right to left, 2 for left-to-right letters and numbers in it."""
    base = next((int(one in _RIGHT) for one in classes if one in {"L", *_RIGHT}), 0)
    levels: list[int | None] = []
    right = bool(base)
    for one in classes:
        if one in _RIGHT:
            right = True
            levels.append(1)
        elif one == "L":
            right = False
            levels.append(2 * base)
        elif one in _NUMBER:
            levels.append(2 if right or base else 0)
        else:
            levels.append(None)
    return _filled(levels, base)


def _filled(levels: list[int | None], base: int) -> list[int]:
    """Blanks and marks go with the letters around them, or with the line where those differ."""
    filled: list[int] = []
    for at, level in enumerate(levels):
        if level is not None:
            filled.append(level)
            continue
        before = filled[-1] if filled else base
        after = next((one for one in levels[at + 1 :] if one is not None), base)
        filled.append(min(before, after) if base else min(before, after, 1))
    return filled


def _turned(letters: list[str], levels: list[int], level: int) -> tuple[list[str], list[int]]:
    """Every stretch at `level` or above, reversed."""
    turned: list[tuple[str, int]] = []
    for high, stretch in groupby(
        zip(letters, levels, strict=True), key=lambda pair: pair[1] >= level
    ):
        pairs = list(stretch)
        turned.extend(reversed(pairs) if high else pairs)
    return [letter for letter, _ in turned], [at for _, at in turned]


@cache
def _shapes() -> dict[tuple[str, str], str]:
    """The presentation form of an Arabic letter by (letter, "isolated" | "final" | ...)."""
    shapes: dict[tuple[str, str], str] = {}
    for code in _FORMS:
        form, _, letters = unicodedata.decomposition(chr(code)).partition(" ")
        if form and " " not in letters:
            shapes[chr(int(letters, 16)), form.strip("<>")] = chr(code)
    return shapes


def _joined(line: str) -> str:
    """Arabic letters in the shapes they take beside each other."""
    shapes = _shapes()
    bases = [at for at, one in enumerate(line) if not unicodedata.combining(one)]
    shaped = list(line)
    for order, at in enumerate(bases):
        one = line[at]
        before = line[bases[order - 1]] if order > 0 else ""
        after = line[bases[order + 1]] if order + 1 < len(bases) else ""
        joins_back = (before, "initial") in shapes and (one, "final") in shapes
        joins_on = (one, "initial") in shapes and (after, "final") in shapes
        form = (
            ("medial" if joins_on else "final")
            if joins_back
            else ("initial" if joins_on else "isolated")
        )
        shaped[at] = shapes.get((one, form), one)
    return "".join(shaped)
