"""What is believed of a day, against closed forms and against drawn days."""

from __future__ import annotations

from itertools import product
from math import isclose, prod, sqrt
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine.belief import (
    DayBelief,
    LiftBelief,
    Taken,
    one_lift,
)
from coachdesk.domain.engine.likelihood import (
    SEEN,
    WarmUp,
    chances,
    margins,
    two_to_one,
    warm_up_chances,
)
from coachdesk.domain.engine.miss_rate import MissRate
from coachdesk.domain.engine.quadrature import normal_cdf, normal_points
from coachdesk.domain.engine_parameters import DEFAULT, Experience, honest_sd, shared_part
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Percent, kilograms

RATES = st.floats(min_value=0.001, max_value=0.9)
ATTEMPTS = st.floats(min_value=2.0, max_value=500.0)


def _day(sd: float = 0.03, rate: float = 0.05) -> DayBelief:
    expected = {Lift.SQUAT: 200, Lift.BENCH: 130, Lift.DEADLIFT: 230}
    miss = MissRate.learned(rate, 20)
    return DayBelief.of(
        {lift: LiftBelief(kilograms(kg), sd, miss) for lift, kg in expected.items()}
    )


def _mean(day: DayBelief, lift: Lift) -> float:
    grid = day.lifts[lift]
    return float(grid.chance @ grid.strengths_kg)


def test_the_normal_distribution_is_the_standard_librarys() -> None:
    points = np.linspace(-6, 6, 49)
    wanted = [NormalDist().cdf(x) for x in points]
    assert normal_cdf(points) == pytest.approx(wanted, rel=1e-12, abs=1e-15)


def test_few_points_have_the_moments_of_a_normal() -> None:
    """1, 0, 1, 0, 3, 0, 15: textbook moments."""
    points, weights = normal_points(7)
    moments = [float(weights @ points**power) for power in range(7)]
    assert moments == pytest.approx([1, 0, 1, 0, 3, 0, 15], abs=1e-9)


def test_lifts_share_as_much_as_recorded_noise_says() -> None:
    """3.3 % a lift and 2.48 % on the total (OpenPowerlifting snapshot 2024-08-23), by hand:
    (0.0248 / 0.033)^2 = 0.5648; (0.5648 - 1/3) / (2/3) = 0.3472."""
    assert shared_part() == pytest.approx(0.3472, abs=1e-4)


def test_three_lifts_of_a_day_make_the_recorded_noise_of_a_total() -> None:
    """Drawn days: 2.48 % on the total; independent lifts would leave 3.3 / sqrt(3) = 1.9 %."""
    rng = np.random.default_rng(1)
    day = rng.standard_normal((200_000, 1))
    own = rng.standard_normal((200_000, 3))
    shared = shared_part()
    noise = 0.033 * (sqrt(shared) * day + sqrt(1 - shared) * own)
    assert noise.mean(axis=1).std() == pytest.approx(0.0248, rel=0.01)


def test_lifts_on_a_grid_have_the_spread_and_the_link_they_were_given() -> None:
    day = _day(sd=0.04)
    grid = day.lifts[Lift.SQUAT]
    spread = sqrt(float(grid.chance @ (grid.strengths_kg - 200) ** 2)) / 200
    assert spread == pytest.approx(0.04, rel=1e-3)
    means = {
        lift: held.given_day @ held.strengths_kg / held.belief.expected.kg - 1
        for lift, held in day.lifts.items()
    }
    together = float(day.day @ (means[Lift.SQUAT] * means[Lift.BENCH]))
    assert together == pytest.approx(shared_part() * 0.04**2, rel=1e-3)


def test_a_coach_is_believed_with_a_margin_and_a_first_meet_is_wider() -> None:
    assert honest_sd(0.03) == pytest.approx(sqrt(0.03**2 + 0.02**2))
    assert honest_sd(0.03, own_number=False) == 0.03
    assert honest_sd(0.03, first_meet=True, own_number=False) == pytest.approx(0.045)


@given(mean=RATES, attempts=ATTEMPTS, technical=st.integers(0, 3), clean=st.integers(0, 2))
def test_runs_of_misses_are_as_likely_as_under_a_beta_distribution(
    mean: float, attempts: float, technical: int, clean: int
) -> None:
    """Rising factorials: the closed form of the Beta moments."""
    a, b = mean * attempts, (1 - mean) * attempts
    wanted = prod(a + n for n in range(technical)) * prod(b + n for n in range(clean))
    wanted /= prod(attempts + n for n in range(technical + clean))
    miss = MissRate.learned(mean, attempts)
    run = float(miss.likelihoods(technical, clean) @ np.array(miss.chances))
    assert isclose(run, wanted, rel_tol=1e-7)


