"""The handler's cards: pocket size, four a sheet, one for the day and one for each lift.

A second page has the warm-ups, laid out so that printed on both sides of the paper they are on
the back of their lift's card.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    empty_box,
    fitted_block,
    fitting,
    middle,
    padded,
    rule,
    stack,
    tick_box,
    two_lines,
    words_block,
)
from coachdesk.reports.day_blocks import (
    duty_rows,
    entry_line,
    lift_name,
    place_line,
    rack_line,
    timetable,
)
from coachdesk.reports.disc_drawing import large_discs_block
from coachdesk.reports.document import Document, meet_masthead, meet_names, print_line, rules_line
from coachdesk.reports.line_drawing import Canvas
from coachdesk.reports.plan_paths import (
    Step,
    follows_plan,
    second_steps,
    third_steps,
    way_in_words,
)
from coachdesk.reports.theme import (
    BODY,
    COLUMN_HEAD,
    FOOT,
    FOOT_HEIGHT,
    INK,
    LABEL,
    RULE,
    SECOND_FIGURE,
    SECTION,
    STRONG,
    TINT,
    Paper,
)
from coachdesk.reports.warm_up_blocks import lift_blocks, reading_blocks
from coachdesk.services.packet_content import EntryPacket, LiftCard
from coachdesk.wording.wording import Wording

_EDGE = 14.0
_PADDING = 11.0
_BAR = 17.0
_ROW = 29.0
_INSTEAD = 46.0
_WAYS, _WEIGHT = 0.3, 0.235
"""What was seen, and what to call for, of a card's width; discs and `_INSTEAD` take the rest."""
_FIGURE = SECOND_FIGURE.sized(19)
_SEEN = BODY.sized(10)
_WAY_GAP = 2.5
_LATEST = STRONG.sized(9)
_NAME = STRONG.sized(12)
_SMALL_CLOCK = STRONG.sized(11)


def render_handler_cards(packets: Sequence[EntryPacket], wording: Wording, paper: Paper) -> bytes:
    """The handler's cards for each entry, one PDF in all, in the meet's unit.

    An entry begins a page of its own. The fonts must have been loaded.
    """
    title = wording("sheet.title.handler", meets=meet_names(packets))
    document = Document(title, wording, paper.size, compact=True)
    for packet in packets:
        _cards(document, packet, wording.in_unit(packet.meet.unit), paper)
    return document.finish()


