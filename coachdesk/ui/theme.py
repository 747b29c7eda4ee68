"""Colours by role, type sizes and spacing, for a light and a dark room.

Every pair of a text role on `paper` or `panel` has a contrast of at least 4.5 to 1 (WCAG 2.2, AA);
a test computes it. No state is told by colour alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Room(StrEnum):
    """Which theme: the system's, or the coach's own choice."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


@dataclass(frozen=True, slots=True)
class Theme:
    """Colours as "#rrggbb" by what they are for."""

    is_dark: bool
    paper: str
    """The ground everything stands on."""
    panel: str
    """Fields, tables and cards on it."""
    raised: str
    """Heads of tables, buttons, the list of screens."""
    rule: str
    """Lines between things; never the only mark of a state."""
    ink: str
    quiet: str
    """Words that explain."""
    accent: str
    """What is chosen or leads on."""
    on_accent: str
    chosen: str
    """The ground of what is chosen in a list."""
    good: str
    warn: str
    bad: str


LIGHT = Theme(
    is_dark=False,
    paper="#f4f2ec",
    panel="#fdfcf9",
    raised="#e8e5dc",
    rule="#c9c4b6",
    ink="#20241f",
    quiet="#5b6058",
    accent="#1d5b57",
    on_accent="#ffffff",
    chosen="#d5e5e0",
    good="#1b6580",
    warn="#7d5200",
    bad="#7d0f24",
)
DARK = Theme(
    is_dark=True,
    paper="#171a18",
    panel="#1f2421",
    raised="#2a302c",
    rule="#465049",
    ink="#ebe9e1",
    quiet="#aab1a9",
    accent="#86cfc5",
    on_accent="#10211f",
    chosen="#23443f",
    good="#79d2e6",
    warn="#f2d478",
    bad="#f3948a",
)

TEXT_PT = 10.5
SMALL_PT = 9.5
HEADING_PT = 13.0
TITLE_PT = 18.0
FIGURE_PT = 22.0
"""Type sizes [pt]."""

GAP = 8
WIDE_GAP = 16
MARGIN = 20
"""Spacing [px]."""
