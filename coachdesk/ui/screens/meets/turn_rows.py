"""The turns of a plan in rows, as a coach reads and overrules them. No Qt here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coachdesk.domain.attempts import LiftPlan, Outcome, Turn
from coachdesk.domain.lifting import Lift
from coachdesk.services.plan_fixing import TurnOf
from coachdesk.ui.loading_words import typed_weight
from coachdesk.wording.outcomes import seen_in_words
from coachdesk.wording.plan_words import chance_in_words
from coachdesk.wording.wording import Wording

_INDENT = "\N{NO-BREAK SPACE}" * 3

Group = tuple[Outcome, ...]


@dataclass(frozen=True, slots=True)
class TurnRow:
    """A turn in words: what led to it, its weight and chances. `note` says why, and who chose.

    A lift that is not planned has one row without a weight.
    """

    turn: TurnOf
    number: int
    label: str
    weight: str
    typed: str
    good: str
    taken: str
    aim: str
    note: str
    fixed: bool

    @property
    def lift(self) -> Lift:
        """The lift it belongs to."""
        return self.turn.lift


def turn_rows(plan: LiftPlan, words: Wording) -> tuple[TurnRow, ...]:
    """The turns of a lift from the opener on, equal branches together."""
    return tuple(_rows(plan.lift, plan.opener, ((),), "", words))


def row_of_missing(lift: Lift, why: str, words: Wording) -> TurnRow:
    """The row of a lift that is not planned, and why it is not."""
    label = words("plans.not_planned", lift=words(f"lift.{lift}"))
    return TurnRow(TurnOf(lift, ((),)), 1, label, "", "", "", "", "", why, fixed=False)


def _rows(
    lift: Lift, turn: Turn, ways: tuple[Group, ...], seen: str, words: Wording
) -> Iterator[TurnRow]:
    yield _row(lift, turn, ways, seen, words)
    for group, following in turn.ways:
        onward = tuple((*way, outcome) for way in ways for outcome in group)
        yield from _rows(lift, following, onward, seen_in_words(group, words), words)


def _row(lift: Lift, turn: Turn, ways: tuple[Group, ...], seen: str, words: Wording) -> TurnRow:
    which = words(f"attempt.{turn.number}")
    label = (
        words("plans.opener", lift=words(f"lift.{lift}"), which=which)
        if turn.number == 1
        else _INDENT * (turn.number - 1) + words("plans.after", which=which, seen=seen)
    )
    notes = [words.say(note) for note in turn.notes]
    if turn.fixed:
        notes.insert(0, words("plans.yours"))
    return TurnRow(
        turn=TurnOf(lift, ways),
        number=turn.number,
        label=label,
        weight=words.bare_mass(turn.weight),
        typed=typed_weight(turn.weight, words.unit),
        good=chance_in_words(turn.good, words),
        taken=chance_in_words(turn.taken, words),
        aim=chance_in_words(turn.aim, words),
        note=" ".join(notes),
        fixed=turn.fixed,
    )
