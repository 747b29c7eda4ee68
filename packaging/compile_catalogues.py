"""Compile the catalogues: `python packaging/compile_catalogues.py`, after editing a .po file.

The compiled files are kept in the repository so that the program runs from a checkout without
development tools; a test compares the two.
"""

from __future__ import annotations

from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

CATALOGUES = Path(__file__).resolve().parents[1] / "resources" / "catalogues"


def main() -> None:
    """Write a .mo file beside every .po file."""
    for source in sorted(CATALOGUES.glob("*/LC_MESSAGES/*.po")):
        with source.open("rb") as text, source.with_suffix(".mo").open("wb") as compiled:
            write_mo(compiled, read_po(text))
        print(source.with_suffix(".mo").relative_to(CATALOGUES))


if __name__ == "__main__":
    main()
