"""Blocks: pieces of a page that know their height and can draw themselves.

A block is put together from smaller ones (below each other, side by side, as the rows of a grid)
before anything is drawn, so that a page can be measured first and made to fit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple, TypeAlias

from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import cleaned, fitted, shortened, whole_words, width_of, wrapped
from coachdesk.reports.theme import BODY, COLUMN_HEAD, INK, RULE, TINT, Style

PADDING = 3.0
_GAP = 8.0
_SCALE_STEP = 0.03
_SMALLEST_SCALE = 0.6
_OF_THE_ROOM = 0.75


class Block(NamedTuple):
    """Something of a height [pt], drawn with its upper left corner at a place [pt, pt].

    A tuple, since tens of thousands of them are made for a meet.
    """

    height: float
    draw: Callable[[Canvas, float, float], None]


def blank(height: float) -> Block:
    """Empty space."""
    return Block(height, lambda _canvas, _x, _top: None)


def lines_block(
    lines: Sequence[str], style: Style, width: float, *, to_right: bool = False
) -> Block:
    """Lines already broken, one below the other."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        baseline = top - style.leading + (style.leading - style.size) / 2 + style.size * 0.2
        for line in lines:
            indent = width - width_of(line, style) if to_right else 0.0
            draw_line(canvas, x + indent, baseline, line, style)
            baseline -= style.leading

    return Block(len(lines) * style.leading, draw)


def words_block(words: str, width: float, style: Style = BODY, *, most: int | None = None) -> Block:
    """Words wrapped to `width`, shortened to `most` lines."""
    lines = wrapped(words, style, width) if most is None else shortened(words, style, width, most)
    return lines_block(lines, style, width)


def prose(words: str, width: float, style: Style = BODY) -> list[Block]:
    """Words wrapped to `width`, a block to each line, so that pages can break between them."""
    return [lines_block([line], style, width) for line in wrapped(words, style, width)]


def fitted_block(
    words: str, width: float, style: Style, smallest: float, *, to_right: bool = False
) -> Block:
    """Words on one line, smaller or shortened where they must be; the height stays the same."""
    line, smaller = fitted(words, style, width, smallest)
    inner = lines_block([line], smaller, width, to_right=to_right)
    if smaller == style:
        return inner
    drop = style.leading - inner.height
    return Block(style.leading, lambda canvas, x, top: inner.draw(canvas, x, top - drop * 0.7))


def two_lines(words: str, width: float, style: Style, smallest: float) -> Block:
    """Words on two lines at most, smaller down to `smallest` [pt] where they must be."""
    while len(wrapped(words, style, width)) > 2 and style.size > smallest:
        style = style.sized(max(smallest, style.size - 0.5))
    return words_block(words, width, style, most=2)


def name_block(words: str, width: float, style: Style, smallest: float) -> Block:
    """A name on one line, smaller down to `smallest` [pt] where it must be, and on two such lines
    rather than cut off; the height stays the same."""
    least = style.sized(smallest)
    line = " ".join(cleaned(words).split())
    if width_of(line, least) <= width:
        return fitted_block(line, width, style, smallest)
    least = least._replace(leading=smallest * 1.1)
    inner = two_lines(line, width, least, smallest * 0.65)
    over = inner.height - style.leading
    return Block(style.leading, lambda canvas, x, top: inner.draw(canvas, x, top + over))


def stack(blocks: Iterable[Block], gap: float = 0.0) -> Block:
    """Blocks below each other, `gap` apart."""
    pieces = tuple(blocks)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for piece in pieces:
            piece.draw(canvas, x, top)
            top -= piece.height + gap

    height = sum(piece.height for piece in pieces) + gap * max(0, len(pieces) - 1)
    return Block(height, draw)


def beside(pieces: Iterable[tuple[float, Block]], gap: float = 0.0) -> Block:
    """Blocks side by side, each in a width [pt], `gap` apart, their tops level."""
    placed = tuple(pieces)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for width, piece in placed:
            piece.draw(canvas, x, top)
            x += width + gap

    return Block(max((piece.height for _, piece in placed), default=0.0), draw)


def padded(inner: Block, *, left: float = 0.0, above: float = 0.0, below: float = 0.0) -> Block:
    """A block with space around it."""
    if not (left or above or below):
        return inner
    return Block(
        inner.height + above + below,
        lambda canvas, x, top: inner.draw(canvas, x + left, top - above),
    )


