"""The picture of a bodyweight: what is drawn of it, and where its words stand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from coachdesk.domain.athlete import AthleteData, CycleNoteData, LossBar, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData, SessionData
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.services.chart_labels import Labels, limit_line, plan_line, trend_line
from coachdesk.services.cycle_notes import add_cycle_note
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, add_session, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings, edit_athlete
from coachdesk.services.weight_history import weight_history
from coachdesk.services.weight_picture import Span, WeightHistory, WeightPicture
from tests.domain.bodyweights import noisy

TODAY = date(2026, 11, 25)
WEIGH_IN = date(2027, 2, 6)
ANA = AthleteData(
    given_name="Ana",
    family_name="Ruiz",
    sex=Sex.FEMALE,
    birth_date=date(1996, 5, 4),
    height_cm=168,
    meets_before=2,
)


class Lifter:
    """An athlete weighed daily, entered to a meet ten weeks ahead."""

    def __init__(self, desk: Desk, days: int = 200, start_kg: float = 66.0) -> None:
        self.desk = desk
        self.id = add_athlete(desk, ANA).value
        self.weigh(dict(zip(self.days(days), noisy(days, start_kg=start_kg), strict=True)))

    @staticmethod
    def days(count: int) -> list[date]:
        return [TODAY - timedelta(days=at) for at in reversed(range(count))]

    def weigh(self, by_day: dict[date, float]) -> None:
        add_readings(
            self.desk,
            [
                ReadingData(athlete_id=self.id, on=on, weight=kilograms(str(kg)))
                for on, kg in by_day.items()
            ],
        )

    def enter(self, weight_class: str | None = "63", *, on: date = WEIGH_IN) -> int:
        meet = add_meet(
            self.desk,
            MeetData(name="Cup", starts_on=on, rulebook="ipf_2021", time_zone="Europe/Berlin"),
        ).value
        starts = datetime.combine(on, datetime.min.time()).replace(hour=16)
        session = add_session(
            self.desk, SessionData(meet_id=meet, name="Women", starts_at=starts)
        ).value
        return enter_athlete(
            self.desk,
            EntryData(
                athlete_id=self.id,
                meet_id=meet,
                session_id=session,
                event=Event.THREE_LIFT,
                equipment=Equipment.CLASSIC,
                divisions=("open",),
                weight_class=weight_class,
            ),
        ).value

    def agree(self, entry_id: int) -> None:
        with self.desk.action(text("did.add_cycle_note")) as work:
            work.insert(
                WeightPlanData(
                    entry_id=entry_id,
                    agreed_on=TODAY - timedelta(days=14),
                    from_weight=kilograms("66"),
                    to_weight=kilograms("63"),
                    weight_class="63",
                    arrive_on=WEIGH_IN - timedelta(days=7),
                )
            )

    def history(self) -> WeightHistory:
        found = weight_history(self.desk, self.id)
        assert found is not None
        return found

    def picture(self, span: Span = Span.THREE_MONTHS) -> WeightPicture:
        return self.history().picture(span)


@pytest.fixture
def lifter(desk: Desk) -> Lifter:
    return Lifter(desk)


def test_without_a_reading_there_is_no_picture(desk: Desk) -> None:
    assert weight_history(desk, add_athlete(desk, ANA).value) is None


def test_without_a_meet_it_ends_today_and_nothing_is_foretold(lifter: Lifter) -> None:
    picture = lifter.picture()
    assert (picture.last, picture.forecast, picture.classes) == (TODAY, (), ())
    assert picture.weigh_in_on is None
    assert lifter.history().weigh_in() is None


@pytest.mark.parametrize(
    ("span", "back"), [(Span.THREE_MONTHS, 91), (Span.YEAR, 199), (Span.ALL, 199)]
)
def test_a_span_reaches_back_no_further_than_the_first_reading(
    lifter: Lifter, span: Span, back: int
) -> None:
    lifter.enter()
    picture = lifter.picture(span)
    assert picture.first == TODAY - timedelta(days=back)
    assert picture.last == WEIGH_IN
    assert [seen.reading.on for seen in picture.readings] == Lifter.days(back + 1)
    assert [day.on for day in picture.level] == Lifter.days(back + 1)


def test_a_weigh_in_too_far_off_does_not_press_the_readings_together(lifter: Lifter) -> None:
    far = TODAY + timedelta(days=300)
    lifter.enter(on=far)
    assert lifter.picture(Span.THREE_MONTHS).last == TODAY + timedelta(days=140)
    assert lifter.picture(Span.YEAR).last == far


def test_a_single_reading_makes_a_picture(desk: Desk) -> None:
    lifter = Lifter(desk, days=1)
    picture = lifter.picture()
    assert picture.first < TODAY < picture.last
    assert [day.on for day in picture.level] == [TODAY]
    low, high = picture.drawn_range(forecast=True)
    assert low < high


def test_the_trend_and_the_forecast_are_those_of_the_domain(lifter: Lifter) -> None:
    lifter.enter()
    history, picture = lifter.history(), lifter.picture()
    level = picture.level_on(TODAY)
    assert level is not None
    assert level.kg == pytest.approx(history.trend.level_kg)
    assert level.high_kg - level.kg == pytest.approx(1.2816 * history.trend.level_error_kg, 1e-3)
    day = TODAY + timedelta(days=30)
    foretold = history.trend.forecast(day)
    drawn = picture.forecast_on(day)
    assert drawn is not None
    assert drawn.low_kg == pytest.approx(foretold.low_kg, abs=0.02)
    assert drawn.high_kg == pytest.approx(foretold.high_kg, abs=0.02)
    assert picture.forecast_on(TODAY) is None
    assert picture.level_on(day) is None


def test_the_weigh_in_is_foretold_at_its_hour(lifter: Lifter) -> None:
    """A weigh-in at 14:00 finds some hours' meals that one in the morning does not."""
    lifter.enter()
    history = lifter.history()
    at_weigh_in = history.weigh_in()
    assert at_weigh_in is not None
    assert at_weigh_in.on == WEIGH_IN
    assert at_weigh_in.mean_kg > history.trend.forecast(WEIGH_IN).mean_kg + 0.2


