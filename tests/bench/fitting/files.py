"""The three small files the tests recompute the calibration from, and their reading and writing.

`attempt_cells.csv`: attempts of the lifters kept out of the fit, counted by kind (`Lines`).
`attempt_averages.csv`: the same of the lifters fitted on, jumps aside.
`attempt_choices.csv`: what choices reveal (`Choices`), as fitted, with standard errors.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from coachdesk.domain.engine_parameters import Experience
from coachdesk.domain.lifting import Equipment, Lift
from tests.bench.fitting.choices import CHOICES, Choices
from tests.bench.fitting.recorded_days import EQUIPMENT, EXPERIENCES, Lines

DATA = Path(__file__).parents[2] / "data"
CELLS, AVERAGES, CHOSEN = (
    DATA / f"attempt_{name}.csv" for name in ("cells", "averages", "choices")
)
SOURCE = (
    "# OpenPowerlifting results data (public domain), snapshot of 2024-08-23; full-power days"
    " 2010-2024. Written by tests/bench/fit_attempts.py --write."
)
_NUMBERS = (
    "attempt", "first_good", "second_good", "second_jump_class", "third_jump_class", "count", "made"
)  # fmt: skip
_DIGITS = 4


def write_counts(lines: Mapping[Lift, Lines], path: Path) -> None:
    """Write the counts of each lift."""
    rows = [
        (lift.value, EXPERIENCES[kind[0]].value, EQUIPMENT[kind[1]].value, *kind[2:])
        for lift, counted in lines.items()
        for kind in zip(*(column.tolist() for column in counted.columns()), strict=True)
    ]
    _write(path, ("lift", "experience", "equipment", *_NUMBERS), rows)


def read_counts(path: Path) -> Mapping[Lift, Lines]:
    """The counts of each lift."""
    rows = _read(path)
    found = {}
    for lift in Lift:
        own = [row for row in rows if row["lift"] == lift.value]
        who = np.array([EXPERIENCES.index(Experience(row["experience"])) for row in own])
        kit = np.array([EQUIPMENT.index(Equipment(row["equipment"])) for row in own])
        numbers = np.array([[int(row[name]) for name in _NUMBERS] for row in own])
        found[lift] = Lines.of([who, kit, *numbers.T])
    return found


def write_choices(fitted: Mapping[Lift, tuple[Choices, Choices]], path: Path = CHOSEN) -> None:
    """Write the figures of each lift with their standard errors."""
    rows = [
        (lift.value, name, *(round(getattr(each, name), _DIGITS) for each in pair))
        for lift, pair in fitted.items()
        for name in CHOICES
    ]
    _write(path, ("lift", "figure", "value", "standard_error"), rows)


def read_choices(path: Path = CHOSEN) -> Mapping[Lift, Choices]:
    """The figures of each lift."""
    rows = _read(path)
    return {
        lift: Choices(
            **{row["figure"]: float(row["value"]) for row in rows if row["lift"] == lift.value}
        )
        for lift in Lift
    }


def _write(path: Path, header: tuple[str, ...], rows: list[tuple[object, ...]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write(SOURCE + "\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def _read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))
