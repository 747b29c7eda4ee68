"""Maximum likelihood by Fisher scoring: the figures of one lift at once.

The chance of what happened is a product of binomials, one for each line. With J the derivatives of
the predicted chances, the information is J' W J, W = count / (p (1 - p)); a step solves it against
the gradient, damped until the likelihood rises (Levenberg 1944, Marquardt 1963). Its inverse gives
the standard errors. They take the attempts of one lifter for independent, so they are on the small
side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coachdesk.domain.engine.miss_rate import MissRate
from tests.bench.fitting.choices import CHOICES, Choices, MissRates, Model
from tests.bench.fitting.recorded_days import EQUIPMENT, EXPERIENCES, NONE, Bools, Floats, Lines

_GROUPS = tuple(np.ndindex(len(EXPERIENCES), len(EQUIPMENT)))
_START_RATES = ((0.14, 0.20), (0.11, 0.20), (0.09, 0.20))
_START_ATTEMPTS = 6.0
_CLOSE = 1e-4
_LARGEST_STEP = 0.5
_FIRST_DAMPING, _MOST_DAMPING = 1e-3, 1e9
_GENTLER, _HARDER = 0.2, 5.0
_ENOUGH = 0.01
_MOST_STEPS = 60


@dataclass(frozen=True, slots=True, eq=False)
class Figures:
    """Figures of one lift: what choices reveal, the mean miss rates [experience, equipment], and
    how many attempts' worth a mean rate is within this lift of one day."""

    choices: Choices
    rates: Floats
    attempts: float

    @property
    def miss_rates(self) -> MissRates:
        """The rates as the engine holds them."""
        return {
            group: MissRate.learned(float(self.rates[group]), self.attempts) for group in _GROUPS
        }


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """The likeliest figures, their standard errors, and the logarithm of the likelihood."""

    figures: Figures
    errors: Figures
    log_likelihood: float


FIGURES = len(_GROUPS) + 1 + len(CHOICES)
"""How many figures are fitted for a lift."""


def log_likelihood(lines: Lines, predicted: Floats) -> float:
    """The logarithm of the chance of what happened."""
    missed = lines.count - lines.made
    return float(lines.made @ np.log(predicted) + missed @ np.log1p(-predicted))


def fit(model: Model, attempts: float | None = None) -> Fit:
    """The likeliest figures for the lines of `model`; `attempts` holds that one figure fast."""
    start = Figures(Choices(), np.array(_START_RATES), attempts or _START_ATTEMPTS)
    at = _free(_values(start))
    predicted = _predict(model, at)
    likelihood, damping = log_likelihood(model.lines, predicted), _FIRST_DAMPING
    search = np.arange(len(at)) != (len(_GROUPS) if attempts else NONE)
    before = likelihood
    for _ in range(_MOST_STEPS):
        gradient, information = _derivatives(model, at, predicted, search)
        before = likelihood
        while damping < _MOST_DAMPING:
            damped = information + damping * np.diag(np.diag(information) + 1e-3)
            step = np.linalg.solve(damped, gradient)
            there = at.copy()
            there[search] += np.clip(step, -_LARGEST_STEP, _LARGEST_STEP)
            predicted = _predict(model, there)
            likelihood = log_likelihood(model.lines, predicted)
            if likelihood > before:
                at, damping = there, damping * _GENTLER
                break
            damping *= _HARDER
        if likelihood - before < _ENOUGH:
            break
    _, information = _derivatives(model, at, _predict(model, at), search)
    errors = np.zeros(len(at))
    errors[search] = np.sqrt(np.diag(np.linalg.pinv(information))) * _scale(at)[search]
    return Fit(_figures(_bound(at)), _figures(errors), max(likelihood, before))


def _predict(model: Model, at: Floats) -> Floats:
    figures = _figures(_bound(at))
    predicted = model.predict(figures.choices, figures.miss_rates)
    clipped: Floats = np.clip(predicted, 1e-9, 1.0 - 1e-9)
    return clipped


def _derivatives(
    model: Model, at: Floats, predicted: Floats, search: Bools
) -> tuple[Floats, Floats]:
    """The gradient of the log likelihood, and the information."""
    moved = at + _CLOSE * np.eye(len(at))[search]
    slopes = np.stack([_predict(model, to) - predicted for to in moved], axis=1) / _CLOSE
    weight = 1.0 / (predicted * (1.0 - predicted))
    lines = model.lines
    gradient = slopes.T @ (weight * (lines.made - lines.count * predicted))
    return gradient, (slopes * (weight * lines.count)[:, None]).T @ slopes


def _values(figures: Figures) -> Floats:
    chosen = [getattr(figures.choices, name) for name in CHOICES]
    return np.array([*figures.rates.ravel(), figures.attempts, *chosen])


def _figures(values: Floats) -> Figures:
    rates = values[: len(_GROUPS)].reshape(len(EXPERIENCES), len(EQUIPMENT))
    chosen = dict(zip(CHOICES, values[len(_GROUPS) + 1 :].tolist(), strict=True))
    return Figures(Choices(**chosen), rates, float(values[len(_GROUPS)]))


_ABOVE_NOUGHT = {
    "plan_first_meet", "plan_early", "plan_seasoned", "day_spread", "second_spread",
    "third_spread", "missed_by",
}  # fmt: skip


def _kinds() -> tuple[Bools, Bools]:
    """Which values are chances, and which are above nought."""
    chances = [True] * len(_GROUPS) + [False] + [name == "strength_repeats" for name in CHOICES]
    above = [False] * len(_GROUPS) + [True] + [name in _ABOVE_NOUGHT for name in CHOICES]
    return np.array(chances), np.array(above)


_CHANCES, _ABOVE = _kinds()


def _free(values: Floats) -> Floats:
    """Values to the scale the search runs on: odds and ratios in logarithms."""
    free = values.copy()
    free[_CHANCES] = np.log(values[_CHANCES] / (1.0 - values[_CHANCES]))
    free[_ABOVE] = np.log(values[_ABOVE])
    return free


def _bound(free: Floats) -> Floats:
    """The inverse of `_free`."""
    values = free.copy()
    values[_CHANCES] = 1.0 / (1.0 + np.exp(-free[_CHANCES]))
    values[_ABOVE] = np.exp(free[_ABOVE])
    return values


def _scale(free: Floats) -> Floats:
    """How far a value moves with its place on the scale of the search."""
    values, scale = _bound(free), np.ones(len(free))
    scale[_CHANCES] = values[_CHANCES] * (1.0 - values[_CHANCES])
    scale[_ABOVE] = values[_ABOVE]
    return scale
