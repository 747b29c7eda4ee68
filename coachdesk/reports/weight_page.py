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
    fitted_block,
    grid_head,
    grid_row,
    prose,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.plan_paths import Reader
from coachdesk.reports.theme import BODY, GUTTER, STRONG
from coachdesk.reports.weight_chart import weight_chart
from coachdesk.services.packet_content import WeightPage
from coachdesk.services.weight_picture import WeightPicture

_CHART_HEIGHT = 170.0


def weight_blocks(page: WeightPage, reader: Reader, width: float) -> list[Block]:
    """What the athlete reads about bodyweight; empty when there is nothing to say.

    Where the program makes no plan, neither the gap nor the reasons are on the athlete's sheet:
    only the cautions and what happens at weigh-in.
    """
    blocks: list[Block] = []
    if page.fit is not None and page.fit.verdict is not Verdict.NO_PLAN:
        lines = fit_lines(page, page.fit, reader)
        blocks += [block for line in lines for block in prose(line, width)]
    if page.marks:
        blocks += [blank(8), *_way_down(page.marks, page.picture, reader, width)]
    if page.plan_b is not None:
        said = reader.wording.say(page.plan_b)
        blocks += [blank(6), words_block(reader.wording("sheet.weight.plan_b"), width, STRONG)]
        blocks += prose(said, width)
    for caution in page.cautions:
        blocks += [blank(6), *prose(reader.wording.say(caution), width, STRONG)]
    return blocks


def fit_lines(page: WeightPage, fit: ClassFit, reader: Reader) -> list[str]:
    """How the athlete stands to the class, sentence by sentence."""
    wording = reader.wording
    lines = [wording("sheet.weight.class_without_limit", name=fit.weight_class.name)]
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
    return lines


def latest_starts(fit: ClassFit, reader: Reader) -> list[str]:
    """The last day to begin at each pace."""
    wording = reader.wording
    return [
        wording("sheet.weight.latest_start", pace=wording(f"pace.{pace}"), day=day)
        for pace, day in fit.latest_starts
    ]


def _way_down(
    marks: Sequence[tuple[date, Mass]], picture: WeightPicture | None, reader: Reader, width: float
) -> list[Block]:
    """The picture, and the weekly marks with room for what the scale showed.

    A few marks stand beside the picture, many in two columns below it. The athlete's own sheet
    carries no odds, so the picture has no forecast.
    """
    left, right = shares(width - GUTTER, 54, 46)
    few = stack(_marks(marks, reader, right))
    if picture is not None and few.height <= _CHART_HEIGHT:
        return [beside([(left, _chart(picture, reader, left)), (right, few)], GUTTER)]
    half = (width - GUTTER) / 2
    head, *rows = _marks(marks, reader, half)
    more = (len(rows) + 1) // 2
    pairs = zip_longest([head, *rows[:more]], [head, *rows[more:]], fillvalue=blank(0))
    columns = [beside([(half, first), (half, second)], GUTTER) for first, second in pairs]
    if picture is None:
        return columns
    return [_chart(picture, reader, width), blank(8), *columns]


def _chart(picture: WeightPicture, reader: Reader, width: float) -> Block:
    """The picture in the athlete's own unit: that of the scale at home."""
    own = reader.wording.in_unit(picture.unit)
    return weight_chart(picture, own, width, _CHART_HEIGHT, forecast=False)


def _marks(marks: Sequence[tuple[date, Mass]], reader: Reader, width: float) -> list[Block]:
    """A head, and a row for each mark."""
    wording = reader.wording
    widths = shares(width, 39, 34, 27)
    heads = ("sheet.weight.day", "sheet.weight.mark", "sheet.weight.scale")
    rows = [
        grid_row(widths, [_day(day, reader, widths[0]), (reader.mass(mass), STRONG), ""])
        for day, mass in marks
    ]
    return [grid_head(widths, [wording(code) for code in heads]), *rows]


def _day(day: date, reader: Reader, width: float) -> Block:
    """A day on one line, so that rows beside each other stay level."""
    return fitted_block(reader.wording.day(day), width - 6, BODY, 7)
