"""The faces of a handler's cards, as pairs of a front and what is on its back: the day with the
warm-ups' reading and the kit, each lift with its warm-ups, and one to write on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    fitted_block,
    grid_head,
    middle,
    padded,
    rule,
    shares,
    stack,
    tick_box,
    two_lines,
    words_block,
)
from coachdesk.reports.card_words import card_foot, card_head, name_and_title, short_foot
from coachdesk.reports.day_blocks import duty_rows, entry_line, lift_name, rack_line, timetable
from coachdesk.reports.lift_card import lift_card
from coachdesk.reports.text_runs import wrapped
from coachdesk.reports.theme import BODY, COLUMN_HEAD, LABEL, STRONG
from coachdesk.reports.warm_up_blocks import lift_blocks, reading_blocks
from coachdesk.services.packet_content import EntryPacket, KitLine
from coachdesk.wording.wording import Wording

_SMALL_CLOCK = STRONG.sized(11)
_TICK = 17.5
_ITEM = BODY.sized(9.5)
_LONG_ITEM = BODY.sized(8)._replace(leading=8.5)
_WRITING_ROWS, _NOTES_ROWS = 9, 10
_WRITING_ROW = 29.0


@dataclass(frozen=True, slots=True)
class Face:
    """One side of a card: its title, and what lays it out for a width [pt]."""

    title: str
    layout: Callable[[float], Block]


Pair = tuple[Face, Face]
"""A card: what is on its front and on its back."""


def cards_of(packet: EntryPacket, wording: Wording, *, both_sides: bool) -> list[Pair]:
    """An entry's cards: the day, and each lift. `both_sides` tells how they are printed."""
    warm_ups = {lift.lift: lift for lift in packet.warm_up.lifts}
    pairs = [(_day(packet, wording), _reading(packet, wording, both_sides=both_sides))]
    for card in packet.lifts:
        title = lift_name(card.lift, wording)
        front = Face(title, lift_card(packet, card, wording))
        if card.lift in warm_ups:
            sets = partial(lift_blocks, warm_ups[card.lift], wording)
            back_title = wording("sheet.warm_up.of_lift", lift=title)
            pairs.append((front, _plain_face(packet, back_title, sets, wording)))
        else:
            pairs.append((front, _notes(packet, wording)))
    return pairs


def writing_card(packet: EntryPacket, wording: Wording) -> Pair:
    """A card to write on, where a sheet has room for one: the others in the class, and notes."""
    title = wording("sheet.card.others")
    return _plain_face(packet, title, partial(_others, wording), wording), _notes(packet, wording)


def _plain_face(
    packet: EntryPacket, title: str, body: Callable[[float], Sequence[Block]], wording: Wording
) -> Face:
    """Whose it is and a title, a body, and which meet it is for."""
    foot = short_foot(packet, wording)

    def layout(width: float) -> Block:
        head = name_and_title(packet.athlete, title, width)
        return stack([*head, blank(3), *body(width), blank(3), foot(width)])

    return Face(title, layout)


def _notes(packet: EntryPacket, wording: Wording) -> Face:
    def lines(width: float) -> list[Block]:
        return [stack([blank(_WRITING_ROW), rule(width)]) for _ in range(_NOTES_ROWS)]

    return _plain_face(packet, wording("sheet.section.notes"), lines, wording)


def _others(wording: Wording, width: float) -> list[Block]:
    """Rows for the others in the class: who, what they have so far, what they take next."""
    widths = shares(width, 46, 27, 27)
    heads = [wording(f"sheet.card.{head}") for head in ("lifter", "so_far", "next")]
    rows = [stack([blank(_WRITING_ROW), rule(width)]) for _ in range(_WRITING_ROWS)]
    return [grid_head(widths, heads), *rows]


def _day(packet: EntryPacket, wording: Wording) -> Face:
    title = wording("sheet.card.day")
    return Face(title, partial(_day_card, packet, title, wording))


def _day_card(packet: EntryPacket, title: str, wording: Wording, width: float) -> Block:
    """Times, racks of every lift, who does what."""
    day = packet.meet.starts_on
    style = BODY.sized(9.5)
    times = timetable(packet.timetable, day, width, wording, clock=_SMALL_CLOCK, style=style)
    racks = [
        stack(
            [
                words_block(lift_name(card.lift, wording), width, COLUMN_HEAD),
                rack_line(card, width, wording, BODY),
            ]
        )
        for card in packet.lifts
        if card.racks
    ]
    body: list[Block] = []
    for section in (times, racks, duty_rows(packet.duties, width, wording)):
        if section:
            body += [blank(4), rule(width), blank(3), *section]
    return stack(
        [
            *card_head(packet, title, wording, width),
            fitted_block(entry_line(packet, wording), width, LABEL, 6),
            *body,
            *card_foot(packet, wording, width),
        ]
    )


def _reading(packet: EntryPacket, wording: Wording, *, both_sides: bool) -> Face:
    """How to read the warm-ups, and the kit as it is looked through in the morning."""

    def body(width: float) -> list[Block]:
        reading = reading_blocks(packet.warm_up, wording, width, both_sides=both_sides)
        kit = _kit_check(packet.kit, wording, width)
        if kit:
            kit = [rule(width), blank(3), *kit]
        return [*reading, *kit]

    return _plain_face(packet, wording("sheet.section.warm_ups"), body, wording)


def _kit_check(kit: Sequence[KitLine], wording: Wording, width: float) -> list[Block]:
    """A box for each piece that referees look at, in two columns; the rest of the bag by name."""
    shown = [line for line in kit if line.inspected]
    blocks = []
    if shown:
        boxes = [_kit_box(_item_words(line, wording), width / 2) for line in shown]
        rows = (len(boxes) + 1) // 2
        blocks.append(words_block(wording("sheet.card.kit"), width, COLUMN_HEAD))
        blocks += [beside([(width / 2, box) for box in boxes[at::rows]]) for at in range(rows)]
    rest = tuple(_item_words(line, wording) for line in kit if not line.inspected)
    if rest:
        words = wording("sheet.card.bag", items=rest)
        blocks.append(padded(words_block(words, width, _ITEM), above=2))
    return blocks


def _item_words(line: KitLine, wording: Wording) -> str:
    if line.count > 1:
        return wording("sheet.kit.several", number=line.count, item=line.item)
    return wording.say(line.item)


def _kit_box(words: str, width: float) -> Block:
    """A box with what it is for, on two lines where one is not enough."""
    room = width - _TICK - 8
    one_line = len(wrapped(words, _ITEM, room)) == 1
    item = two_lines(words, room, _ITEM if one_line else _LONG_ITEM, 6)
    ticked = beside([(_TICK + 4, tick_box(_TICK)), (room, middle(item, _TICK))])
    return padded(ticked, below=2)