def test_limits_are_those_about_the_class_entered(lifter: Lifter) -> None:
    """Classes of women, IPF since 2021: 47, 52, 57, 63, 69, 76, 84 and above."""
    lifter.enter("63")
    picture = lifter.picture()
    assert [(line.name, line.is_entered) for line in picture.classes] == [
        ("57", False),
        ("63", True),
        ("69", False),
    ]
    assert picture.entered is not None
    low, high = picture.drawn_range(forecast=False)
    assert low <= 63
    assert [line.name for line in picture.classes_between(low, high)] == ["63"]


def test_without_a_class_chosen_the_one_of_the_trend_counts(lifter: Lifter) -> None:
    lifter.enter(None)
    assert [line.name for line in lifter.picture().classes] == ["63", "69", "76"]


def test_the_class_without_a_limit_has_one_below_it(lifter: Lifter) -> None:
    lifter.enter("84+")
    picture = lifter.picture()
    assert [line.name for line in picture.classes] == ["84"]
    assert picture.entered is None


def test_an_odd_reading_is_marked_and_does_not_flatten_the_rest(lifter: Lifter) -> None:
    lifter.weigh({TODAY: 166.0})
    picture = lifter.picture()
    (odd,) = [seen for seen in picture.readings if seen.is_odd]
    assert odd.reading.weight == kilograms("166")
    assert odd.expected_kg == pytest.approx(66, abs=0.5)
    low, high = picture.drawn_range(forecast=False)
    assert high < 69
    assert odd.kg_between(low, high) == high


@pytest.mark.parametrize(
    "barred",
    [
        {"birth_date": date(2010, 1, 1)},
        {"birth_date": None},
        {"loss_bar": LossBar.PREGNANCY},
        {"loss_bar": LossBar.ILLNESS},
        {"height_cm": 190},  # 63 kg at 1.90 m is a body mass index of 17.5
        {"meets_before": 0},
    ],
)
def test_nobody_who_must_not_come_down_is_shown_a_way_down(
    lifter: Lifter, barred: dict[str, Any]
) -> None:
    """It was agreed on before the guard was known; picture, days and weeks must not show it."""
    lifter.agree(lifter.enter("63"))
    assert lifter.history().plan is not None
    edit_athlete(lifter.desk, lifter.id, 1, replace(ANA, **barred))
    history = lifter.history()
    assert history.plan is None
    assert history.picture(Span.YEAR).plan_days == ()


def test_the_plan_runs_from_the_day_it_was_agreed_on_to_the_weigh_in(lifter: Lifter) -> None:
    lifter.agree(lifter.enter())
    picture = lifter.picture()
    agreed_on = TODAY - timedelta(days=14)
    assert picture.plan_days[0] == agreed_on
    assert picture.plan_days[-1] == WEIGH_IN
    assert picture.plan_kg(agreed_on - timedelta(days=1)) is None
    assert picture.plan_kg(WEIGH_IN) == pytest.approx(63)
    assert picture.plan_marks[-1] == (WEIGH_IN - timedelta(days=7), kilograms("63"))


def test_a_cycle_note_reaches_the_trend(lifter: Lifter) -> None:
    """Half a kilogram of water in the last days is no gain once the note is there."""
    lifter.weigh({TODAY - timedelta(days=at): 66.8 for at in range(4)})
    before = lifter.history().trend.level_kg
    note = CycleNoteData(athlete_id=lifter.id, first=TODAY - timedelta(days=3), last=TODAY)
    add_cycle_note(lifter.desk, note)
    assert lifter.history().trend.level_kg < before - 0.05


def _labels(picture: WeightPicture) -> Labels:
    low, high = picture.drawn_range(forecast=False)
    days = (picture.last - picture.first).days
    return Labels(
        picture, days_a_point=days / 500, kg_a_point=(high - low) / 300, low_kg=low, high_kg=high
    )


def test_words_stand_apart_and_within_the_picture(lifter: Lifter) -> None:
    lifter.agree(lifter.enter())
    picture = lifter.picture()
    labels = _labels(picture)
    low, high = picture.drawn_range(forecast=False)
    height_kg = 12 * (high - low) / 300
    lines = [limit_line(63, picture), trend_line(picture), plan_line(picture)]
    places = [labels.beside(line, 40, 12) for line in lines]
    assert all(low <= place.kg <= high for place in places)
    for at, place in enumerate(places):
        for other in places[:at]:
            far = abs((other.on - place.on).days) >= 40 * (picture.last - picture.first).days / 500
            assert far or abs(other.kg - place.kg) >= height_kg


def test_words_of_the_trend_are_not_parted_from_it_by_a_limit(lifter: Lifter) -> None:
    lifter.enter()
    picture = lifter.picture()
    near = replace(
        picture, classes=tuple(replace(line, limit=kilograms("65.4")) for line in picture.classes)
    )
    assert _labels(near).beside(trend_line(near), 40, 12).kg > 65.4
