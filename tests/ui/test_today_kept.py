"""Today, read again and again by one presenter, says what one that reads it anew says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date, timedelta
from typing import TypeVar

import pytest

from coachdesk.domain.athlete import (
    Athlete,
    AthleteData,
    CycleNoteData,
    LossBar,
    Reading,
    ReadingData,
)
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Entry, EntryData, Meet, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services import today as today_service
from coachdesk.services.attention import put_off
from coachdesk.services.cycle_notes import add_cycle_note
from coachdesk.services.desk import Desk
from coachdesk.services.entry_editing import withdraw_entry
from coachdesk.services.meet_editing import edit_meet
from coachdesk.services.meets import add_meet, choose_opener, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings, delete_readings, edit_athlete
from coachdesk.services.states import keep_bodyweights
from coachdesk.services.today import EntryLook, Seen, read_today
from coachdesk.services.undo import redo, undo
from coachdesk.services.weight_plans import agree_on_way_down
from coachdesk.storage.rows import Data
from coachdesk.ui.screens.today.presenter import TodayPresenter
from coachdesk.wording.wording import Wording

TODAY = date(2026, 11, 25)
TEAM = 4
ILLNESS = LossBar.ILLNESS
R = TypeVar("R", bound=Data)


@pytest.fixture
def team(desk: Desk) -> Desk:
    """Athletes 1 to 4, above the class, with entries 1 to 4 to the same meet."""
    meet = MeetData(
        name="Harbour Open",
        starts_on=TODAY + timedelta(weeks=12),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    meet_id = add_meet(desk, meet).value
    for number in range(TEAM):
        person = AthleteData(
            given_name=f"A{number}",
            family_name="",
            sex=Sex.FEMALE,
            birth_date=date(1995, 3, 1),
            height_cm=175,
            meets_before=3,
        )
        athlete_id = add_athlete(desk, person).value
        weigh(desk, athlete_id, 78)
        entry = EntryData(
            athlete_id=athlete_id,
            meet_id=meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            weight_class="76",
        )
        enter_athlete(desk, entry)
    return desk


def weigh(desk: Desk, athlete_id: int, kg: float) -> None:
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms(kg))])


def on_file(desk: Desk, kind: type[R], row_id: int = 1) -> R:
    with desk.reading() as reader:
        return reader.get(kind, row_id)


def bar_loss(desk: Desk) -> None:
    athlete = on_file(desk, Athlete)
    edit_athlete(desk, 1, athlete.version, replace(as_data(athlete, AthleteData), loss_bar=ILLNESS))


def bring_meet_nearer(desk: Desk) -> None:
    meet = on_file(desk, Meet)
    nearer = replace(as_data(meet, MeetData), starts_on=TODAY + timedelta(days=6))
    edit_meet(desk, meet, nearer)


def as_data(record: Data, kind: type[R]) -> R:
    """A record without its id and version."""
    return kind(**{field.name: getattr(record, field.name) for field in fields(kind)})


CHANGES: dict[str, Callable[[Desk], object]] = {
    "a reading": lambda desk: weigh(desk, 1, 76.5),
    "what readings come to": keep_bodyweights,
    "a reading taken off": lambda desk: delete_readings(desk, [on_file(desk, Reading, 2)]),
    "it undone": undo,
    "it redone": redo,
    "a cycle note": lambda desk: add_cycle_note(
        desk, CycleNoteData(athlete_id=3, first=TODAY - timedelta(days=2), last=TODAY)
    ),
    "a way down": lambda desk: agree_on_way_down(desk, 3),
    "a bar": bar_loss,
    "a matter put off": lambda desk: put_off(
        desk, read_today(desk).concerns[:1], TODAY + timedelta(days=3), "Away"
    ),
    "another day of the meet": bring_meet_nearer,
    "an opener": lambda desk: choose_opener(desk, 3, Lift.SQUAT, kilograms(100)),
    "an entry withdrawn": lambda desk: withdraw_entry(desk, on_file(desk, Entry), withdrawn=True),
}
"""What is done, one after the other."""


def test_after_any_change_it_is_what_reading_anew_gives(team: Desk, wording: Wording) -> None:
    presenter = TodayPresenter(team, wording)
    before = presenter.read()
    unseen = set()
    for what, change in CHANGES.items():
        change(team)
        now = presenter.read()
        assert now == TodayPresenter(team, wording).read(), what
        if now == before:
            unseen.add(what)
        before = now
    assert unseen == {"what readings come to"}


def test_a_new_day_is_seen(team: Desk, wording: Wording) -> None:
    moment = [team.now()]
    later = replace(team, now=lambda: moment[0])
    presenter = TodayPresenter(later, wording)
    presenter.read()
    moment[0] += timedelta(days=9)
    assert presenter.read() == TodayPresenter(later, wording).read()


def test_a_reading_has_only_its_athlete_looked_at(
    team: Desk, wording: Wording, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked: list[int] = []

    def look(of: Seen) -> EntryLook:
        looked.append(of[0].athlete.id)
        return today_service.look_at(of)

    monkeypatch.setattr("coachdesk.ui.screens.today.presenter.look_at", look)
    presenter = TodayPresenter(team, wording)
    presenter.read()
    assert looked == [1, 2, 3, 4]
    weigh(team, 2, 77)
    presenter.read()
    assert looked == [1, 2, 3, 4, 2]
