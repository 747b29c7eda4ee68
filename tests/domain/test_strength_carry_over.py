"""Carry-over and spread learned from made and missed: closed forms, and athletes known in full."""

from __future__ import annotations

from math import erf, exp, log, sqrt
from random import Random

import pytest

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.carry_over import CarryOver, PastDay, carry_over
from coachdesk.domain.strength.tried import Tried

PRIOR, DAY, MISSES = 0.04, 0.033, 0.03
NU = 0.008


def _learn(*days: PastDay, misses: float = MISSES) -> CarryOver:
    return carry_over(days, prior_sd=PRIOR, day=DAY, miss_rate=misses)


def _day(*attempts: tuple[float, Outcome], gym_kg: float = 200.0, error: float = 0.015) -> PastDay:
    return PastDay(gym_kg, error, tuple(Tried(kg, outcome) for kg, outcome in attempts))


def test_before_any_meet_the_prior_stands() -> None:
    assert _learn() == CarryOver(1.0, PRIOR, DAY)
    assert _learn(_day()) == CarryOver(1.0, PRIOR, DAY)


def test_one_attempt_moves_the_factor_as_bayes_rule_says() -> None:
    """In closed form: log factor normal(0, 0.04), one good attempt at the gym's own estimate. With
    all of it normal, the factor given a success is skew normal: mean a^2 / b sqrt(2 / pi), with a
    its standard deviation and b that of the whole margin (Azzalini 1985). The day's spread is
    known but for a little, and the margin (S - w) / S is nearly log(S / w)."""
    learned = _learn(_day((200.0, Outcome.GOOD)))
    whole = sqrt(PRIOR**2 + DAY**2 + 0.015**2 + NU**2)
    expected = PRIOR**2 / whole * sqrt(2 / 3.141592653589793)
    assert log(learned.factor) == pytest.approx(expected, rel=0.06)
    missed = _learn(_day((200.0, Outcome.STRENGTH)))
    assert log(missed.factor) == pytest.approx(-expected, rel=0.06)


def test_the_grid_agrees_with_plain_enumeration() -> None:
    """The same posterior by sums over a fine grid of factor, spread and strength."""
    day = _day((182.5, Outcome.GOOD), (192.5, Outcome.GOOD), (200.0, Outcome.NO_LIFT))
    learned = _learn(day)
    shapes = [exp(0.3 * at) for at in (-2, -1, 0, 1, 2)]
    chances = [exp(-0.5 * at**2) for at in (-2, -1, 0, 1, 2)]
    square = sum(c * s**2 for c, s in zip(chances, shapes, strict=True)) / sum(chances)
    total = mean = spread = 0.0
    for shape, chance in zip(shapes, chances, strict=True):
        sd = DAY * shape / sqrt(square)
        width = sqrt(sd**2 + day.error**2)
        for at in range(-160, 161, 2):
            factor = at / 1000
            likely = _likely(day, factor, width)
            weight = chance * exp(-0.5 * (factor / PRIOR) ** 2) * likely
            total += weight
            mean += weight * factor
            spread += weight * sd**2
    assert log(learned.factor) == pytest.approx(mean / total, abs=2e-4)
    assert learned.day == pytest.approx(sqrt(spread / total), rel=1e-3)


def _likely(day: PastDay, factor: float, width: float) -> float:
    likely = norm = 0.0
    for at in range(-200, 201):
        deviation = at / 50
        strength = day.gym_kg * exp(factor + width * deviation)
        density = exp(-0.5 * deviation**2)
        for attempt in day.attempts:
            made = 0.5 * (1 + erf((1 - attempt.weight_kg / strength) / NU / sqrt(2)))
            good = attempt.outcome is Outcome.GOOD
            density *= made if good else MISSES + (1 - MISSES) * (1 - made)
        likely += density
        norm += exp(-0.5 * deviation**2)
    return likely / norm


