"""What sets come to: by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachdesk.domain.blocks.load import Portion, load_of, loads, percent_of, week_of
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import kilograms


def portion(
    reps: int, kg: float, percent: float, week: int = 1, lift: Lift = Lift.SQUAT
) -> Portion:
    return Portion(week, lift, reps, kilograms(kg), percent)


def test_volume_intensity_and_heavy_lifts() -> None:
    """5x5 at 140 of 200 kg, 2x1 at 180, 1x1 at 185: 25 reps at 70, two at 90, one at 92.5 %."""
    load = load_of([portion(25, 140, 70), portion(2, 180, 90), portion(1, 185, 92.5)])
    assert load.reps == 28
    assert load.volume_kg == pytest.approx(25 * 140 + 2 * 180 + 185)
    assert load.intensity == pytest.approx((25 * 70 + 2 * 90 + 92.5) / 28)
    assert load.heavy == 3


def test_sets_without_a_weight_count_as_repetitions_only() -> None:
    load = load_of([Portion(1, Lift.BENCH, 12, None, None), portion(3, 100, 80)])
    assert (load.reps, load.open_reps) == (15, 12)
    assert load.volume_kg == 300
    assert load.intensity == 80


def test_weeks_and_lifts_apart() -> None:
    found = loads(
        [portion(5, 100, 70), portion(5, 100, 70, week=2), portion(3, 60, 75, 1, Lift.BENCH)]
    )
    assert {key: load.reps for key, load in found.items()} == {
        (1, Lift.SQUAT): 5,
        (2, Lift.SQUAT): 5,
        (1, Lift.BENCH): 3,
    }


def test_per_cent_needs_a_maximum() -> None:
    maxima = {Lift.SQUAT: kilograms(200)}
    assert percent_of(kilograms(180), Lift.SQUAT, maxima) == 90
    assert percent_of(kilograms(180), Lift.BENCH, maxima) is None
    assert percent_of(None, Lift.SQUAT, maxima) is None


def test_days_outside_a_block_count_to_its_nearest_week() -> None:
    start = date(2026, 11, 2)
    weeks = [week_of(start, 4, start + timedelta(days=days)) for days in (-3, 0, 6, 7, 27, 40)]
    assert weeks == [1, 1, 1, 2, 4, 4]
