"""The kit page: a box for each piece and check round, marked with what is on file of it."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.text import text
from coachdesk.reports.blocks import (
    Block,
    empty_box,
    grid_row,
    padded,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import lift_name
from coachdesk.reports.document import Section
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.theme import BODY, COLUMN_HEAD, LABEL, STRONG, SUBSECTION
from coachdesk.services.packet_content import EntryPacket, KitLine
from coachdesk.wording.wording import Wording

_SEEN = "\N{CHECK MARK}"
_MISSING = "\N{BALLOT X}"
_MARK = STRONG.sized(13)
_BOX = 12.5
"""The box of a piece and round [pt], wide enough for a pen."""
_BOX_COLUMN = 47.0
_KIT_GAP = 5.0
_MARK_LEFT, _MARK_UP = 1.0, 1.8
_CROSS_GAP = 2.0
_MARKS = LABEL.sized(8.5)
_LIMIT = BODY.sized(9.5)


def kit_section(packet: EntryPacket, wording: Wording, width: float) -> Section:
    """A box for each piece and round: first what the referees look at, then the rest."""
    rounds = packet.check_rounds
    box = min(_BOX_COLUMN, width * 0.55 / max(1, len(rounds)))
    widths = [width - box * len(rounds), *[box] * len(rounds)]
    heads = [
        wording(
            "sheet.kit.round",
            what=one.what,
            day=one.on.day,
            month=text(f"date.month.{one.on.month}"),
        )
        for one in rounds
    ]
    head = grid_row(
        widths,
        [
            _first_head(packet.kit, widths[0] - _KIT_GAP, wording),
            *((words, COLUMN_HEAD.sized(8.5)) for words in heads),
        ],
        gap=_KIT_GAP,
    )
    rows = [
        row
        for code, inspected in (("inspected", True), ("rest", False))
        for row in _kit_group(code, inspected, packet.kit, widths, wording)
    ]
    inspection = padded(words_block(wording.say(packet.kit_inspection), width), below=6)
    first = stack([inspection, head, rows[0]])
    return Section(wording("sheet.section.kit"), [first, *rows[1:]], head)


def _first_head(kit: Sequence[KitLine], width: float, wording: Wording) -> Block:
    """What the rows are, and, beside heads of three lines, what the marks in the boxes mean."""
    item = words_block(wording("sheet.kit.item"), width, COLUMN_HEAD)
    if all(sight is Sight.NOT_LOOKED for line in kit for sight in line.sights):
        return item
    marks = wording("sheet.kit.marks", seen=_SEEN, missing=_MISSING)
    return stack([item, words_block(marks, width, _MARKS)])


def _kit_group(
    code: str, inspected: bool, kit: Sequence[KitLine], widths: Sequence[float], wording: Wording
) -> list[Block]:
    """The rows of one part of the kit; its title stays with the first."""
    rows = [_kit_row(line, widths, wording) for line in kit if line.inspected is inspected]
    if not rows:
        return []
    title = words_block(wording(f"sheet.kit.{code}"), sum(widths), SUBSECTION)
    return [stack([padded(title, above=5), rows[0]]), *rows[1:]]


def _kit_row(line: KitLine, widths: Sequence[float], wording: Wording) -> Block:
    """A piece of kit and what gets it turned away, with a box for each round."""
    width = widths[0] - _KIT_GAP
    what = wording.say(line.item)
    if line.count > 1:
        what = wording("sheet.kit.several", number=line.count, item=line.item)
    if line.lifts:
        lifts = tuple(lift_name(lift, wording) for lift in line.lifts)
        what = wording("sheet.kit.for", what=what, lifts=lifts)
    limits = [words_block(wording.say(limit), width, _LIMIT) for limit in line.limits]
    item = stack([words_block(what, width, STRONG), *limits])
    looks = (*line.sights, *[Sight.NOT_LOOKED] * len(widths))[: len(widths) - 1]
    return grid_row(widths, [item, *map(_round_box, looks)], gap=_KIT_GAP, padding=2)


def _round_box(look: Sight) -> Block:
    """A box to tick: ticked where the piece was seen, free beside a cross where it was missing."""
    box = empty_box(_BOX, _BOX)
    if look is Sight.NOT_LOOKED:
        return box
    mark, left = {
        Sight.PRESENT: (_SEEN, _MARK_LEFT),
        Sight.MISSING: (_MISSING, _BOX + _CROSS_GAP),
    }[look]

    def draw(canvas: Canvas, x: float, top: float) -> None:
        box.draw(canvas, x, top)
        draw_line(canvas, x + left, top - _BOX + _MARK_UP, mark, _MARK)

    return Block(box.height, draw)
