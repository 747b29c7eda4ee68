"""What a printing puts on its pages, mark by mark, so that the same marks can be drawn again
straight on canvases of reportlab: what `bench_packets` compares with.

A line of words is drawn again the plain way (`setFont`, `drawString`), every other call on a canvas
as it was made.
"""

from __future__ import annotations

import functools
import inspect
import io
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from coachdesk.reports import line_drawing
from coachdesk.reports.text_runs import drawable
from coachdesk.reports.theme import Style

Call = tuple[str, tuple[Any, ...], dict[str, Any]]


class Marks:
    """The calls made on each canvas, canvas by canvas, the first of each what made it."""

    def __init__(self) -> None:
        self.documents: list[list[Call]] = []

    @property
    def pages(self) -> int:
        """How many pages there are in all."""
        return sum(call[0] == "showPage" for calls in self.documents for call in calls)

    def draw(self) -> None:
        """Draw everything again, straight on canvases."""
        for (_, _, named), *calls in self.documents:
            canvas = Canvas(io.BytesIO(), **named)
            for name, given, how in calls:
                getattr(canvas, name)(*given, **how)


@contextmanager
def recorded() -> Iterator[Marks]:
    """Note what is drawn meanwhile; it is drawn all the same."""
    marks = Marks()
    recorder = _recorder(marks)
    plain = line_drawing.draw_line

    def draw_line(canvas: Any, x: float, baseline: float, line: str, style: Style) -> None:
        with canvas.quietly():
            plain(canvas, x, baseline, line, style)
        canvas.calls.append(("setFillGray", (style.grey,), {}))
        for face, words in drawable(line, style.face):
            canvas.calls.append(("setFont", (face, style.size), {}))
            canvas.calls.append(("drawString", (x, baseline, words), {}))
            x += stringWidth(words, face, style.size)

    with pytest.MonkeyPatch.context() as patch:
        for name, module in tuple(sys.modules.items()):
            if name.startswith("coachdesk.reports."):
                for known, stand_in in (("draw_line", draw_line), ("PdfCanvas", recorder)):
                    if hasattr(module, known):
                        patch.setattr(module, known, stand_in)
        yield marks


def _recorder(marks: Marks) -> type[Any]:
    class Recorder(Canvas):  # type: ignore[misc]
        """Notes what it is asked for from outside."""

        def __init__(self, target: Any, **named: Any) -> None:
            self.depth = 1
            self.calls: list[Call] = [("", (), named)]
            marks.documents.append(self.calls)
            super().__init__(target, **named)
            self.depth = 0

        @contextmanager
        def quietly(self) -> Iterator[None]:
            self.depth += 1
            try:
                yield
            finally:
                self.depth -= 1

    for name, method in inspect.getmembers(Canvas, inspect.isfunction):
        if not name.startswith("_"):
            setattr(Recorder, name, _noting(name, method))
    return Recorder


def _noting(name: str, method: Callable[..., Any]) -> Callable[..., Any]:
    @functools.wraps(method)
    def noted(self: Any, *given: Any, **how: Any) -> Any:
        if not self.depth:
            self.calls.append((name, given, how))
        with self.quietly():
            return method(self, *given, **how)

    return noted