def middle(inner: Block, height: float) -> Block:
    """A block halfway down a height [pt]."""
    return padded(inner, above=max(0.0, height - inner.height) / 2) if height else inner


def boxed(inner: Block, width: float, padding: float = 8.0, *, tinted: bool = False) -> Block:
    """A block in a frame `width` wide."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(0.8)
        canvas.setStrokeGray(RULE)
        canvas.setFillGray(TINT)
        canvas.rect(x, top - height, width, height, stroke=int(not tinted), fill=int(tinted))
        inner.draw(canvas, x + padding, top - padding)

    height = inner.height + 2 * padding
    return Block(height, draw)


def fitting(
    layout: Callable[[float], Block], width: float, height: float, largest: float = 1.0
) -> Block:
    """What `layout` makes for a width [pt], set as large as the height [pt] allows.

    Words break anew in every size: it is laid out once more for most of the room that is left, and
    keeps its size where it does not fit so. Only what is still too high at the smallest is
    narrowed too.
    """
    scale, block = 1.0, layout(width)
    if block.height > height:
        scale = _scale_for(block, height)
        block = layout(width / scale)
        largest = 1.0
    larger = scale + _OF_THE_ROOM * (min(largest, _scale_for(block, height)) - scale)
    if larger - scale > _SCALE_STEP:
        again = layout(width / larger)
        if again.height * larger <= height:
            scale, block = larger, again
    return at_scale(block, min(scale, height / max(block.height, 1.0)))


def _scale_for(block: Block, height: float) -> float:
    """The scale at which a block is as high as `height` [pt], but not too small to read."""
    return max(_SMALLEST_SCALE, height / max(block.height, 1.0))


def scaled(inner: Block, height: float) -> Block:
    """A block made smaller, where it must be, to a height [pt]."""
    return inner if inner.height <= height else at_scale(inner, height / inner.height)


def at_scale(inner: Block, scale: float) -> Block:
    """A block drawn `scale` times as large."""
    if scale == 1:
        return inner

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.saveState()
        canvas.translate(x, top)
        canvas.scale(scale, scale)
        inner.draw(canvas, 0, 0)
        canvas.restoreState()

    return Block(inner.height * scale, draw)


def tick_box(size: float = 11.0) -> Block:
    """An empty box to tick."""
    return empty_box(size, size)


def empty_box(width: float, height: float) -> Block:
    """An empty box to write in."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(0.9)
        canvas.setStrokeGray(INK)
        canvas.setFillGray(1)
        canvas.rect(x, top - height, width, height, stroke=1, fill=1)

    return Block(height, draw)


def rule(width: float, thickness: float = 0.6) -> Block:
    """A thin line across."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(thickness)
        canvas.setStrokeGray(RULE)
        canvas.line(x, top, x + width, top)

    return Block(thickness, draw)


Cell: TypeAlias = "str | tuple[str, Style] | Block"
"""What stands in a grid: words, words in a style, or a block."""


def cell(content: Cell, width: float) -> Block:
    """The block for what stands in a grid."""
    if isinstance(content, Block):
        return content
    words, style = (content, BODY) if isinstance(content, str) else content
    return words_block(words, width, style)


def grid_row(
    widths: Sequence[float],
    cells: Sequence[Cell],
    *,
    ruled: bool = True,
    gap: float = _GAP,
    padding: float = PADDING,
) -> Block:
    """One row of a grid whose columns are `widths` wide, with a line below."""
    blocks = [
        (width, cell(content, width - gap)) for width, content in zip(widths, cells, strict=True)
    ]
    inner = padded(beside(blocks), above=padding, below=padding)
    return stack([inner, rule(sum(widths))]) if ruled else inner


def grid_head(widths: Sequence[float], heads: Sequence[str]) -> Block:
    """The head of a grid."""
    return grid_row(
        widths, [head_block(head, width - _GAP) for head, width in zip(heads, widths, strict=True)]
    )


def head_block(words: str, width: float, style: Style = COLUMN_HEAD) -> Block:
    """A column's head, set smaller rather than with a word broken."""
    return words_block(words, width, whole_words(words, style, width))


def shares(width: float, *parts: float) -> list[float]:
    """`width` divided in proportion to `parts`."""
    return [width * part / sum(parts) for part in parts]
