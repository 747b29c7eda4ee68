"""Technical misses learned from an athlete's own attempts."""

from __future__ import annotations

from math import erf, exp, sqrt
from random import Random

import pytest

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Result
from coachdesk.domain.strength.misses import ExpectedDay, MissHistory, miss_history
from coachdesk.domain.strength.tried import Tried, outcome_of

SD = 0.04


def _day(*attempts: tuple[float, Outcome], expected_kg: float = 200.0) -> ExpectedDay:
    return ExpectedDay(expected_kg, SD, tuple(Tried(kg, outcome) for kg, outcome in attempts))


def _learn(*days: ExpectedDay, usual: float = 0.025) -> MissHistory:
    return miss_history(days, usual=usual, usual_attempts=20)


def test_nothing_on_file_leaves_the_usual_rate() -> None:
    history = _learn()
    assert (history.rate, history.worth) == (0.025, 20)
    assert history.told.code == "strength.misses.usual"


def test_noted_causes_count_as_a_beta_distribution_counts_them() -> None:
    """By hand: 20 attempts at 2.5 % are half a miss; two technical ones in nine more attempts make
    2.5 in 29."""
    history = _learn(
        _day((182.5, Outcome.TECHNICAL), (182.5, Outcome.GOOD), (195, Outcome.STRENGTH)),
        _day((182.5, Outcome.GOOD), (192.5, Outcome.GOOD), (200, Outcome.GOOD)),
        _day((182.5, Outcome.GOOD), (192.5, Outcome.TECHNICAL), (192.5, Outcome.GOOD)),
    )
    assert history.rate == pytest.approx(2.5 / 29)
    assert history.worth == 29
    assert history.told.code == "strength.misses.own"


def test_a_light_opener_missed_before_heavier_lifts_were_made_is_all_but_technical() -> None:
    history = _learn(_day((180, Outcome.NO_LIFT), (190, Outcome.GOOD), (200, Outcome.GOOD)))
    assert _counted(history) > 0.97


def test_a_heavy_third_missed_is_all_but_strength() -> None:
    history = _learn(_day((190, Outcome.GOOD), (200, Outcome.GOOD), (212.5, Outcome.NO_LIFT)))
    assert 0.0 < _counted(history) < 0.05


def _counted(history: MissHistory) -> float:
    """The technical misses that would have led to the same rate, had causes been noted."""
    return history.rate * (20 + history.attempts) - 20 * history.usual


def test_the_split_is_bayes_rule_by_plain_enumeration() -> None:
    """One miss at 195 where 200 was expected. The chance of it at a rate t is t + (1 - t) q, q the
    chance that 195 is too much on a day that is normal about 200 with 4 %; the mean of the rate
    is that of Beta(a, b) weighted so: a / n (t q' + q) with q' = 1 - q, by the moments of a Beta
    distribution."""
    too_heavy = total = 0.0
    for at in range(-4000, 4001):
        density = exp(-0.5 * (at / 1000) ** 2)
        strength = 200 * (1 + SD * at / 1000)
        made = 0.5 * (1 + erf((1 - 195 / strength) / 0.008 / sqrt(2)))
        too_heavy += density * (1 - made)
        total += density
    q = too_heavy / total
    a, n = 0.025 * 20, 20
    first, second = a / n, a * (a + 1) / (n * (n + 1))
    expected = (first * q + second * (1 - q)) / (q + first * (1 - q))
    assert _learn(_day((195, Outcome.NO_LIFT))).rate == pytest.approx(expected, rel=2e-3)


def test_the_grid_gives_the_same_as_noted_causes_where_nothing_is_open() -> None:
    """A weight far below what was made is a technical miss, noted or not: Beta in closed form."""
    made = [(190.0, Outcome.GOOD), (200.0, Outcome.GOOD)]
    unnoted = _learn(_day((120.0, Outcome.NO_LIFT), *made))
    noted = _learn(_day((120.0, Outcome.TECHNICAL), *made))
    assert unnoted.rate == pytest.approx(noted.rate, rel=1e-3)
    assert unnoted.worth == pytest.approx(noted.worth, rel=5e-3)


@pytest.mark.parametrize(("noted", "meets"), [(True, 80), (False, 250)])
def test_an_athlete_whose_miss_rate_is_known_is_found(noted: bool, meets: int) -> None:
    """Simulated: one attempt in ten lost on a technicality where one in forty is usual; it takes
    many more meets when no cause was ever noted."""
    rng = Random(4)  # noqa: S311
    days = [_meet(rng, 0.10, noted=noted) for _ in range(meets)]
    assert _learn(*days).rate == pytest.approx(0.10, abs=0.025)


def _meet(rng: Random, rate: float, *, noted: bool) -> ExpectedDay:
    strength = 200 * (1 + SD * rng.gauss(0, 1))
    weight, attempts = 182.5, []
    for following in (192.5, 200.0, 200.0):
        technical = rng.random() < rate
        within = 1 - weight / strength + rng.gauss(0, 0.008) > 0
        cause = Outcome.TECHNICAL if technical else Outcome.STRENGTH
        good = within and not technical
        outcome = Outcome.GOOD if good else cause if noted else Outcome.NO_LIFT
        attempts.append(Tried(weight, outcome))
        weight = following if good else weight
    return ExpectedDay(200.0, SD, tuple(attempts))


def test_results_and_causes_are_told_apart() -> None:
    strength = frozenset({"squat.strength"})
    told = [
        outcome_of(result, cause, strength)
        for result, cause in (
            (Result.GOOD, ""),
            (Result.NO_LIFT, "squat.depth"),
            (Result.NO_LIFT, "squat.strength"),
            (Result.NO_LIFT, "squat.other"),
            (Result.NO_LIFT, ""),
            (Result.VOID, ""),
            (Result.PASSED, ""),
            (None, ""),
        )
    ]
    assert told == [
        Outcome.GOOD,
        Outcome.TECHNICAL,
        Outcome.STRENGTH,
        Outcome.NO_LIFT,
        Outcome.NO_LIFT,
        None,
        None,
        None,
    ]


@pytest.mark.parametrize(("usual", "worth"), [(-0.1, 20.0), (1.0, 20.0), (0.1, 0.0)])
def test_a_rate_that_cannot_be_is_refused(usual: float, worth: float) -> None:
    with pytest.raises(InvalidInput) as refused:
        miss_history((), usual=usual, usual_attempts=worth)
    assert refused.value.field == "miss_rate"
