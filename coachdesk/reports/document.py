"""A document: pages with head and foot, sections with bookmarks, blocks flowing down them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from io import BytesIO
from itertools import pairwise

from reportlab.pdfgen.canvas import Canvas as PdfCanvas

from coachdesk.reports.blocks import (
    Block,
    at_scale,
    beside,
    blank,
    fitted_block,
    fitting,
    name_block,
    rule,
    scaled,
    stack,
    two_lines,
    words_block,
)
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.masthead import Masthead, print_line
from coachdesk.reports.sections import SECTION_GAP, AnySection, height_of
from coachdesk.reports.text_runs import cleaned, fitted, width_of
from coachdesk.reports.theme import (
    FOOT,
    FOOT_HEIGHT,
    HEAD_HEIGHT,
    LABEL,
    MARGIN,
    NAME,
    STRONG,
    SUBSECTION,
    Style,
)
from coachdesk.wording.wording import Wording

_PAGE_WORDS_WIDTH = 110.0
_LEAST_NAME = 12.0
_TIGHT_SCALES = (1.0, 0.96, 0.92, 0.88, 0.84, 0.8)
_LEAST_SCALE = 0.84
_ROOMY_SCALES = (1.25, 1.2, 1.15, 1.1, 1.05)
_MOST_SCALE = _ROOMY_SCALES[0]
"""What leaves room on its page is set larger: a sheet is read at arm's length."""
_MORE_LINES = 1.6
"""How the height of words grows with their size: they are larger, and break into more lines."""


@dataclass(frozen=True, slots=True)
class _Part:
    """The pages under one masthead, from `first` on, counting from 1 over the whole document."""

    masthead: Masthead
    first: int


@dataclass(frozen=True, slots=True)
class Place:
    """An entry in the outline, and the entries below it."""

    title: str
    key: str
    below: list[Place] = field(default_factory=list)


