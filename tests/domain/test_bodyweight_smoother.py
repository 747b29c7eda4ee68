"""The trend's filter and smoother against statsmodels' state space smoother, an outside library."""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.bodyweight import Trend, trend
from coachdesk.domain.bodyweight.outlook import USUAL
from coachdesk.domain.bodyweight.parameters import HALF_LIFE, LEVEL_SPREAD, RATE_SPREAD
from coachdesk.domain.trend_filter import UNKNOWN_LEVEL, ahead, smoothed
from tests.domain.bodyweights import daily, day


def _weights(seed: int, days: int) -> list[float]:
    """A lifter who comes down by half a kilogram a week, on a scale that shows tenths."""
    random = np.random.default_rng(seed)
    return [
        round(kg, 1)
        for kg in 84.0 - 0.5 / 7 * np.arange(days) + 0.35 * random.standard_normal(days)
    ]


def _statsmodels(found: Trend, weights: list[float]) -> tuple[np.ndarray, np.ndarray]:
    """Smoothed states [day, level and slope] and covariances by statsmodels, with our damping in
    its transition matrix, our variances, and the same known start."""
    from statsmodels.tsa.statespace.kalman_smoother import KalmanSmoother

    damping = 0.5 ** (1 / HALF_LIFE.value)
    slopes = (RATE_SPREAD.value / 7) ** 2
    model = KalmanSmoother(k_endog=1, k_states=2, k_posdef=2)
    model.bind(np.array(weights))
    model["design"] = np.array([[1.0, 0.0]])
    model["transition"] = np.array([[1.0, 1.0], [0.0, damping]])
    model["selection"] = np.eye(2)
    model["obs_cov"] = np.array([[found.noise_kg**2]])
    model["state_cov"] = np.diag([LEVEL_SPREAD.value**2, (1 - damping**2) * slopes])
    start = np.array([weights[0], 0.0])
    model.initialize_known(start, np.diag([UNKNOWN_LEVEL, slopes]))
    smoothed = model.smooth()
    return smoothed.smoothed_state.T, smoothed.smoothed_state_cov.transpose(2, 0, 1)


def _assert_same(found: Trend, weights: list[float]) -> None:
    states, covariances = _statsmodels(found, weights)
    ours = np.array(found.states)
    assert ours[:, :2] == pytest.approx(states, abs=1e-6)
    for column, at in ((2, (0, 0)), (3, (0, 1)), (4, (1, 1))):
        assert ours[:, column] == pytest.approx(covariances[:, at[0], at[1]], abs=1e-6)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_levels_slopes_and_variances_are_those_of_statsmodels(seed: int) -> None:
    """Computed by the library: levels, slopes, variances to 1e-6 over 200 days."""
    weights = _weights(seed, 200)
    found = trend(daily(weights), on=day(199))
    assert not found.odd
    _assert_same(found, weights)


def test_missing_days_and_months_are_those_of_statsmodels() -> None:
    """Computed by the library, to 1e-6: every third day, and two months without a reading."""
    weights = _weights(4, 200)
    gone = [number for number in range(200) if number and (number % 3 or 70 < number < 130)]
    kept = [seen for number, seen in enumerate(daily(weights)) if number not in gone]
    found = trend(kept, on=day(199))
    for number in gone:
        weights[number] = np.nan
    _assert_same(found, weights)


def test_a_forecast_is_a_day_without_a_reading_to_statsmodels() -> None:
    """Computed by the library: 16 weeks ahead, the level's variance and the noise's together."""
    weights = _weights(5, 90)
    found = trend(daily(weights), on=day(89))
    states, covariances = _statsmodels(found, [*weights, *[np.nan] * 112])
    ahead = found.forecast(found.on + timedelta(days=112))
    assert ahead.mean_kg == pytest.approx(states[-1, 0], abs=1e-6)
    assert ahead.sd_kg**2 == pytest.approx(covariances[-1, 0, 0] + found.noise_kg**2, abs=1e-6)


@given(st.data())
def test_a_further_observation_never_widens_any_day(data: st.DataObject) -> None:
    """At the same noise, wherever it falls and whatever it says, nor any day ahead."""
    maybe = st.none() | st.tuples(st.floats(50, 120), st.floats(0.01, 2.0))
    days = [(80.0, 0.14), *data.draw(st.lists(maybe, min_size=1, max_size=30))]
    free = [number for number, day in enumerate(days) if day is None]
    if not free:
        return
    more = list(days)
    more[data.draw(st.sampled_from(free))] = (data.draw(st.floats(50, 120)), 0.14)
    before, after = (smoothed(seen, USUAL.start(80.0), USUAL) for seen in (days, more))
    for old, new in zip(before, after, strict=True):
        assert new.level_variance <= old.level_variance * (1 + 1e-6)
        assert new.slope_variance <= old.slope_variance * (1 + 1e-6)
    assert ahead(after[-1], 60, USUAL).level_variance <= (
        ahead(before[-1], 60, USUAL).level_variance * (1 + 1e-6)
    )
