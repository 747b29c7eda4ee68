"""Templates of blocks: what is shipped, and how a fault in one is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from coachdesk.domain.blocks.template import parse_template
from coachdesk.domain.lifting import Lift
from coachdesk.domain.toml_reader import FileFault

FOLDER = Path(__file__).parents[2] / "resources" / "blocks"
GOOD = """name = "Two weeks"
about = "A trial."
source = "By hand"
purpose = "volume"
weeks = 2

[[exercises]]
day = 3
lift = "bench"
variation = "close grip"
share = 93
sets = ["3x8 RPE 7", "-"]

[[exercises]]
day = 1
lift = "squat"
sets = ["5x3 80%; 1x1 90% judged", "4x4 75%"]
"""


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.toml")), ids=lambda file: file.stem)
def test_shipped_templates_are_sound(file: Path) -> None:
    template = parse_template(file.read_bytes(), file.name)
    assert 2 <= template.days <= 6
    percents = [
        each.percent
        for exercise in template.exercises
        for several in exercise.sets.values()
        for each in several
        if each.percent is not None
    ]
    assert 50 < min(percents) <= max(percents) <= 95


def test_a_template_is_read_by_day() -> None:
    template = parse_template(GOOD.encode(), "two.toml")
    squat, bench = template.exercises
    assert (template.key, template.days, template.lifts) == ("two", 2, (Lift.SQUAT, Lift.BENCH))
    assert [len(squat.sets[week]) for week in (1, 2)] == [2, 1]
    assert (bench.variation, bench.share, list(bench.sets)) == ("close grip", 0.93, [1])
    assert bench.sets[1][0].rir == 3


@pytest.mark.parametrize(
    ("written", "instead", "line", "key"),
    [
        ('"4x4 75%"]', '"4 by 4"]', 17, "exercises.sets"),
        ('"4x4 75%"]', '"4x4 100"]', 17, "exercises.sets"),
        (', "4x4 75%"]', "]", 17, "exercises.sets"),
        ("day = 1", "day = 8", 15, "exercises.day"),
        ('lift = "squat"', 'lift = "squat"\nshare = 90', 17, "exercises.share"),
        ('purpose = "volume"', 'purpose = "fun"', 4, "purpose"),
        ("weeks = 2", "weeks = 2\nbeats = 3", 6, "beats"),
    ],
)
def test_a_fault_names_line_and_key(written: str, instead: str, line: int, key: str) -> None:
    with pytest.raises(FileFault) as found:
        parse_template(GOOD.replace(written, instead).encode(), "two.toml")
    assert (found.value.line, found.value.key) == (line, key)
