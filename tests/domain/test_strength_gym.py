"""What training days tell: which set of a day counts, how much, and what the average may be off."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from itertools import pairwise
from math import exp, log, sqrt

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import Equation, one_rep_max
from coachdesk.domain.strength.gym import GymLevel, dynamics, gym_level, shares
from coachdesk.domain.strength.observations import Observation, lift_days
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass, kilograms

TODAY = date(2026, 11, 25)
NOISE = 0.033


def squats(
    weight: Mass,
    reps: int,
    *,
    days_ago: int = 7,
    rir: float | None = None,
    variation: str = "",
    judged: bool = False,
    result: Result | None = None,
) -> LoggedSetData:
    return LoggedSetData(
        athlete_id=1,
        on=TODAY - timedelta(days=days_ago),
        lift=Lift.SQUAT,
        weight=weight,
        reps=reps,
        rir=rir,
        variation=variation,
        judged=judged,
        result=result,
    )


def seen(*sets: LoggedSetData, judged: bool = False) -> tuple[Observation, ...]:
    return lift_days(sets, Lift.SQUAT).between(
        TODAY - timedelta(weeks=26), TODAY + timedelta(days=1), judged=judged
    )


def level(*sets: LoggedSetData, for_day: date = TODAY) -> GymLevel:
    return gym_level(seen(*sets), noise=NOISE, forecast_for=for_day)


def test_a_set_by_brzycki_with_its_reserve() -> None:
    """Brzycki 1993: 36 w / (37 - r); 100 kg x 5 is 112.50 (check value). Five with none left, or
    three with two left, is the same."""
    for reps, rir in ((5, 0.0), (3, 2.0)):
        (found,) = seen(squats(kilograms(100), reps, rir=rir))
        assert found.maximum_kg == pytest.approx(112.5)


def test_a_single_with_nothing_left_is_the_maximum_itself_and_nothing_off() -> None:
    (found,) = seen(squats(kilograms(180), 1, rir=0.0))
    assert (found.maximum_kg, found.error) == (180.0, 0.0)


def test_the_further_from_a_single_the_less_a_set_tells() -> None:
    errors = [
        found.error
        for reps in range(1, 11)
        for found in seen(squats(kilograms(100), reps, rir=0.0))
    ]
    assert all(later > sooner - 1e-5 for sooner, later in pairwise(errors))
    assert (errors[0], round(errors[-1], 3)) == (0.0, 0.059)


def test_the_equations_lie_apart_as_their_check_values_say() -> None:
    """Five repetitions with 100 kg (check values, computed from the published formulas): Epley
    116.67, Brzycki 112.50, Lombardi 117.46, Mayhew 119.01, Wathan 116.58, O'Conner 112.50, Lander
    113.71. Each is measured from its own single on: Epley's 116.67 from its 103.33, and so on."""
    maxima = [116.67, 112.50, 117.46, 119.01, 116.58, 112.50, 113.71]
    for equation, maximum in zip(Equation, maxima, strict=True):
        assert one_rep_max(equation, 100, 5) == pytest.approx(maximum, abs=0.01)
    assert found_error(5) == pytest.approx(_apart(5))
    assert found_error(5) == pytest.approx(0.0255, abs=5e-5)


def found_error(reps: int) -> float:
    (found,) = seen(squats(kilograms(100), reps, rir=0.0))
    return found.error


def test_a_guess_at_the_reserve_is_off_by_a_repetition_and_far_ones_by_two() -> None:
    """Hackett 2017: about one repetition when up to five are left, more than two beyond; one is
    1 / (37 - repetitions) of the maximum by Brzycki."""
    single = {
        rir: found.error
        for rir in (0.5, 1.0, 6.0)
        for found in seen(squats(kilograms(100), 1, rir=rir))
    }
    assert single[1.0] == pytest.approx(sqrt((1 / 35) ** 2 + _apart(2) ** 2), rel=1e-6)
    assert single[0.5] < single[1.0]
    assert single[6.0] == pytest.approx(sqrt((2 / 30) ** 2 + _apart(7) ** 2), rel=1e-6)


def _apart(reps: int) -> float:
    """The published formulas [recalled], each over what it makes of one repetition."""
    formulas: list[Callable[[float], float]] = [
        lambda r: 1 + r / 30,
        lambda r: 36 / (37 - r),
        lambda r: r**0.1,
        lambda r: 100 / (52.2 + 41.9 * exp(-0.055 * r)),
        lambda r: 100 / (48.8 + 53.8 * exp(-0.075 * r)),
        lambda r: 1 + 0.025 * r,
        lambda r: 100 / (101.3 - 2.67123 * r),
    ]
    own = 36 / (37 - reps)
    return sqrt(sum((each(reps) / each(1) / own - 1) ** 2 for each in formulas) / 6)


def test_a_day_counts_once_by_its_best_set() -> None:
    found = seen(
        squats(kilograms(150), 5, rir=1.0),
        squats(kilograms(120), 5, rir=2.0),
        squats(kilograms(155), 3, rir=1.0, days_ago=9),
    )
    assert [(each.on.day, each.weight.kg) for each in found] == [(18, 150), (16, 155)]


def test_what_tells_nothing_is_left_out() -> None:
    assert (
        seen(
            squats(kilograms(200), 3, days_ago=183),
            squats(kilograms(200), 3, days_ago=-1),
            squats(kilograms(200), 3, variation="box squat"),
            squats(kilograms(150), 11),
            squats(kilograms(150), 0),
            squats(kilograms(190), 1, result=Result.NO_LIFT),
            squats(kilograms(190), 1, judged=True, result=Result.GOOD),
        )
        == ()
    )


