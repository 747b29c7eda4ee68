"""Scales of charts: steps people count in, in the reader's own unit."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.chart_scale import Fineness, day_scale, weight_scale
from coachdesk.wording.wording import Wording

NICE = ("1", "2", "5")


def test_a_scale_counts_in_whole_halves_or_fifths_of_the_readers_unit() -> None:
    """By hand: 65.1 to 68.9 in at most five ticks is 65, 66 ... 69; in pounds 143.5 to 151.9."""
    assert weight_scale(65.1, 68.9, Unit.KG, 5).ticks == tuple(map(kilograms, range(65, 70)))
    in_pounds = weight_scale(65.1, 68.9, Unit.LB, 6).ticks
    assert [tick.in_unit(Unit.LB) for tick in in_pounds] == [142, 144, 146, 148, 150, 152]
    assert in_pounds[0] == pounds(142)


@given(
    low=st.floats(25, 300),
    wide=st.floats(0, 120),
    unit=st.sampled_from(Unit),
    most=st.integers(3, 14),
)
def test_a_scale_holds_its_weights_in_even_steps(
    low: float, wide: float, unit: Unit, most: int
) -> None:
    scale = weight_scale(low, low + wide, unit, most)
    numbers = [tick.in_unit(unit) for tick in scale.ticks]
    steps = {after - before for before, after in pairwise(numbers)}
    assert 2 <= len(numbers) <= most
    assert scale.low_kg <= low + 0.001
    assert scale.high_kg >= low + wide - 0.001
    (step,) = steps
    assert f"{step:f}".replace(".", "").strip("0") in NICE
    assert all(number % step == 0 for number in numbers)


@pytest.mark.parametrize(
    ("days", "most", "fineness", "apart"),
    [
        (20, 5, Fineness.DAY, {7}),
        (91, 7, Fineness.DAY, {14}),
        (91, 4, Fineness.DAY, {28}),
        (365, 5, Fineness.MONTH, {90, 91, 92}),
        (365 * 4, 5, Fineness.YEAR, {365, 366}),
        (365 * 30, 5, Fineness.YEAR, {3652, 3653}),
    ],
)
def test_days_are_counted_by_weeks_months_or_years(
    days: int, most: int, fineness: Fineness, apart: set[int]
) -> None:
    first = date(2026, 8, 28)
    scale = day_scale(first, first + timedelta(days=days), most)
    ticks = scale.ticks
    assert scale.fineness is fineness
    assert {(b - a).days for a, b in pairwise(ticks)} <= apart
    assert 2 <= len(ticks) <= most + 1
    assert first <= ticks[0]
    assert ticks[-1] <= first + timedelta(days=days)


def test_ticks_are_named_as_finely_as_they_stand(wording: Wording) -> None:
    first = date(2026, 11, 2)
    assert day_scale(first, date(2026, 11, 20), 5).words(wording)[0] == (first, "2 Nov")
    by_month = day_scale(first, date(2027, 11, 2), 5).words(wording)
    assert by_month[0] == (date(2027, 1, 1), "Jan 2027")
    by_year = day_scale(first, date(2031, 11, 2), 5).words(wording)
    assert by_year[0] == (date(2028, 1, 1), "2028")


def test_a_few_days_without_a_monday_have_a_tick_too() -> None:
    tuesday = date(2026, 11, 3)
    assert day_scale(tuesday, tuesday + timedelta(days=2), 5).ticks == (tuesday,)
