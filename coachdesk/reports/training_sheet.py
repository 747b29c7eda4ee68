"""Printed training sheets: a week a page, with boxes to write in what was lifted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas as PdfCanvas

from coachdesk.domain.blocks.notation import plain
from coachdesk.domain.one_rep_max import LOWEST_RPE, rpe_of_rir
from coachdesk.domain.units import Percent
from coachdesk.reports.blocks import (
    Block,
    at_scale,
    beside,
    blank,
    empty_box,
    fitted_block,
    grid_head,
    grid_row,
    rule,
    scaled,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import cleaned
from coachdesk.reports.theme import (
    BODY,
    FOOT,
    INK,
    LABEL,
    MARGIN,
    NAME,
    RULE,
    STRONG,
    SUBSECTION,
    Paper,
    Style,
)
from coachdesk.services.training_content import SheetDay, SheetExercise, SheetSets, SheetWeek
from coachdesk.services.training_content import TrainingSheet as Content
from coachdesk.wording.wording import Wording

_COLUMNS = (23.0, 9.5, 12.0, 15.5, 40.0)
"""Shares of the width: exercise, sets, how hard, on the bar, boxes."""
_GAP = 6.0
_BOXES = 3
"""Boxes beside each other; more sets go on further lines."""
_BOX_HEIGHT = 19.0
_BOX_GAP = 3.0
_PARTS = (0.44, 0.72)
"""Where a box is divided into weight, repetitions and RPE."""
_TINY = LABEL.sized(5.5)
_NOTES_HEIGHT = 54.0
_DAY_GAP = 9.0
_SCALES = (1.0, 0.95, 0.9, 0.85, 0.8, 0.75)
_BROKEN_SCALE = 0.9
"""How a week is set that needs several pages anyway."""
_FOOT_ROOM = 16.0


def render_training_sheet(content: Content, wording: Wording, paper: Paper) -> bytes:
    """The sheets as a PDF, each week beginning a page. The fonts must have been loaded.

    A week is set smaller so that it stays on a page; one that would be too small to read goes on
    overleaf, under the same head.
    """
    wording = wording.in_unit(content.unit)
    pages = [page for week in content.weeks for page in _pages(content, week, wording, paper)]
    buffer = BytesIO()
    canvas: Canvas = PdfCanvas(
        buffer, pagesize=paper.size, invariant=1, lang=wording.catalogue.language
    )
    _describe(canvas, content, wording)
    width, height = paper.size[0] - 2 * MARGIN, paper.size[1]
    for number, page in enumerate(pages, start=1):
        if page.bookmark:
            canvas.bookmarkHorizontal(f"week-{number}", 0, height - MARGIN)
            canvas.addOutlineEntry(cleaned(page.bookmark), f"week-{number}", 0)
        page.block.draw(canvas, MARGIN, height - MARGIN)
        foot = _foot(content, wording, width, number, len(pages))
        foot.draw(canvas, MARGIN, MARGIN / 2 + foot.height)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


@dataclass(frozen=True, slots=True)
class _Page:
    """A page, named in the outline where a week begins on it."""

    block: Block
    bookmark: str


@dataclass(frozen=True, slots=True)
class _Part:
    """Lines that stay together where they can; overleaf the head stands above the rest."""

    head: Block
    lines: tuple[Block, ...]

    @property
    def height(self) -> float:
        """The height of all of it [pt]."""
        return self.head.height + sum(line.height for line in self.lines)


def _describe(canvas: Canvas, content: Content, wording: Wording) -> None:
    canvas.setTitle(
        cleaned(wording("training.sheet.title", name=content.athlete, block=content.block))
    )
    canvas.setAuthor("")
    canvas.setCreator("coachdesk")
    canvas.setViewerPreference("DisplayDocTitle", "true")


def _pages(content: Content, week: SheetWeek, wording: Wording, paper: Paper) -> list[_Page]:
    width = paper.size[0] - 2 * MARGIN
    head = _head(content, week, wording, width)
    room = paper.size[1] - 2 * MARGIN - _FOOT_ROOM - head.height
    for scale in _SCALES:
        groups = _filled(_week_parts(week, wording, width / scale), room / scale)
        if len(groups) == 1:
            break
    else:
        scale = _BROKEN_SCALE
        groups = _filled(_week_parts(week, wording, width / scale), room / scale)
    title = wording("training.sheet.week", number=week.number, first=week.first, last=week.last)
    return [
        _Page(stack([head, at_scale(stack(group), scale)]), "" if at else title)
        for at, group in enumerate(groups)
    ]


def _filled(parts: Sequence[_Part], room: float) -> list[list[Block]]:
    """Parts on as few pages as they need, broken between exercises where they must be."""
    pages: list[list[Block]] = [[]]
    left = room
    for part in parts:
        if part.height > left and pages[-1] and part.height <= room:
            pages.append([])
            left = room
        for at, line in enumerate(part.lines):
            block = line if at else stack([part.head, line])
            if block.height > left and pages[-1]:
                pages.append([])
                left = room
                block = stack([part.head, line])
            pages[-1].append(scaled(block, room))
            left -= block.height
        pages[-1].append(blank(_DAY_GAP))
        left -= _DAY_GAP
    return pages


def _week_parts(week: SheetWeek, wording: Wording, width: float) -> list[_Part]:
    days = [_day(day, wording, width) for day in week.days]
    title = words_block(wording("training.sheet.notes"), width, SUBSECTION)
    notes = _Part(stack([title, blank(2)]), (empty_box(width, _NOTES_HEIGHT),))
    return [*days, notes]


def _head(content: Content, week: SheetWeek, wording: Wording, width: float) -> Block:
    left, right = width * 0.58, width * 0.4
    number, first, last = week.number, week.first, week.last
    name = [
        fitted_block(content.athlete, left, NAME, 11),
        fitted_block(
            wording(
                "training.sheet.of", block=content.block, week=number, weeks=content.weeks_in_block
            ),
            left,
            LABEL,
            7,
        ),
    ]
    about = [
        blank(6),
        fitted_block(
            wording("training.sheet.days", first=first, last=last), right, STRONG, 7, to_right=True
        ),
    ]
    if content.meet_on is not None:
        meet = wording("training.sheet.meet", meet=content.meet, day=content.meet_on)
        about.append(fitted_block(meet, right, LABEL, 6, to_right=True))
    lines = [beside([(width * 0.6, stack(name)), (right, stack(about))]), blank(4)]
    if content.maxima:
        maxima = tuple(
            wording("training.sheet.maximum", lift=wording(f"lift.{lift}"), weight=weight)
            for lift, weight in content.maxima
        )
        of = wording("training.sheet.maxima", maxima=wording.show(maxima))
        lines += [fitted_block(of, width, LABEL, 6), blank(3)]
    return stack([*lines, rule(width, 1.2), blank(6)])


def _day(day: SheetDay, wording: Wording, width: float) -> _Part:
    widths = shares(width, *_COLUMNS)
    codes = ("exercise", "sets", "how", "bar", "done")
    head = grid_head(widths, [wording(f"training.sheet.column.{code}") for code in codes])
    exercises = tuple(
        stack(
            _row(exercise, sets, wording, widths, first=at == 0)
            for at, sets in enumerate(exercise.sets)
        )
        for exercise in day.exercises
    )
    return _Part(stack([words_block(wording.day(day.on), width, SUBSECTION), head]), exercises)


def _row(
    exercise: SheetExercise,
    sets: SheetSets,
    wording: Wording,
    widths: Sequence[float],
    *,
    first: bool,
) -> Block:
    """A line of equal sets; the exercise is named on its first."""
    name_width = widths[0] - _GAP
    name: list[Block] = []
    if first:
        name.append(words_block(wording.say(exercise.name), name_width, STRONG))
    notes = (exercise.note if first else "", sets.note)
    name += [words_block(note, name_width, LABEL.sized(8.5)) for note in notes if note]
    planned = sets.planned
    return grid_row(
        widths,
        [
            stack(name),
            wording("training.sheet.sets", sets=planned.sets, reps=planned.reps),
            _how(sets, wording),
            _bar(sets, wording),
            _boxes(planned.sets, wording, widths[-1]),
        ],
        gap=_GAP,
        padding=2.5,
    )


def _how(sets: SheetSets, wording: Wording) -> str:
    planned = sets.planned
    parts: list[str] = []
    if planned.percent is not None:
        digits = 0 if planned.percent.is_integer() else 1
        parts.append(wording.show(Percent(planned.percent, digits)))
    if planned.rir is not None and planned.rir <= 10 - LOWEST_RPE:
        parts.append(wording("training.sheet.rpe", rpe=plain(rpe_of_rir(planned.rir))))
    elif planned.rir is not None:
        parts.append(wording("training.sheet.rir", reserve=plain(planned.rir)))
    if planned.judged:
        parts.append(wording("training.sheet.judged"))
    return "\n".join(parts)


def _bar(sets: SheetSets, wording: Wording) -> tuple[str, Style]:
    """What is loaded; where the discs are in the other unit, in both."""
    weight = sets.weight
    if weight is None:
        return "", BODY
    if weight.unit is wording.unit:
        return wording.mass(weight), STRONG
    return wording.both_units(weight), BODY


def _boxes(count: int, wording: Wording, width: float) -> Block:
    """A box for each set."""
    each = (width - _BOX_GAP * (_BOXES - 1)) / _BOXES
    box = _box(wording, each)
    lines = [
        beside([(each, box)] * min(_BOXES, count - at), _BOX_GAP) for at in range(0, count, _BOXES)
    ]
    return stack(lines, _BOX_GAP)


def _box(wording: Wording, width: float) -> Block:
    """A box in three: weight, repetitions, RPE."""
    labels = [wording.unit.value, wording("training.sheet.reps"), wording("training.sheet.box_rpe")]
    lefts = [0.0, *(width * part for part in _PARTS)]
    frame = empty_box(width, _BOX_HEIGHT)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        frame.draw(canvas, x, top)
        canvas.setLineWidth(0.5)
        canvas.setStrokeGray(RULE)
        for left in lefts[1:]:
            canvas.line(x + left, top - _BOX_HEIGHT, x + left, top)
        canvas.setStrokeGray(INK)
        for left, words in zip(lefts, labels, strict=True):
            draw_line(canvas, x + left + 2, top - _TINY.size - 0.5, words, _TINY)

    return Block(_BOX_HEIGHT, draw)


def _foot(content: Content, wording: Wording, width: float, number: int, count: int) -> Block:
    page = wording("sheet.page", page=number, pages=count)
    printed = wording("training.sheet.foot", name=content.athlete, at=content.printed_at)
    words = beside(
        [
            (width * 0.75, fitted_block(printed, width * 0.74, FOOT, 6)),
            (width * 0.25, fitted_block(page, width * 0.25, FOOT, 6, to_right=True)),
        ]
    )
    return stack([rule(width), blank(3), words])
