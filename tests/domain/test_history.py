"""Totals from attempts, by the rules: best good lift of each lift, three misses and no total."""

from __future__ import annotations

from coachdesk.domain.history import best_grams, bombed_lift, total_grams
from coachdesk.domain.lifting import Event, Lift, Result
from coachdesk.domain.meet import AttemptData
from coachdesk.domain.units import kilograms


def _lift(lift: Lift, *weights: float, start: int = 1) -> list[AttemptData]:
    """Negative for no lift, as result files write it."""
    return [
        AttemptData(
            entry_id=1,
            lift=lift,
            number=number,
            weight=kilograms(abs(weight)),
            result=Result.GOOD if weight > 0 else Result.NO_LIFT,
        )
        for number, weight in enumerate(weights, start)
    ]


DAY = [
    *_lift(Lift.SQUAT, 110, 115, 120),
    *_lift(Lift.BENCH, 62.5, 67.5, -70),
    *_lift(Lift.DEADLIFT, 135, 142.5, 150),
]


def test_the_total_is_the_sum_of_the_best_good_lifts() -> None:
    """A recorded day of open results data (public domain): 120 + 67.5 + 150 = 337.5 kg."""
    assert total_grams(DAY, Event.THREE_LIFT) == 337_500
    assert total_grams(DAY, Event.BENCH_ONLY) == 67_500
    assert bombed_lift(DAY, Event.THREE_LIFT) is None


def test_three_misses_in_a_lift_leave_no_total() -> None:
    """Source: bomb-out rule of WPC and IPL 2019."""
    day = [*DAY[:3], *_lift(Lift.BENCH, -130, -130, -130), *DAY[6:]]
    assert total_grams(day, Event.THREE_LIFT) is None
    assert bombed_lift(day, Event.THREE_LIFT) is Lift.BENCH
    assert best_grams(day, Lift.BENCH) is None


def test_two_misses_and_a_good_third_are_no_bomb_out() -> None:
    day = _lift(Lift.BENCH, -130, -130, 130)
    assert bombed_lift(day, Event.BENCH_ONLY) is None
    assert total_grams(day, Event.BENCH_ONLY) == 130_000


def test_a_fourth_attempt_never_counts() -> None:
    """Source: record-only fourth attempts of WDFPF, WPC and IPL."""
    day = [*_lift(Lift.BENCH, 120, 125, 130), *_lift(Lift.BENCH, 140, start=4)]
    assert total_grams(day, Event.BENCH_ONLY) == 130_000
