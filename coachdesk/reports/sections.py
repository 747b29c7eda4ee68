"""Sections of a sheet: a title and the blocks below it, or two of them side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from coachdesk.reports.blocks import Block, beside, blank, stack, words_block
from coachdesk.reports.theme import SECTION

SECTION_GAP = 14.0
"""Between sections below each other [pt]."""
_TITLE_WIDTH = 500.0


@dataclass(frozen=True, slots=True)
class Section:
    """A title and the blocks below it; `running_head` is drawn again on each further page."""

    title: str
    blocks: Sequence[Block]
    running_head: Block | None = None

    def all_blocks(self) -> list[Block]:
        """Title and blocks; the title stays with the first block."""
        title = [words_block(self.title, _TITLE_WIDTH, SECTION), blank(4)]
        return [stack([*title, *self.blocks[:1]]), *self.blocks[1:]]

    @property
    def titles(self) -> tuple[str, ...]:
        """What the outline says of it."""
        return (self.title,)

    @property
    def height(self) -> float:
        """The height on one page [pt]."""
        return sum(block.height for block in self.all_blocks())


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Sections beside each other, each in a width [pt], `gap` apart; they stay together."""

    columns: Sequence[tuple[float, Section]]
    gap: float
    running_head: Block | None = None

    def all_blocks(self) -> list[Block]:
        """All of it as one block."""
        columns = [(width, stack(section.all_blocks())) for width, section in self.columns]
        return [beside(columns, self.gap)]

    @property
    def titles(self) -> tuple[str, ...]:
        """What the outline says of it."""
        return tuple(section.title for _, section in self.columns)

    @property
    def height(self) -> float:
        """The height on one page [pt]."""
        return max(section.height for _, section in self.columns)


AnySection: TypeAlias = Section | SideBySide


def height_of(sections: Sequence[AnySection]) -> float:
    """The height of sections on one page [pt]."""
    return sum(section.height for section in sections) + SECTION_GAP * (len(sections) - 1)
