"""Writes what can be computed into the guide's pages, in every language the guide has.

Run from the root, in the environment of the project: `python -m tests.bench.write_guide`, whenever
the engine or its parameters have changed; then read the sentences between the figures again.
A test compares the page with what would be written.

A figure's place in the page begins with `<!-- figures: NAME -->` and ends with `<!-- end -->`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import groupby
from pathlib import Path

from coachdesk.domain import weight_limits as weights
from tests.bench.guide_example import Example
from tests.bench.guide_words import GUIDE, LANGUAGES, GuideWords
from tests.bench.markdown import table
from tests.bench.simulate_plans import PATTERNS, Figures, Row, rows

PAGES = ("attempts", "weights")
"""The pages that hold figures."""
_PLACE = re.compile(r"<!-- figures: (?P<name>[^>]+) -->\n.*?<!-- end -->", re.DOTALL)
_UNIT = re.compile(r"(?<=\d) (?=%|kg\b)")
_DAYS = 10_000


def page_file(language: str, page: str) -> Path:
    """A page of the guide in a language."""
    return GUIDE / language / f"{page}.md"


def filled(page: str, blocks: Mapping[str, str]) -> str:
    """The page with all its figures, each kept on one line with its unit; raises KeyError
    for a place that nothing is computed for."""
    written = _PLACE.sub(
        lambda place: (
            f"<!-- figures: {place['name']} -->\n\n{blocks[place['name']]}\n\n<!-- end -->"
        ),
        page,
    )
    return _UNIT.sub("\N{NO-BREAK SPACE}", written)


def places(page: str) -> list[str]:
    """The names of the figures' places in the page."""
    return [place["name"] for place in _PLACE.finditer(page)]


def blocks_of(page: str, words: GuideWords) -> dict[str, str]:
    """What is written into a page in a language, by the names of its places."""
    if page == "weights":
        return weight_limits(words)
    return {**Example(words).blocks(), **simulation(words)}


def simulation(words: GuideWords) -> dict[str, str]:
    """The table of simulated days."""
    return {"simulation": "\n\n".join(_tables(words))}


def _tables(words: GuideWords) -> Iterator[str]:
    for athlete, of_athlete in groupby(_simulated(), key=lambda row: row.athlete):
        truths = list(of_athlete)
        yield words(
            "simulation",
            "athlete",
            about=words("simulation", athlete),
            opener=words.kilograms(truths[0].opener_kg),
        )
        head = (*words.head("simulation"), *PATTERNS)
        yield table(head, [_cells(row, words) for row in truths])


@cache
def _simulated() -> tuple[Row, ...]:
    return tuple(rows())


def _cells(row: Row, words: GuideWords) -> tuple[str, ...]:
    return (words("simulation", row.truth), *(_cell(each, words) for each in row.figures))


def _cell(figures: Figures, words: GuideWords) -> str:
    return f"{words.kilograms(figures.utility_kg, 1)} · {_DAYS * figures.none:.0f}"


def weight_limits(words: GuideWords) -> dict[str, str]:
    """The table of every limit on coming down in weight, with its source."""
    rows_of = [
        (
            said["name"],
            f"{words.number(limit.value)} {said.get('unit', limit.unit)}",
            words("standing", limit.status),
            said.get("source", limit.provenance),
        )
        for said, limit in zip(words.limits(), weights.ALL, strict=True)
    ]
    head = words.head("limits")
    lines = [head, [":--"] * len(head), *rows_of]
    return {"weight limits": "\n".join(f"| {' | '.join(cells)} |" for cells in lines)}


def main() -> None:
    """Write the pages anew."""
    for language in LANGUAGES:
        words = GuideWords(language)
        for page in PAGES:
            file = page_file(language, page)
            if file.is_file():
                written = filled(file.read_text(encoding="utf-8"), blocks_of(page, words))
                file.write_text(written, encoding="utf-8")


if __name__ == "__main__":
    main()
