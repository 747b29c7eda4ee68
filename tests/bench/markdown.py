"""Tables as the guide's pages hold them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table in Markdown: the first column to the left, figures to the right."""
    lines = [head, [":--", *("--:" for _ in head[1:])], *rows]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)
