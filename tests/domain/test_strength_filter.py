"""The trend of strength against statsmodels, and its band over simulated lifters."""

from __future__ import annotations

from datetime import date, timedelta
from math import exp, hypot, log

import numpy as np
import pytest

from coachdesk.domain.engine_parameters import DEFAULT, Parameter
from coachdesk.domain.strength.forecast import EIGHT_IN_TEN
from coachdesk.domain.strength.gym import EARLY, USUAL, dynamics, gym_level
from coachdesk.domain.strength.observations import Observation, observe
from coachdesk.domain.strength.parameters import DRIFT, DRIFT_EARLY, HALF_LIFE, TREND_SHARE
from coachdesk.domain.strength.trend import strength_trend
from coachdesk.domain.trend_filter import UNKNOWN_LEVEL, Dynamics
from coachdesk.domain.units import kilograms

START = date(2026, 1, 5)
NOISE = DEFAULT.lift_noise.value
LIFTERS = 2_000
TRAINED_DAYS = 168


def _trained(seed: int, every: int = 3, days: int = 150) -> list[Observation]:
    """Sets of one to six repetitions every few days, the latest first."""
    random = np.random.default_rng(seed)
    found = []
    for at in range(0, days, every):
        kg = 180 * exp(0.0004 * at + NOISE * random.standard_normal())
        reps, rir = int(random.integers(1, 7)), float(random.integers(0, 4))
        on = START + timedelta(days=at)
        seen = observe(on, kilograms(round(kg * 36 / (37 - reps), 1)), reps, rir)
        assert seen is not None
        found.append(seen)
    return found[::-1]


def _statsmodels(
    seen: list[Observation], drift: float, further: int
) -> tuple[np.ndarray, np.ndarray]:
    """Smoothed states [day, level and slope] and covariances by statsmodels: our damping in its
    transition matrix, our variances, the same known start, each day with its own error."""
    from statsmodels.tsa.statespace.kalman_smoother import KalmanSmoother

    damping = 0.5 ** (1 / HALF_LIFE.value)
    first = seen[-1].on
    days = (seen[0].on - first).days + 1 + further
    values, errors = np.full(days, np.nan), np.ones((1, 1, days))
    for each in seen:
        at = (each.on - first).days
        values[at] = log(each.maximum_kg)
        errors[0, 0, at] = NOISE**2 + each.error**2
    slopes = TREND_SHARE.value * drift**2 * (1 - damping) / (1 + damping)
    model = KalmanSmoother(k_endog=1, k_states=2, k_posdef=2)
    model.bind(values)
    model["design"] = np.array([[1.0, 0.0]])
    model["transition"] = np.array([[1.0, 1.0], [0.0, damping]])
    model["selection"] = np.eye(2)
    model["obs_cov"] = errors
    model["state_cov"] = np.diag([(1 - TREND_SHARE.value) * drift**2, (1 - damping**2) * slopes])
    model.initialize_known(np.array([values[0], 0.0]), np.diag([UNKNOWN_LEVEL, slopes]))
    found = model.smooth()
    return found.smoothed_state.T, found.smoothed_state_cov.transpose(2, 0, 1)


@pytest.mark.parametrize(("seed", "meets_behind"), [(1, 4), (2, 0)])
def test_levels_slopes_and_variances_are_those_of_statsmodels(seed: int, meets_behind: int) -> None:
    """Computed by the library, to 1e-6, in logarithms; variances to a millionth of themselves."""
    seen = _trained(seed)
    drift = (DRIFT if meets_behind > 1 else DRIFT_EARLY).value
    trend = strength_trend(seen, noise=NOISE, going_on=dynamics(meets_behind))
    states, covariances = _statsmodels(seen, drift, 0)
    ours = np.array(trend.states)
    assert ours[:, :2] == pytest.approx(states, abs=1e-6)
    for column, at in ((2, (0, 0)), (3, (0, 1)), (4, (1, 1))):
        theirs = covariances[:, at[0], at[1]]
        assert ours[:, column] == pytest.approx(theirs, rel=1e-6, abs=1e-12)


