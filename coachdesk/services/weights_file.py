"""What a file of bodyweight readings is read by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.athlete import Dress
from coachdesk.services.day_reading import Months


class Part(StrEnum):
    """What a column can hold."""

    NAME = "name"
    GIVEN = "given"
    FAMILY = "family"
    DAY = "day"
    WEIGHT = "weight"
    UNIT = "unit"
    HOUR = "hour"
    DRESS = "dress"
    SCALE = "scale"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Plain words: heads with the part they name, what was worn, and the months."""

    heads: Mapping[str, Part]
    dress: Mapping[str, Dress]
    months: Months
