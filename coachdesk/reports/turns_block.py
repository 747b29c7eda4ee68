"""Every turn of a lift's plan with its chances, in a narrow column for the coach."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coachdesk.domain.attempts import LiftPlan, Turn
from coachdesk.reports.blocks import Block, beside, fitted_block, padded, rule, stack
from coachdesk.reports.theme import BODY, COLUMN_HEAD, LABEL, STRONG, Style
from coachdesk.wording.outcomes import seen_in_words
from coachdesk.wording.plan_words import chance_in_words
from coachdesk.wording.wording import Wording

_WORDS = BODY.sized(8.5)
_FIGURES = STRONG.sized(8.5)
_HEADS = LABEL.sized(7)
_SHARES = (0.46, 0.2, 0.17, 0.17)
_INDENT = 7.0
_SMALLEST = 6.0


@dataclass(frozen=True, slots=True)
class Turns:
    """The turns of a lift's plan in words: the lift's name, heads, and how deep a turn stands."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def turns_in_words(plan: LiftPlan, wording: Wording) -> Turns:
    """Every turn of a lift's plan, ready to be laid out for any width."""
    rows = []
    for depth, seen, turn in _walk(plan.opener, 0, wording("sheet.turns.opener"), wording):
        weight = wording.bare_mass(turn.weight)
        cells = (
            seen,
            wording("sheet.turns.yours", weight=weight) if turn.fixed else weight,
            chance_in_words(turn.good, wording),
            chance_in_words(turn.taken, wording),
        )
        rows.append((depth, cells))
    heads = tuple(wording(f"sheet.turns.{head}") for head in ("after", "weight", "good", "taken"))
    return Turns(wording(f"lift.{plan.lift}"), heads, tuple(rows))


def turns_block(turns: Turns, width: float) -> Block:
    """The lift's name, a head, and a row for each turn, those after a turn set in below it."""
    name = fitted_block(turns.name, width, COLUMN_HEAD, _SMALLEST)
    head = _row(0, turns.heads, (_HEADS,) * 4, width)
    styles = (_WORDS, _FIGURES, _WORDS, _WORDS)
    rows = [_row(depth, cells, styles, width) for depth, cells in turns.rows]
    return stack([name, rule(width), head, *rows])


def _walk(turn: Turn, depth: int, seen: str, wording: Wording) -> Iterator[tuple[int, str, Turn]]:
    yield depth, seen, turn
    for outcomes, following in turn.ways:
        yield from _walk(following, depth + 1, seen_in_words(outcomes, wording), wording)


def _row(depth: int, cells: Sequence[str], styles: tuple[Style, ...], width: float) -> Block:
    indent = _INDENT * depth
    pieces = []
    for at, (cell, style, share) in enumerate(zip(cells, styles, _SHARES, strict=True)):
        inset = indent if at == 0 else 0.0
        inner = fitted_block(cell, share * width - inset - 3, style, _SMALLEST, to_right=at > 0)
        pieces.append((share * width, padded(inner, left=inset)))
    return beside(pieces)
