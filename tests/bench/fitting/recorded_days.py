"""Recorded meet days, counted by how a lift went: who, what came before, which jump, made or not.

Read from a file with a row for each day: `lifter` (a number), `meet_number`, `days_since_first`,
`equipment` ("Raw" or "Single-ply"), and `squat1_kg` to `deadlift3_kg`, negative for a no lift and
empty where none was taken. Jumps are counted in classes, so that days of one kind share a line:
success depends on weights by their ratio to the opener alone.
"""

from __future__ import annotations

import csv
import gzip
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from coachdesk.domain.engine_parameters import Experience
from coachdesk.domain.lifting import Equipment, Lift

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.intp]
Bools: TypeAlias = NDArray[np.bool_]

EXPERIENCES, EQUIPMENT = tuple(Experience), tuple(Equipment)
ATTEMPTS = 3
NONE = -1
"""Stands for no earlier attempt."""

_CLASSES = np.array([0.02, 0.03, 0.04, 0.05, 0.06, 0.07, 0.085, 0.10, 0.125, 0.16])
_TOKEN = 0.25
"""Before a jump of more than that the weight was a token: it says nothing of the day's maximum."""
JUMPS = np.array(
    [0.0, 0.0157, 0.0251, 0.0351, 0.0445, 0.0544, 0.0646, 0.0769, 0.0910, 0.1083, 0.1375, 0.1936]
)
"""What stands for each class of jumps: none, then the mean of all recorded jumps of the class."""
_SAME = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Days:
    """Recorded days: `weights_kg` and `made` are [days, lifts, attempts], NaN where not taken."""

    lifter: Ints
    since_first: Ints
    experience: Ints
    equipment: Ints
    weights_kg: Floats
    made: Bools

    def where(self, chosen: Bools) -> Days:
        """Some of the days."""
        return Days(
            self.lifter[chosen],
            self.since_first[chosen],
            self.experience[chosen],
            self.equipment[chosen],
            self.weights_kg[chosen],
            self.made[chosen],
        )


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """Attempts at one lift, counted: each line is one kind of attempt after one kind of history.

    `experience` and `equipment` are places in `EXPERIENCES` and `EQUIPMENT`; `attempt` is 1 to 3;
    `good` [lines, 2] tells whether the first and second were good (1, 0, NONE); `jump` [lines, 2]
    are classes of the jumps to the second and third (NONE where not taken yet); `count` is how many
    were tried and `made` how many were good.
    """

    experience: Ints
    equipment: Ints
    attempt: Ints
    good: Ints
    jump: Ints
    count: Ints
    made: Ints

    @property
    def before(self) -> Ints:
        """Whether the attempt before was good: 1, 0, or NONE for an opener."""
        return np.where(self.attempt == 3, self.good[:, 1], self.good[:, 0])

    @property
    def last_jump(self) -> Ints:
        """The class of the jump to this attempt, NONE for an opener."""
        return np.where(self.attempt == 3, self.jump[:, 1], self.jump[:, 0])

    def without_jumps(self) -> Lines:
        """The same attempts, counted without regard to the jumps."""
        kinds = (self.experience, self.equipment, self.attempt, *self.good.T)
        found, place = np.unique(np.stack(kinds, axis=1), axis=0, return_inverse=True)
        place = place.ravel()
        count, made = np.zeros(len(found), np.intp), np.zeros(len(found), np.intp)
        np.add.at(count, place, self.count)
        np.add.at(made, place, self.made)
        nothing = np.full(len(found), NONE)
        return Lines.of([*found.T, nothing, nothing, count, made])

    def columns(self) -> tuple[Ints, ...]:
        """All of it in columns: a row in the file of counts for each line."""
        return (
            self.experience,
            self.equipment,
            self.attempt,
            *self.good.T,
            *self.jump.T,
            self.count,
            self.made,
        )

    @classmethod
    def of(cls, columns: Sequence[Ints]) -> Lines:
        """The inverse of `columns`."""
        experience, equipment, attempt, first, second, to_second, to_third, count, made = columns
        good = np.stack([first, second], axis=1)
        jump = np.stack([to_second, to_third], axis=1)
        return cls(experience, equipment, attempt, good, jump, count, made)


def read_days(path: Path) -> Days:
    """The recorded days of a file."""
    with gzip.open(path, "rt", encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    names = [[f"{lift}{number}_kg" for number in range(1, ATTEMPTS + 1)] for lift in Lift]
    tried = np.array(
        [[[float(row[name] or "nan") for name in lift] for lift in names] for row in rows]
    )
    behind = [int(row["meet_number"]) - 1 for row in rows]
    return Days(
        np.array([int(row["lifter"]) for row in rows]),
        np.array([int(row["days_since_first"]) for row in rows]),
        np.array([EXPERIENCES.index(Experience.after(meets)) for meets in behind]),
        np.array([EQUIPMENT.index(_EQUIPMENT[row["equipment"]]) for row in rows]),
        np.abs(tried),
        tried > 0,
    )


_EQUIPMENT: Mapping[str, Equipment] = {
    "Raw": Equipment.CLASSIC,
    "Single-ply": Equipment.EQUIPPED,
}


def halves(days: Days) -> tuple[Days, Days]:
    """The days to fit on and the days kept out: lifters of even and of odd number."""
    even = days.lifter % 2 == 0
    return days.where(even), days.where(~even)


def count_lines(days: Days, lift: Lift) -> Lines:
    """Every attempt at `lift` with an unbroken history that keeps the rules, counted.

    A lift ends before a jump of more than a quarter (0.5 % of seconds, 0.2 % of thirds), whatever
    came of it: so the choice restricts the comparison, never the outcome.
    """
    at = tuple(Lift).index(lift)
    weights, made = days.weights_kg[:, at], days.made[:, at]
    jumps = weights[:, 1:] / weights[:, :-1] - 1.0
    fair = np.isfinite(jumps) & np.where(made[:, :2], jumps > _SAME, jumps > -_SAME)
    fair &= jumps <= _TOKEN + _SAME
    taken = np.logical_and.accumulate(
        np.concatenate([np.isfinite(weights[:, :1]), fair], axis=1), axis=1
    )
    classes = np.where(jumps > _SAME, 1 + np.searchsorted(_CLASSES, jumps + _SAME, "right"), 0)
    columns = []
    for number in range(1, ATTEMPTS + 1):
        here = taken[:, number - 1]
        known = np.arange(2) < number - 1
        good = np.where(known, made[here, :2], NONE)
        jump = np.where(known, classes[here], NONE)
        attempt = np.full((len(good), 1), number)
        kind = (days.experience[here, None], days.equipment[here, None], attempt, good, jump)
        columns.append(np.concatenate([*kind, made[here, number - 1, None]], axis=1))
    return _counted(np.concatenate(columns))


def _counted(attempts: NDArray[np.int_]) -> Lines:
    kinds, place = np.unique(attempts[:, :-1], axis=0, return_inverse=True)
    place = place.ravel()
    count = np.bincount(place, minlength=len(kinds))
    made = np.bincount(place, weights=attempts[:, -1], minlength=len(kinds)).astype(np.intp)
    return Lines.of([*kinds.T, count, made])
