"""What the hour, dress, another scale and the cycle's water do to readings and forecasts."""

from __future__ import annotations

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.athlete import Dress
from coachdesk.domain.bodyweight import CycleNote, trend
from coachdesk.domain.bodyweight.weighing import hour_shift
from coachdesk.domain.errors import InvalidInput
from tests.domain.bodyweights import daily, day, noisy, reading

EVENING = time(21, 0)


def _steady(days: int) -> list[float]:
    return noisy(days, start_kg=63.0, seed=7)


def test_an_afternoon_weigh_in_is_heavier_and_less_sure() -> None:
    found = trend(daily(_steady(30)), on=day(29))
    morning, afternoon = (found.forecast(day(40), at=at) for at in (time(8, 0), time(16, 0)))
    assert morning == found.forecast(day(40))
    assert 0.3 < afternoon.mean_kg - morning.mean_kg < 0.8
    assert afternoon.sd_kg > morning.sd_kg
    assert found.chance_at_most(63, day(40), at=time(16, 0)) < found.chance_at_most(63, day(40))


def test_who_weighs_in_the_evening_is_lighter_in_the_morning() -> None:
    evenings = [reading(number, kg, at=EVENING) for number, kg in enumerate(_steady(40))]
    found = trend(evenings, on=day(39))
    mornings = trend(daily(_steady(40)), on=day(39))
    assert found.level_kg == pytest.approx(mornings.level_kg - hour_shift(EVENING).kg, abs=0.1)
    evening = found.forecast(day(46), at=EVENING)
    assert evening.mean_kg == pytest.approx(mornings.forecast(day(46)).mean_kg, abs=0.1)


@given(st.times())
def test_the_day_adds_up_to_a_kilogram_and_no_more(at: time) -> None:
    """Half a kilogram to a kilogram from morning to evening (common practice)."""
    assert 0.0 <= hour_shift(at).kg <= 1.0


def test_half_past_midnight_is_the_evening_before() -> None:
    assert hour_shift(time(0, 30)) == hour_shift(EVENING)
    assert hour_shift(time(6, 0)).kg == 0.0


@pytest.mark.parametrize(("dress", "worn_kg"), [(Dress.LIGHT, 0.5), (Dress.DRESSED, 1.2)])
def test_clothes_are_taken_off(dress: Dress, worn_kg: float) -> None:
    """Clothes of men weigh 1.2 kg (recalled)."""
    past = daily(_steady(30))
    bare = trend([*past, reading(30, 63.0, dress=Dress.UNDRESSED)], on=day(30))
    worn = trend([*past, reading(30, 63.0 + worn_kg, dress=dress)], on=day(30))
    assert worn.level_kg == pytest.approx(bare.level_kg, abs=0.05)
    assert worn.level_error_kg > bare.level_error_kg
    assert not worn.odd


def test_an_odd_reading_says_what_the_scale_should_have_shown_as_dressed() -> None:
    past = daily(_steady(30))
    found = trend([*past, reading(30, 70.0, dress=Dress.DRESSED)], on=day(30))
    assert found.odd[0].expected_kg == pytest.approx(64.2, abs=0.3)


def test_another_scale_moves_the_level_less_and_widens_a_forecast() -> None:
    past = [reading(number, kg, scale="home") for number, kg in enumerate(_steady(30))]
    plain = trend(past, on=day(30))
    home, gym = (
        trend([*past, reading(30, 64.0, scale=scale)], on=day(30)) for scale in ("home", "gym")
    )
    assert plain.level_kg < gym.level_kg < home.level_kg
    there = plain.forecast(day(30), other_scale=True)
    assert there.mean_kg == plain.forecast(day(30)).mean_kg
    assert there.sd_kg > plain.forecast(day(30)).sd_kg


def test_days_of_water_do_not_read_as_trend_once_noted() -> None:
    """A kilogram more on the last five days, as the cycle holds it."""
    weights = _steady(40)
    swollen = [*weights[:35], *(kg + 1.0 for kg in weights[35:])]
    note = CycleNote(day(35), day(39))
    dry = trend(daily(weights), on=day(39))
    plain = trend(daily(swollen), on=day(39))
    noted = trend(daily(swollen), on=day(39), cycle_notes=[note])
    assert abs(noted.rate_kg - dry.rate_kg) < (plain.rate_kg - dry.rate_kg) / 3
    assert abs(noted.level_kg - dry.level_kg) < (plain.level_kg - dry.level_kg) / 3


def test_a_weigh_in_on_days_of_water_is_heavier() -> None:
    expected = CycleNote(day(50), day(54))
    overlapping = CycleNote(day(52), day(53))
    found = trend(daily(_steady(40)), on=day(39), cycle_notes=[expected, overlapping])
    before, within = found.forecast(day(49)), found.forecast(day(52))
    assert within.mean_kg - before.mean_kg == pytest.approx(0.45, abs=0.02)
    assert within.sd_kg > before.sd_kg


def test_a_note_that_cannot_be_is_named() -> None:
    for last in (day(9), day(24)):
        with pytest.raises(InvalidInput) as wrong:
            CycleNote(day(10), last)
        assert wrong.value.field == "last"
    assert CycleNote(day(10), day(23)).days == 14
