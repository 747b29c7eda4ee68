"""What a file of logged sets is read by: columns, and lifts in the spellings of the trade."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.lifting import Lift, Result
from coachdesk.services.day_reading import Months
from coachdesk.wording.folding import folded


class Part(StrEnum):
    """What a column can hold."""

    NAME = "name"
    GIVEN = "given"
    FAMILY = "family"
    DAY = "day"
    LIFT = "lift"
    VARIATION = "variation"
    WEIGHT = "weight"
    UNIT = "unit"
    SETS = "sets"
    REPS = "reps"
    RPE = "rpe"
    RIR = "rir"
    CALL = "call"
    CAUSE = "cause"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Folded words: heads with the part they name, lifts, calls of judged singles, months."""

    heads: Mapping[str, Part]
    lifts: Mapping[str, Lift]
    calls: Mapping[str, Result]
    months: Months

    def lift_named(self, cell: str) -> tuple[Lift, str] | None:
        """The lift a cell names and the variation of it; None where it names none.

        The variation stands before the lift ("paused squat"), after a comma or a dash, or in
        brackets ("squat (paused)").
        """
        if (lift := self.lifts.get(folded_lift(cell))) is not None:
            return lift, ""
        parted = re.match(r"\s*(.+?)\s*(?:,|:|\s[-–—]\s|\()\s*(.+?)\s*\)?\s*$", cell)
        if parted and (lift := self.lifts.get(folded_lift(parted[1]))) is not None:
            return lift, parted[2]
        words = cell.split()
        for at in range(1, len(words)):
            if (lift := self.lifts.get(folded_lift(" ".join(words[at:])))) is not None:
                return lift, " ".join(words[:at])
        return None


def folded_lift(name: str) -> str:
    """A lift's name without capitals, marks and doubled blanks."""
    return " ".join(re.findall(r"[^\W_]+", folded(name)))
