"""What a file of athletes is read by, and what a line of it brings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coachdesk.domain.athlete import LossBar
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.units import Unit
from coachdesk.services.day_reading import Months


class Part(StrEnum):
    """What a column can hold."""

    NAME = "name"
    GIVEN = "given"
    FAMILY = "family"
    SEX = "sex"
    BORN = "born"
    UNIT = "unit"
    EQUIPMENT = "equipment"
    HEIGHT = "height"
    WEIGHT = "weight"
    DAY = "day"
    MEETS_BEFORE = "meets_before"
    MEMBER_NUMBER = "member_number"
    MEMBER_UNTIL = "member_until"
    PHONE = "phone"
    EMAIL = "email"
    EMERGENCY = "emergency"
    HEALTH = "health"
    LOSS_BAR = "loss_bar"
    NOTE = "note"


DAYS = (Part.BORN, Part.MEMBER_UNTIL, Part.DAY)
"""The columns that hold days."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Plain words: heads with the part they name, and what cells say. `unit` is that of athletes
    whose own is not said."""

    heads: Mapping[str, Part]
    sexes: Mapping[str, Sex]
    equipment: Mapping[str, Equipment]
    loss_bars: Mapping[str, LossBar]
    months: Months
    unit: Unit
