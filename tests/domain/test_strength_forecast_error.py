"""How far past forecasts were off: the prior, known truths, and the team's totals."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.strength.forecast import Forecast, Source
from coachdesk.domain.strength.forecast_error import (
    ForecastError,
    PastForecast,
    forecast_error,
)
from coachdesk.domain.strength.total import total_kg
from coachdesk.domain.strength.tried import Tried
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms

SD, MISSES = 0.04, 0.05


def _meets(count: int, *, off: float, spread: float, seed: int) -> list[PastForecast]:
    """Meets of one lift: the day's maximum lies about 200 kg shifted by `off`, `spread` wide; the
    coach opens at 92 %, goes up by 4.5 % and 3.5 % when it went, and repeats when not."""
    random = np.random.default_rng(seed)
    found = []
    for meet in range(count):
        strength = 200 * np.exp(off + spread * random.standard_normal())
        weight, attempts = 184.0, []
        for jump in (1.045, 1.035, 1.0):
            margin = (strength - weight) / strength / DEFAULT.strength_spread.value
            good = margin > random.standard_normal() and random.random() > MISSES
            attempts.append(Tried(weight, Outcome.GOOD if good else Outcome.NO_LIFT))
            weight *= jump if good else 1.0
        found.append(PastForecast(meet, 200.0, SD, MISSES, tuple(attempts)))
    return found


def test_before_any_meet_nothing_is_said_to_be_off() -> None:
    assert forecast_error([]) == ForecastError(meets=0, lifts=0)
    assert forecast_error([PastForecast(1, 200.0, SD, MISSES, ())]).meets == 0
    assert [each.code for each in forecast_error([]).told] == ["strength.error.none"]


def test_forecasts_that_were_too_high_are_seen_to_be() -> None:
    """Simulated: every day lies 4 % below its forecast."""
    found = forecast_error(_meets(60, off=-0.04, spread=SD, seed=1))
    assert found.off == pytest.approx(-0.04, abs=0.012)
    assert found.off_error < 0.012
    assert (found.meets, found.lifts) == (60, 60)


@pytest.mark.parametrize(("times", "low", "high"), [(0.6, 0.4, 0.85), (1.0, 0.8, 1.25)])
def test_bands_too_wide_are_told_from_bands_as_said(times: float, low: float, high: float) -> None:
    """Simulated: the days spread `times` as wide as the bands said."""
    found = forecast_error(_meets(150, off=0.0, spread=times * SD, seed=2))
    assert low < found.width < high
    assert found.narrow <= found.width <= found.wide


def test_bands_too_narrow_are_seen_as_such() -> None:
    """Simulated, twice as wide: openers are missed on strength that hardly ever should be."""
    found = forecast_error(_meets(150, off=0.0, spread=2 * SD, seed=3))
    assert found.width > 1.4


def test_a_few_meets_say_nothing_of_widths() -> None:
    codes = [each.code for each in forecast_error(_meets(4, off=0, spread=SD, seed=4)).told]
    assert codes == ["strength.error.off", "strength.error.few"]
    codes = [each.code for each in forecast_error(_meets(5, off=0, spread=SD, seed=4)).told]
    assert codes == ["strength.error.off", "strength.error.width"]


def _forecast(kg: float, error: float) -> Forecast:
    return Forecast(Source.SETS, kilograms(kg), error, DEFAULT.lift_noise.value, text("x"))


def test_a_total_is_as_wide_as_recorded_when_its_numbers_are_sure() -> None:
    """OpenPowerlifting snapshot 2024-08-23: 3.3 % a lift comes to 2.48 % of the total."""
    total, low, high = total_kg([_forecast(200, 0.0)] * 3)
    assert total == 600
    assert (high - low) / 2 / 1.2816 / total == pytest.approx(0.0248, rel=1e-3)


def test_what_numbers_may_be_off_adds_by_squares() -> None:
    """By hand: 4 % of each of three equal lifts, each apart from the others, is 4 % / sqrt(3)."""
    _, low, high = total_kg([_forecast(200, 0.04)] * 3)
    sd = sqrt(0.0248**2 + 0.04**2 / 3)
    assert (high - low) / 2 / 1.2816 / 600 == pytest.approx(sd, rel=1e-3)
