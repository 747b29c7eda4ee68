"""What the coach wants of a plan: what goes together and what does not."""

from __future__ import annotations

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass, kilograms
from coachdesk.domain.wishes import DayAim, WishesData, check_wishes


@pytest.mark.parametrize(
    ("aim", "weight"),
    [
        (None, None),
        (DayAim.BIGGEST_TOTAL, None),
        (DayAim.NUMBER, kilograms(600)),
        (DayAim.NINE_GOOD, None),
        (DayAim.NINE_GOOD, kilograms(550)),
        (DayAim.LIFT_NUMBER, kilograms(200)),
        (DayAim.LIFT_RECORD, kilograms(200)),
    ],
)
def test_aims_with_the_weight_and_the_lift_they_take(
    aim: DayAim | None, weight: Mass | None
) -> None:
    lift = Lift.SQUAT if aim is not None and aim.is_of_a_lift else None
    check_wishes(
        WishesData(
            entry_id=1,
            aim=aim,
            aim_lift=lift,
            aim_weight=weight,
            risk_cap=0.05,
            largest_jump=0.075,
        )
    )


@pytest.mark.parametrize(
    ("wishes", "field"),
    [
        (WishesData(entry_id=1, aim=DayAim.NUMBER), "aim_weight"),
        (WishesData(entry_id=1, aim=DayAim.NUMBER, aim_weight=kilograms(0)), "aim_weight"),
        (WishesData(entry_id=1, aim=DayAim.NUMBER, aim_weight=kilograms(2101)), "aim_weight"),
        (WishesData(entry_id=1, aim_weight=kilograms(600)), "aim_weight"),
        (
            WishesData(entry_id=1, aim=DayAim.BIGGEST_TOTAL, aim_weight=kilograms(600)),
            "aim_weight",
        ),
        (WishesData(entry_id=1, aim=DayAim.LIFT_RECORD, aim_weight=kilograms(200)), "aim_lift"),
        (WishesData(entry_id=1, aim=DayAim.LIFT_NUMBER, aim_lift=Lift.BENCH), "aim_weight"),
        (
            WishesData(
                entry_id=1,
                aim=DayAim.LIFT_NUMBER,
                aim_lift=Lift.BENCH,
                aim_weight=kilograms(701),
            ),
            "aim_weight",
        ),
        (WishesData(entry_id=1, aim_lift=Lift.SQUAT), "aim_lift"),
        (WishesData(entry_id=1, risk_cap=-0.01), "risk_cap"),
        (WishesData(entry_id=1, risk_cap=1.01), "risk_cap"),
        (WishesData(entry_id=1, largest_jump=0.0), "largest_jump"),
        (WishesData(entry_id=1, largest_jump=1.5), "largest_jump"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(wishes: WishesData, field: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        check_wishes(wishes)
    assert refused.value.field == field