@given(mean=RATES, attempts=ATTEMPTS)
def test_a_technical_miss_raises_the_rate_as_bayes_rule_says(mean: float, attempts: float) -> None:
    """The mean of a Beta distribution after a hit: (a + 1) / (a + b + 1)."""
    miss = MissRate.learned(mean, attempts)
    after = miss.given(miss.likelihoods(1, 0))
    assert isclose(after.mean, (mean * attempts + 1) / (attempts + 1), rel_tol=1e-7)


def test_two_to_one_is_what_three_referees_do() -> None:
    """All eight calls of three referees who give red with the same chance, counted out."""
    for red in (0.01, 0.05, 0.2, 0.5):
        calls = list(product((True, False), repeat=3))
        likely = {call: prod(red if is_red else 1 - red for is_red in call) for call in calls}
        refused = sum(likely[call] for call in calls if sum(call) >= 2)
        one_red = sum(likely[call] for call in calls if sum(call) == 1)
        assert two_to_one(refused) == pytest.approx(one_red / (1 - refused))


def test_a_two_to_one_pass_raises_the_rate_but_less_than_a_miss() -> None:
    miss = MissRate.learned(0.03, 20)
    missed = miss.given(miss.likelihoods(1, 0)).mean
    assert miss.mean < miss.after_two_to_one().mean < missed


@given(here=RATES, there=RATES)
def test_the_next_lifts_rate_stays_what_it_was_until_something_is_seen(
    here: float, there: float
) -> None:
    first, second = MissRate.learned(here, 20), MissRate.learned(there, 20)
    carried = np.array(first.chances) @ first.carried_to(second)
    assert carried == pytest.approx(np.array(second.chances), abs=1e-12)


def test_outcomes_are_sure_to_be_one_of_those_told_apart() -> None:
    seen = chances(margins(np.array([150.0, 200.0, 260.0]), np.linspace(120, 280, 33)), DEFAULT)
    rate = 0.07
    total = sum(
        seen[outcome] * (rate if outcome is Outcome.TECHNICAL else 1 - rate) for outcome in SEEN
    )
    assert np.asarray(total) == pytest.approx(np.ones((3, 33)))
    assert all((seen[outcome] >= 0).all() for outcome in SEEN)


def test_an_attempt_is_as_likely_as_the_formula_says() -> None:
    """(1 - t) Phi((S - w) / (nu S)) at S = 200, w = 198, nu = 0.8 %: Phi(1.25) = 0.8944."""
    seen = chances(margins(np.array([198.0]), np.array([200.0])), DEFAULT)
    assert seen[Outcome.GOOD][0, 0] == pytest.approx(0.8944, abs=5e-5)


def test_impressions_of_warm_ups_sum_to_one_and_order_the_days() -> None:
    deviation = np.linspace(-0.1, 0.1, 41)
    seen = warm_up_chances(deviation, DEFAULT)
    assert sum(seen.values()) == pytest.approx(np.ones(41))
    flying = seen[WarmUp.FLYING] / seen[WarmUp.FLAT]
    assert (np.diff(flying) > 0).all()


def test_flat_warm_ups_lower_the_lift_and_the_lifts_that_follow() -> None:
    day = _day()
    flat, flying = day.warmed_up(Lift.SQUAT, WarmUp.FLAT), day.warmed_up(Lift.SQUAT, WarmUp.FLYING)
    for lift in Lift:
        assert _mean(flat, lift) < _mean(day, lift) < _mean(flying, lift)


