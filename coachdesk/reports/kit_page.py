"""The kit page: a box for each piece and check round, marked with what is on file of it.

What referees look at comes first, a row to each piece with its limits; the rest of the bag, which
has none, stands below in two columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest

from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.text import text
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    empty_box,
    grid_row,
    head_block,
    middle,
    padded,
    rule,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import lift_name
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.sections import Section
from coachdesk.reports.theme import BODY, COLUMN_HEAD, GUTTER, LABEL, STRONG
from coachdesk.services.packet_content import EntryPacket, KitLine
from coachdesk.wording.wording import Wording

_SEEN = "\N{CHECK MARK}"
_MISSING = "\N{BALLOT X}"
_MARK = STRONG.sized(15)
_CROSS = STRONG.sized(11)
_BOX = 17.0
"""The box of a piece and round [pt]: 5 mm for a pen, also where the page is set smaller."""
_BOX_COLUMN = 47.0
_BAG_COLUMN = 29.0
_KIT_GAP = 5.0
_MARK_LEFT, _MARK_UP = 2.0, 3.0
_CROSS_GAP = 1.0
_MARKS = LABEL.sized(8.5)
_LIMIT = BODY.sized(9.5)
_ROUND = COLUMN_HEAD.sized(8.5)


def kit_sections(packet: EntryPacket, wording: Wording, width: float) -> list[Section]:
    """A box for each piece and round: what the referees look at, and what else is in the bag."""
    shown = [line for line in packet.kit if line.inspected]
    rest = [line for line in packet.kit if not line.inspected]
    inspection = padded(words_block(wording.say(packet.kit_inspection), width), below=6)
    sections = []
    if shown:
        title = wording("sheet.section.kit")
        sections.append(_shown(title, inspection, shown, packet, wording, width))
    if rest:
        bag = _bag(wording("sheet.kit.rest"), rest, packet, wording, width)
        sections.append(bag if shown else replace(bag, blocks=[inspection, *bag.blocks]))
    return sections


def _shown(
    title: str,
    above: Block,
    kit: Sequence[KitLine],
    packet: EntryPacket,
    wording: Wording,
    width: float,
) -> Section:
    """A row to each piece, with what gets it turned away."""
    rounds = packet.check_rounds
    box = min(_BOX_COLUMN, width * 0.55 / max(1, len(rounds)))
    widths = [width - box * len(rounds), *[box] * len(rounds)]
    heads = [
        wording(
            "sheet.kit.round",
            what=one.what,
            day=wording.day_of_month(one.on),
            month=text(f"date.month.{one.on.month}"),
        )
        for one in rounds
    ]
    first = _first_head(wording("sheet.kit.inspected"), packet.kit, widths[0] - _KIT_GAP, wording)
    head = grid_row(
        widths,
        [first, *(head_block(words, box - _KIT_GAP, _ROUND) for words in heads)],
        gap=_KIT_GAP,
    )
    rows = [_kit_row(line, widths, wording) for line in kit]
    return Section(title, [stack([above, head, rows[0]]), *rows[1:]], head)


def _bag(
    title: str, kit: Sequence[KitLine], packet: EntryPacket, wording: Wording, width: float
) -> Section:
    """The rest in two columns, read downwards, each with its own boxes and short heads."""
    rounds = packet.check_rounds
    half = (width - GUTTER) / 2
    box = min(_BAG_COLUMN, half * 0.6 / max(1, len(rounds)))
    widths = [half - box * len(rounds), *[box] * len(rounds)]
    days = [
        head_block(
            wording(
                "sheet.kit.day",
                day=wording.day_of_month(one.on),
                month=text(f"date.month.{one.on.month}"),
            ),
            box - _KIT_GAP / 2,
            _ROUND,
        )
        for one in rounds
    ]
    one_head = grid_row(
        widths, [(wording("sheet.kit.item"), COLUMN_HEAD), *days], gap=_KIT_GAP, padding=2
    )
    head = beside([(half, one_head), (half, one_head)], GUTTER)
    left = (len(kit) + 1) // 2
    rows = [_kit_row(line, widths, wording, ruled=False) for line in kit]
    pairs = [_level(pair, half) for pair in zip_longest(rows[:left], rows[left:])]
    return Section(title, [stack([head, pairs[0]]), *pairs[1:]], head)


def _level(pair: Sequence[Block | None], width: float) -> Block:
    """Rows side by side, the lines below them level."""
    height = max(row.height for row in pair if row is not None)
    ruled = [
        blank(0) if row is None else stack([Block(height, row.draw), rule(width)]) for row in pair
    ]
    return beside([(width, row) for row in ruled], GUTTER)


def _first_head(title: str, kit: Sequence[KitLine], width: float, wording: Wording) -> Block:
    """What the rows are, and, beside heads of three lines, what the marks in the boxes mean."""
    item = words_block(title, width, COLUMN_HEAD)
    if all(sight is Sight.NOT_LOOKED for line in kit for sight in line.sights):
        return item
    marks = wording("sheet.kit.marks", seen=_SEEN, missing=_MISSING)
    return stack([item, words_block(marks, width, _MARKS)])


def _kit_row(
    line: KitLine, widths: Sequence[float], wording: Wording, *, ruled: bool = True
) -> Block:
    """A piece of kit and what gets it turned away, with a box for each round."""
    width = widths[0] - _KIT_GAP
    what = wording.say(line.item)
    if line.count > 1:
        what = wording("sheet.kit.several", number=line.count, item=line.item)
    lifts = tuple(lift_name(lift, wording) for lift in line.lifts)
    if lifts and not _names(what, lifts):
        what = wording("sheet.kit.for", what=what, lifts=lifts)
    limits = [words_block(wording.say(limit), width, _LIMIT) for limit in line.limits]
    item = stack([words_block(what, width, STRONG), *limits])
    if not limits:
        item = middle(item, _BOX)
    looks = (*line.sights, *[Sight.NOT_LOOKED] * len(widths))[: len(widths) - 1]
    return grid_row(widths, [item, *map(_round_box, looks)], gap=_KIT_GAP, padding=2, ruled=ruled)


def _names(what: str, lifts: Sequence[str]) -> bool:
    """Whether a piece is called after its lift, as deadlift shoes are."""
    return len(lifts) == 1 and lifts[0].casefold().split()[0] in what.casefold()


def _round_box(look: Sight) -> Block:
    """A box to tick: ticked where the piece was seen, free beside a cross where it was missing."""
    box = empty_box(_BOX, _BOX)
    if look is Sight.NOT_LOOKED:
        return box
    mark, left, style = {
        Sight.PRESENT: (_SEEN, _MARK_LEFT, _MARK),
        Sight.MISSING: (_MISSING, _BOX + _CROSS_GAP, _CROSS),
    }[look]

    def draw(canvas: Canvas, x: float, top: float) -> None:
        box.draw(canvas, x, top)
        draw_line(canvas, x + left, top - _BOX + _MARK_UP, mark, style)

    return Block(box.height, draw)
