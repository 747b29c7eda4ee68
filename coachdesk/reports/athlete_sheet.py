"""The athlete's sheet: the day on one page, then what applies. No chances, no risk figures."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.text import Text
from coachdesk.reports.blocks import (
    PADDING,
    Block,
    beside,
    blank,
    boxed,
    fitted_block,
    grid_head,
    grid_row,
    padded,
    prose,
    rule,
    shares,
    stack,
    tick_box,
    words_block,
)
from coachdesk.reports.day_blocks import (
    duty_rows,
    entry_line,
    lift_name,
    place_line,
    rack_lines,
    timetable,
    titled,
)
from coachdesk.reports.document import Document, Masthead
from coachdesk.reports.plan_paths import Reader, follows_plan, good_path
from coachdesk.reports.theme import (
    BODY,
    FIGURE,
    GUTTER,
    LABEL,
    STRONG,
    SUBSECTION,
    Paper,
)
from coachdesk.reports.weight_page import weight_blocks
from coachdesk.services.packet_content import EntryPacket, KitLine, LiftCard
from coachdesk.wording.wording import Wording

_CUE_LINES = 4
_LARGEST = 1.25
_BOX_COLUMN = 84.0


def render_athlete_sheet(packet: EntryPacket, wording: Wording, paper: Paper) -> bytes:
    """The athlete's sheet as a PDF. The fonts must have been loaded."""
    reader = Reader(packet, wording)
    wording = reader.wording
    masthead = Masthead(packet.athlete, wording("sheet.kind.athlete"), packet.meet, packet.mark)
    document = Document(masthead, wording, paper.size)
    document.one_page(
        wording("sheet.section.day"),
        lambda width: _day(packet, reader, width),
        largest=_LARGEST,
    )
    weight = weight_blocks(packet.weight, reader, document.width)
    if weight:
        document.section(wording("sheet.section.weight"), weight)
    _commands(document, packet, wording)
    _kit(document, packet, wording)
    if packet.first_meet and packet.briefing:
        document.section(
            wording("sheet.section.briefing"), numbered(packet.briefing, document.width, wording)
        )
    if packet.after_last_lift:
        document.section(
            wording("sheet.section.after"), bullets(packet.after_last_lift, document.width, wording)
        )
    return document.finish()


def _day(packet: EntryPacket, reader: Reader, width: float) -> Block:
    """The first page: everything needed between waking up and the last attempt."""
    wording = reader.wording
    half = (width - GUTTER) / 2
    day = packet.meet.starts_on
    times = titled(
        wording("sheet.section.times"),
        timetable(packet.timetable, day, half, wording),
        half,
        SUBSECTION,
    )
    right = []
    if packet.duties:
        handlers = duty_rows(packet.duties, half, wording)
        right.append(titled(wording("sheet.section.handlers"), handlers, half, SUBSECTION))
    if packet.food:
        food = timetable(packet.food, day, half, wording)
        right.append(titled(wording("sheet.section.food"), food, half, SUBSECTION))
    return stack(
        [
            fitted_block(entry_line(packet, wording), width, STRONG.sized(12), 8),
            fitted_block(place_line(packet, wording), width, BODY.sized(11), 8),
            blank(8),
            _openers(packet.lifts, reader, width),
            blank(12),
            beside([(half, times), (half, stack(right, 12))], GUTTER),
        ]
    )


def _openers(cards: Sequence[LiftCard], reader: Reader, width: float) -> Block:
    """A box for each lift, side by side, all as high as the highest."""
    gap, padding = 8.0, 8.0
    each = (width - gap * (len(cards) - 1)) / max(1, len(cards))
    inner = [_opener(card, reader, each - 2 * padding) for card in cards]
    height = max((block.height for block in inner), default=0.0)
    return beside([(each, boxed(Block(height, block.draw), each, padding)) for block in inner], gap)


def _opener(card: LiftCard, reader: Reader, width: float) -> Block:
    wording = reader.wording
    head = [fitted_block(lift_name(card.lift, wording), width, SUBSECTION, 9)]
    if card.flight:
        head.append(fitted_block(wording("sheet.flight", name=card.flight), width, LABEL, 8))
    if card.opener is None:
        opener = [words_block(wording("sheet.opener.none"), width)]
    else:
        how = "sheet.opener.handed_in" if card.opener_chosen else "sheet.opener.planned"
        opener = [
            words_block(wording(how), width, LABEL),
            fitted_block(wording.mass(card.opener), width, FIGURE, 12),
            *reader.own_line(card.opener, width, STRONG),
        ]
    return stack(
        [
            *head,
            blank(3),
            *opener,
            *_may_lead_to(card, reader, width),
            *_racks_and_cue(card, wording, width),
        ]
    )


