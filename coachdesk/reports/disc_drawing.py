"""The discs on one side of the bar, drawn small, so that a misload can be spotted."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Unit
from coachdesk.reports.blocks import Block, fitted_block, stack, words_block
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import width_of
from coachdesk.reports.theme import BOLD, DISC, INK, REGULAR, Style
from coachdesk.wording.wording import Wording

_HEIGHT = 20.0
_HIGH = 24.0
_LOWEST = 0.55
"""The height of the smallest disc, of the largest's."""
_LARGEST_KG = 25.0
_NUMBER = Style(BOLD, 7.5, 9)
_LARGE_NUMBER = Style(BOLD, 10, 12)
_IN_WORDS = Style(REGULAR, 9.5, 12)
_SLEEVE = 7.0


def discs_block(discs: Sequence[Disc], width: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, drawn to size, and their numbers below."""
    numbers = [_number(disc, wording) for disc in discs]
    in_words = wording("sheet.card.discs", discs=" ".join(numbers))
    if not discs:
        in_words = wording("sheet.card.bare_bar")
    below = fitted_block(in_words, width, _IN_WORDS, 6)
    return stack([_drawing(discs, numbers, width, _HEIGHT, _NUMBER), below], 2)


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


def _share_of_height(disc: Disc) -> float:
    largest = _LARGEST_KG if disc.weight.unit is Unit.KG else 45 * 0.45359237
    return _LOWEST + (1 - _LOWEST) * min(1.0, disc.weight.kg / largest)


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
            disc_height = height * _share_of_height(disc)
            canvas.setFillGray(1 if disc.weight.kg < _LARGEST_KG / 5 else DISC)
            canvas.rect(at, -disc_height / 2, disc_width, disc_height, stroke=1, fill=1)
            inset = (disc_width - width_of(number, style)) / 2
            draw_line(canvas, at + inset, -style.size * 0.36, number, style)
            at += disc_width
        canvas.restoreState()

    return Block(height, draw)
