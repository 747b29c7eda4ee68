"""The bodyweight trend as a coach would notice it: levels, rates, bands, odd readings."""

from __future__ import annotations

import csv
import subprocess
import sys
from datetime import timedelta
from math import exp, log, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coachdesk.domain.bodyweight import trend
from coachdesk.domain.bodyweight.parameters import HALF_LIFE, LEVEL_SPREAD, NOISE, RATE_SPREAD
from coachdesk.domain.errors import InvalidInput
from tests.domain.bodyweights import daily, day, noisy, reading

BETWEEN_MEETS = Path(__file__).parents[1] / "data" / "bodyweight_between_meets.csv"
GAP_DAYS = (1, 14, 112)

ordinary = st.lists(st.floats(-0.9, 0.9), min_size=2, max_size=40).map(
    lambda offs: [80.0 + round(off, 1) for off in offs]
)


def test_half_a_kilogram_a_week_is_read_as_that() -> None:
    """Four weeks of daily readings tell a rate to 0.06 kg a week and better with what is usual
    (standard error of a straight line at 0.37 kg; computed)."""
    found = trend(daily(noisy(56, a_week=-0.5)), on=day(55))
    assert found.rate_kg == pytest.approx(-0.5, abs=2 * found.rate_error_kg)
    assert found.rate_error_kg < 0.2
    assert found.level_kg == pytest.approx(82 - 0.5 / 7 * 55, abs=0.4)


def test_a_trend_fades_by_half_in_four_weeks() -> None:
    """By hand: what is still to come after four weeks is half of all that is to come."""
    found = trend(daily(noisy(56, a_week=-0.5)), on=day(55))
    four, all_of_it = (found.forecast(day(55 + days)).mean_kg for days in (28, 700))
    assert (four - found.level_kg) / (all_of_it - found.level_kg) == pytest.approx(0.5, abs=1e-6)


def test_one_reading_gives_a_level_and_no_rate() -> None:
    found = trend([reading(0, 74.3)], on=day(0))
    assert found.level_kg == pytest.approx(74.3)
    assert found.level_error_kg == pytest.approx(NOISE.value, abs=1e-3)
    assert found.rate_kg == 0.0
    assert found.rate_error_kg == pytest.approx(RATE_SPREAD.value)
    assert found.noise_kg == pytest.approx(NOISE.value)
    assert not found.odd


def test_the_noise_is_learned_and_a_quiet_scale_gives_a_narrower_band() -> None:
    quiet, usual, wild = (trend(daily(noisy(90, sd=sd)), on=day(89)) for sd in (0.15, 0.37, 0.8))
    assert quiet.noise_kg == pytest.approx(0.15, abs=0.05)
    assert usual.noise_kg == pytest.approx(0.37, abs=0.07)
    assert wild.noise_kg == pytest.approx(0.8, abs=0.12)
    widths = [found.forecast(day(96)).sd_kg for found in (quiet, usual, wild)]
    assert widths == sorted(widths)


def test_equal_readings_leave_some_noise() -> None:
    """A household scale shows tenths."""
    assert trend(daily([80.0] * 60), on=day(59)).noise_kg >= 0.1


def test_a_gap_of_months_is_taken_as_one() -> None:
    """After it little is known, and the first reading says where the athlete stands now."""
    past = daily(noisy(30))
    back = reading(30 + 150, 86.0)
    before = trend(past, on=back.on)
    found = trend([*past, back], on=back.on)
    assert before.level_error_kg > 2
    assert found.level_kg == pytest.approx(86.0, abs=0.3)
    assert not found.odd
    assert len(found.states) == 181


def test_readings_of_one_day_share_the_day() -> None:
    """A second reading tells something, but not what a second day would."""
    one, two, next_day = (
        trend([*daily([80.0, 80.2]), *more], on=day(2)).level_error_kg
        for more in ([], [reading(1, 80.2)], [reading(2, 80.2)])
    )
    assert next_day < two < one


