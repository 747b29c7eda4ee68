"""Weight classes, and the class a bodyweight falls in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Sex
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass

_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightClass:
    """A weight class.

    `name` is what a result sheet calls it ("63", "67.5", "84+"); `limit` is the heaviest
    bodyweight in it, None in the class above all limits; `divisions` are the keys of the only
    divisions it is open to, None when it is open to all.
    """

    name: str
    limit: Mass | None
    divisions: frozenset[str] | None = None

    def is_open_to(self, divisions: Iterable[str]) -> bool:
        """Whether an athlete entered in all of `divisions` may lift in this class."""
        if self.divisions is None:
            return True
        entered = set(divisions)
        return bool(entered) and entered <= self.divisions

    def holds(self, bodyweight: Mass) -> bool:
        """Whether `bodyweight` is at or below the limit.

        The bodyweight is taken in the limit's own unit and rounded to a hundredth, half to even:
        on the limit is in. A limit printed in pounds beside a class in kilograms plays no part.
        """
        if self.limit is None:
            return True
        weighed = bodyweight.in_unit(self.limit.unit).quantize(_HUNDREDTH, ROUND_HALF_EVEN)
        return weighed <= self.limit.number


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassSet:
    """The classes of one sex over a span of dates, ascending.

    `valid_from` and `valid_until` are the first and last day, None when the rulebook is silent.
    """

    sex: Sex
    classes: tuple[WeightClass, ...]
    valid_from: date | None = None
    valid_until: date | None = None

    def is_valid(self, on: date) -> bool:
        """Whether the set holds on the day `on`."""
        return (self.valid_from is None or self.valid_from <= on) and (
            self.valid_until is None or on <= self.valid_until
        )

    def overlaps(self, other: ClassSet) -> bool:
        """Whether some day would find both sets valid for the same sex."""
        return (
            self.sex is other.sex
            and (self.valid_from or date.min) <= (other.valid_until or date.max)
            and (other.valid_from or date.min) <= (self.valid_until or date.max)
        )


def class_name(limit: Mass, above: bool = False) -> str:
    """What the class up to `limit`, or the one `above` it, is called: "67.5", "84+"."""
    return f"{limit.number.normalize():f}" + ("+" if above else "")


def class_for(bodyweight: Mass, classes: Sequence[WeightClass]) -> WeightClass:
    """The class of `bodyweight` among ascending `classes`: the smallest limit at or above it.

    Bodyweight counts to 0.01 kg, half to even: 75.00 kg is in the 75 kg class, 75.01 kg in the
    next (source: a national federation's class page, "57.01-63.00"). A rulebook with limits in
    pounds is judged to 0.01 lb in the same way. Raises InvalidInput for `bodyweight` when it is
    not above zero or heavier than the last class.
    """
    if bodyweight.number <= 0:
        raise InvalidInput("bodyweight", text("weight_class.no_bodyweight"))
    for weight_class in classes:
        if weight_class.holds(bodyweight):
            return weight_class
    raise InvalidInput("bodyweight", text("weight_class.above_all", bodyweight=bodyweight))