def test_a_technical_miss_says_nothing_of_strength() -> None:
    made = ((182.5, Outcome.GOOD), (192.5, Outcome.GOOD))
    with_depth = _learn(_day(*made, (192.5, Outcome.TECHNICAL)))
    assert with_depth.factor == pytest.approx(_learn(_day(*made)).factor, rel=1e-9)
    assert with_depth.attempts == 3


def test_a_miss_without_a_cause_says_less_than_one_on_strength() -> None:
    factors = [
        _learn(_day((180.0, outcome)), misses=0.2).factor
        for outcome in (Outcome.STRENGTH, Outcome.NO_LIFT, Outcome.GOOD)
    ]
    assert factors == sorted(factors)


def test_what_was_seen_did_happen_however_unlikely() -> None:
    learned = _learn(_day((150.0, Outcome.STRENGTH)), misses=0.0)
    assert 0.7 < learned.factor < 0.9


@pytest.mark.parametrize("noted", [True, False])
def test_an_athlete_whose_carry_over_is_known_is_found(noted: bool) -> None:
    """Simulated: the platform gets 95 % of the gym, days differ by 3.3 %, one attempt in 33 is lost
    on a technicality; 12 meets of weights planned from the gym's estimate."""
    learned = [_learn(*_meets(seed, 12, informed=False, noted=noted)) for seed in range(12)]
    factors = [each.factor for each in learned]
    assert sum(factors) / len(factors) == pytest.approx(0.95, abs=0.01)
    within = sum(abs(log(each.factor / 0.95)) < 2 * each.sd for each in learned)
    assert within >= 10
    assert sum(each.day for each in learned) / len(learned) == pytest.approx(DAY, rel=0.1)


def test_weights_chosen_by_what_was_seen_on_the_day_widen_the_spread_and_leave_the_factor() -> None:
    """The trap of such records: who lifts well that day is given more. Seconds and thirds here
    follow the day's true maximum to 1 %."""
    learned = [_learn(*_meets(seed, 30, informed=True, noted=True)) for seed in range(8)]
    factors = [each.factor for each in learned]
    assert sum(factors) / len(factors) == pytest.approx(0.95, abs=0.015)
    assert DAY < sum(each.day for each in learned) / len(learned) < 1.5 * DAY


def _meets(seed: int, count: int, *, informed: bool, noted: bool) -> list[PastDay]:
    rng = Random(seed)  # noqa: S311
    return [_meet(rng, informed=informed, noted=noted) for _ in range(count)]


def _meet(rng: Random, *, informed: bool, noted: bool) -> PastDay:
    gym = 200 * exp(rng.gauss(0, 0.05))
    estimate = gym * exp(rng.gauss(0, 0.015))
    strength = 0.95 * gym * (1 + rng.gauss(0, DAY))
    base = strength * (1 + rng.gauss(0, 0.01)) if informed else estimate
    weight = round(0.91 * estimate / 2.5) * 2.5
    attempts = []
    for share in (0.96, 1.0, 1.0):
        technical = rng.random() < MISSES
        within = 1 - weight / strength + rng.gauss(0, NU) > 0
        cause = Outcome.TECHNICAL if technical else Outcome.STRENGTH
        missed = cause if noted else Outcome.NO_LIFT
        good = within and not technical
        attempts.append(Tried(weight, Outcome.GOOD if good else missed))
        if good:
            weight = max(weight + 2.5, round(share * base / 2.5) * 2.5)
    return PastDay(estimate, 0.015, tuple(attempts))


@pytest.mark.parametrize(
    ("prior", "day", "misses", "field"),
    [
        (0.0, DAY, 0.03, "prior_sd"),
        (PRIOR, 0.3, 0.03, "day"),
        (PRIOR, DAY, 1.0, "miss_rate"),
        (PRIOR, DAY, -0.1, "miss_rate"),
    ],
)
def test_what_cannot_be_is_refused(prior: float, day: float, misses: float, field: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        carry_over((), prior_sd=prior, day=day, miss_rate=misses)
    assert refused.value.field == field


def test_a_weight_of_nothing_is_refused() -> None:
    with pytest.raises(InvalidInput) as refused:
        Tried(0.0, Outcome.GOOD)
    assert refused.value.field == "weight"
