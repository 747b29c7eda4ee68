"""What a coach wants of a plan, and says of a lift, between records and form values."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit
from coachdesk.domain.wishes import DayAim, LiftBasis, LiftBasisData, WishesData
from coachdesk.services import typed
from coachdesk.ui.loading_words import typed_weight

Values = dict[str, str]


def wish_values(wishes: WishesData | None, unit: Unit) -> Values:
    """Wishes as their form begins."""
    found = wishes or WishesData(entry_id=0)
    return {
        "aim": found.aim or DayAim.BIGGEST_TOTAL,
        "aim_lift": found.aim_lift or "",
        "aim_weight": _mass(found.aim_weight, unit),
        "risk_cap": _per_cent(found.risk_cap),
        "largest_jump": _per_cent(found.largest_jump),
    }


def read_wishes(values: Mapping[str, str], unit: Unit) -> WishesData:
    """Wishes from their form; raises InvalidInput at the field that cannot be read."""
    aim = DayAim(values["aim"])
    lift = Lift(values["aim_lift"]) if values["aim_lift"] and aim.is_of_a_lift else None
    return WishesData(
        entry_id=0,
        aim=None if aim is DayAim.BIGGEST_TOTAL else aim,
        aim_lift=lift,
        aim_weight=None
        if aim is DayAim.BIGGEST_TOTAL
        else typed.mass("aim_weight", values["aim_weight"], unit),
        risk_cap=_fraction("risk_cap", values["risk_cap"]),
        largest_jump=_fraction("largest_jump", values["largest_jump"]),
    )


def lift_values(number: Mass | None, basis: LiftBasis | None, unit: Unit) -> Values:
    """What is said of a lift as its form begins."""
    source = None if basis is None else basis.source
    return {
        "number": _mass(number, unit),
        "low": _mass(None if basis is None else basis.low, unit),
        "high": _mass(None if basis is None else basis.high, unit),
        "source": source or "",
        "floor": _mass(None if basis is None else basis.floor, unit),
    }


def read_lift(
    values: Mapping[str, str], entry_id: int, lift: Lift, unit: Unit
) -> tuple[Mass | None, LiftBasisData]:
    """The coach's number and what is said besides; raises InvalidInput at the field that cannot be
    read."""
    return typed.mass("number", values["number"], unit), LiftBasisData(
        entry_id=entry_id,
        lift=lift,
        low=typed.mass("low", values["low"], unit),
        high=typed.mass("high", values["high"], unit),
        source=Source(values["source"]) if values["source"] else None,
        floor=typed.mass("floor", values["floor"], unit),
    )


def _mass(mass: Mass | None, unit: Unit) -> str:
    return "" if mass is None else typed_weight(mass, unit)


def _per_cent(fraction: float | None) -> str:
    return "" if fraction is None else f"{100 * fraction:.4g}"


def _fraction(field: str, words: str) -> float | None:
    """A typed percentage as a fraction; None when nothing was typed."""
    number = words.strip().removesuffix("%").strip().replace(",", ".")
    if not number:
        return None
    try:
        return float(Decimal(number) / 100)
    except ArithmeticError as error:
        raise InvalidInput(field, text("wishes.per_cent")) from error
