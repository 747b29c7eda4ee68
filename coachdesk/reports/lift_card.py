"""A lift's card: what to call for at each attempt by what was seen, with the discs, boxes for the
lights and a column to overrule it."""

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
    middle,
    name_block,
    padded,
    rule,
    stack,
    tick_box,
    words_block,
)
from coachdesk.reports.card_words import CARD_NAME, LEAST_NAME, short_foot
from coachdesk.reports.day_blocks import lift_name, place_line, rack_line
from coachdesk.reports.disc_drawing import large_discs_block
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
    LABEL,
    SECOND_FIGURE,
    SECTION,
    STRONG,
    TINT,
)
from coachdesk.services.packet_content import EntryPacket, LiftCard
from coachdesk.wording.wording import Wording

_BAR = 23.0
_ROW = 29.0
_INSTEAD = 46.0
_TO_WRITE = 44.0
_LIGHT, _LIGHT_GAP = 20.0, 3.0
_WAYS, _WEIGHT = 0.32, 0.22
"""What was seen, and what to call for, of a card's width; discs and `_INSTEAD` take the rest."""
_FIGURE = SECOND_FIGURE.sized(19)
_SEEN = BODY.sized(10)
_WAY_GAP = 2.5
_LATEST = STRONG.sized(9)


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


def lift_card(packet: EntryPacket, card: LiftCard, wording: Wording) -> Callable[[float], Block]:
    """What lays out a lift's card for a width [pt]."""
    return partial(_lift_card, packet, card, _attempts(card, wording), wording)


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
            name_block(packet.athlete, width, CARD_NAME, LEAST_NAME),
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
            short_foot(packet, wording)(width),
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
    body = stack(rows) if rows else blank(_TO_WRITE)
    overrule = padded(empty_box(_INSTEAD - 4, body.height - 6), left=2, above=3)
    return stack([bar, beside([(width - _INSTEAD, body), (_INSTEAD, overrule)])])


def _attempt_bar(number: int, wording: Wording, width: float) -> Block:
    words = wording("sheet.card.attempt", number=number, unit=wording.unit.value)
    title = fitted_block(words, width * 0.3, COLUMN_HEAD, 7)
    lights = beside([(_LIGHT, tick_box(_LIGHT)) for _ in range(3)], _LIGHT_GAP)
    lights_width = 3 * (_LIGHT + _LIGHT_GAP) + 6
    lights_name = fitted_block(wording("sheet.card.lights"), 44, LABEL, 6, to_right=True)
    instead = fitted_block(wording("sheet.card.instead"), _INSTEAD - 4, COLUMN_HEAD, 6)
    space = width - width * 0.3 - 44 - 5 - lights_width - _INSTEAD - 4
    inner = beside(
        [
            (4, blank(0)),
            (width * 0.3, middle(title, _BAR)),
            (max(0.0, space), blank(0)),
            (44, middle(lights_name, _BAR)),
            (5, blank(0)),
            (lights_width, middle(lights, _BAR)),
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
    condition = stack([words_block(way, ways_width - 7, _SEEN) for way in row.ways], _WAY_GAP)
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
