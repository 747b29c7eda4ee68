"""What can be gone to or done, and which of it is meant by what is typed. Without Qt."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from coachdesk.wording.folding import folded

MOST_SHOWN = 60


@dataclass(frozen=True, slots=True)
class Goal:
    """Something to go to or to do: in words, what kind of thing it is, and doing it."""

    words: str
    kind: str
    reach: Callable[[], object]
    keys: str = ""
    made_for: Callable[[str], Goal] | None = None
    """What is offered for words that name nothing on file; such a goal is found by no words."""


def meant(goals: Iterable[Goal], typed: str) -> tuple[Goal, ...]:
    """The goals that hold every word typed, at the start of words first; in their order.

    Case and accents do not count. Of everything, where nothing is typed.
    """
    wanted = folded(typed).split()
    found: list[tuple[bool, Goal]] = []
    for goal in goals:
        held = folded(f"{goal.words} {goal.kind}")
        if goal.made_for is None and all(word in held for word in wanted):
            parts = held.split()
            begins = all(any(part.startswith(word) for part in parts) for word in wanted)
            found.append((not begins, goal))
    found.sort(key=lambda pair: pair[0])
    return tuple(goal for _, goal in found[:MOST_SHOWN])


def offered(goals: Iterable[Goal], typed: str) -> tuple[Goal, ...]:
    """What can be made of words that name nothing on file."""
    name = " ".join(typed.split())
    return tuple(goal.made_for(name) for goal in goals if name and goal.made_for is not None)