def test_readings_after_the_day_are_left_out() -> None:
    weights = noisy(40)
    assert trend(daily(weights), on=day(29)) == trend(daily(weights[:30]), on=day(29))


@given(ordinary, st.floats(-30, 60))
def test_an_added_constant_shifts_everything_by_it(weights: list[float], more: float) -> None:
    more = round(more, 1)
    on = day(len(weights) + 3)
    plain, shifted = (trend(daily([kg + add for kg in weights]), on=on) for add in (0.0, more))
    assert shifted.noise_kg == pytest.approx(plain.noise_kg)
    before, after = np.array(plain.states), np.array(shifted.states)
    before[:, 0] += more
    assert after == pytest.approx(before, abs=1e-8)
    at = on + timedelta(days=30)
    assert shifted.forecast(at).low_kg == pytest.approx(plain.forecast(at).low_kg + more)
    assert shifted.chance_at_most(79 + more, at) == pytest.approx(plain.chance_at_most(79, at))


@given(st.data())
def test_the_order_of_readings_does_not_matter(data: st.DataObject) -> None:
    days = data.draw(st.lists(st.integers(0, 30), min_size=1, max_size=20))
    readings = [
        reading(
            number, data.draw(st.integers(780, 830)) / 10, scale=data.draw(st.sampled_from("ab"))
        )
        for number in days
    ]
    mixed = data.draw(st.permutations(readings))
    assert trend(readings, on=day(30)) == trend(mixed, on=day(30))


@given(ordinary, st.data())
@settings(max_examples=50)
def test_a_further_ordinary_reading_never_widens_the_band(
    weights: list[float], data: st.DataObject
) -> None:
    """Ordinary: one that shows what was expected. One far off may rightly teach more noise."""
    past = daily(weights)
    on = day(len(weights) + 10)
    before = trend(past, on=on)
    at = data.draw(st.integers(0, len(weights) + 10))
    expected = before.states[at].level
    after = trend([*past, reading(at, expected)], on=on)
    for days in GAP_DAYS:
        then = on + timedelta(days=days)
        assert after.forecast(then).sd_kg <= before.forecast(then).sd_kg + 1e-3 * NOISE.value


def test_the_band_widens_with_the_days_ahead_and_without_readings() -> None:
    weights = noisy(40)
    found = trend(daily(weights), on=day(39))
    widths = [found.forecast(day(39 + days)).sd_kg for days in (0, 7, 56, 112, 365)]
    assert widths == sorted(widths)
    later = trend(daily(weights), on=day(60))
    assert later.forecast(day(70)).sd_kg == pytest.approx(found.forecast(day(70)).sd_kg)


def test_an_odd_reading_moves_the_level_less_than_an_ordinary_one() -> None:
    past = daily(noisy(40))
    plain, ordinary_one, odd_one, typed_wrong = (
        trend([*past, *more], on=day(40))
        for more in ([], *([reading(40, 82 + off)] for off in (0.5, 3.5, 46.0)))
    )
    moved = [abs(found.level_kg - plain.level_kg) for found in (ordinary_one, odd_one, typed_wrong)]
    assert moved == sorted(moved, reverse=True)
    assert not ordinary_one.odd
    (odd,) = odd_one.odd
    assert odd.reading.weight.kg == 85.5
    assert odd.expected_kg == pytest.approx(82.0, abs=0.5)
    assert 0 < odd.weight < 0.1


def test_an_odd_first_reading_is_found_by_what_follows() -> None:
    """A first reading of 38 for 83 would else drag the level for weeks."""
    weights = noisy(30)
    found = trend(daily([38.0, *weights]), on=day(30))
    assert [odd.reading.weight.kg for odd in found.odd] == [38.0]
    usual = trend(daily([weights[0], *weights]), on=day(30))
    assert found.level_kg == pytest.approx(usual.level_kg, abs=0.05)
    assert found.noise_kg == pytest.approx(usual.noise_kg, abs=0.03)


