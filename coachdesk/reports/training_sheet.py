"""Training sheets: a week a page, with boxes to write in what was lifted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from coachdesk.domain.blocks.notation import plain
from coachdesk.domain.one_rep_max import LOWEST_RPE, rpe_of_rir
from coachdesk.domain.training import PlannedSet
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    empty_box,
    fitted_block,
    grid_row,
    middle,
    padded,
    rule,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.disc_drawing import small_discs_block
from coachdesk.reports.document import Document
from coachdesk.reports.masthead import Masthead, sheet_title
from coachdesk.reports.theme import BODY, COLUMN_HEAD, LABEL, STRONG, SUBSECTION, Paper
from coachdesk.services.packet_content import PrintMark
from coachdesk.services.training_content import SheetDay, SheetLine, TrainingWeek
from coachdesk.wording.wording import Wording

_LARGEST = 1.25
_LINE = 26.0
_BOX_HIGH = 22.0
_LEAST_BOXES, _MOST_BOXES = 4, 6
"""Sets side by side; more go on a second line."""
_GAP = 7.0
_NOTES_HIGH = 22.0
_BAR = STRONG.sized(13)
_BAR_WIDTH = 42.0


def render_training_sheets(weeks: Sequence[TrainingWeek], wording: Wording, paper: Paper) -> bytes:
    """Weeks of training as a PDF, in the athlete's unit. The fonts must have been loaded."""
    first = weeks[0]
    wording = wording.in_unit(first.unit)
    document = Document(sheet_title(_masthead(first, wording), wording), wording, paper.size)
    for week in weeks:
        if week is first:
            document.begin(_masthead(week, wording))
        else:
            document.turn()
        title = wording("training.week", week=week.week, count=week.weeks)
        document.one_page(title, partial(_page, week, wording), largest=_LARGEST)
        document.lines_to_write(_LINE, wording("training.notes"))
    return document.finish()


def _masthead(week: TrainingWeek, wording: Wording) -> Masthead:
    """Many a block is called what it is for: that is said once."""
    purpose = wording(f"purpose.{week.purpose}")
    return Masthead(
        subject=week.athlete,
        kind=wording("sheet.kind.training"),
        about=week.block,
        where=purpose if purpose != week.block else "",
        mark=PrintMark(week.printed_at, None),
        rules=wording("training.caution"),
    )


def _page(week: TrainingWeek, wording: Wording, width: float) -> Block:
    title = wording("training.week", week=week.week, count=week.weeks)
    span = wording("training.span", first=week.first, last=week.last)
    about = [words_block(each, width, LABEL) for each in _about(week, wording)]
    return stack(
        [
            words_block(title, width, SUBSECTION.sized(14)),
            words_block(span, width, BODY),
            *about,
            blank(6),
            *(_day(day, _boxes_beside(week), wording, width) for day in week.days),
        ]
    )


def _boxes_beside(week: TrainingWeek) -> int:
    """How many boxes for sets stand beside each other, the same all week."""
    sets = max((line.planned.sets for day in week.days for line in day.lines), default=0)
    return min(_MOST_BOXES, max(_LEAST_BOXES, sets))


def _about(week: TrainingWeek, wording: Wording) -> Iterator[str]:
    if week.meet and week.meet_on is not None:
        weeks = max(0, (week.meet_on - week.first).days // 7)
        yield wording("training.meet", meet=week.meet, day=week.meet_on, count=weeks)
    if week.maxima:
        listed = tuple(
            wording("training.maximum", lift=wording(f"lift.{lift}"), mass=mass)
            for lift, mass in week.maxima
        )
        yield wording("training.maxima", listed=listed)


def _day(day: SheetDay, boxes: int, wording: Wording, width: float) -> Block:
    """A day's sets below its date, with room for notes."""
    widths = shares(width, 31, 29, 40)
    head = grid_row(
        widths,
        [
            (wording("training.day", day=day.on), SUBSECTION),
            (wording("training.bar", unit=wording.unit.value), COLUMN_HEAD),
            _box_heads(wording, widths[2] - 8),
        ],
    )
    rows = [_row(line, widths, boxes, wording) for line in day.lines]
    notes = words_block(wording("training.notes"), 60, LABEL)
    room = Block(_NOTES_HIGH, notes.draw)
    return padded(stack([head, *rows, padded(room, above=3), rule(width)]), below=8)


def _box_heads(wording: Wording, width: float) -> Block:
    codes = ("training.weight", "training.reps", "training.rpe")
    style = COLUMN_HEAD.sized(8.5)
    return beside(
        [
            (each, fitted_block(wording(code), each, style, 6))
            for each, code in zip(_box_widths(width), codes, strict=True)
        ],
        _GAP,
    )


def _box_widths(width: float) -> tuple[float, float, float]:
    """Weight, the repetitions of all sets, RPE."""
    weight, reps, effort = shares(width - 2 * _GAP, 24, 58, 18)
    return weight, reps, effort


def _row(line: SheetLine, widths: Sequence[float], boxes: int, wording: Wording) -> Block:
    width = widths[0] - 8
    planned = line.planned
    what = [words_block(wording.say(line.exercise), width, STRONG)]
    what.append(words_block(_prescription(planned, wording), width, BODY.sized(11)))
    if line.note:
        what.append(words_block(line.note, width, LABEL))
    return grid_row(
        widths,
        [stack(what), _bar(line, wording, widths[1] - 8), _boxes(planned, boxes, widths[2] - 8)],
        padding=3,
    )


def _prescription(planned: PlannedSet, wording: Wording) -> str:
    """Sets, repetitions, how heavy and how hard, as a lifter reads them."""
    parts = [wording("training.sets", sets=planned.sets, reps=planned.reps)]
    if planned.percent is not None:
        parts.append(wording("training.percent", number=plain(planned.percent)))
    if planned.rir is not None:
        if planned.rir <= 10 - LOWEST_RPE:
            parts.append(wording("training.at_rpe", number=plain(rpe_of_rir(planned.rir))))
        else:
            parts.append(wording("training.at_rir", number=plain(planned.rir)))
    if planned.judged:
        parts.append(wording("training.judged"))
    return wording("sheet.entry", parts=tuple(parts))


def _bar(line: SheetLine, wording: Wording, width: float) -> Block:
    """The weight on the bar, and what goes on each side."""
    if line.bar is None:
        return blank(_BOX_HIGH)
    figure = fitted_block(wording.bare_mass(line.bar), _BAR_WIDTH - 4, _BAR, 8)
    discs = small_discs_block(line.discs, width - _BAR_WIDTH, wording)
    return beside(
        [
            (_BAR_WIDTH, middle(figure, _BOX_HIGH)),
            (width - _BAR_WIDTH, middle(discs, _BOX_HIGH)),
        ]
    )


def _boxes(planned: PlannedSet, beside_each_other: int, width: float) -> Block:
    """Boxes to write in: the weight lifted, the repetitions of each set, the last set's RPE."""
    weight, reps, effort = _box_widths(width)
    most = beside_each_other
    rows = [min(most, planned.sets - at) for at in range(0, planned.sets, most)]
    each = (reps - 2 * (most - 1)) / most
    sets = stack([beside([(each, empty_box(each, _BOX_HIGH))] * count, 2) for count in rows], 3)
    boxes = ((weight, empty_box(weight, _BOX_HIGH)), (reps, sets))
    return beside([*boxes, (effort, empty_box(effort, _BOX_HIGH))], _GAP)
