"""The loading chart: weights in both units and the discs on each side, to hang up by a rack."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas as PdfCanvas

from coachdesk.domain.disc_set import colour_text
from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass, Unit
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    fitted_block,
    middle,
    prose,
    rule,
    stack,
    words_block,
)
from coachdesk.reports.disc_drawing import row_discs_block
from coachdesk.reports.line_drawing import Canvas
from coachdesk.reports.text_runs import cleaned
from coachdesk.reports.theme import COLUMN_HEAD, FOOT, LABEL, MARGIN, NAME, STRONG, Paper
from coachdesk.services.loading_chart import ChartRow, LoadingChart
from coachdesk.wording.wording import Wording

COLUMNS = 2
_GUTTER = 22.0
_LEAST_ROW, _MOST_ROW = 17.0, 26.0
_ABOVE = 1.2
_GAP = 8.0
_FOOT_ROOM = 46.0
_WEIGHT, _OTHER = 46.0, 56.0
_SMALLEST = 6.0
_FIGURE = STRONG.sized(11.5)


def render_loading_chart(chart: LoadingChart, wording: Wording, paper: Paper) -> bytes:
    """The chart as a PDF. The fonts must have been loaded.

    The set's own unit stands first. Discs are drawn in their colours with their numbers on them,
    so that it reads in black and white; their colours are named in the head.
    """
    wording = wording.in_unit(chart.unit)
    width, height = paper.size[0] - 2 * MARGIN, paper.size[1]
    head = _head(chart, wording, width)
    room = height - 2 * MARGIN - head.height - _FOOT_ROOM
    room -= _column_head(wording, width).height
    pages = _pages(chart.rows, int(room // _LEAST_ROW))
    row_height = min(_MOST_ROW, room / max(1, *(len(column) for page in pages for column in page)))
    buffer = BytesIO()
    canvas: Canvas = PdfCanvas(
        buffer, pagesize=paper.size, invariant=1, lang=wording.catalogue.language
    )
    _describe(canvas, chart, wording)
    for number, columns in enumerate(pages, start=1):
        _bookmark(canvas, columns, number, wording)
        page = stack([head, _columns(columns, wording, width, row_height)])
        page.draw(canvas, MARGIN, height - MARGIN)
        foot = _foot(chart, wording, width, number, len(pages))
        foot.draw(canvas, MARGIN, MARGIN + foot.height)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _describe(canvas: Canvas, chart: LoadingChart, wording: Wording) -> None:
    canvas.setTitle(cleaned(wording("chart.title", name=chart.name)))
    canvas.setAuthor("")
    canvas.setCreator("coachdesk")
    canvas.setViewerPreference("DisplayDocTitle", "true")


def _bookmark(
    canvas: Canvas, columns: Sequence[Sequence[ChartRow]], page: int, wording: Wording
) -> None:
    """The page in the outline, by the weights on it."""
    rows = [row for column in columns for row in column]
    if rows:
        span = wording("chart.span", first=rows[0].weight, last=rows[-1].weight)
        canvas.bookmarkPage(f"page-{page}")
        canvas.addOutlineEntry(cleaned(span), f"page-{page}")


def _pages(rows: Sequence[ChartRow], a_column: int) -> list[list[Sequence[ChartRow]]]:
    """The rows column by column, as even as can be, with at most `a_column` in each."""
    count = max(1, -(-len(rows) // (a_column * COLUMNS)))
    each = max(1, -(-len(rows) // (count * COLUMNS)))
    columns = [rows[at : at + each] for at in range(0, len(rows), each)] or [()]
    return [columns[at : at + COLUMNS] for at in range(0, len(columns), COLUMNS)]


def _head(chart: LoadingChart, wording: Wording, width: float) -> Block:
    bar_set = chart.bar_set
    collars = "chart.collars" if bar_set.collar.number else "chart.no_collars"
    about = wording(
        "chart.about",
        bar=_named(bar_set.bar, wording),
        collars=wording(collars, collar=_named(bar_set.collar, wording)),
        step=_named(chart.step, wording),
        discs=", ".join(_disc_words(disc, wording) for disc in bar_set.discs),
    )
    lines = [
        fitted_block(wording.say(chart.name), width, NAME, 11),
        *prose(about, width, LABEL),
    ]
    if chart.gaps:
        lines += prose(wording("chart.gaps", count=chart.gaps), width, LABEL)
    return stack([*lines, blank(5), rule(width, 1.2), blank(6)])


def _named(mass: Mass, wording: Wording) -> str:
    """A mass in the unit it was entered in: discs are known by what is cast into them."""
    return wording.mass(mass, mass.unit)


def _disc_words(disc: Disc, wording: Wording) -> str:
    """A disc with its colour, and its pairs where they are limited."""
    weight = _named(disc.weight, wording)
    if disc.colour:
        colour = wording.say(colour_text(disc.colour))
        weight = wording("chart.disc_coloured", disc=weight, colour=colour)
    if disc.pairs is None:
        return weight
    return wording("chart.disc_pairs", disc=weight, count=disc.pairs)


def _columns(
    columns: Sequence[Sequence[ChartRow]], wording: Wording, width: float, row_height: float
) -> Block:
    each = (width - _GUTTER * (COLUMNS - 1)) / COLUMNS
    head = _column_head(wording, each)
    return beside(
        (
            (each, stack([head, *(_row(row, wording, each, row_height) for row in rows)]))
            for rows in columns
        ),
        _GUTTER,
    )


def _column_head(wording: Wording, width: float) -> Block:
    unit, other = _units(wording)
    discs = width - _WEIGHT - _OTHER - 2 * _GAP
    cells = [
        (_WEIGHT, fitted_block(unit.value, _WEIGHT, COLUMN_HEAD, _SMALLEST, to_right=True)),
        (_OTHER, fitted_block(other.value, _OTHER, COLUMN_HEAD, _SMALLEST, to_right=True)),
        (discs, fitted_block(wording("chart.each_side"), max(discs, 1), COLUMN_HEAD, _SMALLEST)),
    ]
    return stack([beside(cells, _GAP), blank(1), rule(width)])


def _row(row: ChartRow, wording: Wording, width: float, height: float) -> Block:
    unit, other = _units(wording)
    discs = width - _WEIGHT - _OTHER - 2 * _GAP
    weight, in_other = (wording.column_mass(row.weight, each) for each in (unit, other))
    line = rule(width, 0.3)
    inner = height - line.height
    drawn = row_discs_block(row.loading.discs_per_side, discs, inner - 2 * _ABOVE, wording)
    figure = fitted_block(weight, _WEIGHT, _FIGURE, _SMALLEST, to_right=True)
    same = fitted_block(in_other, _OTHER, LABEL.sized(10), _SMALLEST, to_right=True)
    cells = [(_WEIGHT, figure), (_OTHER, same), (discs, drawn)]
    level = [(each, middle(block, inner)) for each, block in cells]
    return stack([Block(inner, beside(level, _GAP).draw), line])


def _units(wording: Wording) -> tuple[Unit, Unit]:
    return wording.unit, Unit.LB if wording.unit is Unit.KG else Unit.KG


def _foot(chart: LoadingChart, wording: Wording, width: float, page: int, pages: int) -> Block:
    lines = [
        beside(
            [
                (
                    width - 90,
                    words_block(wording("sheet.printed", at=chart.printed_at), width - 90, FOOT),
                ),
                (
                    90,
                    fitted_block(
                        wording("sheet.page", page=page, pages=pages), 90, FOOT, 6, to_right=True
                    ),
                ),
            ]
        )
    ]
    if chart.rulebook:
        rules = wording("sheet.rules", rulebook=chart.rulebook, edition=chart.edition)
        lines.append(words_block(rules, width, FOOT, most=2))
    return stack([rule(width), blank(3), *lines])
