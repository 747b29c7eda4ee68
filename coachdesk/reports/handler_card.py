"""The handler's cards: pocket size, four a sheet, one for the day and one for each lift.

Printed on both sides of the paper, each card has on its back what goes with it: warm-ups behind
their lift. Entries in one lift share a sheet by twos. One that is left over has all its cards on
one side of the last sheet, so that nothing comes on the back of somebody else's card.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from coachdesk.reports.blocks import Block, fitting
from coachdesk.reports.card_faces import Face, Pair, cards_of, writing_card
from coachdesk.reports.document import Document
from coachdesk.reports.line_drawing import Canvas
from coachdesk.reports.masthead import meet_masthead, meet_names
from coachdesk.reports.theme import FOOT_HEIGHT, INK, RULE, Paper
from coachdesk.services.packet_content import EntryPacket, MeetHead
from coachdesk.wording.wording import Wording

A_SHEET = 4
_EDGE = 14.0
_PADDING = 11.0
_LARGEST = 1.15


Holding = tuple[EntryPacket, Sequence[Pair]]
"""An entry and its cards on a sheet."""


def render_handler_cards(packets: Sequence[EntryPacket], wording: Wording, paper: Paper) -> bytes:
    """The handler's cards for each entry, one PDF in all, in the meet's unit.

    Entries that share a sheet come last. The fonts must have been loaded.
    """
    title = wording("sheet.title.handler", meets=meet_names(packets))
    document = Document(title, wording, paper.size, compact=True)
    sheets = _Sheets(document, wording, paper)
    for packet in packets:
        if not _shares(packet):
            sheets.both_sides([packet])
    alone = []
    for together in _by_twos(packet for packet in packets if _shares(packet)):
        if len(together) == 1:
            alone += together
        else:
            sheets.both_sides(together)
    for packet in alone:
        sheets.one_side(packet)
    return document.finish()


def _shares(packet: EntryPacket) -> bool:
    """Whether the day's card and those of the lifts leave half a sheet free."""
    return len(packet.lifts) + 1 <= A_SHEET // 2


def _by_twos(packets: Iterable[EntryPacket]) -> Iterator[list[EntryPacket]]:
    """Packets of one meet two by two; one may be left over."""
    waiting: dict[MeetHead, EntryPacket] = {}
    for packet in packets:
        first = waiting.pop(packet.meet, None)
        if first is None:
            waiting[packet.meet] = packet
        else:
            yield [first, packet]
    for packet in waiting.values():
        yield [packet]


class _Sheets:
    """Draws cards in their places, four a sheet, with marks to cut them apart."""

    def __init__(self, document: Document, wording: Wording, paper: Paper) -> None:
        self._document, self._wording = document, wording
        page_width, page_height = paper.size
        self._page_height = page_height
        self._width = (page_width - 2 * _EDGE) / 2
        self._height = (page_height - _EDGE - FOOT_HEIGHT - 12) / 2

    def both_sides(self, packets: Sequence[EntryPacket]) -> None:
        """The cards of one or two entries, and on a page of their own what is on their backs."""
        each = A_SHEET // len(packets)
        cards = [self._filled(packet, each, both_sides=True) for packet in packets]
        self._begin(packets)
        names = [self._document.name(packet.athlete) for packet in packets]
        for side in range(2):
            if side:
                self._document.turn()
            for number, (name, pairs) in enumerate(zip(names, cards, strict=True)):
                self._document.go_on_below(name)
                for at, pair in enumerate(pairs, start=number * each):
                    self._place(pair[side], at // 2, (at + side) % 2)

    def one_side(self, packet: EntryPacket) -> None:
        """All cards of an entry on one page, what would be on a back below its front."""
        pairs = self._filled(packet, A_SHEET // 2, both_sides=False)
        self._begin([packet])
        self._document.name(packet.athlete)
        for column, pair in enumerate(pairs):
            for row, face in enumerate(pair):
                self._place(face, row, column)

    def _filled(self, packet: EntryPacket, count: int, *, both_sides: bool) -> list[Pair]:
        """An entry's cards, and one to write on for each place that is free."""
        wording = self._wording.in_unit(packet.meet.unit)
        pairs = cards_of(packet, wording, both_sides=both_sides)
        return pairs + [writing_card(packet, wording)] * (count - len(pairs))

    def _begin(self, packets: Sequence[EntryPacket]) -> None:
        first, wording = packets[0], self._wording
        names = wording("sheet.entry", parts=tuple(packet.athlete for packet in packets))
        kind = wording("sheet.kind.handler")
        self._document.begin(meet_masthead(names, kind, first.meet, first.mark, wording))

    def _place(self, face: Face, row: int, column: int) -> None:
        self._document.bookmark(face.title)
        x = _EDGE + column * self._width
        top = self._page_height - _EDGE - row * self._height
        self._document.place(_cut_marks(self._width, self._height), x, top)
        width, height = self._width - 2 * _PADDING, self._height - 2 * _PADDING
        card = fitting(face.layout, width, height, _LARGEST)
        self._document.place(card, x + _PADDING, top - _PADDING)


def _cut_marks(width: float, height: float) -> Block:
    """A cross at each corner and a faint line between, to cut along."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setLineWidth(0.4)
        canvas.setStrokeGray(RULE)
        canvas.setDash(1, 5)
        canvas.rect(x, top - height, width, height, stroke=1, fill=0)
        canvas.setDash()
        canvas.setStrokeGray(INK)
        for corner_x in (x, x + width):
            for corner_y in (top, top - height):
                canvas.line(corner_x - 6, corner_y, corner_x + 6, corner_y)
                canvas.line(corner_x, corner_y - 6, corner_x, corner_y + 6)

    return Block(height, draw)
