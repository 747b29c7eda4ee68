"""Compile the catalogues: `python packaging/compile_catalogues.py`, after editing a .po file.

A language's words stand in several .po files, one a theme; they are compiled into one. The
compiled files are kept in the repository so that the program runs from a checkout without
development tools; a test compares the two.
"""

from __future__ import annotations

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

CATALOGUES = Path(__file__).resolve().parents[1] / "resources" / "catalogues"
_PLURALS = "Plural-Forms"


def main() -> None:
    """Write a .mo file for every language."""
    for folder in sorted(CATALOGUES.glob("*/LC_MESSAGES")):
        compiled = folder / "coachdesk.mo"
        with compiled.open("wb") as file:
            write_mo(file, merged(folder))
        print(compiled.relative_to(CATALOGUES))


def merged(folder: Path) -> Catalog:
    """The words of all .po files in `folder`, with the plural rule that their heads state; raises
    ValueError when two files share a code or differ in the rule."""
    whole = Catalog(locale=folder.parent.name, fuzzy=False)
    rules: set[str] = set()
    for source in sorted(folder.glob("*.po")):
        with source.open("rb") as text:
            part = read_po(text, locale=folder.parent.name)
        rules.add(dict(part.mime_headers)[_PLURALS])
        whole.creation_date, whole.revision_date = part.creation_date, part.revision_date
        for message in part:
            if not message.id:
                continue
            if message.id in whole:
                twice = f"{source.name}: {message.id}"
                raise ValueError(twice)
            whole[message.id] = message
    if len(rules) != 1:
        raise ValueError(sorted(rules))
    whole.mime_headers = [(_PLURALS, rules.pop())]
    return whole


if __name__ == "__main__":
    main()
