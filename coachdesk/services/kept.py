"""Keeping what was made of things that are looked at again and again."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import Generic, TypeVar

Source = TypeVar("Source")
Made = TypeVar("Made")


class Kept(Generic[Source, Made]):
    """What was made last time, by key, beside what it was made of.

    It is made anew wherever that is not equal any more, so that nobody has to say what changed;
    what is no longer asked for is let go. `make` must depend on what it is given alone.
    """

    def __init__(self, make: Callable[[Source], Made]) -> None:
        self._make = make
        self._kept: dict[Hashable, tuple[Source, Made]] = {}

    def of(self, sources: Iterable[tuple[Hashable, Source]]) -> list[Made]:
        """What is made of all these, in the order given; keys differ."""
        before, now = self._kept, {}
        for key, source in sources:
            kept = before.get(key)
            now[key] = kept if kept and kept[0] == source else (source, self._make(source))
        self._kept = now
        return [made for _, made in now.values()]
