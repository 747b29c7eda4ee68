"""Where the number to plan on comes from."""

from __future__ import annotations

from datetime import date, timedelta

from coachdesk.domain.expected import MeetBest, expected_maximum
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass, kilograms, pounds

TODAY = date(2026, 11, 25)
LAST = MeetBest(kilograms(190), "Harbour Open", date(2026, 5, 2))


def _set(
    weight: Mass,
    reps: int,
    *,
    days_ago: int = 7,
    rir: float | None = None,
    variation: str = "",
    judged: bool = False,
    result: Result | None = None,
) -> LoggedSetData:
    return LoggedSetData(
        athlete_id=1,
        on=TODAY - timedelta(days=days_ago),
        lift=Lift.SQUAT,
        weight=weight,
        reps=reps,
        rir=rir,
        variation=variation,
        judged=judged,
        result=result,
    )


def _expected(*sets: LoggedSetData, coach: Mass | None = None) -> tuple[float, str]:
    found = expected_maximum(Lift.SQUAT, coach=coach, sets=sets, last_meet=LAST, on=TODAY)
    assert found is not None
    return found.maximum.kg, found.source.code


def test_the_coachs_own_number_goes_first() -> None:
    assert _expected(_set(kilograms(180), 3), coach=kilograms(205)) == (
        205.0,
        "expected_max.coach",
    )


def test_the_best_recent_set_by_brzycki() -> None:
    """Brzycki 1993: 36 w / (37 - r); 100 kg x 5 is 112.50 (check value), so 160 x 5 is 180.0."""
    assert _expected(_set(kilograms(160), 5), _set(kilograms(100), 5)) == (
        180.0,
        "expected_max.set",
    )


def test_repetitions_in_reserve_count() -> None:
    assert _expected(_set(kilograms(160), 3, rir=2.0))[0] == 180.0


def test_a_judged_single_is_worth_itself_and_a_missed_one_nothing() -> None:
    made = _set(kilograms(185), 1, judged=True, result=Result.GOOD)
    missed = _set(kilograms(195), 1, judged=True, result=Result.NO_LIFT)
    assert _expected(made, missed) == (185.0, "expected_max.judged_single")


def test_old_sets_variations_and_long_sets_do_not_count() -> None:
    assert _expected(
        _set(kilograms(200), 3, days_ago=43),
        _set(kilograms(200), 3, variation="box squat"),
        _set(kilograms(150), 11),
        _set(kilograms(150), 0),
    ) == (190.0, "expected_max.last_meet")


def test_a_pound_log_gives_pounds() -> None:
    found = expected_maximum(
        Lift.SQUAT, coach=None, sets=[_set(pounds(405), 1)], last_meet=None, on=TODAY
    )
    assert found is not None
    assert found.maximum.unit is pounds(1).unit


def test_nothing_known_is_nothing_planned() -> None:
    assert expected_maximum(Lift.BENCH, coach=None, sets=[], last_meet=None, on=TODAY) is None
