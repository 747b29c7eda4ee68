"""The team sheet: a meet's whole team on one landscape page, sixteen athletes at most a page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial
from itertools import pairwise

from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass
from coachdesk.reports.blocks import (
    Block,
    blank,
    fitted_block,
    grid_row,
    head_block,
    name_block,
    prose,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import lift_name
from coachdesk.reports.document import Document
from coachdesk.reports.masthead import meet_masthead, sheet_title
from coachdesk.reports.theme import BODY, CLOCK, LABEL, STRONG, Paper, Style
from coachdesk.services.packet_content import ComingDown, TeamLine, TeamSheet
from coachdesk.wording.wording import Wording

A_PAGE = 16
_LARGEST = 1.15
_LINE = 28.0
_LEAST_NAME = 8.0
_NAME = STRONG._replace(leading=15.0)
_GAP = 6.0
_MOST_MISSING = 4
_SMALL = LABEL.sized(9.5)
_LIFTS = (Lift.SQUAT, Lift.BENCH, Lift.DEADLIFT)


def render_team_sheet(sheet: TeamSheet, wording: Wording, paper: Paper) -> bytes:
    """The team sheet as a PDF, in the meet's unit. The fonts must have been loaded."""
    wording = wording.in_unit(sheet.meet.unit)
    upright_width, upright_height = paper.size
    name, kind = wording("sheet.team.name"), wording("sheet.kind.team")
    masthead = meet_masthead(name, kind, sheet.meet, sheet.mark, wording)
    document = Document(sheet_title(masthead, wording), wording, (upright_height, upright_width))
    document.begin(masthead)
    pages = _pages(sheet.lines)
    for number, lines in enumerate(pages, start=1):
        if number > 1:
            document.turn()
        document.one_page(
            wording("sheet.kind.team"),
            partial(_page, lines, sheet if number == len(pages) else None, wording),
            largest=_LARGEST,
        )
    document.lines_to_write(_LINE, wording("sheet.section.notes"))
    return document.finish()


