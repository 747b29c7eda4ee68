"""Everything the box reaches: screens, athletes, meets, what can be done on screens and desk."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol

from PySide6.QtGui import QAction

from coachdesk.services.on_file import on_file
from coachdesk.ui.context import Context
from coachdesk.ui.go_to.deeds import action_goal, deeds_of
from coachdesk.ui.go_to.goals import Goal
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.weights.day_words import short_day


class Desktop(Protocol):
    """The window, as far as the box needs it."""

    @property
    def current_key(self) -> str:
        """The key of the screen shown."""

    def screen_at(self, key: str) -> Screen:
        """A screen, made when it is first asked for."""

    def go_to(self, key: str, record_id: int = 0) -> None:
        """Show a screen, and a record on it."""


def everything(window: Desktop, context: Context, actions: Iterable[QAction]) -> tuple[Goal, ...]:
    """All goals: what can be done here first, then screens, athletes, meets, and the rest.

    `actions` are the window's own.
    """
    here = window.current_key
    keys = sorted((place.key for place in SCREENS), key=lambda key: key != here)
    deeds = {key: tuple(_deeds(window, context, key)) for key in keys}
    goals = [*deeds.get(here, ()), *_screens(window, context), *_records(window, context)]
    for key in keys:
        goals += [] if key == here else deeds[key]
    return (*goals, *_of_desk(context, actions))


def _deeds(window: Desktop, context: Context, key: str) -> Iterator[Goal]:
    """What can be done on a screen, also where nobody has been there yet."""
    screen = window.screen_at(key)
    screen.read_ahead()
    screen.make_whole()
    words, name = context.words, context.words(f"screen.{key}")

    def kind_of(part: str) -> str:
        return words("goto.kind.part", screen=name, part=part) if part else name

    return deeds_of(screen, kind_of, _way(window, key))


def _screens(window: Desktop, context: Context) -> Iterator[Goal]:
    words = context.words
    for at, place in enumerate(SCREENS, start=1):
        way = _way(window, place.key)
        yield Goal(words(f"screen.{place.key}"), words("goto.kind.screen"), way, f"Ctrl+{at}")


def _records(window: Desktop, context: Context) -> Iterator[Goal]:
    words, found = context.words, on_file(context.desk)
    for athlete in found.athletes:
        way = _way(window, "roster", athlete.id)
        yield Goal(athlete.name, words("goto.kind.athlete"), way)
    for meet in found.meets:
        kind = words("goto.kind.meet", day=short_day(words, meet.starts_on))
        yield Goal(meet.name, kind, _way(window, "meets", meet.id))


def _of_desk(context: Context, actions: Iterable[QAction]) -> Iterator[Goal]:
    """What the menus hold but for the ways to screens, which are named above, and the box."""
    above = {context.words(f"screen.{place.key}") for place in SCREENS}
    above.add(context.words("goto.open"))
    for action in actions:
        goal = action_goal(action, context.words("goto.kind.desk"))
        if goal.words and goal.words not in above and action.isEnabled():
            yield goal


def _way(window: Desktop, key: str, record_id: int = 0) -> Callable[[], object]:
    return lambda: window.go_to(key, record_id)
