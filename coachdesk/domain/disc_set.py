"""A coach's own set of discs: what is on the rack of a gym or a warm-up room."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.loading import BarSet, Disc
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit

COLOURS = ("red", "blue", "yellow", "green", "white", "black", "silver")
"""Colours that have words and can be drawn; any other is carried and shown as it was written."""


def colour_text(colour: str) -> Text:
    """A disc's colour in words."""
    if colour in COLOURS:
        return text(f"disc_colour.{colour}")
    return text("disc_colour.own", words=colour)


@dataclass(frozen=True, slots=True, kw_only=True)
class DiscSetData:
    """A bar with its collars and discs, by the name the coach gave it.

    `unit` is the unit its weights are shown in; `collar` is one of the two and may weigh nothing;
    `discs` are the kinds at hand, each with its pairs, heaviest first.
    """

    name: str
    unit: Unit
    bar: Mass
    collar: Mass
    discs: tuple[Disc, ...]

    @property
    def bar_set(self) -> BarSet:
        """As loading works with it."""
        return BarSet(self.bar, self.collar, self.discs)


@dataclass(frozen=True, slots=True, kw_only=True)
class DiscSet(DiscSetData):
    """A set of discs on file."""

    id: int
    version: int
