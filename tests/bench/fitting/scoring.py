"""Maximum likelihood by Fisher scoring: the figures of all lifts at once.

The chance of what happened is a product of binomials, one for each line. With J the derivatives of
the predicted chances, the information is J' W J, W = count / (p (1 - p)); a step solves it against
the gradient, damped until the likelihood rises (Levenberg, Marquardt). Its inverse gives the
standard errors. They take attempts of one lifter for independent, so they are on the small side.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.lifting import Lift
from tests.bench.fitting.choices import CHOICES, Choices, MissRates, Model
from tests.bench.fitting.recorded_days import EQUIPMENT, EXPERIENCES, Floats, Lines

_GROUPS = tuple(np.ndindex(len(EXPERIENCES), len(EQUIPMENT)))
_POSITIVE = np.array([name.endswith("spread") or name.startswith("plan_") for name in CHOICES])
_POSITIVE &= np.array([name != "plan_equipped" for name in CHOICES])
_CHANCE = np.array([name == "strength_repeats" for name in CHOICES])
_START_RATES = np.array([[0.14, 0.20], [0.11, 0.20], [0.09, 0.20]])
_START_ATTEMPTS = 6.0
_CLOSE = 1e-4
_LARGEST_STEP = 0.5
_ENOUGH = 0.01
_MOST_STEPS = 60


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """The fitted figures, each with its standard error.

    `miss_rates` are means [experience, equipment] by lift; `attempts` is how many attempts' worth
    the average rate is within a lift of one day; `log_likelihood` in natural logarithms.
    """

    choices: Mapping[Lift, Choices]
    choice_errors: Mapping[Lift, Choices]
    miss_rates: Mapping[Lift, Floats]
    miss_rate_errors: Mapping[Lift, Floats]
    attempts: float
    attempts_error: float
    log_likelihood: float

    @property
    def figures(self) -> int:
        """How many figures were fitted."""
        return len(self.choices) * (len(CHOICES) + len(_GROUPS)) + 1


def log_likelihood(lines: Lines, predicted: Floats) -> float:
    """The logarithm of the chance of what happened."""
    missed = lines.count - lines.made
    return float(lines.made @ np.log(predicted) + missed @ np.log1p(-predicted))


def fit(models: Mapping[Lift, Model]) -> Fit:
    """The likeliest figures."""
    lifts = tuple(models)
    one = np.concatenate([_to_line(_START_RATES.ravel()), _free(Choices())])
    at = np.append(np.tile(one, len(lifts)), np.log(_START_ATTEMPTS))
    predicted, likelihood = _all(models, at)
    damping = 1e-3
    information = np.eye(len(at))
    for _ in range(_MOST_STEPS):
        gradient, information = _derivatives(models, at, predicted)
        before = likelihood
        while damping < 1e9:
            damped = information + damping * np.diag(np.diag(information) + 1e-3)
            step = np.linalg.solve(damped, gradient)
            there = at + np.clip(step, -_LARGEST_STEP, _LARGEST_STEP)
            predicted_there, likelihood_there = _all(models, there)
            if likelihood_there > likelihood:
                at, predicted, likelihood = there, predicted_there, likelihood_there
                damping = max(damping / 5, 1e-9)
                break
            damping *= 5
        if likelihood - before < _ENOUGH:
            break
    return _told(lifts, at, np.sqrt(np.diag(np.linalg.pinv(information))), likelihood)


def _predict(model: Model, own: Floats, attempts: float) -> Floats:
    count = len(_GROUPS)
    rates = {
        group: MissRate.learned(float(rate), attempts)
        for group, rate in zip(_GROUPS, _from_line(own[:count]), strict=True)
    }
    return np.clip(model.predict(_choices(own[count:]), rates), 1e-9, 1.0 - 1e-9)


def _split(models: Mapping[Lift, Model], at: Floats) -> list[tuple[Model, Floats]]:
    return list(zip(models.values(), at[:-1].reshape(len(models), -1), strict=True))


def _all(models: Mapping[Lift, Model], at: Floats) -> tuple[list[Floats], float]:
    attempts = float(np.exp(at[-1]))
    predicted = [_predict(model, own, attempts) for model, own in _split(models, at)]
    likelihood = sum(
        log_likelihood(model.lines, chance)
        for model, chance in zip(models.values(), predicted, strict=True)
    )
    return predicted, likelihood


def _derivatives(
    models: Mapping[Lift, Model], at: Floats, predicted: list[Floats]
) -> tuple[Floats, Floats]:
    """The gradient of the log likelihood, and the information."""
    gradient, information = np.zeros(len(at)), np.zeros((len(at), len(at)))
    attempts = float(np.exp(at[-1]))
    for place, (model, own) in enumerate(_split(models, at)):
        chance = predicted[place]
        moved = [
            _predict(model, own + _CLOSE * unit, attempts) - chance for unit in np.eye(len(own))
        ]
        moved.append(_predict(model, own, attempts * float(np.exp(_CLOSE))) - chance)
        slopes = np.stack(moved, axis=1) / _CLOSE
        weight = 1.0 / (chance * (1.0 - chance))
        where = np.append(np.arange(len(own)) + place * len(own), len(at) - 1)
        lines = model.lines
        gradient[where] += slopes.T @ (weight * (lines.made - lines.count * chance))
        information[np.ix_(where, where)] += (slopes * (weight * lines.count)[:, None]).T @ slopes
    return gradient, information


def _to_line(chance: Floats) -> Floats:
    logit: Floats = np.log(chance / (1.0 - chance))
    return logit


def _from_line(free: Floats) -> Floats:
    chance: Floats = 1.0 / (1.0 + np.exp(-free))
    return chance


def _free(choices: Choices) -> Floats:
    values = np.array([getattr(choices, name) for name in CHOICES])
    with np.errstate(divide="ignore", invalid="ignore"):
        chosen: Floats = np.where(
            _POSITIVE, np.log(values), np.where(_CHANCE, _to_line(values), values)
        )
    return chosen


def _values(free: Floats) -> Floats:
    values: Floats = np.where(
        _POSITIVE, np.exp(free), np.where(_CHANCE, _from_line(free), free)
    )
    return values


def _choices(free: Floats) -> Choices:
    return Choices(**dict(zip(CHOICES, _values(free).tolist(), strict=True)))


def _told(lifts: tuple[Lift, ...], at: Floats, errors: Floats, likelihood: float) -> Fit:
    """The figures in their own units, and their errors with them."""
    count = len(_GROUPS)
    shape = len(EXPERIENCES), len(EQUIPMENT)
    own = dict(zip(lifts, at[:-1].reshape(len(lifts), -1), strict=True))
    off = dict(zip(lifts, errors[:-1].reshape(len(lifts), -1), strict=True))
    rates = {lift: _from_line(own[lift][:count]) for lift in lifts}
    errors_of_choices = {}
    for lift in lifts:
        values = _values(own[lift][count:])
        scale = np.where(_POSITIVE, values, np.where(_CHANCE, values * (1.0 - values), 1.0))
        shown = (scale * off[lift][count:]).tolist()
        errors_of_choices[lift] = Choices(**dict(zip(CHOICES, shown, strict=True)))
    attempts = float(np.exp(at[-1]))
    return Fit(
        {lift: _choices(own[lift][count:]) for lift in lifts},
        errors_of_choices,
        {lift: rates[lift].reshape(shape) for lift in lifts},
        {
            lift: (rates[lift] * (1.0 - rates[lift]) * off[lift][:count]).reshape(shape)
            for lift in lifts
        },
        attempts,
        float(attempts * errors[-1]),
        likelihood,
    )