def test_a_missed_judged_single_tells_no_maximum() -> None:
    good = squats(kilograms(185), 1, judged=True, result=Result.GOOD)
    missed = squats(kilograms(195), 1, judged=True, result=Result.NO_LIFT)
    assert [each.maximum_kg for each in seen(good, missed, judged=True)] == [185.0]


def test_easy_days_without_a_reserve_noted_do_not_pull_the_level_down() -> None:
    """A weight moved with nothing noted about the reserve tells the least that was there."""
    heavy = squats(kilograms(180), 2, rir=0.0, days_ago=3)
    easy = [squats(kilograms(120), 2, days_ago=day) for day in (1, 5, 8)]
    assert level(heavy, *easy).maximum_kg == pytest.approx(level(heavy).maximum_kg)
    assert level(*easy).maximum_kg == pytest.approx(120 * 36 / 35)


def test_of_weeks_without_a_reserve_the_heaviest_of_any_six_counts() -> None:
    """Weights that rise through a block say how strong somebody was at its end alone; a block half
    a year ago says how strong then."""
    rising = [squats(kilograms(150 - ago), 3, days_ago=ago) for ago in range(0, 42, 7)]
    before = [squats(kilograms(145 - ago / 2), 3, days_ago=100 + ago) for ago in range(0, 42, 7)]
    found = seen(*rising, *before)
    assert [each.weight.kg for each in found] == [150, 145]


def test_the_latest_days_count_most_and_months_ago_next_to_nothing() -> None:
    days = [squats(kilograms(100), 1, rir=0.0, days_ago=day) for day in range(0, 182, 7)]
    counted = shares(seen(*days), noise=NOISE, forecast_for=TODAY)
    assert sum(counted) == pytest.approx(1.0)
    assert list(counted[:10]) == sorted(counted[:10], reverse=True)
    assert sum(counted[:6]) > 0.6
    assert abs(counted[-1]) < 0.02


def test_the_level_is_what_the_shares_make_of_the_days() -> None:
    """In logarithms: the smoothing is linear, so that each day's part of it can be named."""
    kg = (180.0, 172.5, 187.5, 175.0, 190.0)
    days = seen(
        *(squats(kilograms(each), 1, rir=0.0, days_ago=9 * at) for at, each in enumerate(kg))
    )
    later = TODAY + timedelta(days=30)
    counted = shares(days, noise=NOISE, forecast_for=later)
    told = sum(share * log(each.maximum_kg) for share, each in zip(counted, days, strict=True))
    found = gym_level(days, noise=NOISE, forecast_for=later)
    assert log(found.maximum_kg) == pytest.approx(told, rel=1e-9)


def test_the_level_is_surer_with_more_days_and_less_sure_of_a_day_far_off() -> None:
    """By hand: one day comes to its noise, and n equal ones on one footing to noise / sqrt(n);
    drift adds 0.25 % times the root of the days in the long run, and less while a trend lasts:
    half of its variance counts 1 - (1 - exp(-t)) / t of itself, t the days over 60.6 (the half-life
    over log 2)."""
    one = level(squats(kilograms(180), 1, rir=0.0, days_ago=0))
    assert one.error == pytest.approx(NOISE)
    for days, part in ((42, 0.80), (730, 0.98)):
        later = level(
            squats(kilograms(180), 1, rir=0.0, days_ago=0), for_day=TODAY + timedelta(days=days)
        )
        drift = sqrt(later.error**2 - NOISE**2)
        assert drift == pytest.approx(part * 0.0025 * sqrt(days), rel=0.02)
    many = level(*(squats(kilograms(180), 1, rir=0.0, days_ago=day) for day in range(4)))
    assert many.error == pytest.approx(NOISE / 2, rel=0.05)


def test_a_way_up_is_carried_on_and_fades() -> None:
    """One and a half per cent a month for half a year: the trend goes on, by less than the line
    would, and is believed sooner of somebody before a second meet."""
    days = seen(
        *(
            squats(kilograms(f"{200 * 0.9995**ago:.1f}"), 1, rir=0.0, days_ago=ago)
            for ago in range(0, 182, 4)
        )
    )
    in_four_weeks, gains = TODAY + timedelta(days=28), []
    for meets_behind in (4, 0):
        now, ahead = (
            gym_level(days, noise=NOISE, forecast_for=day, going_on=dynamics(meets_behind))
            for day in (TODAY, in_four_weeks)
        )
        gains.append(ahead.maximum_kg / now.maximum_kg - 1)
    assert 0.002 < gains[0] < gains[1] < 0.014


def test_a_judged_single_stands_for_its_day_where_it_tells_as_much() -> None:
    single = squats(kilograms(180), 1, rir=0.0, judged=True, result=Result.GOOD)
    five = squats(kilograms(165), 5, rir=0.0)
    easy = squats(kilograms(150), 1, rir=5.0, judged=True, result=Result.GOOD, days_ago=9)
    heavy = squats(kilograms(170), 3, rir=0.0, days_ago=9)
    found = lift_days([single, five, easy, heavy], Lift.SQUAT).one_a_day()
    assert [(each.weight.kg, each.judged) for each in found] == [(180, True), (170, False)]


def test_a_level_needs_sets_and_a_day_after_them() -> None:
    with pytest.raises(InvalidInput) as refused:
        level()
    assert refused.value.field == "sets"
    with pytest.raises(InvalidInput) as refused:
        level(squats(kilograms(180), 1, days_ago=0), for_day=TODAY - timedelta(days=1))
    assert refused.value.field == "forecast_for"
