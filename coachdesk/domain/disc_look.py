"""How discs are drawn, on screen and on paper: size and colour.

Real sizes differ from maker to maker. Discs are drawn as if cast of one iron: up to the weight at
which they reach the full diameter they are equally thick and their faces grow with their weight;
heavier ones are thicker instead. That meets the common sizes closely: 45 cm from 20 kg up, about
32 cm for 10 kg, 23 cm for 5 kg (common practice).

Colours are a disc's property, named by its rulebook, not the theme's: red stays red. The number
stands on each, since colours do not show on black-and-white paper.
"""

from __future__ import annotations

from math import sqrt

from coachdesk.domain.contrast import contrast

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
FULL_MM = 450.0
FULL_FROM_KG = 20.0
THICKNESS_MM = 22.0


def diameter_mm(kg: float) -> float:
    """The diameter [mm] of a disc of `kg` [kg]."""
    return FULL_MM * sqrt(min(kg / FULL_FROM_KG, 1.0))


def thickness_mm(kg: float) -> float:
    """The thickness [mm] of a disc of `kg` [kg]."""
    return THICKNESS_MM * max(kg / FULL_FROM_KG, 1.0)


def paint_of(colour: str, otherwise: str) -> str:
    """What a disc of this colour is painted in, "#rrggbb"; `otherwise` without a known one."""
    return _PAINT.get(colour, otherwise)


def ink_on(paint: str) -> str:
    """Dark or light, whichever stands out more from the paint; both "#rrggbb"."""
    return _LIGHT if is_dark(paint) else _DARK


def is_dark(paint: str) -> bool:
    """Whether light ink stands out more from the paint than dark ink."""
    return contrast(_LIGHT, paint) > contrast(_DARK, paint)