def _pages(lines: Sequence[TeamLine]) -> list[Sequence[TeamLine]]:
    """The athletes of each page, shared out evenly: none stands alone on a second one."""
    count = max(1, -(-len(lines) // A_PAGE))
    each, over = divmod(len(lines), count)
    firsts = [page * each + min(page, over) for page in range(count + 1)]
    return [lines[first:after] for first, after in pairwise(firsts)]


def _page(
    lines: Sequence[TeamLine], ends: TeamSheet | None, wording: Wording, width: float
) -> Block:
    """A page of athletes; below the last ones what `ends` the sheet."""
    widths = shares(width, 24, 5, 12, 10.3, 10.3, 10.3, 22.5, 5.5)
    heads = [
        wording("sheet.team.athlete"),
        wording("sheet.team.lot"),
        wording("sheet.team.times"),
        *(lift_name(lift, wording) for lift in _LIFTS),
        wording("sheet.section.handlers"),
        wording("sheet.team.open"),
    ]
    rows = [_row(line, widths, wording) for line in lines]
    below = _below(ends, wording, width) if ends is not None else []
    if any(mass is not None and not chosen for line in lines for _, mass, chosen in line.openers):
        below = [blank(5), words_block(wording("sheet.team.legend"), width, _SMALL), *below]
    in_words = [head_block(head, width - _GAP) for head, width in zip(heads, widths, strict=True)]
    return stack([grid_row(widths, in_words, gap=_GAP), *rows, *below])


def _below(sheet: TeamSheet, wording: Wording, width: float) -> list[Block]:
    """Who comes down, the spares, what was looked for and missing, whose sheets failed."""
    blocks: list[Block] = []
    if sheet.coming_down:
        said = tuple(_coming_down(each, wording) for each in sheet.coming_down)
        blocks += [blank(5), *prose(wording("sheet.team.coming_down", who=said), width)]
    if sheet.spares:
        blocks += [blank(5), *prose(wording("sheet.team.spares", items=sheet.spares), width)]
    lacking = [_missing(line, wording) for line in sheet.lines if line.missing_kit]
    if lacking:
        joint = wording("sheet.team.missing_joint")
        said_of_all = wording("sheet.team.missing", who=joint.join(lacking))
        blocks += [blank(5), *prose(said_of_all, width)]
    if sheet.failed:
        failed = wording("sheet.team.failed", names=sheet.failed)
        blocks += [blank(5), *prose(failed, width, STRONG)]
    return blocks


def _coming_down(each: ComingDown, wording: Wording) -> str:
    """Who comes down to which class, and by when they begin or are there."""
    about = {"name": each.athlete, "weight_class": each.weight_class}
    if each.pace is None:
        return wording("sheet.team.there_by", day=each.by, **about)
    return wording("sheet.team.begin_by", day=each.by, pace=text(f"pace.{each.pace}"), **about)


def _missing(line: TeamLine, wording: Wording) -> str:
    """What of an athlete's kit was looked for and not there; of much only the first."""
    items = line.missing_kit[:_MOST_MISSING]
    more = len(line.missing_kit) - len(items)
    if more:
        return wording("sheet.team.missing_more", name=line.athlete, items=items, count=more)
    return wording("sheet.team.missing_of", name=line.athlete, items=items)


def _row(line: TeamLine, widths: list[float], wording: Wording) -> Block:
    """One athlete in two lines, whatever the names are like."""
    inner = [width - _GAP for width in widths]
    about = (
        wording("sheet.class", name=line.weight_class)
        if line.weight_class
        else wording("sheet.class_open"),
        wording(f"event.{line.event}"),
        wording(f"equipment.{line.equipment}"),
    )
    flights = dict(line.flights)
    openers = {lift: (mass, chosen) for lift, mass, chosen in line.openers}
    times = wording(
        "sheet.team.two_times",
        weigh_in=_hour(line.weigh_in, wording),
        start=_hour(line.starts_at, wording),
    )
    handlers = [
        wording("sheet.team.handler", name=duty.handler, role=wording(f"role.{duty.role}"))
        for duty in line.duties
    ]
    cells = [
        _name(line.athlete, wording("sheet.entry", parts=about), inner[0]),
        _two("" if line.lot is None else str(line.lot), STRONG, "", inner[1]),
        _two(times, STRONG, line.session, inner[2]),
        *(
            _opener(openers.get(lift), flights.get(lift, ""), width, wording)
            for lift, width in zip(_LIFTS, inner[3:6], strict=True)
        ),
        _two(
            handlers[0] if handlers else wording("sheet.unknown"),
            BODY.sized(9.5),
            ", ".join(handlers[1:]),
            inner[6],
        ),
        _two(str(line.open_points) if line.open_points else "", STRONG, "", inner[7]),
    ]
    return grid_row(widths, cells, gap=_GAP, padding=1.5)


def _opener(
    opener: tuple[Mass | None, bool] | None,
    flight: str,
    width: float,
    wording: Wording,
) -> Block:
    """The opener, with a mark where it is only planned, and the flight."""
    if opener is None:
        return _two("", STRONG, "", width)
    mass, chosen = opener
    figure = wording("sheet.unknown") if mass is None else wording.mass(mass)
    if mass is not None and not chosen:
        figure = wording("sheet.team.planned", weight=figure)
    about = wording("sheet.flight", name=flight) if flight else ""
    return _two(figure, CLOCK.sized(12), about, width)


def _name(name: str, about: str, width: float) -> Block:
    """Who, in full, and what they are entered in."""
    return _pair(name_block(name, width, _NAME, _LEAST_NAME), about, width)


def _two(first: str, style: Style, second: str, width: float) -> Block:
    """Two lines of a fixed height."""
    return _pair(fitted_block(first, width, style, 7), second, width)


def _pair(first: Block, second: str, width: float) -> Block:
    below = fitted_block(second, width, _SMALL, 7)
    return stack([Block(14.0, first.draw), Block(11.5, below.draw)])


def _hour(moment: datetime | None, wording: Wording) -> str:
    return wording("sheet.unknown") if moment is None else wording.hour(moment)
