"""The athlete's sheet: the day on one page, then what applies. No chances, no risk figures."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.text import Text
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    boxed,
    fitted_block,
    padded,
    rule,
    stack,
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
from coachdesk.reports.document import Document
from coachdesk.reports.kit_page import kit_sections
from coachdesk.reports.masthead import meet_masthead, sheet_title
from coachdesk.reports.plan_paths import Reader, follows_plan
from coachdesk.reports.sections import Section
from coachdesk.reports.theme import (
    BODY,
    FIGURE,
    GUTTER,
    LABEL,
    STRONG,
    SUBSECTION,
    Paper,
)
from coachdesk.reports.warm_up_blocks import warm_up_columns
from coachdesk.reports.weight_page import weight_blocks
from coachdesk.services.packet_content import EntryPacket, LiftCard
from coachdesk.wording.wording import Wording

_CUE_LINES = 4
_LARGEST = 1.25
_BOX_GAP = 8.0
_LINE = 26.0
"""Between lines to write on [pt]."""


def render_athlete_sheet(packet: EntryPacket, wording: Wording, paper: Paper) -> bytes:
    """The athlete's sheet as a PDF. The fonts must have been loaded."""
    reader = Reader(packet, wording)
    wording = reader.wording
    masthead = meet_masthead(
        packet.athlete, wording("sheet.kind.athlete"), packet.meet, packet.mark, wording
    )
    document = Document(sheet_title(masthead, wording), wording, paper.size)
    document.begin(masthead)
    document.one_page(
        wording("sheet.section.day"),
        lambda width: _day(packet, reader, width),
        largest=_LARGEST,
    )
    document.lines_to_write(_LINE, wording("sheet.section.notes"))
    document.tight(lambda width: _what_applies(packet, reader, width))
    if packet.kit:
        document.tight(lambda width: kit_sections(packet, wording, width))
    return document.finish()


def _what_applies(packet: EntryPacket, reader: Reader, width: float) -> list[Section]:
    """Weight, commands, the first-timer's briefing, what follows the last lift."""
    wording = reader.wording
    briefing = packet.briefing if packet.first_meet else ()
    parts = {
        "weight": weight_blocks(packet.weight, reader, width),
        "commands": _commands(packet.lifts, width, wording),
        "briefing": numbered(briefing, width, wording),
        "after": bullets(packet.after_last_lift, width, wording),
    }
    return [
        Section(wording(f"sheet.section.{name}"), blocks)
        for name, blocks in parts.items()
        if blocks
    ]


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
            *_lifts(packet, reader, width),
            beside([(half, times), (half, stack(right, 12))], GUTTER),
        ]
    )


def _lifts(packet: EntryPacket, reader: Reader, width: float) -> list[Block]:
    """The boxes of the lifts with the warm-ups below them; of a single lift beside it."""
    if len(packet.lifts) == 1:
        half = (width - GUTTER) / 2
        box = _openers(packet.lifts, reader, half)
        warm_ups = stack(_warm_ups(packet, reader, half))
        return [beside([(half, box), (half, warm_ups)], GUTTER), blank(12)]
    return [
        _openers(packet.lifts, reader, width),
        blank(12),
        *_warm_ups(packet, reader, width),
    ]


def _openers(cards: Sequence[LiftCard], reader: Reader, width: float) -> Block:
    """A box for each lift, side by side, all as high as the highest."""
    gap, padding = _BOX_GAP, 8.0
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


def _warm_ups(packet: EntryPacket, reader: Reader, width: float) -> list[Block]:
    """The warm-ups below the boxes of their lifts; none before there is an opener."""
    if all(lift.warm_ups is None for lift in packet.warm_up.lifts):
        return []
    columns = warm_up_columns(packet.warm_up, reader, width, _BOX_GAP)
    title = reader.wording("sheet.warm_up.title")
    return [titled(title, [columns], width, SUBSECTION), blank(12)]


def _may_lead_to(card: LiftCard, reader: Reader, width: float) -> list[Block]:
    if card.plan is None or not follows_plan(card):
        return []
    _, second, third = card.plan.good_path
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


def _commands(cards: Sequence[LiftCard], width: float, wording: Wording) -> list[Block]:
    """The lifts side by side: the commands in order, what gets a no lift, the cue in full.

    Of a single lift, what gets a no lift stands beside the commands.
    """
    told = [card for card in cards if card.commands or card.causes or card.cue]
    count = max(2, len(told))
    each = (width - GUTTER * (count - 1)) / count
    if len(told) == 1:
        name = lift_name(told[0].lift, wording)
        heard = stack([*_given(told[0], each, wording), *_cue(told[0], each, wording)], 6)
        columns = beside([(each, heard), (each, stack(_faults(told[0], each, wording)))], GUTTER)
        return [titled(name, [columns], width, SUBSECTION)]
    columns = beside([(each, _commands_of(card, each, wording)) for card in told], GUTTER)
    return [columns] if told else []


def _commands_of(card: LiftCard, width: float, wording: Wording) -> Block:
    parts = [
        *_given(card, width, wording),
        *_faults(card, width, wording),
        *_cue(card, width, wording),
    ]
    return titled(lift_name(card.lift, wording), [stack(parts, 6)], width, SUBSECTION)


def _given(card: LiftCard, width: float, wording: Wording) -> list[Block]:
    """The commands in order."""
    if not card.commands:
        return []
    commands = [
        words_block(
            wording("sheet.numbered", number=number, words=command), width, STRONG.sized(12)
        )
        for number, command in enumerate(card.commands, start=1)
    ]
    return [titled(wording("sheet.commands"), commands, width, LABEL)]


def _faults(card: LiftCard, width: float, wording: Wording) -> list[Block]:
    """What gets a no lift."""
    if not card.causes:
        return []
    causes = bullets(card.causes, width, wording)
    return [titled(wording("sheet.causes"), causes, width, LABEL)]


def _cue(card: LiftCard, width: float, wording: Wording) -> list[Block]:
    return [words_block(wording("sheet.cue", cue=card.cue), width, STRONG)] if card.cue else []


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
