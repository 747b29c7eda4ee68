"""The discs on one side of the bar, drawn small, so that a misload can be spotted."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.colors import HexColor

from coachdesk.domain.disc_look import FULL_MM, diameter_mm, is_dark, paint_of
from coachdesk.domain.loading import Disc
from coachdesk.reports.blocks import Block, fitted_block, stack, words_block
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import width_of
from coachdesk.reports.theme import BOLD, INK, REGULAR, Style
from coachdesk.wording.wording import Wording

_NO_COLOUR = "#e2e2e2"
_HEIGHT = 20.0
_HIGH = 24.0
_ROOM_PT = 1.5
"""At least so much higher than the number on it is a disc, however small it is."""
_NUMBER = Style(BOLD, 7.5, 9)
_LARGE_NUMBER = Style(BOLD, 10, 12)
_IN_WORDS = Style(REGULAR, 9.5, 12)
_BARE = Style(REGULAR, 8, 9.5)
_NUMBER_SHARE = 0.5
"""The size of the number on a disc, of the full height."""
_SLEEVE = 7.0


def discs_block(discs: Sequence[Disc], width: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, drawn to size, and their numbers below."""
    numbers = [_number(disc, wording) for disc in discs]
    in_words = wording("sheet.card.discs", discs=" ".join(numbers))
    if not discs:
        in_words = wording("sheet.card.bare_bar")
    below = fitted_block(in_words, width, _IN_WORDS, 6)
    return stack([_drawing(discs, numbers, width, _HEIGHT, _NUMBER), below], 2)


def small_discs_block(discs: Sequence[Disc], width: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, drawn to size with their numbers on them."""
    if not discs:
        return words_block(wording("sheet.card.bare_bar"), width, _BARE)
    numbers = [_number(disc, wording) for disc in discs]
    return _drawing(discs, numbers, width, _HEIGHT, _NUMBER)


def row_discs_block(discs: Sequence[Disc], width: float, height: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, as large as a row of a height [pt] allows."""
    size = height * _NUMBER_SHARE
    if not discs:
        return fitted_block(wording("chart.bare_bar"), width, Style(REGULAR, size, height), 5)
    numbers = [_number(disc, wording) for disc in discs]
    return _drawing(discs, numbers, width, height, Style(BOLD, size, height))


def large_discs_block(discs: Sequence[Disc], width: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, drawn to size and so large that the numbers on
    them can be read: none stand below."""
    if not discs:
        return words_block(wording("sheet.card.bare_bar"), width, _IN_WORDS)
    numbers = [_number(disc, wording) for disc in discs]
    return _drawing(discs, numbers, width, _HIGH, _LARGE_NUMBER)


def _number(disc: Disc, wording: Wording) -> str:
    """The disc's number, with its unit where that is not the meet's."""
    if disc.weight.unit is wording.unit:
        return wording.bare_mass(disc.weight)
    return wording.mass(disc.weight, disc.weight.unit)


def _on(paint: str, style: Style) -> Style:
    """The style in black or white, whichever stands out from the paint."""
    grey = 1.0 if is_dark(paint) else INK
    return style._replace(grey=grey)


def _drawing(
    discs: Sequence[Disc], numbers: Sequence[str], width: float, height: float, style: Style
) -> Block:
    widths = [max(1.6 * style.size, width_of(number, style) + 3) for number in numbers]
    needed = sum(widths) + 2 * _SLEEVE
    scale = min(1.0, width / needed)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.saveState()
        canvas.translate(x, top - height / 2)
        canvas.scale(scale, 1)
        canvas.setStrokeGray(INK)
        canvas.setLineWidth(2.2)
        canvas.line(0, 0, needed, 0)
        canvas.setLineWidth(0.7)
        at = _SLEEVE
        for disc, number, disc_width in zip(discs, numbers, widths, strict=True):
            to_scale = height * diameter_mm(disc.weight.kg) / FULL_MM
            disc_height = max(to_scale, style.size + _ROOM_PT)
            paint = paint_of(disc.colour, _NO_COLOUR)
            canvas.setFillColor(HexColor(paint))
            canvas.rect(at, -disc_height / 2, disc_width, disc_height, stroke=1, fill=1)
            inset = (disc_width - width_of(number, style)) / 2
            draw_line(canvas, at + inset, -style.size * 0.36, number, _on(paint, style))
            at += disc_width
        canvas.restoreState()

    return Block(height, draw)
