"""The coach's own number: bands that cannot be are refused, and those given are widened."""

from __future__ import annotations

from math import hypot

import pytest

from coachdesk.domain.engine_parameters import DEFAULT, honest_sd
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.units import Mass, kilograms

DAY = DEFAULT.lift_noise.value


def _kg(*numbers: str | None) -> list[Mass | None]:
    return [None if number is None else kilograms(number) for number in numbers]


def test_without_a_band_the_number_is_as_unsure_as_the_engine_takes_coaches_to_be() -> None:
    forecast = OwnNumber(kilograms(200)).forecast(DAY)
    assert forecast.sd == pytest.approx(honest_sd(DAY))
    assert (forecast.source, forecast.expected) == (Source.OWN_NUMBER, kilograms(200))


def test_a_band_is_widened_by_half_and_the_days_noise_comes_on_top_once() -> None:
    """By hand: 195 to 205 about 200 is 2.5 % either way; eight in ten lie within 1.2816 standard
    deviations of a normal distribution (tables); times 1.5 that is 2.926 %."""
    forecast = OwnNumber(kilograms(200), kilograms(195), kilograms(205)).forecast(DAY)
    assert forecast.error == pytest.approx(0.02926, abs=5e-6)
    assert forecast.sd == pytest.approx(hypot(DAY, 0.02926), abs=5e-6)


def test_a_point_band_leaves_the_days_noise() -> None:
    sure = OwnNumber(kilograms(200), kilograms(200), kilograms(200))
    assert sure.forecast(DAY).sd == pytest.approx(DAY)


def test_the_band_of_a_forecast_holds_eight_days_in_ten() -> None:
    forecast = OwnNumber(kilograms(200)).forecast(DAY)
    reach = 1.2816 * 200 * forecast.sd
    assert forecast.low.kg == pytest.approx(200 - reach, abs=0.05)
    assert forecast.high.kg == pytest.approx(200 + reach, abs=0.05)


def test_a_band_wider_than_a_plan_can_rest_on_is_refused() -> None:
    """By hand: a fifth at most (`WIDEST_SD`), 3.3 % of it the day's, leaves 19.73 % for the number;
    times 2 x 1.2816 / 1.5 that is 33.7 % from end to end, 57.3 kg of 170."""
    OwnNumber(kilograms(170), kilograms("141.4"), kilograms("198.6")).check_width(DAY)
    with pytest.raises(InvalidInput) as refused:
        OwnNumber(kilograms(170), kilograms("141.3"), kilograms("198.8")).check_width(DAY)
    assert refused.value.field == "high"
    assert refused.value.text.values == (("widest", kilograms("57.3")),)


@pytest.mark.parametrize(
    ("number", "low", "high", "field", "code"),
    [
        ("0", None, None, "number", "check.lifted"),
        ("-5", None, None, "number", "check.lifted"),
        ("200", "-1", "210", "low", "check.lifted"),
        ("200", "190", "9999", "high", "check.lifted"),
        ("200", "205", "190", "low", "strength.low_above_high"),
        ("200", "201", "210", "low", "strength.low"),
        ("200", "190", "199", "high", "strength.high"),
        ("200", "190", None, "high", "strength.other_end"),
        ("200", None, "210", "low", "strength.other_end"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    number: str, low: str | None, high: str | None, field: str, code: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        OwnNumber(kilograms(number), *_kg(low, high))
    assert (refused.value.field, refused.value.text.code) == (field, code)
