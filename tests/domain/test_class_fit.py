"""Class fit against hand calculation and the trade's rules of thumb; every guard."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.athlete import LossBar, Reading
from coachdesk.domain.bodyweight import bodyweight, trend
from coachdesk.domain.class_fit import (
    ClassFit,
    Pace,
    Person,
    PresentWeight,
    Verdict,
    class_fit,
    present_weight,
    weekly_marks,
)
from coachdesk.domain.units import kilograms
from coachdesk.domain.weight_class import WeightClass

TODAY = date(2026, 1, 5)
ADULT = Person(date(1995, 3, 1), 175, LossBar.NONE, first_meet=False)
FIRST_TIMER = replace(ADULT, first_meet=True)
CLASS_83 = WeightClass(name="83", limit=kilograms(83))
OPEN_ENDED = WeightClass(name="120+", limit=None)


def _present(kg: float) -> PresentWeight:
    return PresentWeight(kg, 7, TODAY)


def _fit(
    kg: float, weeks_to_weigh_in: float, person: Person = ADULT, *, chosen: bool = True
) -> ClassFit:
    return class_fit(
        CLASS_83,
        present=_present(kg),
        today=TODAY,
        weigh_in_on=TODAY + timedelta(days=round(weeks_to_weigh_in * 7)),
        person=person,
        chosen=chosen,
    )


FOUR_PERCENT_ABOVE = 83 / 0.96


def test_four_percent_above_four_weeks_out_is_not_in_time() -> None:
    """Common practice; by hand: 4 % in the 3 weeks to a week before weigh-in is 1.33 % a week."""
    fit = _fit(FOUR_PERCENT_ABOVE, 4)
    assert fit.verdict is Verdict.NOT_IN_TIME
    assert fit.rate is not None
    assert fit.rate.value == pytest.approx(4 / 3, abs=0.01)


@pytest.mark.parametrize("weeks", [13, 15, 17])
def test_with_three_to_four_months_it_is_comfortable(weeks: int) -> None:
    """Common practice; by hand: 4 % in 12 weeks is 0.333 % a week, below 0.35."""
    assert _fit(FOUR_PERCENT_ABOVE, weeks, FIRST_TIMER).verdict is Verdict.COMFORTABLE


@pytest.mark.parametrize(
    ("weeks", "experienced", "first_timer"),
    [
        (17, Verdict.COMFORTABLE, Verdict.COMFORTABLE),  # 0.25 % a week
        (8, Verdict.STEADY, Verdict.STEADY),  # 0.571
        (6, Verdict.HARD, Verdict.NOT_IN_TIME),  # 0.8
        (4.9, Verdict.NOT_IN_TIME, Verdict.NOT_IN_TIME),  # 1.03
        (1, Verdict.NOT_IN_TIME, Verdict.NOT_IN_TIME),  # no week left
        (0.5, Verdict.NOT_IN_TIME, Verdict.NOT_IN_TIME),
    ],
)
def test_verdicts_by_weeks_left(weeks: float, experienced: Verdict, first_timer: Verdict) -> None:
    """By hand: 4 % over the weeks to a week before weigh-in. Paces: Garthe et al. 2011."""
    assert _fit(FOUR_PERCENT_ABOVE, weeks).verdict is experienced
    assert _fit(FOUR_PERCENT_ABOVE, weeks, FIRST_TIMER).verdict is first_timer


def test_latest_starts_by_hand() -> None:
    """3.4 of 86.4 kg is 3.935 %; at 0.35, 0.7, 1.0 % a week 79, 40, 28 days before 27 April."""
    fit = _fit(86.4, 17)
    assert fit.arrive_on == date(2026, 4, 27)
    assert dict(fit.latest_starts) == {
        Pace.COMFORTABLE: date(2026, 2, 7),
        Pace.STEADY: date(2026, 3, 18),
        Pace.HARD: date(2026, 3, 30),
    }


def test_a_first_timer_is_never_given_a_hard_start() -> None:
    assert Pace.HARD not in dict(_fit(FOUR_PERCENT_ABOVE, 17, FIRST_TIMER).latest_starts)


def test_weekly_marks_run_straight_to_the_limit() -> None:
    fit = _fit(86.0, 13)
    marks = weekly_marks(fit, _present(86.0), TODAY)
    assert len(marks) == 12
    assert marks[-1] == (fit.arrive_on, kilograms("83"))
    assert marks[5][1].kg == pytest.approx(84.5)  # half way in time and weight


def test_on_the_limit_is_in_and_a_hundredth_above_is_not() -> None:
    """Source: a national federation's class page, 57.01-63.00."""
    assert _fit(83.0, 10).verdict is Verdict.IN_CLASS
    assert _fit(83.004, 10).verdict is Verdict.IN_CLASS
    assert _fit(83.01, 10).verdict is not Verdict.IN_CLASS


def test_everybody_fits_a_class_without_a_limit() -> None:
    fit = class_fit(
        OPEN_ENDED,
        present=_present(160),
        today=TODAY,
        weigh_in_on=TODAY,
        person=replace(ADULT, birth_date=None),
        chosen=False,
    )
    assert fit.verdict is Verdict.IN_CLASS


