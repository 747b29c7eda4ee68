"""How large discs are drawn, without widgets.

Real sizes differ from maker to maker. Discs are drawn as if cast of one iron: up to the weight at
which they reach the full diameter they are equally thick and their faces grow with their weight;
heavier ones are thicker instead. That meets the common sizes closely: 45 cm from 20 kg up, about
32 cm for 10 kg, 23 cm for 5 kg (common practice).
"""

from __future__ import annotations

from math import sqrt

FULL_MM = 450.0
FULL_FROM_KG = 20.0
THICKNESS_MM = 22.0


def diameter_mm(kg: float) -> float:
    """The diameter [mm] of a disc of `kg` [kg]."""
    return FULL_MM * sqrt(min(kg / FULL_FROM_KG, 1.0))


def thickness_mm(kg: float) -> float:
    """The thickness [mm] of a disc of `kg` [kg]."""
    return THICKNESS_MM * max(kg / FULL_FROM_KG, 1.0)
