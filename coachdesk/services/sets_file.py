"""What a file of logged sets is read by: columns, and lifts in the spellings of the trade."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.lifting import Lift, Result
from coachdesk.services.day_reading import Months
from coachdesk.services.file_words import plain_words


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
    """Plain words: heads with the part they name, lifts, calls of judged singles, months.

    Of the lifts, `followed` are those that a variation stands behind.
    """

    heads: Mapping[str, Part]
    lifts: Mapping[str, Lift]
    followed: Mapping[str, Lift]
    calls: Mapping[str, Result]
    months: Months

    def lift_named(self, cell: str) -> tuple[Lift, str] | None:
        """The lift a cell names and the variation of it; None where it names none.

        The variation stands before the lift ("paused squat"), after a comma or a dash, in
        brackets ("squat (paused)"), or in French behind it ("développé couché prise serrée").
        """
        if (lift := self.lifts.get(plain_words(cell))) is not None:
            return lift, ""
        parted = re.match(r"\s*(.+?)\s*(?:,|:|\s[-–—]\s|\()\s*(.+?)\s*\)?\s*$", cell)
        if parted and (lift := self.lifts.get(plain_words(parted[1]))) is not None:
            return lift, parted[2]
        words = cell.split()
        for at in range(1, len(words)):
            if (lift := self.lifts.get(plain_words(" ".join(words[at:])))) is not None:
                return lift, " ".join(words[:at])
            if (lift := self.followed.get(plain_words(" ".join(words[:at])))) is not None:
                return lift, " ".join(words[at:])
        return None
