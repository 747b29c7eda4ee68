"""Printing weeks of a block without Qt: what is asked for, and where it goes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.ui.printing import Printing
from coachdesk.ui.screens.blocks.block_values import required_whole


def print_weeks(printing: Printing, block_id: int, values: Mapping[str, str]) -> tuple[Path, ...]:
    """Print from one week to another into a folder; answers the files. Raises InvalidInput."""
    first = required_whole("week", values["week"])
    last = required_whole("last", values["last"])
    if last < first:
        raise InvalidInput("last", text("blocks.print.last_before_first"))
    folder = Path(values["folder"]).expanduser()
    if not values["folder"] or not folder.is_absolute():
        raise InvalidInput("folder", text("meets.print.whole_path"))
    return printing.training(block_id, range(first, last + 1), values["paper"], folder)