def test_the_level_on_the_meets_day_is_that_of_statsmodels() -> None:
    """Computed by the library, 60 days ahead without a set."""
    seen = _trained(3, every=4)
    meet = seen[0].on + timedelta(days=60)
    level = gym_level(seen, noise=NOISE, forecast_for=meet)
    states, covariances = _statsmodels(seen, DRIFT.value, 60)
    assert log(level.maximum_kg) == pytest.approx(states[-1, 0], abs=1e-6)
    assert level.error**2 == pytest.approx(covariances[-1, 0, 0], rel=1e-6)


@pytest.mark.parametrize(("going_on", "drift"), [(USUAL, DRIFT), (EARLY, DRIFT_EARLY)])
def test_the_band_holds_eight_in_ten_when_the_world_follows_the_prior(
    going_on: Dynamics, drift: Parameter
) -> None:
    """Simulated lifters: strength goes on as the prior says, each training day has its noise and
    the error of its set, and the day to come has its own noise; 2, 8 and 16 weeks ahead."""
    weeks = (2, 8, 16)
    random = np.random.default_rng(20260107)
    levels = _wandering(random, drift.value)
    trains = random.random((LIFTERS, TRAINED_DAYS)) < random.uniform(1 / 7, 3 / 7, (LIFTERS, 1))
    trains[:, -7] = True
    shown = levels[:, :TRAINED_DAYS] + NOISE * random.standard_normal((LIFTERS, TRAINED_DAYS))
    reps = random.integers(1, 7, (LIFTERS, TRAINED_DAYS))
    errors = [seen.error for seen in _sets_of(range(1, 7))]
    last = START + timedelta(days=TRAINED_DAYS - 1)
    held = dict.fromkeys(weeks, 0)
    for lifter in range(LIFTERS):
        seen = []
        for at in np.flatnonzero(trains[lifter])[::-1]:
            error = errors[reps[lifter, at] - 1]
            kg = exp(shown[lifter, at] + error * random.standard_normal())
            on = START + timedelta(days=int(at))
            seen.append(Observation(on, kilograms(kg), 1, 0.0, False, kg, error))
        for ahead in weeks:
            day = last + timedelta(weeks=ahead)
            level = gym_level(seen, noise=NOISE, forecast_for=day, going_on=going_on)
            off = levels[lifter, (day - START).days] + NOISE * random.standard_normal()
            wide = EIGHT_IN_TEN * hypot(level.error, NOISE)
            held[ahead] += abs(off - log(level.maximum_kg)) <= wide
    per_cent = {ahead: 100 * count / LIFTERS for ahead, count in held.items()}
    assert all(77 <= each <= 83 for each in per_cent.values()), per_cent


def _sets_of(reps: range) -> list[Observation]:
    found = [observe(START, kilograms(100), each, 1.0) for each in reps]
    return [each for each in found if each is not None]


def _wandering(random: np.random.Generator, drift: float) -> np.ndarray:
    """Strength of each lifter by days, in logarithms, 16 weeks beyond the training days."""
    damping = 0.5 ** (1 / HALF_LIFE.value)
    slopes = np.sqrt(TREND_SHARE.value * (1 - damping) / (1 + damping)) * drift
    steps = np.sqrt(1 - TREND_SHARE.value) * drift
    level = np.log(random.uniform(60, 250, LIFTERS))
    slope = slopes * random.standard_normal(LIFTERS)
    found = np.empty((LIFTERS, TRAINED_DAYS + 7 * 16))
    for day in range(found.shape[1]):
        found[:, day] = level
        level = level + slope + steps * random.standard_normal(LIFTERS)
        fresh = slopes * np.sqrt(1 - damping**2) * random.standard_normal(LIFTERS)
        slope = damping * slope + fresh
    return found
