"""Every turn of a lift's plan with its chances, in a narrow column for the coach."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coachdesk.domain.attempts import LiftPlan, Turn
from coachdesk.reports.blocks import (
    Block,
    beside,
    fitted_block,
    lines_block,
    padded,
    rule,
    stack,
    words_block,
)
from coachdesk.reports.text_runs import whole_words, wrapped
from coachdesk.reports.theme import BODY, LABEL, STRONG
from coachdesk.wording.outcomes import seen_in_words
from coachdesk.wording.plan_words import chance_in_words
from coachdesk.wording.wording import Wording

_WORDS = BODY._replace(size=9, leading=10.5)
_FIGURES = STRONG._replace(size=9, leading=10.5)
_HEADS = LABEL.sized(8)
_SHARES = (0.43, 0.19, 0.18, 0.2)
_INDENT = 6.0
_GAP = 3.0
_ROW_GAP = 1.8
"""Wider than between the lines of one row: what belongs together stands together."""
_SMALLEST = 6.0


@dataclass(frozen=True, slots=True)
class Turns:
    """The turns of a lift's plan in words: heads, and how deep each turn stands."""

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
    return Turns(heads, tuple(rows))


def turns_block(turns: Turns, width: float) -> Block:
    """A head, and a row for each turn, those after a turn set in below it."""
    rows = [_head(turns.heads, width)]
    rows += [_row(depth, cells, width) for depth, cells in turns.rows]
    return stack([rule(width), stack(rows, _ROW_GAP)])


def _walk(turn: Turn, depth: int, seen: str, wording: Wording) -> Iterator[tuple[int, str, Turn]]:
    yield depth, seen, turn
    for outcomes, following in turn.ways:
        yield from _walk(following, depth + 1, seen_in_words(outcomes, wording), wording)


def _head(heads: Sequence[str], width: float) -> Block:
    """The heads, in as many lines as they need, level with the first row."""
    columns: list[tuple[float, Block]] = []
    for head, share in zip(heads, _SHARES, strict=True):
        room = share * width - _GAP
        style = whole_words(head, _HEADS, room, _SMALLEST)
        lines = wrapped(head, style, room)
        columns.append((share * width, lines_block(lines, style, room, to_right=bool(columns))))
    most = max(block.height for _, block in columns)
    return beside((column, padded(block, above=most - block.height)) for column, block in columns)


def _row(depth: int, cells: Sequence[str], width: float) -> Block:
    """What was seen, in as many lines as it needs, and the figures of the turn."""
    seen, *figures = cells
    indent = _INDENT * depth
    after = _SHARES[0] * width
    pieces = [(after, padded(words_block(seen, after - indent - _GAP, _WORDS), left=indent))]
    styles = (_FIGURES, _WORDS, _WORDS)
    for words, style, share in zip(figures, styles, _SHARES[1:], strict=True):
        inner = fitted_block(words, share * width - _GAP, style, _SMALLEST, to_right=True)
        pieces.append((share * width, inner))
    return beside(pieces)
