"""The day in blocks, for every sheet: timetable, racks, handlers, openers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from coachdesk.domain.lifting import Lift
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    fitted_block,
    grid_row,
    middle,
    padded,
    stack,
    two_lines,
    words_block,
)
from coachdesk.reports.line_drawing import Canvas
from coachdesk.reports.theme import BODY, CLOCK, COLUMN_HEAD, INK, LABEL, RULE, Style
from coachdesk.services.packet_content import DayTime, Duty, EntryPacket, LiftCard, Rack
from coachdesk.wording.wording import Wording

_CLOCK_WIDTH = 42.0
_LINE_WIDTH = 16.0
_MARK = 2.6
"""Sizes [pt], where the hour stands in the size of `CLOCK`."""


def lift_name(lift: Lift, wording: Wording) -> str:
    """A lift in words."""
    return wording(f"lift.{lift}")


def timetable(
    times: Sequence[DayTime],
    main_day: date,
    width: float,
    wording: Wording,
    *,
    clock: Style = CLOCK,
    style: Style = BODY,
) -> list[Block]:
    """Times with what happens then, along a line; a day that is not the meet's is named above its
    times. A moment whose hour is not known yet has an open mark: it comes later in the day, or all
    hours are still to be set."""
    rows: list[Block] = []
    open_hour = wording(
        "sheet.time_unknown" if any(line.at for line in times) else "sheet.time_open"
    )
    day = main_day
    for number, line in enumerate(times, start=1):
        if line.at is not None and line.at.date() != day:
            day = line.at.date()
            rows.append(padded(words_block(wording.day(day), width, COLUMN_HEAD), above=4))
        hour = open_hour if line.at is None else wording.hour(line.at)
        row = _time_row(line, hour, width, wording, clock, style)
        rows.append(_along_line(row, line, clock, goes_on=_goes_on(times[number:], day)))
    return rows


def _goes_on(later: Sequence[DayTime], day: date) -> bool:
    """Whether something else follows on the same day."""
    return bool(later) and (later[0].at is None or later[0].at.date() == day)


def _along_line(row: Block, line: DayTime, clock: Style, *, goes_on: bool) -> Block:
    """A row with its mark on the line of the day, which goes on to the next mark."""
    across = _CLOCK_WIDTH * clock.size / CLOCK.size + _LINE_WIDTH / 2
    size = _MARK * clock.size / CLOCK.size

    def draw(canvas: Canvas, x: float, top: float) -> None:
        row.draw(canvas, x, top)
        at = top - clock.leading / 2
        canvas.setStrokeGray(RULE)
        canvas.setLineWidth(1.0)
        if goes_on:
            canvas.line(x + across, at, x + across, at - row.height)
        canvas.setFillGray(INK if line.at is not None else 1.0)
        canvas.setStrokeGray(INK)
        canvas.circle(x + across, at, size, stroke=1, fill=1)

    return Block(row.height, draw)


def _time_row(
    line: DayTime, hour: str, width: float, wording: Wording, clock: Style, style: Style
) -> Block:
    clock_width = _CLOCK_WIDTH * clock.size / CLOCK.size
    text_width = width - clock_width - _LINE_WIDTH
    hour_style = clock if line.at is not None else LABEL
    at = fitted_block(hour, clock_width, hour_style, 7)
    what = words_block(wording.say(line.what), text_width, style)
    return padded(
        beside(
            [
                (clock_width, middle(at, clock.leading)),
                (_LINE_WIDTH, blank(0)),
                (text_width, middle(what, clock.leading)),
            ]
        ),
        below=2,
    )


def rack_lines(card: LiftCard, width: float, wording: Wording, style: Style) -> list[Block]:
    """Rack settings, one below the other."""
    return [words_block(words, width, style, most=2) for words in _racks(card, wording)]


def rack_line(card: LiftCard, width: float, wording: Wording, style: Style) -> Block:
    """Rack settings side by side, on a second line where they must be: none is left out."""
    return two_lines(wording("sheet.entry", parts=_racks(card, wording)), width, style, 7)


def _racks(card: LiftCard, wording: Wording) -> tuple[str, ...]:
    """Racks as they are read; a line to write on for a setting that is not on file."""
    return tuple(_rack(rack, wording) for rack in card.racks)


def _rack(rack: Rack, wording: Wording) -> str:
    if rack.setting is None:
        return wording.say(rack.what)
    if not rack.setting:
        return wording("sheet.rack_open", what=rack.what)
    return wording("sheet.rack", what=rack.what, setting=rack.setting)


def duty_rows(duties: Sequence[Duty], width: float, wording: Wording) -> list[Block]:
    """Who does what."""
    widths = [width * 0.42, width * 0.58]
    return [
        grid_row(
            widths,
            [
                (wording(f"role.{duty.role}"), LABEL.sized(BODY.size)),
                words_block(duty.handler, widths[1] - 8, BODY, most=2),
            ],
            ruled=False,
        )
        for duty in duties
    ]


def entry_line(packet: EntryPacket, wording: Wording) -> str:
    """Class, divisions, event and equipment in one line."""
    parts = [
        wording("sheet.class", name=packet.weight_class)
        if packet.weight_class
        else wording("sheet.class_open"),
        *packet.divisions,
        wording(f"event.{packet.event}"),
        wording(f"equipment.{packet.equipment}"),
    ]
    return wording("sheet.entry", parts=tuple(parts))


def place_line(packet: EntryPacket, wording: Wording) -> str:
    """Session, platform and lot in one line, as far as they are known."""
    parts = [
        packet.session and wording("sheet.session", name=packet.session),
        packet.platform and wording("sheet.platform", name=packet.platform),
        "" if packet.lot is None else wording("sheet.lot", number=packet.lot),
    ]
    known = tuple(part for part in parts if part)
    return wording("sheet.entry", parts=known) if known else wording("sheet.session_unknown")


def titled(title: str, blocks: Sequence[Block], width: float, style: Style) -> Block:
    """Blocks under a small title."""
    return stack([padded(words_block(title, width, style), below=3), *blocks])
