"""All sources of a lift side by side, the one that is used, and what the coach can say to it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.engine_parameters import DEFAULT, Experience
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift, Result
from coachdesk.domain.strength.forecast import Forecast, Source
from coachdesk.domain.strength.from_records import from_records
from coachdesk.domain.strength.lift_sources import LiftRecord, LiftSources, PastMeet
from coachdesk.domain.strength.observations import lift_days
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.strength.tried import Tried
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass, kilograms, pounds

TODAY = date(2026, 11, 25)
MEET = date(2026, 12, 5)
DAY = DEFAULT.lift_noise.value


def squats(
    weight: Mass,
    reps: int,
    *,
    days_ago: int = 7,
    rir: float | None = 0.0,
    judged: bool = False,
    result: Result | None = None,
    cause: str = "",
) -> LoggedSetData:
    return LoggedSetData(
        athlete_id=1,
        on=TODAY - timedelta(days=days_ago),
        lift=Lift.SQUAT,
        weight=weight,
        reps=reps,
        rir=rir,
        judged=judged,
        result=result,
        cause=cause,
    )


def past(days_ago: int, *attempts: tuple[float, Outcome], own: Mass | None = None) -> PastMeet:
    good = [kg for kg, outcome in attempts if outcome is Outcome.GOOD]
    return PastMeet(
        name="Harbour Open",
        on=TODAY - timedelta(days=days_ago),
        attempts=tuple(Tried(kg, outcome) for kg, outcome in attempts),
        best=kilograms(max(good)) if good else None,
        own=own,
    )


def record(*sets: LoggedSetData, meets: tuple[PastMeet, ...] = (), behind: int = 4) -> LiftRecord:
    return LiftRecord(
        lift=Lift.SQUAT,
        equipment=Equipment.CLASSIC,
        on=MEET,
        until=TODAY + timedelta(days=1),
        meets_behind=behind,
        days=lift_days(sets, Lift.SQUAT),
        singles=tuple(each for each in sets if each.judged),
        past=meets,
        strength_causes=frozenset({"squat.strength"}),
    )


SETS = tuple(squats(kilograms(160), 5, days_ago=day) for day in (2, 9, 16))
SINGLES = tuple(
    squats(kilograms(185), 1, days_ago=day, rir=0.0, judged=True, result=Result.GOOD)
    for day in (3, 10)
)
MADE = ((170.0, Outcome.GOOD), (180.0, Outcome.GOOD), (190.0, Outcome.GOOD))
LAST = past(100, *MADE)


def used(sources: LiftSources) -> Forecast:
    found = sources.used
    assert found is not None
    return found


def _usual(experience: Experience) -> float:
    return DEFAULT.miss_rate(Lift.SQUAT, experience, Equipment.CLASSIC)


def test_every_source_stands_beside_the_others_in_order_of_trust() -> None:
    known = from_records(record(*SETS, *SINGLES, meets=(LAST,)))
    sources = known.with_own(OwnNumber(kilograms(187.5)), None)
    assert [each.source for each in sources.forecasts] == list(Source)
    by_source = {each.source: each.expected.kg for each in sources.forecasts}
    assert by_source[Source.OWN_NUMBER] == 187.5
    assert by_source[Source.JUDGED_SINGLES] == 185.0
    assert by_source[Source.SETS] == 180.0  # Brzycki 1993: 160 x 36 / 32
    assert by_source[Source.LAST_MEET] > 190
    assert all(each.evidence for each in sources.forecasts)


def test_the_coachs_number_is_used_then_the_most_trusted_source() -> None:
    known = from_records(record(*SETS, *SINGLES, meets=(LAST,)))
    assert used(known.with_own(OwnNumber(kilograms(187.5)), None)).source is Source.OWN_NUMBER
    assert used(known).source is Source.JUDGED_SINGLES


def test_a_source_that_is_clearly_narrower_goes_first() -> None:
    """One judged single far below the maximum with six left says little; the sets say more."""
    single = squats(kilograms(150), 1, days_ago=30, rir=6.0, judged=True, result=Result.GOOD)
    sources = from_records(record(*SETS, single))
    assert used(sources).source is Source.SETS


def test_the_coach_can_choose_and_a_choice_without_records_falls_back() -> None:
    known = from_records(record(*SETS, meets=(LAST,)))
    number = OwnNumber(kilograms(187.5))
    assert used(known.with_own(number, Source.LAST_MEET)).source is Source.LAST_MEET
    assert used(known.with_own(number, Source.JUDGED_SINGLES)).source is Source.OWN_NUMBER
    assert used(known.with_own(None, Source.OWN_NUMBER)).source is Source.SETS


def test_nothing_known_is_nothing_expected() -> None:
    sources = from_records(record())
    assert sources.used is None
    assert sources.forecasts == ()
    assert sources.misses.attempts == 0


def test_one_set_is_named_by_itself_and_several_by_the_best() -> None:
    assert used(from_records(record(SETS[0]))).origin.code == "expected_max.set"
    assert used(from_records(record(*SETS))).origin.code == "strength.sets"
    assert used(from_records(record(SINGLES[0]))).origin.code == "expected_max.judged_single"
    assert used(from_records(record(*SINGLES))).origin.code == "strength.judged_singles"


def test_a_pound_log_gives_pounds() -> None:
    forecast = used(from_records(record(squats(pounds(405), 1))))
    assert forecast.expected.unit is pounds(1).unit
    assert forecast.expected.kg == pytest.approx(pounds(405).kg, abs=0.05)


def test_a_first_meet_is_wider_and_rests_on_the_gym_alone() -> None:
    first = from_records(record(*SETS, behind=0))
    later = from_records(record(*SETS))
    assert first.day == pytest.approx(1.5 * later.day)
    assert [each.source for each in first.forecasts] == [Source.SETS]
    assert first.misses.usual == _usual(Experience.FIRST_MEET) > later.misses.usual


def test_nothing_counts_from_the_day_on_or_after_it() -> None:
    """What is learned is derived from records before a date: later ones change nothing."""
    today = record(*SETS, meets=(LAST,))
    later = squats(
        kilograms(220), 1, days_ago=-3, judged=True, result=Result.NO_LIFT, cause="squat.depth"
    )
    after = past(-2, (200.0, Outcome.TECHNICAL), (200.0, Outcome.GOOD))
    with_later = record(*SETS, later, meets=(after, LAST))
    assert from_records(with_later) == from_records(today)


def test_judged_singles_tell_of_technical_misses() -> None:
    """By hand: the usual rate stands for 20 attempts; one technical red in two singles is one more
    miss in 22; a red on strength is a clean single."""
    usual = 20 * _usual(Experience.SEASONED)
    good, depth, strength = (
        squats(kilograms(180), 1, judged=True, days_ago=day, result=result, cause=cause)
        for day, result, cause in (
            (3, Result.GOOD, ""),
            (10, Result.NO_LIFT, "squat.depth"),
            (17, Result.NO_LIFT, "squat.strength"),
        )
    )
    assert from_records(record(good, depth)).misses.rate == pytest.approx((usual + 1) / 22)
    assert from_records(record(good, strength)).misses.rate == pytest.approx(usual / 22)


def test_a_single_missed_without_a_cause_is_split_by_what_the_gym_says() -> None:
    """Far below what the sets show it was a technicality; far above it would have been missed
    anyway, and tells nothing."""
    usual = _usual(Experience.SEASONED)
    rates = [
        from_records(
            record(
                *SETS,
                squats(kilograms(kg), 1, days_ago=1, judged=True, result=Result.NO_LIFT),
            )
        ).misses.rate
        for kg in (140, 210)
    ]
    assert rates[0] == pytest.approx((20 * usual + 1) / 21, rel=0.01)
    assert rates[1] == pytest.approx(usual, rel=0.01)


def test_misses_without_a_cause_go_by_the_number_of_that_day() -> None:
    """200 missed where the coach expected 215 is rather a technicality than where 200 was hoped
    for."""
    missed = (200.0, Outcome.NO_LIFT)
    high = past(60, (185.0, Outcome.GOOD), missed, own=kilograms(215))
    low = past(60, (185.0, Outcome.GOOD), missed, own=kilograms(195))
    rates = [from_records(record(meets=(meet,))).misses.rate for meet in (high, low)]
    assert rates[0] > rates[1]


def test_what_carried_over_before_past_meets_moves_the_sets_forecast() -> None:
    """Gym sets came to 200 before each of three meets, and 190 was missed on strength at each."""
    before = [squats(kilograms(200), 1, days_ago=days + 7) for days in (100, 220, 340)]
    lost = ((175.0, Outcome.GOOD), (185.0, Outcome.GOOD), (192.5, Outcome.STRENGTH))
    meets = tuple(past(days, *lost) for days in (100, 220, 340))
    learned = from_records(record(*SETS, *before, meets=meets)).of(Source.SETS)
    usual = from_records(record(*SETS, *before)).of(Source.SETS)
    assert learned is not None
    assert usual is not None
    assert 0.93 < learned.expected.grams / usual.expected.grams < 0.98
    assert learned.error < usual.error
    codes = {each.code for each in learned.evidence}
    assert "strength.carry_over.own" in codes


def test_meets_long_ago_say_nothing_about_what_carries_over() -> None:
    before = squats(kilograms(200), 1, days_ago=807)
    meet = past(800, (150.0, Outcome.STRENGTH))
    found = from_records(record(*SETS, before, meets=(meet,))).of(Source.SETS)
    assert found is not None
    assert "strength.carry_over.usual" in {each.code for each in found.evidence}


def test_the_latest_meet_with_a_good_lift_counts() -> None:
    bombed = past(40, (190.0, Outcome.NO_LIFT))
    found = from_records(record(meets=(bombed, LAST))).of(Source.LAST_MEET)
    assert found is not None
    assert dict(found.origin.values)["day"] == LAST.on


@pytest.mark.parametrize(
    ("changes", "field"),
    [({"until": MEET + timedelta(days=1)}, "until"), ({"meets_behind": -1}, "meets_behind")],
)
def test_a_record_that_cannot_be_is_refused(changes: dict[str, object], field: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        replace(record(), **changes)  # type: ignore[arg-type]
    assert refused.value.field == field
