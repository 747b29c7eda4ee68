"""What a table puts on the clipboard, so that a spreadsheet takes it as it is."""

from __future__ import annotations

_FORMULA = ("=", "+", "-", "@")


def one_line(line: str) -> str:
    """A cell's own line breaks would begin new rows in a spreadsheet, and a first "=" a formula."""
    cells = line.replace("\r", " ").replace("\n", " ").split("\t")
    return "\t".join(
        f"'{cell}" if cell[:1] in _FORMULA and not _is_number(cell) else cell for cell in cells
    )


def _is_number(cell: str) -> bool:
    return cell[1:].replace(".", "", 1).replace(",", "", 1).isdigit()
