"""Discs' own colours on screen. They are a disc's property, not the theme's: red stays red."""

from __future__ import annotations

from coachdesk.ui.theme import Theme, contrast

_PAINT = {
    "red": "#b3302f",
    "blue": "#2b57a4",
    "yellow": "#e3b92c",
    "green": "#2f7d46",
    "white": "#f2f1ec",
    "black": "#2b2b2b",
    "silver": "#b9bdc1",
}
_DARK, _LIGHT = "#161616", "#ffffff"


def paint_of(colour: str, theme: Theme) -> str:
    """What a disc of this colour is painted in; without a known one, the theme's raised tone."""
    return _PAINT.get(colour, theme.raised)


def ink_on(paint: str) -> str:
    """Dark or light, whichever stands out more from the paint."""
    return max((_DARK, _LIGHT), key=lambda ink: contrast(ink, paint))
