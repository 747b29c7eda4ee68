"""How much two colours stand out from each other."""

from __future__ import annotations


def contrast(first: str, second: str) -> float:
    """The contrast of two colours, "#rrggbb", from 1 to 21.

    (L1 + 0.05) / (L2 + 0.05) of the relative luminances, the lighter first (WCAG 2.2).
    """
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
        for channel in channels
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
