"""The first-timer of the demo as the clock is moved: on the list on the right days."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete, ReadingData
from coachdesk.domain.attention import Kind
from coachdesk.domain.units import kilograms
from coachdesk.services.attention import Concern
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_readings, delete_readings
from coachdesk.services.roster_reading import readings
from coachdesk.services.today import read_today
from coachdesk.services.weight_plans import agree_on_way_down

MEET = date(2027, 2, 27)
"""Her meet, with the weigh-in on the same day: she is to arrive on 20 February."""


@contextmanager
def desk_on(file: Path, folder: Path, day: date) -> Iterator[Desk]:
    """A copy of the demo with the clock moved to a day, on which she weighs 65.6 kg as she did in
    the eight weeks before."""
    copy = folder / f"{day}.db"
    shutil.copy(file, copy)
    moment = datetime.combine(day, time(9), ZoneInfo("Europe/Berlin"))
    desk = open_desk(copy, lambda: moment)
    athlete = zoe(desk)
    delete_readings(desk, readings(desk, athlete.id, None)[0])
    add_readings(
        desk,
        [
            ReadingData(
                athlete_id=athlete.id, on=day - timedelta(days=ago), weight=kilograms("65.6")
            )
            for ago in range(0, 56, 3)
        ],
    )
    yield desk
    desk.store.close()


def zoe(desk: Desk) -> Athlete:
    with desk.reading() as reader:
        return next(each for each in reader.list(Athlete) if each.given_name == "Zoë")


def of_weight(desk: Desk) -> list[Concern]:
    kinds = {Kind.CLASS, Kind.START_DOWN, Kind.BEHIND, Kind.NO_WEIGHT, Kind.ODD_READING}
    return [
        each
        for each in read_today(desk).concerns
        if each.athlete.given_name == "Zoë" and each.matter.kind in kinds
    ]


@pytest.mark.parametrize(
    ("weeks", "kind", "by"),
    [
        (17, None, None),  # 31 October, four days before she is spoken of
        (16, Kind.START_DOWN, date(2026, 12, 2)),
        (12, Kind.START_DOWN, date(2027, 1, 11)),
        (8, Kind.START_DOWN, date(2027, 1, 11)),
        (4, Kind.CLASS, MEET),
        (2, Kind.CLASS, MEET),
    ],
)
def test_she_is_on_the_list_on_the_right_days(
    club_file: Path, tmp_path: Path, weeks: int, kind: Kind | None, by: date | None
) -> None:
    """By hand: 2.6 of 65.6 kg is 3.963 %. At 0.35 % a week that takes 79.3 days, so 80 before
    20 February: 2 December, and four weeks before that she is spoken of, from 4 November on. At
    0.7 % a week it takes 39.6 days: 11 January. A first-timer is planned nothing faster, so from
    12 January on it is not in time; entries closed in January, so the weigh-in is the last day to
    do something about it.
    """
    with desk_on(club_file, tmp_path, MEET - timedelta(weeks=weeks)) as desk:
        found = of_weight(desk)
        assert [each.matter.kind for each in found] == ([] if kind is None else [kind])
        assert [each.matter.by for each in found] == ([] if by is None else [by])
        if kind is Kind.START_DOWN:
            assert found[0].matter.since == date(2026, 11, 4)
        if kind is Kind.CLASS:
            assert found[0].matter.since == date(2027, 1, 12)


def test_once_agreed_she_is_off_the_list_until_she_is_behind(
    club_file: Path, tmp_path: Path
) -> None:
    """By hand: 2.6 kg in the 77 days from 5 December is 0.236 kg a week. After four weeks without
    a change she is 0.95 kg above the line, and she was a week behind after one week."""
    with desk_on(club_file, tmp_path, MEET - timedelta(weeks=12)) as desk:
        (start,) = of_weight(desk)
        agree_on_way_down(desk, start.entry.id)
        assert of_weight(desk) == []
        copy = desk.store.file
    later = datetime(2027, 1, 2, 9, tzinfo=ZoneInfo("Europe/Berlin"))
    desk = open_desk(copy, lambda: later)
    reading = ReadingData(athlete_id=zoe(desk).id, on=later.date(), weight=kilograms("65.6"))
    add_readings(
        desk,
        [
            ReadingData(
                athlete_id=reading.athlete_id,
                on=later.date() - timedelta(days=ago),
                weight=reading.weight,
            )
            for ago in range(0, 28, 2)
        ],
    )
    (behind,) = of_weight(desk)
    assert behind.matter.kind is Kind.BEHIND
    assert dict(behind.matter.why.values)["off"] == kilograms("0.9")
    assert date(2026, 12, 12) <= behind.matter.since <= date(2026, 12, 16)
    desk.store.close()