def _may_lead_to(card: LiftCard, reader: Reader, width: float) -> list[Block]:
    if card.plan is None or not follows_plan(card):
        return []
    _, second, third = good_path(card.plan)
    leads = reader.wording(
        "sheet.opener.leads", second=reader.mass(second), third=reader.mass(third)
    )
    return [words_block(leads, width)]


def _racks_and_cue(card: LiftCard, wording: Wording, width: float) -> list[Block]:
    blocks = []
    if card.racks:
        blocks += [blank(5), *rack_lines(card, width, wording, STRONG)]
    if card.cue:
        blocks += [
            blank(5),
            rule(width),
            blank(3),
            words_block(wording("sheet.cue", cue=card.cue), width, BODY, most=_CUE_LINES),
        ]
    return blocks


def _commands(document: Document, packet: EntryPacket, wording: Wording) -> None:
    """For each lift the commands in order, the cue in full, and what gets a no lift."""
    widths = shares(document.width, 34, 66)
    for card in packet.lifts:
        left = [
            words_block(
                wording("sheet.numbered", number=number, words=command),
                widths[0] - GUTTER,
                STRONG.sized(12),
            )
            for number, command in enumerate(card.commands, start=1)
        ]
        right = [_bullet(wording.say(cause), widths[1]) for cause in card.causes]
        blocks = (
            [
                beside(
                    [
                        (widths[0], titled(wording("sheet.commands"), left, widths[0], STRONG)),
                        (widths[1], titled(wording("sheet.causes"), right, widths[1], STRONG)),
                    ]
                )
            ]
            if left or right
            else []
        )
        if card.cue:
            blocks += [blank(6), *prose(wording("sheet.cue", cue=card.cue), document.width)]
        if blocks:
            document.section(
                wording("sheet.section.commands", lift=lift_name(card.lift, wording)), blocks
            )


def _kit(document: Document, packet: EntryPacket, wording: Wording) -> None:
    if not packet.kit:
        return
    rounds = packet.check_rounds
    box = min(_BOX_COLUMN, document.width * 0.55 / max(1, len(rounds)))
    widths = [document.width - box * len(rounds), *[box] * len(rounds)]
    head = grid_head(
        widths,
        [
            wording("sheet.kit.item"),
            *(wording("sheet.kit.round", what=one.what, day=one.on) for one in rounds),
        ],
    )
    rows = [_kit_row(line, widths, wording) for line in packet.kit]
    inspection = padded(words_block(wording.say(packet.kit_inspection), document.width), below=6)
    first = stack([inspection, head, rows[0]])
    document.section(wording("sheet.section.kit"), [first, *rows[1:]], running_head=head)


def _kit_row(line: KitLine, widths: Sequence[float], wording: Wording) -> Block:
    """A piece of kit with a box for each round; what gets it turned away, right across below."""
    item = _kit_words(line, wording, widths[0] - 8)
    boxes = [tick_box()] * (len(widths) - 1)
    width = sum(widths)
    limits = [words_block(wording.say(limit), width) for limit in line.limits]
    return stack(
        [
            grid_row(widths, [item, *boxes], ruled=False),
            padded(stack(limits), below=PADDING if limits else 0),
            rule(width),
        ]
    )


def _kit_words(line: KitLine, wording: Wording, width: float) -> Block:
    what = wording.say(line.item)
    if line.count > 1:
        what = wording("sheet.kit.several", number=line.count, item=line.item)
    about = [
        wording("sheet.kit.for", lifts=tuple(lift_name(lift, wording) for lift in line.lifts))
        if line.lifts
        else "",
        wording("sheet.kit.inspected") if line.inspected else "",
    ]
    known = tuple(part for part in about if part)
    return stack(
        [
            words_block(what, width, STRONG),
            *([words_block(wording("sheet.entry", parts=known), width, LABEL)] if known else []),
        ]
    )


def numbered(texts: Sequence[Text], width: float, wording: Wording) -> list[Block]:
    """Numbered paragraphs."""
    return [
        padded(
            beside(
                [
                    (22, words_block(wording("sheet.number", number=number), 22, STRONG)),
                    (width - 22, words_block(wording.say(said), width - 22)),
                ]
            ),
            below=4,
        )
        for number, said in enumerate(texts, start=1)
    ]


def bullets(texts: Sequence[Text], width: float, wording: Wording) -> list[Block]:
    """Paragraphs with a mark in front."""
    return [_bullet(wording.say(said), width) for said in texts]


def _bullet(words: str, width: float) -> Block:
    mark = words_block("\N{BULLET}", 12, BODY)
    return padded(beside([(12, mark), (width - 12, words_block(words, width - 12))]), below=3)
