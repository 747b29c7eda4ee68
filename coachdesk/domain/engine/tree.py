"""A plan for one lift as a tree: what to do next, and what each turn of the day is worth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coachdesk.domain.attempts import Branch, Outcome, Turn
from coachdesk.domain.engine.likelihood import told_apart
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass


@dataclass(frozen=True, slots=True)
class Choice:
    """An attempt of a plan: the weight, and where each group of outcomes leads."""

    number: int
    weight: Mass
    ways: tuple[tuple[tuple[Outcome, ...], Choice], ...] = ()

    def after(self, outcome: Outcome) -> Choice | None:
        """The next attempt after `outcome`, or None after the third."""
        for outcomes, following in self.ways:
            if outcome in outcomes:
                return following
        return None

    def all_choices(self) -> Iterator[Choice]:
        """This attempt and all that may follow."""
        yield self
        for _, following in self.ways:
            yield from following.all_choices()

    @property
    def lines(self) -> int:
        """How many lines a card needs: one for each weight that may follow another."""
        return 1 + sum(following.lines for _, following in self.ways)


@dataclass(frozen=True, slots=True)
class Way:
    """Where an attempt leads: the outcomes, their chance once the attempt is taken, and the next
    attempt."""

    outcomes: tuple[Outcome, ...]
    chance: float
    then: Node


@dataclass(frozen=True, slots=True)
class Node:
    """An attempt of a plan with its chances.

    `taken` is the chance that the day comes to it, `good` that it is good then; `aim` the chance
    from here on of the first aim, where there is one. `notes` say why, where it is not obvious.
    """

    number: int
    weight: Mass
    taken: float
    good: float
    aim: float | None = None
    ways: tuple[Way, ...] = ()
    notes: tuple[Text, ...] = ()

    def after(self, outcome: Outcome) -> Node | None:
        """The next attempt after `outcome`, or None after the third."""
        return next((way.then for way in self.ways if outcome in way.outcomes), None)

    def all_nodes(self) -> Iterator[Node]:
        """This attempt and all that may follow."""
        yield self
        for way in self.ways:
            yield from way.then.all_nodes()


def choice_of(turn: Turn) -> Choice:
    """A plan of `attempts` (the textbook pattern, say) as the engine evaluates it.

    Branches by made and missed stand for all that a handler can tell apart.
    """
    ways = tuple((told_apart(branch.outcome), choice_of(branch.turn)) for branch in turn.branches)
    return Choice(turn.number, turn.weight, ways)


def turn_of(node: Node) -> Turn:
    """The tree as sheets and snapshots hold it, a branch for each outcome; equal branches are one
    and the same turn."""
    branches: list[Branch] = []
    for way in node.ways:
        turn = turn_of(way.then)
        branches.extend(Branch(outcome, turn) for outcome in way.outcomes)
    return Turn(
        node.number,
        node.weight,
        tuple(branches),
        taken=node.taken,
        good=node.good,
        aim=node.aim,
        notes=node.notes,
    )
