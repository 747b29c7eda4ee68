"""Writes what can be computed into the guide's pages.

Run from the root, in the environment of the project: `python -m tests.bench.write_guide`, whenever
the engine or its parameters have changed; then read the sentences between the figures again.
A test compares the page with what would be written.

A figure's place in the page begins with `<!-- figures: NAME -->` and ends with `<!-- end -->`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import groupby

from coachdesk.app import paths
from coachdesk.app.words import wording
from coachdesk.domain import weight_limits as weights
from coachdesk.domain.engine_parameters import Status
from tests.bench.guide_example import Example
from tests.bench.markdown import table
from tests.bench.simulate_plans import PATTERNS, Figures, Row, rows

PAGE = paths.resources() / "guide" / "attempts.md"
WEIGHTS = paths.resources() / "guide" / "weights.md"
_PLACE = re.compile(r"<!-- figures: (?P<name>[^>]+) -->\n.*?<!-- end -->", re.DOTALL)
_UNIT = re.compile(r"(?<=\d) (?=%|kg\b)")
_DAYS = 10_000
_ATHLETES = {
    "first-timer": "A first-timer: a day varies by 4.5 %, and 6 attempts in 100 fail for other "
    "reasons than strength.",
    "typical": "A typical lifter: 3 %, and 2.5 in 100.",
    "experienced": "An experienced lifter: 2.5 %, and 2 in 100.",
}
_LIMITS = (
    "comfortable pace",
    "steady pace",
    "hard pace",
    "largest planned loss",
    "lowest body mass index",
    "an adult",
    "to be there early",
    "behind the line",
    "spoken of before the latest start",
    "without a weight",
    "an odd reading is asked about",
)
_STANDING = {
    Status.RECORDED: "published",
    Status.FITTED: "fitted",
    Status.ASSUMED: "assumed",
    Status.OWN_CAUTION: "our own caution",
}
_TRUTHS = {
    "as believed": "As believed",
    "3 % too hopeful": "Your number is 3 % too high",
    "3 % too modest": "Your number is 3 % too low",
    "sd x 1.5": "Days vary half as much again",
    "t x 2": "Twice as many such misses",
}


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


def simulation() -> dict[str, str]:
    """The table of simulated days."""
    return {"simulation": "\n\n".join(_tables())}


def _tables() -> Iterator[str]:
    for athlete, of_athlete in groupby(rows(), key=lambda row: row.athlete):
        truths = list(of_athlete)
        yield f"**{_ATHLETES[athlete]}** The plan opens with {truths[0].opener_kg:g} kg."
        yield table(("What is true", "The plan", *PATTERNS), [_cells(row) for row in truths])


def _cells(row: Row) -> tuple[str, ...]:
    return (_TRUTHS[row.truth], *(_cell(each) for each in row.figures))


def _cell(figures: Figures) -> str:
    return f"{figures.utility_kg:.1f} kg · {_DAYS * figures.none:.0f}"


def weight_limits() -> dict[str, str]:
    """The table of every limit on coming down in weight, with its source."""
    rows_of = [
        (what, f"{limit.value:g} {limit.unit}", _STANDING[limit.status], limit.provenance)
        for what, limit in zip(_LIMITS, weights.ALL, strict=True)
    ]
    head = ("Limit", "Value", "Standing", "From")
    lines = [head, [":--"] * len(head), *rows_of]
    return {"weight limits": "\n".join(f"| {' | '.join(cells)} |" for cells in lines)}


def main() -> None:
    """Write the pages anew."""
    blocks = {**Example(wording()).blocks(), **simulation()}
    for page, of_page in ((PAGE, blocks), (WEIGHTS, weight_limits())):
        page.write_text(filled(page.read_text(encoding="utf-8"), of_page), encoding="utf-8")


if __name__ == "__main__":
    main()