def _cards(document: Document, packet: EntryPacket, wording: Wording, paper: Paper) -> None:
    kind = wording("sheet.kind.handler")
    masthead = meet_masthead(packet.athlete, kind, packet.meet, packet.mark, wording)
    document.begin(masthead, named=True)
    page_width, page_height = paper.size
    floor = FOOT_HEIGHT + 12
    width = (page_width - 2 * _EDGE) / 2
    height = (page_height - _EDGE - floor) / 2
    for page, cards in enumerate((_fronts(packet, wording), _backs(packet, wording))):
        if page:
            document.turn()
        for at, (title, layout) in enumerate(cards):
            document.bookmark(title)
            x = _EDGE + (at + page) % 2 * width
            top = page_height - _EDGE - (at // 2) * height
            document.place(_cut_marks(width, height), x, top)
            card = fitting(layout, width - 2 * _PADDING, height - 2 * _PADDING)
            document.place(card, x + _PADDING, top - _PADDING)


_Card = tuple[str, Callable[[float], Block]]
"""A card's title, and what lays it out for a width [pt]."""


def _fronts(packet: EntryPacket, wording: Wording) -> list[_Card]:
    """The day, and the attempts of each lift."""
    return [
        (wording("sheet.card.day"), partial(_day_card, packet, wording)),
        *(
            (
                lift_name(card.lift, wording),
                partial(_lift_card, packet, card, _attempts(card, wording), wording),
            )
            for card in packet.lifts
        ),
    ]


def _backs(packet: EntryPacket, wording: Wording) -> list[_Card]:
    """How to read the warm-ups, and those of each lift."""
    foot = _short_foot(packet, wording)
    how_to_read = wording("sheet.section.warm_ups")
    reading = partial(reading_blocks, packet.warm_up, wording)
    cards: list[_Card] = [(how_to_read, partial(_back, packet.athlete, how_to_read, reading, foot))]
    for lift in packet.warm_up.lifts:
        title = wording("sheet.warm_up.of_lift", lift=lift_name(lift.lift, wording))
        sets = partial(lift_blocks, lift, wording)
        cards.append((title, partial(_back, packet.athlete, title, sets, foot)))
    return cards


def _back(
    athlete: str,
    title: str,
    body: Callable[[float], list[Block]],
    foot: Callable[[float], Block],
    width: float,
) -> Block:
    return stack(
        [
            *_name_and_title(athlete, title, width),
            blank(3),
            *body(width),
            blank(3),
            foot(width),
        ]
    )


def _cut_marks(width: float, height: float) -> Block:
    """A cross at each corner and a faint line between, to cut along."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(0.4)
        canvas.setStrokeGray(RULE)
        canvas.setDash(1, 5)
        canvas.rect(x, top - height, width, height, stroke=1, fill=0)
        canvas.setDash()
        canvas.setStrokeGray(INK)
        for corner_x in (x, x + width):
            for corner_y in (top, top - height):
                canvas.line(corner_x - 6, corner_y, corner_x + 6, corner_y)
                canvas.line(corner_x, corner_y - 6, corner_x, corner_y + 6)

    return Block(height, draw)


def _name_and_title(athlete: str, title: str, width: float) -> list[Block]:
    return [
        fitted_block(athlete, width, _NAME, 7),
        fitted_block(title, width, SECTION, 8),
    ]


def _head(packet: EntryPacket, title: str, wording: Wording, width: float) -> list[Block]:
    return [
        *_name_and_title(packet.athlete, title, width),
        fitted_block(place_line(packet, wording), width, LABEL, 6),
    ]


def _short_foot(packet: EntryPacket, wording: Wording) -> Callable[[float], Block]:
    """Which meet a card is for, and when it was printed: cut apart, none must be mistaken."""
    printed = print_line(packet.mark, wording)
    words = wording("sheet.card.back_foot", meet=packet.meet.name, printed=printed)
    return lambda width: fitted_block(words, width, FOOT.sized(7), 5)


def _foot(packet: EntryPacket, wording: Wording, width: float) -> list[Block]:
    return [
        blank(3),
        _short_foot(packet, wording)(width),
        two_lines(rules_line(packet.meet, wording), width, FOOT.sized(7), 5),
    ]


def _day_card(packet: EntryPacket, wording: Wording, width: float) -> Block:
    """Times, racks of every lift, who does what, and the kit check of the morning."""
    times = timetable(
        packet.timetable,
        packet.meet.starts_on,
        width,
        wording,
        clock=_SMALL_CLOCK,
        style=BODY.sized(9.5),
    )
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
    kit = _kit_check(packet, wording, width)
    sections = [
        times,
        racks,
        duty_rows(packet.duties, width, wording),
        [words_block(wording("sheet.card.kit"), width, COLUMN_HEAD), *kit] if kit else [],
    ]
    body: list[Block] = []
    for section in sections:
        if section:
            body += [blank(4), rule(width), blank(3), *section]
    return stack(
        [
            *_head(packet, wording("sheet.card.day"), wording, width),
            fitted_block(entry_line(packet, wording), width, LABEL, 6),
            *body,
            *_foot(packet, wording, width),
        ]
    )


def _kit_check(packet: EntryPacket, wording: Wording, width: float) -> list[Block]:
    """A box for each piece of kit, in two columns."""
    half = width / 2
    boxes = []
    for line in packet.kit:
        words = wording.say(line.item)
        if line.count > 1:
            words = wording("sheet.kit.several", number=line.count, item=line.item)
        item = fitted_block(words, half - 18, BODY.sized(9.5), 6)
        boxes.append(beside([(14, padded(tick_box(9), above=1.5)), (half - 18, item)]))
    rows = (len(boxes) + 1) // 2
    return [padded(beside([(half, box) for box in boxes[at::rows]]), below=1) for at in range(rows)]


@dataclass(frozen=True, slots=True)
class _Row:
    """A weight of the tree: when it is called for and what it is, in words, and how it is loaded
    on one side, None where it cannot be."""

    ways: Sequence[str]
    weight: str
    discs: Sequence[Disc] | None


def _attempts(card: LiftCard, wording: Wording) -> tuple[list[_Row], list[_Row], list[_Row]]:
    """What to call for at each of the three attempts, ready to be laid out for any width."""
    if card.opener is None:
        return [], [], []
    how = "sheet.opener.handed_in" if card.opener_chosen else "sheet.opener.planned"
    first = [_row(card, card.opener, [wording(how)], wording)]
    if card.plan is None or not follows_plan(card):
        return first, [], []
    opener = card.plan.opener
    second = [_step_row(card, step, wording, bare=True) for step in second_steps(opener)]
    third = [_step_row(card, step, wording, bare=False) for step in third_steps(opener)]
    return first, second, third


def _step_row(card: LiftCard, step: Step, wording: Wording, *, bare: bool) -> _Row:
    """A weight of the tree; `bare` when the attempt before had one weight only."""
    ways = [way_in_words(way, wording, bare=bare) for way in step.after]
    return _row(card, step.weight, ways, wording)


def _row(card: LiftCard, weight: Mass, ways: Sequence[str], wording: Wording) -> _Row:
    loading = next((one.loading for one in card.weights if one.mass.grams == weight.grams), None)
    return _Row(
        ways, wording.bare_mass(weight), None if loading is None else loading.discs_per_side
    )


def _lift_card(
    packet: EntryPacket,
    card: LiftCard,
    attempts: Sequence[Sequence[_Row]],
    wording: Wording,
    width: float,
) -> Block:
    title = lift_name(card.lift, wording)
    if card.flight:
        title = wording("sheet.card.lift", lift=title, flight=card.flight)
    latest = [words_block(wording.say(moment), width, _LATEST) for moment in card.latest_moments]
    left = width * 0.52
    place = fitted_block(place_line(packet, wording), width - left, LABEL, 6, to_right=True)
    return stack(
        [
            fitted_block(packet.athlete, width, _NAME, 7),
            beside(
                [
                    (left, fitted_block(title, left - 6, SECTION, 8)),
                    (width - left, middle(place, SECTION.leading)),
                ]
            ),
            *([rack_line(card, width, wording, STRONG)] if card.racks else []),
            blank(4),
            *_tree(attempts, wording, width),
            blank(4),
            *latest,
            blank(3),
            _short_foot(packet, wording)(width),
        ]
    )


def _tree(attempts: Sequence[Sequence[_Row]], wording: Wording, width: float) -> list[Block]:
    """The three attempts: what to call for by what was seen, and room to overrule it."""
    rows = [[_weight_row(row, wording, width) for row in attempt] for attempt in attempts]
    if not rows[0]:
        words = words_block(wording("sheet.opener.none"), width - _INSTEAD)
        rows[0].append(padded(words, above=8, below=8))
    return [_attempt(number, row, wording, width) for number, row in enumerate(rows, start=1)]


def _attempt(number: int, rows: list[Block], wording: Wording, width: float) -> Block:
    """An attempt's bar with its three lights, its rows, and the column to overrule beside them."""
    bar = _attempt_bar(number, wording, width)
    body = stack(rows) if rows else blank(_ROW)
    overrule = padded(empty_box(_INSTEAD - 4, body.height - 6), left=2, above=3)
    return stack([bar, beside([(width - _INSTEAD, body), (_INSTEAD, overrule)])])


def _attempt_bar(number: int, wording: Wording, width: float) -> Block:
    words = wording("sheet.card.attempt", number=number, unit=wording.unit.value)
    title = fitted_block(words, width * 0.3, COLUMN_HEAD, 7)
    lights = beside([(12, tick_box(10)) for _ in range(3)], 3)
    lights_name = fitted_block(wording("sheet.card.lights"), 44, LABEL, 6)
    instead = fitted_block(wording("sheet.card.instead"), _INSTEAD - 4, COLUMN_HEAD, 6)
    space = width - width * 0.3 - 44 - 45 - 12 - _INSTEAD - 4
    inner = beside(
        [
            (4, blank(0)),
            (width * 0.3, middle(title, _BAR)),
            (max(0.0, space), blank(0)),
            (44, middle(lights_name, _BAR)),
            (45 + 12, middle(lights, _BAR)),
            (_INSTEAD, middle(instead, _BAR)),
        ]
    )

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setFillGray(TINT)
        canvas.rect(x, top - _BAR, width, _BAR, stroke=0, fill=1)
        inner.draw(canvas, x, top)

    return Block(_BAR, draw)


def _weight_row(row: _Row, wording: Wording, width: float) -> Block:
    ways_width, weight_width = width * _WAYS, width * _WEIGHT
    discs_width = width - _INSTEAD - ways_width - weight_width - 4
    condition = stack([words_block(way, ways_width - 4, _SEEN) for way in row.ways], _WAY_GAP)
    figure = fitted_block(row.weight, weight_width - 6, _FIGURE, 8)
    discs = _discs(row.discs, wording, discs_width)
    height = max(_ROW, condition.height + 4, discs.height + 4)
    columns = beside(
        [
            (ways_width, middle(condition, height)),
            (weight_width, middle(figure, height)),
            (discs_width, middle(discs, height)),
        ]
    )
    return stack([Block(height, columns.draw), rule(width - _INSTEAD)])


def _discs(discs: Sequence[Disc] | None, wording: Wording, width: float) -> Block:
    if discs is None:
        return words_block(wording("sheet.card.no_loading"), width, LABEL)
    return large_discs_block(discs, width, wording)