def test_what_the_squat_showed_moves_the_deadlift_as_in_drawn_days() -> None:
    """Squat 190 made, 195 missed on strength: the deadlift's mean among drawn days that went so."""
    rng = np.random.default_rng(2)
    days = 400_000
    shared, z = shared_part(), rng.standard_normal(400_000)
    squat = 200 * (1 + 0.03 * (sqrt(shared) * z + sqrt(1 - shared) * rng.standard_normal(days)))
    pull = 230 * (1 + 0.03 * (sqrt(shared) * z + sqrt(1 - shared) * rng.standard_normal(days)))
    noise = 0.008 * rng.standard_normal((2, days))
    went_so = ((squat - 190) / squat > noise[0]) & ((squat - 195) / squat <= noise[1])
    after = _day().after(
        Lift.SQUAT,
        [
            Taken(kilograms(190), Outcome.GOOD),
            Taken(kilograms(195), Outcome.STRENGTH),
        ],
    )
    error = float(pull[went_so].std()) / sqrt(int(went_so.sum()))
    assert _mean(after, Lift.DEADLIFT) == pytest.approx(
        float(pull[went_so].mean()), abs=4 * error + 0.02
    )


def test_technical_misses_raise_the_later_lifts_rates_and_clean_lifts_lower_them() -> None:
    day = _day()
    missed = day.after(Lift.SQUAT, [Taken(kilograms(180), Outcome.TECHNICAL)])
    clean = day.after(Lift.SQUAT, [Taken(kilograms(180), Outcome.AS_PLANNED)])
    rates = [held.lifts[Lift.BENCH].belief.miss.mean for held in (clean, day, missed)]
    assert rates == sorted(rates)
    assert Lift.SQUAT not in missed.lifts


def test_a_miss_without_a_cause_counts_as_what_it_most_likely_was() -> None:
    """At 170 of 200 a miss is hardly one of strength; at 210 it is."""
    day, unknown = _day(), Outcome.NO_LIFT
    light = day.after(Lift.SQUAT, [Taken(kilograms(170), unknown)])
    heavy = day.after(Lift.SQUAT, [Taken(kilograms(210), unknown)])
    rates = [held.lifts[Lift.BENCH].belief.miss.mean for held in (heavy, light)]
    assert rates[0] < 0.055
    assert rates[1] > 0.065
    assert _mean(heavy, Lift.BENCH) < _mean(day, Lift.BENCH) - 0.1
    assert _mean(light, Lift.BENCH) == pytest.approx(_mean(day, Lift.BENCH), abs=0.05)


def test_a_passed_attempt_tells_nothing() -> None:
    day = _day()
    after = day.after(Lift.SQUAT, [Taken(kilograms(190), Outcome.PASSED)])
    assert _mean(after, Lift.BENCH) == pytest.approx(_mean(day, Lift.BENCH))


def test_equipped_lifters_and_first_timers_miss_more() -> None:
    rates = [
        DEFAULT.miss_rate(Lift.SQUAT, experience, equipment)
        for equipment in Equipment
        for experience in (Experience.SEASONED, Experience.EARLY, Experience.FIRST_MEET)
    ]
    assert rates[:3] == sorted(rates[:3])
    assert all(rates[at] < rates[at + 3] for at in range(3))
    assert [Experience.after(meets) for meets in (0, 1, 3, 4)] == [
        Experience.FIRST_MEET,
        Experience.EARLY,
        Experience.EARLY,
        Experience.SEASONED,
    ]


@pytest.mark.parametrize("sd", [-0.01, 0.0, 0.21])
def test_a_spread_has_to_be_above_zero_and_not_absurd(sd: float) -> None:
    with pytest.raises(InvalidInput) as caught:
        LiftBelief(kilograms(200), sd, MissRate.known(0.02))
    assert caught.value.field == "sd"
    assert caught.value.text == text("engine.sd", most=Percent(20, 0))


def test_impossible_beliefs_are_refused_with_their_field() -> None:
    with pytest.raises(InvalidInput) as nothing:
        LiftBelief(kilograms(0), 0.03, MissRate.known(0.02))
    assert nothing.value.field == "expected"
    for rate in (-0.01, 1.01):
        with pytest.raises(InvalidInput) as wrong:
            MissRate.known(rate)
        assert wrong.value.field == "miss_rate"
    with pytest.raises(InvalidInput) as none:
        MissRate.learned(0.02, 0)
    assert none.value.text == text("engine.miss_attempts")
    with pytest.raises(InvalidInput) as empty:
        DayBelief.of({})
    assert empty.value.field == "lifts"


def test_sure_rates_are_one_point() -> None:
    for rate in (0.0, 1.0):
        assert MissRate.learned(rate, 20) == MissRate.known(rate)
    assert one_lift(LiftBelief(kilograms(100), 0.02, MissRate.known(0.0))).chance.sum() == (
        pytest.approx(1)
    )
