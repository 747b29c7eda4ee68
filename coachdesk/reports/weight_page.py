"""Bodyweight and class on paper: the way down as a picture and week by week, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import zip_longest

from coachdesk.domain.class_fit import ClassFit, Verdict
from coachdesk.domain.units import Mass
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    grid_head,
    grid_row,
    prose,
    shares,
    words_block,
)
from coachdesk.reports.plan_paths import Reader
from coachdesk.reports.theme import GUTTER, STRONG
from coachdesk.reports.weight_chart import weight_chart
from coachdesk.services.packet_content import WeightPage
from coachdesk.services.weight_picture import WeightPicture

_CHART_HEIGHT = 170.0
_FEW_MARKS = 6
"""More than these stand in two columns."""


def weight_blocks(page: WeightPage, reader: Reader, width: float) -> list[Block]:
    """What the athlete reads about bodyweight; empty when there is nothing to say.

    Where the program makes no plan, neither the gap nor the reasons are on the athlete's sheet:
    only the cautions and what happens at weigh-in.
    """
    blocks: list[Block] = []
    if page.fit is not None and page.fit.verdict is not Verdict.NO_PLAN:
        blocks += fit_lines(page, page.fit, reader, width)
    if page.marks:
        blocks += [blank(8), *_way_down(page.marks, page.picture, reader, width)]
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
    marks: Sequence[tuple[date, Mass]], picture: WeightPicture | None, reader: Reader, width: float
) -> list[Block]:
    """The picture, and the weekly marks with room for what the scale showed.

    The athlete's own sheet carries no odds, so the picture has no forecast.
    """
    wording = reader.wording
    chart: list[Block] = []
    if picture is not None:
        own = wording.in_unit(picture.unit)
        chart = [weight_chart(picture, own, width, _CHART_HEIGHT, forecast=False), blank(8)]
    in_columns = len(marks) > _FEW_MARKS
    wide = (width - GUTTER) / 2 if in_columns else width
    widths = shares(wide, 38, 38, 24)
    heads = ("sheet.weight.day", "sheet.weight.mark", "sheet.weight.scale")
    head = grid_head(widths, [wording(code) for code in heads])
    rows = [
        grid_row(widths, [wording.day(day), (reader.mass(mass), STRONG), ""]) for day, mass in marks
    ]
    if not in_columns:
        return [*chart, head, *rows]
    more = (len(rows) + 1) // 2
    pairs = zip_longest([head, *rows[:more]], [head, *rows[more:]], fillvalue=blank(0))
    return [*chart, *(beside([(wide, left), (wide, right)], GUTTER) for left, right in pairs)]
