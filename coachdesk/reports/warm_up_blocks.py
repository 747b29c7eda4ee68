"""Warm-ups in blocks: a card for each lift, one on how to read them, and the athlete's columns."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from coachdesk.domain.warmup import WarmUpSet
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    fitted_block,
    lines_block,
    padded,
    rule,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import lift_name
from coachdesk.reports.disc_drawing import discs_block
from coachdesk.reports.line_drawing import Canvas
from coachdesk.reports.plan_paths import Reader
from coachdesk.reports.text_runs import fitted, width_of
from coachdesk.reports.theme import (
    BODY,
    COLUMN_HEAD,
    INK,
    LABEL,
    RULE,
    SECOND_FIGURE,
    STRONG,
    Style,
)
from coachdesk.services.packet_content import LiftWarmUps, WarmUpPage
from coachdesk.wording.warm_up_words import delayed, set_in_words, short_of_time
from coachdesk.wording.wording import Wording

_ROW = 37.0
_BOX = 16.0
_TOLD = BODY.sized(9.5)
_EMPTY_ROWS = 6
_OUT, _SET, _TICK = 0.14, 0.39, 0.1
"""Attempts out, weight and repetitions, and the box, of a card's width; discs take the rest."""

_GEAR = LABEL.sized(9)
_GEAR_ROOM = 5.0


def lift_blocks(lift: LiftWarmUps, wording: Wording, width: float) -> list[Block]:
    """A lift's card: the opener, the sets, and what to do when time is short or too long."""
    found = lift.warm_ups
    if found is None:
        none = words_block(wording("sheet.opener.none"), width, STRONG)
        return [none, blank(4), _head(wording, width), _rows(_EMPTY_ROWS, width)]
    how = "opener_handed_in" if lift.opener_chosen else "opener_planned"
    opener = wording(f"sheet.warm_up.{how}", weight=found.opener)
    notes = dict.fromkeys((*found.notes, *chain.from_iterable(one.notes for one in found.usual)))
    return [
        words_block(opener, width, STRONG),
        blank(4),
        _head(wording, width),
        _sets(found.usual, wording, width),
        blank(5),
        words_block(short_of_time(found, wording), width, STRONG),
        words_block(delayed(found, wording), width, STRONG),
        *(words_block(wording.say(note), width) for note in notes),
    ]


def reading_blocks(
    page: WarmUpPage, wording: Wording, width: float, *, both_sides: bool
) -> list[Block]:
    """How to read the cards of the lifts, when to begin, and what they are reckoned with."""
    begin = [
        wording("sheet.warm_up.begins", lift=lift_name(one.lift, wording), at=one.begins_at.time())
        for one in page.lifts
        if one.begins_at is not None
    ]
    paces = {one.warm_ups.seconds for one in page.lifts if one.warm_ups is not None}
    told = [
        *(wording("sheet.warm_up.what_out_is", seconds=seconds) for seconds in sorted(paces)),
        wording("sheet.warm_up.waits"),
        _reckoned_with(page, wording),
        wording("sheet.warm_up.thumb"),
        *([wording("sheet.warm_up.both_sides")] if both_sides else []),
    ]
    return [
        *(padded(words_block(words, width, STRONG), below=5) for words in begin),
        *(padded(words_block(words, width, _TOLD), below=4) for words in told),
    ]


def warm_up_columns(page: WarmUpPage, reader: Reader, width: float, gap: float) -> Block:
    """The athlete's warm-ups, a column for each lift: weights, repetitions, and when."""
    each = (width - gap * (len(page.lifts) - 1)) / max(1, len(page.lifts))
    return beside([(each, _column(lift, reader, each)) for lift in page.lifts], gap)


def _column(lift: LiftWarmUps, reader: Reader, width: float) -> Block:
    wording = reader.wording
    if lift.warm_ups is None:
        return words_block(wording("sheet.opener.none"), width, LABEL)
    sets = "\n".join(_with_unit(one, wording) for one in lift.warm_ups.usual)
    times = "\n".join(
        wording("sheet.warm_up.minutes", minutes=one.minutes) for one in lift.warm_ups.usual
    )
    half = width / 2
    columns = [(half, words_block(sets, half, STRONG)), (half, words_block(times, half))]
    return stack([words_block(lift_name(lift.lift, wording), width, LABEL), beside(columns)])


def _head(wording: Wording, width: float) -> Block:
    heads = (
        (_OUT, wording("sheet.warm_up.out")),
        (_SET, wording("sheet.warm_up.weight", unit=wording.unit.value)),
        (1 - _OUT - _SET, wording("sheet.warm_up.discs")),
    )
    cells = [
        (width * share, fitted_block(words, width * share - 4, COLUMN_HEAD, 7))
        for share, words in heads
    ]
    return stack([beside(cells), rule(width)])


def _sets(sets: Sequence[WarmUpSet], wording: Wording, width: float) -> Block:
    """Attempts out, weight and repetitions with the gear below, discs, and a box to tick."""
    out, figure, tick = width * _OUT, width * _SET, width * _TICK
    discs = width - out - figure - tick
    figures = [set_in_words(one, wording) for one in sets]
    outs = [str(one.attempts_out) for one in sets]
    lines = lines_block(figures, _figure_style(figures, figure - 6), figure)
    columns = beside(
        [
            (out, lines_block(outs, SECOND_FIGURE._replace(leading=_ROW), out)),
            (figure, padded(lines, above=-_GEAR_ROOM if sets[0].gear else 0)),
            (discs, stack(_discs(one, wording, discs) for one in sets)),
        ]
    )
    gear = [
        fitted_block(wording(f"gear.{one.gear}"), figure - 6, _GEAR, 6) for one in sets if one.gear
    ]
    rows = _rows(len(sets), width)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        rows.draw(canvas, x, top)
        columns.draw(canvas, x, top)
        for at, stage in enumerate(gear):
            stage.draw(canvas, x + out, top - at * _ROW - _ROW + _GEAR.leading)

    return Block(rows.height, draw)


def _figure_style(figures: Sequence[str], width: float) -> Style:
    """The size in which the longest of `figures` fits, a row to a line."""
    longest = max(figures, key=lambda figure: width_of(figure, SECOND_FIGURE))
    return fitted(longest, SECOND_FIGURE, width, 9)[1]._replace(leading=_ROW)


def _discs(one: WarmUpSet, wording: Wording, width: float) -> Block:
    drawn = padded(discs_block(one.discs_per_side, width - 4, wording), above=2)
    return Block(_ROW, drawn.draw)


def _rows(count: int, width: float) -> Block:
    """Rows with a line below and a box to tick, and room to write in."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(0.6)
        for below in range(1, count + 1):
            canvas.setStrokeGray(RULE)
            canvas.line(x, top - below * _ROW, x + width, top - below * _ROW)
            canvas.setStrokeGray(INK)
            middle = top - (below - 0.5) * _ROW
            canvas.rect(x + width - _BOX - 2, middle - _BOX / 2, _BOX, _BOX, stroke=1, fill=0)

    return Block(count * _ROW, draw)


def _with_unit(one: WarmUpSet, wording: Wording) -> str:
    return wording("sheet.warm_up.set", weight=one.weight, reps=one.reps)


def _reckoned_with(page: WarmUpPage, wording: Wording) -> str:
    room = page.room
    discs = tuple(wording.bare_mass(disc.weight) for disc in room.discs)
    return wording("sheet.warm_up.counted_with", bar=room.bar, collar=room.collar, discs=discs)
