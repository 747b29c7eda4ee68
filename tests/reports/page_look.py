"""What a page looks like, read back from a PDF: lines of words, boxes to write in, room used."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from itertools import combinations, pairwise

import pypdfium2
import pypdfium2.raw as pdfium

MM = 72 / 25.4
"""A millimetre [pt]."""
_TOUCH = 0.5
"""Letters may come so near to those of another line [pt]."""


@dataclass(frozen=True)
class Place:
    """Where something stands on a page [pt], from its lower left corner."""

    left: float
    bottom: float
    right: float
    top: float

    def covers(self, other: Place) -> bool:
        """Whether both have a piece of the page in common."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.top, other.top) - max(self.bottom, other.bottom)
        return wide > _TOUCH and high > _TOUCH


@dataclass(frozen=True)
class Page:
    """A page as it is seen: its size [pt], its runs of words with their places, boxes to write
    in (white, framed, with square corners)."""

    width: float
    height: float
    words: tuple[tuple[Place, str], ...]
    boxes: tuple[Place, ...]

    def overlapping(self) -> list[tuple[str, str]]:
        """Runs of words that stand over each other."""
        return [
            (said, other)
            for (place, said), (other_place, other) in combinations(self.words, 2)
            if place.covers(other_place)
        ]

    def outside(self, margin: float) -> list[str]:
        """Runs of words that come nearer to the edge of the paper than `margin` [pt]."""
        return [
            said
            for place, said in self.words
            if place.left < margin
            or place.bottom < margin
            or place.right > self.width - margin
            or place.top > self.height - margin
        ]

    def body(self, foot: str) -> list[tuple[Place, str]]:
        """The runs above the foot, which begins with these words, from the top down."""
        line = max(place.top for place, said in self.words if said.startswith(foot))
        found = [(place, said) for place, said in self.words if place.bottom > line + 1]
        return sorted(found, key=lambda run: -run[0].bottom)

    def used(self, foot: str) -> float:
        """How much of its height words take, from the head to the lowest line or box."""
        line = max(place.top for place, said in self.words if said.startswith(foot))
        marks = [place for place, _ in self.body(foot)] + list(self.boxes)
        lowest = min((place.bottom for place in marks), default=self.height)
        return (self.height - lowest) / (self.height - line)


def pages_of(data: bytes) -> list[Page]:
    """The pages of a PDF."""
    with closing(pypdfium2.PdfDocument(data)) as document:
        return [_look(page) for page in document]


def _look(page: pypdfium2.PdfPage) -> Page:
    width, height = page.get_size()
    return Page(width, height, tuple(_words(page)), tuple(_boxes(page)))


def _words(page: pypdfium2.PdfPage) -> Iterator[tuple[Place, str]]:
    with closing(page.get_textpage()) as words:
        for at in range(words.count_rects()):
            place = words.get_rect(at)
            said = words.get_text_bounded(*place).strip()
            if said:
                yield Place(*place), said


def _boxes(page: pypdfium2.PdfPage) -> Iterator[Place]:
    for drawn in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=3):
        if _is_white(drawn.raw) and _is_framed(drawn.raw) and _is_square(drawn.raw):
            yield Place(*drawn.get_bounds())


def _is_white(path: object) -> bool:
    channels = [ctypes.c_uint() for _ in range(4)]
    pdfium.FPDFPageObj_GetFillColor(path, *channels)
    return all(channel.value == 255 for channel in channels[:3])


def _is_framed(path: object) -> bool:
    fill, stroke = ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPath_GetDrawMode(path, fill, stroke)
    return bool(fill.value and stroke.value)


def _is_square(path: object) -> bool:
    """Whether all its sides go straight up or across."""
    points = []
    for at in range(pdfium.FPDFPath_CountSegments(path)):
        x, y = ctypes.c_float(), ctypes.c_float()
        segment = pdfium.FPDFPath_GetPathSegment(path, at)
        if pdfium.FPDFPathSegment_GetType(segment) == pdfium.FPDF_SEGMENT_BEZIERTO:
            return False
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        points.append((x.value, y.value))
    straight = [a == c or b == d for (a, b), (c, d) in pairwise(points)]
    return len(points) >= 4 and all(straight)
