"""Texts, numbers, masses and dates in words: the one formatter for screen and paper."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from decimal import ROUND_HALF_EVEN, Decimal

from coachdesk.domain.text import Text, Value
from coachdesk.domain.units import Mass, Percent, Unit
from coachdesk.wording.catalogue import Catalogue, UnknownText

_CENT = Decimal("0.01")
_DECIMAL = re.compile(r"-?\d+\.\d+(?:[+?]| ?(?:kg|lb))?")
"""A string that is a number: a reserve, or the name of a weight class such as "82.5"."""


@dataclass(frozen=True)
class Wording:
    """How one reader reads: the language, and the unit masses are shown in."""

    catalogue: Catalogue
    unit: Unit = Unit.KG

    def in_unit(self, unit: Unit) -> Wording:
        """The same language with masses in `unit`."""
        return replace(self, unit=unit)

    def say(self, said: Text) -> str:
        """A text in words."""
        return self._filled(said.code, dict(said.values))

    def __call__(self, code: str, **values: Value) -> str:
        """The text `code` with named values, in words."""
        return self._filled(code, values)

    def _filled(self, code: str, values: Mapping[str, Value]) -> str:
        count = values.get("count")
        words = self.catalogue.words(code, count if isinstance(count, int) else None)
        return words.format_map({name: self.show(value) for name, value in values.items()})

    def say_kept(self, said: Text, otherwise: str) -> str:
        """A text from a file of another version; `otherwise` where its code or values are gone."""
        try:
            return self.say(said)
        except (UnknownText, KeyError):
            return self(otherwise)

    def show(self, value: Value) -> str:
        """Any value as it is shown."""
        match value:
            case str():
                shown = self._localised(value) if _DECIMAL.fullmatch(value) else str(value)
            case Text():
                shown = self.say(value)
            case Mass():
                shown = self.mass(value)
            case Percent():
                number = self.number(value.value, value.digits)
                shown = self("number.percent", number=number)
            case datetime():
                shown = self.moment(value)
            case date():
                shown = self.day(value)
            case time():
                shown = self.hour(value)
            case tuple():
                shown = self("list.joint").join(self.show(part) for part in value)
            case float() | Decimal():
                exact = isinstance(value, Decimal)
                shown = self._localised(f"{value:f}") if exact else self.number(value)
            case _:
                shown = str(value)
        return shown

    def mass(self, mass: Mass, unit: Unit | None = None) -> str:
        """A mass with its unit, in `unit` or the reader's own, to a hundredth at most."""
        shown = unit or self.unit
        return self("number.mass", number=self.bare_mass(mass, shown), unit=shown.value)

    def bare_mass(self, mass: Mass, unit: Unit | None = None) -> str:
        """The number of a mass alone, for columns whose head names the unit."""
        number = mass.in_unit(unit or self.unit).quantize(_CENT, ROUND_HALF_EVEN)
        return self._localised(_trimmed(number))

    def column_mass(self, mass: Mass, unit: Unit) -> str:
        """As `bare_mass`, but what is converted to the hundredth: a column's decimals line up."""
        return self.bare_mass(mass, unit) if unit is mass.unit else self.number(mass.in_unit(unit))

    def both_units(self, mass: Mass) -> str:
        """A mass in the reader's unit and, in brackets, in the other one."""
        other = Unit.LB if self.unit is Unit.KG else Unit.KG
        return self("number.both", first=self.mass(mass), second=self.mass(mass, other))

    def number(self, number: float | Decimal, digits: int = 2) -> str:
        """A number with `digits` decimals, halves rounded to even on the exact value."""
        return self._localised(f"{number:.{digits}f}")

    def day(self, day: date) -> str:
        """A date with its weekday, as "Sat 12 Dec 2026"."""
        return self(
            "date.day",
            weekday=self(f"date.weekday.{day.weekday()}"),
            day=self.day_of_month(day),
            month=self(f"date.month.{day.month}"),
            year=str(day.year),
        )

    def short_day(self, day: date) -> str:
        """A date near at hand, as "12 Dec"."""
        month = self(f"date.month.{day.month}")
        return self("date.short", day=self.day_of_month(day), month=month)

    def day_of_month(self, day: date) -> str:
        """The number of a day in its month: the first is an ordinal in some languages."""
        return self("date.first") if day.day == 1 else str(day.day)

    def hour(self, hour: time | datetime) -> str:
        """A time of day, as "09:05"."""
        return f"{hour:%H:%M}"

    def moment(self, moment: datetime) -> str:
        """A date and a time of day."""
        return self("date.moment", day=self.day(moment.date()), hour=self.hour(moment))

    def _localised(self, number: str) -> str:
        return number.replace(".", self.catalogue.words("number.decimal_mark"))


def _trimmed(number: Decimal) -> str:
    """Without needless zeros: 82.5 and 100, but never 1E+2."""
    shown = f"{number:f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown
