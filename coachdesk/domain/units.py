"""Masses and percentages.

A mass is kept as integer grams beside the number and unit somebody entered, so that 405 lb reads
back as 405 lb. The pound is 0.45359237 kg exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

KG_PER_LB = Decimal("0.45359237")
_NUMBER = re.compile(r"[+-]?[0-9]{1,12}([.,][0-9]{1,12})?")
_ONE = Decimal(1)
_THOUSANDTH = Decimal("0.001")
_GRAMS_PER = {"kg": Decimal(1000), "lb": KG_PER_LB * 1000}


class Unit(StrEnum):
    """A unit of mass."""

    KG = "kg"
    LB = "lb"

    @property
    def grams(self) -> Decimal:
        """Grams in one of this unit, exactly."""
        return _GRAMS_PER[self]


@dataclass(frozen=True, slots=True, order=False)
class Mass:
    """A mass as it was entered, with its rounded grams.

    Two masses are equal when the same was entered; to compare weights, compare their grams.
    """

    number: Decimal
    unit: Unit

    @property
    def grams(self) -> int:
        """The mass in grams [g], rounded half to even."""
        return round(self.number * _GRAMS_PER[self.unit])

    @property
    def kg(self) -> float:
        """The mass in kilograms [kg], from the rounded grams."""
        return self.grams / 1000

    def in_unit(self, unit: Unit) -> Decimal:
        """The exact number in `unit`: what was entered, or a conversion of what was entered."""
        if unit is self.unit:
            return self.number
        return self.number * self.unit.grams / unit.grams


def kilograms(number: Decimal | int | float | str) -> Mass:
    """A mass of `number` kilograms; floats are taken to the gram."""
    return Mass(_decimal(number), Unit.KG)


def pounds(number: Decimal | int | float | str) -> Mass:
    """A mass of `number` pounds; floats are taken to a thousandth."""
    return Mass(_decimal(number), Unit.LB)


def from_grams(grams: int, unit: Unit = Unit.KG) -> Mass:
    """A computed mass: `grams` [g] shown in `unit`, to a hundredth for pounds."""
    if unit is Unit.KG:
        return Mass(_plain(Decimal(grams) / 1000), Unit.KG)
    return Mass(_plain((Decimal(grams) / Unit.LB.grams).quantize(Decimal("0.01"))), Unit.LB)


def parse_number(entered: str) -> Decimal:
    """Read a number typed with a decimal point or comma; raises ValueError when it is none.

    Blanks around it are ignored. Grouping marks are not guessed at: "1,000.5" is refused.
    """
    if not _NUMBER.fullmatch(entered.strip()):
        raise ValueError(entered)
    return Decimal(entered.strip().replace(",", "."))


def parse_mass(entered: str, default_unit: Unit) -> Mass:
    """Read a mass typed as "82.5", "82,5 kg" or "182 lb"; raises ValueError otherwise."""
    cleaned = entered.strip().lower()
    for ending, unit in (("kg", Unit.KG), ("lbs", Unit.LB), ("lb", Unit.LB)):
        if cleaned.endswith(ending):
            return Mass(parse_number(cleaned.removesuffix(ending)), unit)
    return Mass(parse_number(cleaned), default_unit)


@dataclass(frozen=True, slots=True)
class Percent:
    """A percentage, kept apart from plain numbers so that it is always shown as one.

    `value` is in per cent (0.7 means 0.7 %), `digits` is how many decimals are shown.
    """

    value: float
    digits: int = 1


def _decimal(number: Decimal | int | float | str) -> Decimal:
    if isinstance(number, float):
        return _plain(Decimal(number).quantize(_THOUSANDTH))
    return Decimal(number)


def _plain(number: Decimal) -> Decimal:
    """Drop trailing zeros without falling into exponent notation (100, not 1E+2)."""
    return number.quantize(_ONE) if number == number.to_integral() else number.normalize()
