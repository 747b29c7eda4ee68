"""The discs on one side of the bar, drawn small, so that a misload can be spotted."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Unit
from coachdesk.reports.blocks import Block, fitted_block, stack
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import width_of
from coachdesk.reports.theme import BOLD, DISC, INK, REGULAR, Style
from coachdesk.wording.wording import Wording

_HEIGHT = 20.0
_LOWEST = 11.0
_LARGEST_KG = 25.0
_NUMBER = Style(BOLD, 7.5, 9)
_IN_WORDS = Style(REGULAR, 9.5, 12)
_SLEEVE = 7.0


def discs_block(discs: Sequence[Disc], width: float, wording: Wording) -> Block:
    """The discs of one side from the inside out, drawn to size, and their numbers below."""
    numbers = [_number(disc, wording) for disc in discs]
    in_words = wording("sheet.card.discs", discs=" ".join(numbers))
    if not discs:
        in_words = wording("sheet.card.bare_bar")
    below = fitted_block(in_words, width, _IN_WORDS, 6)
    return stack([_drawing(discs, numbers, width), below], 2)


def _number(disc: Disc, wording: Wording) -> str:
    """The disc's number, with its unit where that is not the meet's."""
    if disc.weight.unit is wording.unit:
        return wording.bare_mass(disc.weight)
    return wording.mass(disc.weight, disc.weight.unit)


def _disc_height(disc: Disc) -> float:
    largest = _LARGEST_KG if disc.weight.unit is Unit.KG else 45 * 0.45359237
    return _LOWEST + (_HEIGHT - _LOWEST) * min(1.0, disc.weight.kg / largest)


def _drawing(discs: Sequence[Disc], numbers: Sequence[str], width: float) -> Block:
    widths = [max(12.0, width_of(number, _NUMBER) + 3) for number in numbers]
    needed = sum(widths) + 2 * _SLEEVE
    scale = min(1.0, width / needed)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.saveState()
        canvas.translate(x, top - _HEIGHT / 2)
        canvas.scale(scale, 1)
        canvas.setStrokeGray(INK)
        canvas.setLineWidth(2.2)
        canvas.line(0, 0, needed, 0)
        canvas.setLineWidth(0.7)
        at = _SLEEVE
        for disc, number, disc_width in zip(discs, numbers, widths, strict=True):
            height = _disc_height(disc)
            canvas.setFillGray(1 if disc.weight.kg < _LARGEST_KG / 5 else DISC)
            canvas.rect(at, -height / 2, disc_width, height, stroke=1, fill=1)
            inset = (disc_width - width_of(number, _NUMBER)) / 2
            draw_line(canvas, at + inset, -_NUMBER.size * 0.36, number, _NUMBER)
            at += disc_width
        canvas.restoreState()

    return Block(_HEIGHT, draw)