@pytest.mark.parametrize(
    ("person", "code"),
    [
        (replace(ADULT, birth_date=None), "class_fit.age_unknown"),
        (replace(ADULT, birth_date=date(2008, 1, 6)), "class_fit.minor"),
        (replace(ADULT, loss_bar=LossBar.PREGNANCY), "class_fit.bar.pregnancy"),
        (replace(ADULT, loss_bar=LossBar.ILLNESS), "class_fit.bar.illness"),
        (replace(ADULT, loss_bar=LossBar.OTHER), "class_fit.bar.other"),
        (replace(ADULT, height_cm=212), "class_fit.too_light"),  # 83 / 2.12^2 = 18.47
    ],
)
def test_guards_give_no_plan(person: Person, code: str) -> None:
    fit = _fit(85, 20, person)
    assert fit.verdict is Verdict.NO_PLAN
    assert [reason.code for reason in fit.reasons] == [code]
    assert fit.rate is None
    assert fit.latest_starts == ()
    assert weekly_marks(fit, _present(85), TODAY) == ()


def test_the_18th_birthday_lifts_the_guard() -> None:
    assert _fit(85, 20, replace(ADULT, birth_date=date(2008, 1, 5))).verdict.has_way_down


def test_a_body_mass_index_of_18_5_is_not_underweight() -> None:
    """World Health Organization: underweight is below 18.5; 83 kg at 211 cm is 18.64."""
    assert _fit(85, 20, replace(ADULT, height_cm=211)).verdict.has_way_down


def test_no_more_than_five_percent_is_planned_for_one_meet() -> None:
    assert _fit(83 / 0.951, 52).verdict.has_way_down
    fit = _fit(83 / 0.949, 52)
    assert [reason.code for reason in fit.reasons] == ["class_fit.too_far"]


def test_a_first_timer_stays_in_the_class_weighed_now_unless_the_coach_chooses() -> None:
    fit = _fit(84, 20, FIRST_TIMER, chosen=False)
    assert fit.verdict is Verdict.NO_PLAN
    assert [reason.code for reason in fit.reasons] == ["class_fit.first_meet"]
    assert _fit(84, 20, FIRST_TIMER, chosen=True).verdict.has_way_down


def test_an_unknown_height_is_said() -> None:
    fit = _fit(85, 20, replace(ADULT, height_cm=None))
    assert [note.code for note in fit.notes] == ["class_fit.no_height"]


@given(
    kg=st.floats(40, 200),
    weeks=st.floats(-5, 60),
    birth=st.none() | st.dates(date(1930, 1, 1), TODAY),
    first=st.booleans(),
    chosen=st.booleans(),
    height=st.none() | st.integers(120, 220),
)
def test_no_way_down_is_ever_steeper_than_one_percent_a_week_or_for_a_minor(
    kg: float, weeks: float, birth: date | None, first: bool, chosen: bool, height: int | None
) -> None:
    person = Person(birth, height, LossBar.NONE, first)
    fit = _fit(kg, weeks, person, chosen=chosen)
    marks = weekly_marks(fit, _present(kg), TODAY)
    if birth is None or birth > date(2008, 1, 5):
        assert marks == ()
        assert not fit.verdict.has_way_down
    if marks:
        assert fit.rate is not None
        assert fit.rate.value <= (0.7 if first else 1.0)
        assert marks[-1][1].kg >= kg * 0.95 - 0.05


def _readings(*shown: tuple[int, str]) -> list[Reading]:
    return [
        Reading(id=day, version=1, athlete_id=1, on=date(2026, 1, day), weight=kilograms(kg))
        for day, kg in shown
    ]


def test_the_present_weight_is_the_level_of_the_trend() -> None:
    readings = _readings((8, "86.2"), (12, "86.0"), (14, "85.8"))
    state = bodyweight(readings)
    present = present_weight(state, date(2026, 1, 14))
    assert present is not None
    assert present.kg == trend(readings, on=date(2026, 1, 14)).level_kg
    assert 85.8 < present.kg < 86.2
    assert (present.readings, present.latest_on) == (3, date(2026, 1, 14))


def test_without_a_reading_the_level_goes_on_as_the_trend_fades() -> None:
    """By hand: a slope that halves in 28 days goes on for 28 / ln 2 / 2 of its days in 28."""
    state = bodyweight(_readings(*((day, str(90 - day / 10)) for day in range(1, 31))))
    assert state is not None
    last, later = (present_weight(state, day) for day in (date(2026, 1, 30), date(2026, 2, 27)))
    assert last is not None
    assert later is not None
    days = 28 / math.log(2) / 2
    assert later.kg - last.kg == pytest.approx(state.outlook.rate_kg / 7 * days, rel=0.02)


def test_old_readings_say_nothing_about_the_present() -> None:
    state = bodyweight(_readings((1, "86")))
    assert present_weight(state, date(2026, 2, 26)) is not None
    assert present_weight(state, date(2026, 2, 27)) is None  # eight weeks and a day
    assert present_weight(None, TODAY) is None
    assert bodyweight([]) is None