class Document:
    """A PDF in the making, of a part for each `begin`. `compact` pages have no head and use
    nearly all the paper. Pages are counted part by part."""

    def __init__(
        self,
        title: str,
        wording: Wording,
        size: tuple[float, float],
        *,
        compact: bool = False,
    ) -> None:
        self._wording = wording
        self._size = size
        self._compact = compact
        self._buffer = BytesIO()
        self._canvas: Canvas = PdfCanvas(
            self._buffer,
            pagesize=size,
            invariant=1,
            pageCompression=1,
            lang=wording.catalogue.language,
        )
        self._canvas.setTitle(cleaned(title))
        self._canvas.setAuthor("")
        self._canvas.setCreator("coachdesk")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        self._parts: list[_Part] = []
        self._outline: list[Place] = []
        self._above: Place | None = None
        self._bookmarks = 0
        self._page = 0
        self._y = 0.0

    @property
    def width(self) -> float:
        """The width between the margins [pt]."""
        return self._size[0] - 2 * MARGIN

    @property
    def height(self) -> float:
        """The height between head and foot [pt]."""
        return self._top - self._bottom

    @property
    def _top(self) -> float:
        return self._size[1] - (MARGIN / 3 if self._compact else MARGIN * 0.7 + HEAD_HEIGHT)

    @property
    def _bottom(self) -> float:
        return FOOT_HEIGHT + (MARGIN / 4 if self._compact else MARGIN * 0.6)

    def begin(self, masthead: Masthead, *, named: bool = False) -> None:
        """Begin a part on a page of its own; `named` in the outline, its places below it."""
        self._parts.append(_Part(masthead, self._page + 1))
        self._above = None
        self.turn()
        if named:
            self.name(masthead.subject)

    def name(self, title: str) -> Place:
        """An entry at the top of the outline for this place; what comes after it stands below."""
        self._above = None
        named = self.bookmark(title)
        self.go_on_below(named)
        return named

    def go_on_below(self, named: Place) -> None:
        """Let what comes now stand below an entry made before."""
        self._above = named

    def turn(self) -> None:
        """Begin a new page."""
        if self._page:
            self._canvas.showPage()
        self._page += 1
        self._y = self._top
        if not self._compact:
            self._draw_head()
        self._draw_foot()

    def bookmark(self, title: str) -> Place:
        """An entry in the document's outline for this place."""
        self._bookmarks += 1
        place = Place(cleaned(title).replace("\n", " "), f"place-{self._bookmarks}")
        self._canvas.bookmarkHorizontal(place.key, 0, self._y)
        (self._outline if self._above is None else self._above.below).append(place)
        return place

    def one_page(
        self, title: str, layout: Callable[[float], Block], *, largest: float = 1.0
    ) -> None:
        """What `layout` makes for a width, alone on the page just begun, as large as it fits."""
        self.bookmark(title)
        self._put(fitting(layout, self.width, self.height, largest))

    def section(self, section: AnySection) -> None:
        """A section, on one page where it can be."""
        blocks = section.all_blocks()
        if self._y != self._top:
            self._y -= SECTION_GAP
        needed = sum(block.height for block in blocks)
        if needed > self.height:
            needed = blocks[0].height
        if self._y - needed < self._bottom:
            self.turn()
        for title in section.titles:
            self.bookmark(title)
        for block in blocks:
            self._flow(block, section.running_head)

    def tight(
        self,
        layout: Callable[[float], Sequence[AnySection]],
        *,
        least: float = _LEAST_SCALE,
        most: float = _MOST_SCALE,
    ) -> None:
        """The sections `layout` makes for a width, from a fresh page on.

        As many as can be go on a page together, set a little smaller where that helps, but not
        below `least` of their size, and larger up to `most` where they leave room.
        """
        full_size = layout(self.width)
        by_scale = {1.0: full_size}
        at = 0
        while at < len(full_size):
            if self._y != self._top:
                self.turn()
            for end, scale in self._tries(full_size, at, least):
                if scale not in by_scale:
                    by_scale[scale] = layout(self.width / scale)
                sections = by_scale[scale][at:end]
                if height_of(sections) * scale <= self.height:
                    self._put_sections(
                        *(
                            self._roomy(layout, sections, at, most)
                            if scale == 1
                            else (sections, scale)
                        )
                    )
                    at = end
                    break
            else:
                for section in full_size[at:]:
                    self.section(section)
                return

    def _tries(
        self, full_size: Sequence[AnySection], at: int, least: float
    ) -> Iterator[tuple[int, float]]:
        """How many sections to try together, and in which size.

        Set smaller, words break into fewer lines: what would fit by its height at full size fits
        for sure, and the size above that may. The last section is not left alone on a page where
        another can go with it.
        """
        scales = [scale for scale in _TIGHT_SCALES if scale >= least]
        count = len(full_size)
        ends = [end for end in range(count, at, -1) if end != count - 1 or end - at == 1]
        for end in ends:
            height = height_of(full_size[at:end])
            sure = sum(height * scale > self.height for scale in scales)
            for scale in scales[max(0, sure - 1) : sure + 1]:
                yield end, scale

    def _roomy(
        self,
        layout: Callable[[float], Sequence[AnySection]],
        fitting: Sequence[AnySection],
        at: int,
        most: float,
    ) -> tuple[Sequence[AnySection], float]:
        """Sections that fit at full size as large as they fit, and how large that is.

        Words set larger break into more lines: what would be too high with a few more is not
        tried.
        """
        height, end = height_of(fitting), at + len(fitting)
        for scale in _ROOMY_SCALES:
            if scale > most or height * scale**_MORE_LINES > self.height:
                continue
            larger = layout(self.width / scale)[at:end]
            if height_of(larger) * scale <= self.height:
                return larger, scale
        return fitting, 1.0

    def _put_sections(self, sections: Sequence[AnySection], scale: float) -> None:
        for section in sections:
            for title in section.titles:
                self.bookmark(title)
            self._put(at_scale(stack(section.all_blocks()), scale))
            self._y -= SECTION_GAP * scale

    def lines_to_write(self, step: float, title: str = "") -> None:
        """Fill what is left of the page with lines to write on, `step` apart [pt].

        With a title above them there are three at least, or none.
        """
        if title:
            head = stack([blank(SECTION_GAP), words_block(title, self.width, SUBSECTION)])
            if self._y - head.height - 3 * step <= self._bottom:
                return
            self._put(head)
        while self._y - step > self._bottom:
            self._y -= step
            rule(self.width).draw(self._canvas, MARGIN, self._y)

    def place(self, block: Block, x: float, top: float) -> None:
        """Draw a block anywhere on the page, in points from its lower left corner."""
        block.draw(self._canvas, x, top)

    def finish(self) -> bytes:
        """The finished file."""
        self._canvas.showPage()
        for place in self._outline:
            self._canvas.addOutlineEntry(place.title, place.key, 0)
            for below in place.below:
                self._canvas.addOutlineEntry(below.title, below.key, 1)
        firsts = [part.first for part in self._parts]
        for first, after in pairwise([*firsts, self._page + 1]):
            for page in range(first, after):
                self._draw_page_words(page, page - first + 1, after - first)
        self._canvas.save()
        return self._buffer.getvalue()

    def _draw_page_words(self, page: int, number: int, count: int) -> None:
        self._canvas.beginForm(f"page-{page}", 0, -4, _PAGE_WORDS_WIDTH, FOOT.leading + 4)
        words = cleaned(self._wording("sheet.page", page=number, pages=count))
        line, style = fitted(words, _bold(FOOT), _PAGE_WORDS_WIDTH, 6)
        draw_line(self._canvas, _PAGE_WORDS_WIDTH - width_of(line, style), 0, line, style)
        self._canvas.endForm()

    def _flow(self, block: Block, head: Block | None) -> None:
        if self._y - block.height < self._bottom and self._y != self._top:
            self.turn()
            if head is not None:
                self._put(head)
        self._put(scaled(block, self._y - self._bottom))

    def _put(self, block: Block) -> None:
        block.draw(self._canvas, MARGIN, self._y)
        self._y -= block.height

    @property
    def _masthead(self) -> Masthead:
        return self._parts[-1].masthead

    def _draw_head(self) -> None:
        masthead = self._masthead
        left, right = self.width * 0.6, self.width * 0.36
        name = stack(
            [
                name_block(masthead.subject, left, NAME, _LEAST_NAME),
                fitted_block(masthead.kind, left, LABEL, 8),
            ]
        )
        about = stack(
            [
                blank(6),
                fitted_block(masthead.about, right, STRONG, 8, to_right=True),
                fitted_block(masthead.where, right, LABEL, 8, to_right=True),
            ]
        )
        head = stack(
            [beside([(self.width * 0.64, name), (right, about)]), blank(5), rule(self.width, 1.2)]
        )
        head.draw(self._canvas, MARGIN, self._top + HEAD_HEIGHT)

    def _draw_foot(self) -> None:
        edge = MARGIN / 2 if self._compact else MARGIN
        width = self._size[0] - 2 * edge
        printed = print_line(self._masthead.mark, self._wording)
        if self._compact:
            printed = self._wording(
                "sheet.card.foot",
                name=self._masthead.subject,
                meet=self._masthead.about,
                printed=printed,
            )
        top = self._bottom - (2 if self._compact else 8)
        words_width = width - _PAGE_WORDS_WIDTH - 8
        foot = stack(
            [
                rule(width),
                blank(3),
                fitted_block(printed, words_width, FOOT, 5),
                two_lines(self._masthead.rules, width, FOOT, 5),
            ]
        )
        foot.draw(self._canvas, edge, top)
        self._canvas.saveState()
        self._canvas.translate(edge + width - _PAGE_WORDS_WIDTH, top - FOOT.leading - 2)
        self._canvas.doForm(f"page-{self._page}")
        self._canvas.restoreState()


def _bold(style: Style) -> Style:
    return Style(STRONG.face, style.size, style.leading, style.grey)
