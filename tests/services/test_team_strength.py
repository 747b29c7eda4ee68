"""What the team is forecast for, forecasts kept with their date, and a lift's history."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from sqlalchemy import Engine, event

from coachdesk.domain.lifting import Event, Lift, Result
from coachdesk.domain.scoring import score
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.entry_look import open_entry
from coachdesk.services.kept_forecasts import keep_coming_forecasts, past_forecast_error
from coachdesk.services.planning import expected_of
from coachdesk.services.strength_history import strength_history
from coachdesk.services.team_strength import team_strength
from coachdesk.services.training import log_sets
from coachdesk.services.weight_picture import Span
from coachdesk.storage.kept_forecasts import forecasts_of, keep_forecasts
from coachdesk.wording.wording import Wording
from tests.conftest import NOW, Results

TODAY = NOW.date()
MEET_DAY = date(2026, 12, 12)


@contextmanager
def _statements() -> Iterator[list[str]]:
    seen: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        seen.append(statement)

    event.listen(Engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", note)


def _log(
    desk: Desk, athlete_id: int, lift: Lift, kg: float, days_ago: int = 5, **more: Any
) -> None:
    logged = LoggedSetData(
        athlete_id=athlete_id,
        on=TODAY - timedelta(days=days_ago),
        lift=lift,
        weight=kilograms(kg),
        reps=1,
        rir=0.0,
    )
    log_sets(desk, [replace(logged, **more)])


def _trained(results: Results, name: str) -> int:
    athlete_id = results.athlete(name)
    for lift, kg in zip(Lift, (100, 60, 130), strict=True):
        _log(results.desk, athlete_id, lift, kg)
    return athlete_id


def test_a_team_with_total_points_and_band(results: Results) -> None:
    """By hand: the sum of the lifts' numbers; points as the rulebook's formula has them."""
    athlete_id = _trained(results, "Ana Ruiz")
    meet_id = results.meet("Harbour Open", MEET_DAY)
    results.entry(athlete_id, meet_id, bodyweight="62.4")
    (line,) = team_strength(results.desk)
    assert line.total == kilograms(290)
    assert line.low is not None
    assert line.high is not None
    assert line.low.kg < 290 < line.high.kg
    assert line.days == 17
    assert line.points == pytest.approx(
        score(
            line.formula,
            sex=line.athlete.sex,
            bodyweight_kg=62.4,
            total_kg=290,
            event=line.entry.event,
            equipment=line.entry.equipment,
        )
    )


def test_the_team_sees_what_the_entry_is_planned_on(club: Desk) -> None:
    """One number, wherever it is looked at."""
    lines = team_strength(club)
    assert len(lines) > 5
    for line in lines:
        opened = open_entry(club, line.entry.id)
        expected = {
            lift: each.expected for lift, each in expected_of(opened.known, opened.entry).items()
        }
        found = {lift: each.expected for lift, each in line.forecasts.items() if each is not None}
        assert found == expected


def test_a_lift_of_which_nothing_is_known_leaves_the_total_open(results: Results) -> None:
    athlete_id = results.athlete("Ana Ruiz")
    _log(results.desk, athlete_id, Lift.SQUAT, 100)
    results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY))
    (line,) = team_strength(results.desk)
    assert line.forecasts[Lift.SQUAT] is not None
    assert line.forecasts[Lift.BENCH] is None
    assert (line.total, line.points) == (None, None)


def test_each_athlete_stands_at_the_soonest_meet(results: Results) -> None:
    athlete_id = _trained(results, "Ana Ruiz")
    later = results.meet("Spring Cup", MEET_DAY + timedelta(days=90))
    results.entry(athlete_id, later)
    results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY), event=Event.BENCH_ONLY)
    (line,) = team_strength(results.desk)
    assert (line.meet.name, list(line.forecasts)) == ("Harbour Open", [Lift.BENCH])
    assert line.total == kilograms(60)


def test_as_many_statements_for_many_athletes_and_meets_as_for_one(results: Results) -> None:
    counts = []
    past = results.meet("Autumn Cup", date(2026, 4, 11))
    for number in (1, 8):
        for at in range(number):
            athlete_id = _trained(results, f"Ana Ruiz {number} {at}")
            results.day(athlete_id, past, [95, 55, 125])
            meet = results.meet(f"Open {number} {at}", MEET_DAY + timedelta(days=at))
            results.entry(athlete_id, meet)
        with _statements() as seen:
            lines = team_strength(results.desk)
        counts.append((len(seen), len(lines)))
    assert [lines for _, lines in counts] == [1, 9]
    assert counts[0][0] == counts[1][0]


def later(desk: Desk, days: int) -> Desk:
    """The same file with the clock so many days on."""
    return replace(desk, now=lambda: NOW + timedelta(days=days))


def test_a_forecast_is_kept_once_a_week(results: Results) -> None:
    athlete_id = _trained(results, "Ana Ruiz")
    results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY))
    assert keep_coming_forecasts(results.desk) == 3
    assert keep_coming_forecasts(results.desk) == 0
    assert keep_coming_forecasts(later(results.desk, 6)) == 0
    assert keep_coming_forecasts(later(results.desk, 7)) == 3
    _log(results.desk, athlete_id, Lift.SQUAT, 110, days_ago=0)
    assert keep_coming_forecasts(later(results.desk, 8)) == 0
    assert keep_coming_forecasts(later(results.desk, 17)) == 0  # the meet's own day


def test_what_was_said_stays_said(results: Results) -> None:
    """A number put on file once is not made better by what came later that day."""
    athlete_id = _trained(results, "Ana Ruiz")
    entry_id = results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY))
    keep_coming_forecasts(results.desk)
    with results.desk.reading() as reader:
        said = forecasts_of(reader, [entry_id])
    other = replace(said[entry_id][0], expected=kilograms(300))
    gone = replace(other, entry_id=entry_id + 1)
    with results.desk.store.raw_writing() as connection:
        keep_forecasts(connection, [other, gone])
    with results.desk.reading() as reader:
        assert forecasts_of(reader, [entry_id, entry_id + 1]) == said


def test_what_was_said_is_held_against_what_was_lifted(results: Results, wording: Wording) -> None:
    athlete_id = _trained(results, "Ana Ruiz")
    entry_id = results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY))
    keep_coming_forecasts(results.desk)
    before = past_forecast_error(results.desk)
    assert before.meets == 0
    after = later(results.desk, 18)
    there = replace(results, desk=after)
    there.lift(entry_id, Lift.SQUAT, [(85, True), (90, True), (92.5, False)])
    there.lift(entry_id, Lift.BENCH, [(50, True), (52.5, True), (55, False)])
    found = past_forecast_error(after, athlete_id)
    assert (found.meets, found.lifts) == (1, 2)
    assert found.off < -0.01
    assert past_forecast_error(after) == found
    assert past_forecast_error(after, results.athlete("Bea Sol")).meets == 0
    assert all(wording.say(each) for each in (*before.told, *found.told))


def test_a_lifts_history_with_its_trend_and_what_is_forecast(results: Results) -> None:
    athlete_id = results.athlete("Ana Ruiz")
    for ago in range(0, 400, 7):
        _log(results.desk, athlete_id, Lift.SQUAT, 100 - ago // 20, days_ago=ago)
    _log(results.desk, athlete_id, Lift.SQUAT, 101, days_ago=0, judged=True, result=Result.GOOD)
    results.entry(athlete_id, results.meet("Harbour Open", MEET_DAY))
    keep_coming_forecasts(results.desk)
    found = strength_history(results.desk, athlete_id, Lift.SQUAT)
    assert found is not None
    assert found.trend.rate > 0
    assert found.trend.observations[0].judged
    assert found.used is not None
    assert found.used.source is Source.JUDGED_SINGLES
    picture = found.picture(Span.THREE_MONTHS)
    assert (picture.first, picture.last) == (TODAY - timedelta(days=91), MEET_DAY)
    assert len(picture.days) == 14
    assert picture.level[-1].on == picture.forecast[0].on == TODAY
    assert picture.forecast[-1].on == MEET_DAY
    assert picture.platform is not None
    assert picture.platform.kg == found.used.expected.kg
    assert [each.kept.made_on for each in picture.earlier] == [TODAY]
    low, high = picture.kg_range()
    assert low < 96
    assert high > 101
    whole = found.picture(Span.ALL)
    assert whole.first == TODAY - timedelta(days=399)


def test_a_history_without_a_meet_or_without_a_set(results: Results) -> None:
    athlete_id = results.athlete("Ana Ruiz")
    assert strength_history(results.desk, athlete_id, Lift.SQUAT) is None
    _log(results.desk, athlete_id, Lift.SQUAT, 100, days_ago=0)
    found = strength_history(results.desk, athlete_id, Lift.SQUAT)
    assert found is not None
    picture = found.picture(Span.YEAR)
    assert (picture.forecast, picture.platform, found.used) == ((), None, None)
    assert picture.first < picture.last
    results.entry(athlete_id, results.meet("Bench Day", MEET_DAY), event=Event.BENCH_ONLY)
    again = strength_history(results.desk, athlete_id, Lift.SQUAT)
    assert again is not None
    assert again.meet is None