def test_an_odd_reading_does_not_make_its_neighbours_odd() -> None:
    weights = noisy(60)
    weights[20] = 28.0
    weights[40] = 182.0
    odd = trend(daily(weights), on=day(59)).odd
    assert [found.reading.weight.kg for found in odd] == [28.0, 182.0]


def test_a_new_level_that_stays_is_believed_once_it_stays() -> None:
    """Two kilograms overnight are odd at first; after three weeks they are where the athlete is."""
    weights = noisy(40)
    up = [kg + 2.0 for kg in noisy(21, seed=2)]
    first = trend(daily([*weights, up[0]]), on=day(40))
    assert len(first.odd) == 1
    settled = trend(daily([*weights, *up]), on=day(60))
    assert settled.level_kg == pytest.approx(84.0, abs=0.4)


def test_two_readings_that_contradict_each_other_are_not_both_odd() -> None:
    found = trend(daily([80.0, 95.0]), on=day(1))
    assert len(found.odd) == 1


def test_the_chance_is_the_share_of_the_forecast_below_the_limit() -> None:
    found = trend(daily(noisy(40)), on=day(39))
    then = day(70)
    band = found.forecast(then)
    assert found.chance_at_most(band.mean_kg, then) == pytest.approx(0.5)
    assert found.chance_at_most(band.low_kg, then) == pytest.approx(0.1)
    assert found.chance_at_most(band.high_kg, then) == pytest.approx(0.9)


def test_what_is_usual_agrees_with_what_bodyweights_do_between_meets() -> None:
    """Recorded: the spread of changes between neighbouring meets, beyond that of the weigh-ins
    themselves (the shortest gaps). The prior may be wider, up to a quarter, never much narrower;
    over more than a year the classes hold lifters back, and no forecast is wanted."""
    with BETWEEN_MEETS.open(encoding="utf-8") as lines:
        rows = [(float(row["mean_days"]), float(row["spread_kg"])) for row in csv.DictReader(lines)]
    rows = [(days, spread) for days, spread in rows if days <= 366]
    fades = HALF_LIFE.value / log(2)
    slope = RATE_SPREAD.value / 7

    def wanders(days: float) -> float:
        return LEVEL_SPREAD.value**2 * days + 2 * (slope * fades) ** 2 * (
            days / fades - 1 + exp(-days / fades)
        )

    shortest = sum(spread**2 - wanders(days) for days, spread in rows[:5]) / 5
    for days, spread in rows[5:]:
        assert 0.9 <= sqrt(shortest + wanders(days)) / spread <= 1.25, days


def test_numpy_is_not_needed() -> None:
    """A trend is wanted on screens that are there before numpy is."""
    code = "import sys, coachdesk.domain.bodyweight; sys.exit('numpy' in sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True)


def test_bad_input_is_named() -> None:
    found = trend([reading(0, 80)], on=day(5))
    with pytest.raises(InvalidInput) as nothing:
        trend([reading(9, 80)], on=day(5))
    with pytest.raises(InvalidInput) as two:
        trend([reading(0, 80), reading(1, 60, athlete_id=2)], on=day(5))
    with pytest.raises(InvalidInput) as heavy:
        trend([reading(0, 80), reading(1, 800)], on=day(5))
    with pytest.raises(InvalidInput) as past:
        found.forecast(day(4))
    with pytest.raises(InvalidInput) as far:
        found.chance_at_most(83, day(900))
    fields = [error.value.field for error in (nothing, two, heavy, past, far)]
    assert fields == ["readings", "readings", "readings", "day", "day"]
    for limit in (0.0, -83.0, float("nan"), float("inf")):
        with pytest.raises(InvalidInput, match=r"trend\.limit") as wrong:
            found.chance_at_most(limit, day(9))
        assert wrong.value.field == "limit_kg"
