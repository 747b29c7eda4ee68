"""States are told apart by who does not see green, too, and every screen has an icon of our own.

Deuteranopia: the matrix of Machado, Oliveira and Fernandes 2009, IEEE TVCG 15(6):1283-1291, for a
severity of 1.0, on linear sRGB [recalled]. Colour difference: CIE 1976 L*a*b* under D65; 20 is
about nine times what is just noticed (2.3, Mahy 1994 [recalled]).
"""

from __future__ import annotations

from itertools import combinations
from math import dist
from xml.etree import ElementTree as ET

import pytest
from PySide6.QtGui import QIcon

from coachdesk.app import paths
from coachdesk.ui.icons import application_icon, icon
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.theme import DARK, LIGHT, Theme

_DEUTERANOPIA = (
    (0.367322, 0.860646, -0.227968),
    (0.280085, 0.672501, 0.047413),
    (-0.011820, 0.042940, 0.968881),
)
_TO_XYZ = (
    (0.4124 / 0.95047, 0.3576 / 0.95047, 0.1805 / 0.95047),
    (0.2126, 0.7152, 0.0722),
    (0.0193 / 1.08883, 0.1192 / 1.08883, 0.9505 / 1.08883),
)
TOLD_APART = 20.0


def _times(matrix: tuple[tuple[float, ...], ...], vector: list[float]) -> list[float]:
    return [sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix]


def _seen(colour: str) -> list[float]:
    """Linear red, green and blue as who lacks the green cone sees them."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return [min(max(part, 0.0), 1.0) for part in _times(_DEUTERANOPIA, linear)]


def _lab(linear: list[float]) -> tuple[float, float, float]:
    x, y, z = (
        part ** (1 / 3) if part > 0.008856 else 7.787 * part + 16 / 116
        for part in _times(_TO_XYZ, linear)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def apart(first: str, second: str) -> float:
    one, other = _lab(_seen(first)), _lab(_seen(second))
    return dist(one, other)


def test_the_measure_sees_what_such_an_eye_confuses() -> None:
    assert apart("#000000", "#ffffff") == pytest.approx(100, abs=0.2)
    assert apart("#2a6b35", "#a3262a") < TOLD_APART  # a green and a red of one lightness


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_states_are_told_apart_without_green(theme: Theme) -> None:
    for first, second in combinations(("good", "warn", "bad", "ink"), 2):
        difference = apart(getattr(theme, first), getattr(theme, second))
        assert difference >= TOLD_APART, (first, second, difference)


@pytest.mark.usefixtures("dressed")
@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_every_screen_has_an_icon_drawn_in_the_inks_of_the_theme(theme: Theme) -> None:
    folder = paths.resources() / "icons"
    drawn = []
    for place in SCREENS:
        made = icon(folder, place.key, theme)
        plain = made.pixmap(40, QIcon.Mode.Normal).toImage()
        chosen = made.pixmap(40, QIcon.Mode.Selected).toImage()
        assert plain != chosen, place.key
        drawn.append(plain)
    assert all(one != other for one, other in combinations(drawn, 2))
    assert not application_icon(folder).isNull()


def test_icons_are_plain_drawings_that_reach_for_nothing() -> None:
    for file in (paths.resources() / "icons").glob("*.svg"):
        for part in ET.parse(file).getroot().iter():  # noqa: S314 - our own files
            kind = part.tag.rpartition("}")[2]
            assert kind in {"svg", "path", "circle", "rect"}, (file.name, kind)
