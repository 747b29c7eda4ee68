"""Bodyweight and class on paper: the way down as a picture and week by week, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import pairwise

from coachdesk.domain.class_fit import ClassFit, Verdict
from coachdesk.domain.units import Mass
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    grid_head,
    grid_row,
    padded,
    prose,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.plan_paths import Reader
from coachdesk.reports.text_runs import width_of
from coachdesk.reports.theme import GUTTER, INK, LABEL, RULE, STRONG
from coachdesk.services.packet_content import WeightPage

_CHART_HEIGHT = 150.0


def weight_blocks(page: WeightPage, reader: Reader, width: float) -> list[Block]:
    """What the athlete reads about bodyweight; empty when there is nothing to say.

    Where the program makes no plan, neither the gap nor the reasons are on the athlete's sheet:
    only the cautions and what happens at weigh-in.
    """
    blocks: list[Block] = []
    if page.fit is not None and page.fit.verdict is not Verdict.NO_PLAN:
        blocks += fit_lines(page, page.fit, reader, width)
    if page.marks:
        blocks += [blank(8), *_way_down(page.marks, page.fit, reader, width)]
    if page.plan_b is not None:
        said = reader.wording.say(page.plan_b)
        blocks += [blank(6), words_block(reader.wording("sheet.weight.plan_b"), width, STRONG)]
        blocks += prose(said, width)
    for caution in page.cautions:
        blocks += [blank(6), *prose(reader.wording.say(caution), width, STRONG)]
    return blocks


def fit_lines(page: WeightPage, fit: ClassFit, reader: Reader, width: float) -> list[Block]:
    """How the athlete stands to the class."""
    wording = reader.wording
    lines = [wording("sheet.class", name=fit.weight_class.name)]
    if fit.weight_class.limit is not None:
        limit = reader.mass(fit.weight_class.limit)
        lines = [wording("sheet.weight.class", name=fit.weight_class.name, limit=limit)]
    if page.present is not None:
        lines.append(
            wording(
                "sheet.weight.present",
                mass=reader.mass(page.present.mass),
                readings=wording("sheet.weight.readings", count=page.present.readings),
                day=page.present.latest_on,
            )
        )
    standing = "sheet.weight.way_down" if fit.verdict.has_way_down else "sheet.weight.standing"
    lines.append(wording(standing, verdict=wording(f"verdict.{fit.verdict}")))
    if fit.verdict.has_way_down and fit.rate is not None:
        lines.append(wording("sheet.weight.rate", rate=fit.rate, day=fit.arrive_on))
    return [block for line in lines for block in prose(line, width)]


def latest_starts(fit: ClassFit, reader: Reader, width: float) -> list[Block]:
    """The last day to begin at each pace."""
    wording = reader.wording
    return [
        block
        for pace, day in fit.latest_starts
        for block in prose(
            wording("sheet.weight.latest_start", pace=wording(f"pace.{pace}"), day=day), width
        )
    ]


def _way_down(
    marks: Sequence[tuple[date, Mass]], fit: ClassFit | None, reader: Reader, width: float
) -> list[Block]:
    """The weekly marks with room for what the scale showed, and the same as a picture."""
    wording = reader.wording
    left, right = shares(width - GUTTER, 58, 42)
    widths = shares(left, 38, 34, 28)
    rows = [
        grid_row(widths, [wording.day(day), (reader.mass(mass), STRONG), ""]) for day, mass in marks
    ]
    heads = ("sheet.weight.day", "sheet.weight.mark", "sheet.weight.scale")
    head = grid_head(widths, [wording(code) for code in heads])
    limit = fit.weight_class.limit if fit is not None else None
    first = stack([head, *rows[: _rows_beside_chart(rows)]])
    chart = padded(_chart(marks, limit, reader, right), above=4)
    return [
        beside([(left, first), (right, chart)], GUTTER),
        *rows[_rows_beside_chart(rows) :],
    ]


def _rows_beside_chart(rows: Sequence[Block]) -> int:
    return min(len(rows), int(_CHART_HEIGHT // rows[0].height) + 4)


def _chart(
    marks: Sequence[tuple[date, Mass]], limit: Mass | None, reader: Reader, width: float
) -> Block:
    """The marks over time, a dot each, and the class limit as a broken line."""
    wording = reader.wording
    first, last = marks[0][0], marks[-1][0]
    masses = [mass for _, mass in marks] + ([limit] if limit is not None else [])
    low, high = min(masses, key=_grams), max(masses, key=_grams)
    labels = [wording.mass(low), wording.mass(high)]
    indent = max(width_of(label, LABEL) for label in labels) + 8

    def across(day: date) -> float:
        return indent + (width - indent - 6) * (day - first).days / max(1, (last - first).days)

    def up(mass: Mass) -> float:
        return 24 + (_CHART_HEIGHT - 36) * (_grams(mass) - _grams(low)) / max(
            1, _grams(high) - _grams(low)
        )

    def draw(canvas: Canvas, x: float, top: float) -> None:
        base = top - _CHART_HEIGHT
        for label, mass in zip(labels, (low, high), strict=True):
            draw_line(canvas, x, base + up(mass) - 3, label, LABEL)
        days = [wording.day(first), wording.day(last)] if first != last else [wording.day(last)]
        draw_line(canvas, x + indent, base + 4, days[0], LABEL)
        if len(days) > 1 and width - indent > 2.2 * width_of(days[1], LABEL):
            draw_line(canvas, x + width - width_of(days[1], LABEL), base + 4, days[1], LABEL)
        canvas.setStrokeGray(RULE)
        canvas.setLineWidth(0.8)
        if limit is not None:
            canvas.setDash(4, 3)
            canvas.line(x + indent, base + up(limit), x + width, base + up(limit))
            canvas.setDash()
        canvas.setStrokeGray(INK)
        canvas.setFillGray(INK)
        canvas.setLineWidth(1.4)
        points = [(x + across(day), base + up(mass)) for day, mass in marks]
        for start, end in pairwise(points):
            canvas.line(*start, *end)
        for point in points:
            canvas.circle(*point, 2.4, stroke=0, fill=1)

    return Block(_CHART_HEIGHT, draw)


def _grams(mass: Mass) -> int:
    return mass.grams
