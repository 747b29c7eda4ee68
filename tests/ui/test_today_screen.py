"""Today by keys: down the list, and on to the athlete or the meet."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.ui.context import Context
from coachdesk.ui.screens.today import presenter
from coachdesk.ui.screens.today.presenter import Beginning, Shown, TodayPresenter
from coachdesk.ui.screens.today.screen import TodayScreen
from coachdesk.ui.way import Way
from coachdesk.wording.wording import Wording

TODAY = date(2026, 11, 25)


def enter(
    desk: Desk,
    name: str,
    kg: str,
    *,
    weeks: int,
    born: date | None = date(1995, 3, 1),
    division: str = "open",
) -> tuple[int, int]:
    """Somebody of `kg` entered to the 83 kg class of a meet of their own: athlete and meet."""
    meet = MeetData(
        name=f"{name} Open",
        starts_on=TODAY + timedelta(weeks=weeks),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
        entry_deadline=TODAY + timedelta(weeks=weeks - 2),
    )
    person = AthleteData(
        given_name=name, family_name="", sex=Sex.MALE, birth_date=born, height_cm=175,
        meets_before=3,
    )  # fmt: skip
    meet_id, athlete_id = add_meet(desk, meet).value, add_athlete(desk, person).value
    add_readings(desk, [ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms(kg))])
    enter_athlete(
        desk,
        EntryData(
            athlete_id=athlete_id,
            meet_id=meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=(division,),
            weight_class="83",
        ),
    )
    return athlete_id, meet_id


def read(desk: Desk, words: Wording) -> Shown:
    return TodayPresenter(desk, words).read()


def test_an_empty_desk_says_what_to_do_first(desk: Desk, wording: Wording) -> None:
    assert read(desk, wording).beginning is Beginning.EMPTY
    add_athlete(desk, AthleteData(given_name="Ana", family_name="", sex=Sex.FEMALE))
    assert read(desk, wording).beginning is Beginning.NO_MEET
    enter(desk, "Bo", "80", weeks=8)
    assert read(desk, wording).beginning is None


def test_days_are_counted_in_words(desk: Desk, wording: Wording) -> None:
    for days, deadline in ((0, -3), (1, 0), (9, 1), (30, 12), (40, None)):
        meet = MeetData(
            name=f"In {days}",
            starts_on=TODAY + timedelta(days=days),
            rulebook="ipf_2021",
            time_zone="Europe/Berlin",
            entry_deadline=None if deadline is None else TODAY + timedelta(days=deadline),
        )
        add_meet(desk, meet)
    rows = read(desk, wording).meets
    assert [row.countdown for row in rows] == ["today", "tomorrow", "9 days", "30 days", "40 days"]
    assert [row.deadline for row in rows] == [
        "closed",
        "Wed 25 Nov 2026, today",
        "Thu 26 Nov 2026, tomorrow",
        "Mon 7 Dec 2026, in 12 days",
        "not on file",
    ]
    assert [row.urgent for row in rows] == [False, True, True, False, False]


def test_a_way_down_is_told_in_words(desk: Desk, wording: Wording) -> None:
    """By hand: 1.3 of 84.3 kg is 1.54 %; in the 7 weeks to a week before it is 0.22 % a week; at
    0.35 % a week it takes 31 days, at 0.7 % 16, at 1 % 11, before Wednesday 13 January."""
    enter(desk, "Bo", "84.3", weeks=8)
    (row,) = read(desk, wording).board
    assert (row.gap, row.rate, row.weeks, row.verdict) == ("1.3", "0.22 %", "7.0", "comfortable")
    assert row.start == "13 Dec, comfortable"
    assert row.detail == (
        "Bo weighs 84.3 kg (trend, 1 reading in the week up to Wed 25 Nov 2026): 1.3 kg, or 1.5 %, "
        "above the limit of the 83 class. To be there by Wed 13 Jan 2027, a week before the "
        "weigh-in, "
        "takes 0.22 % of present bodyweight a week: comfortable. "
        "Latest start at a comfortable pace: Sun 13 Dec 2026. "
        "Latest start at a steady pace: Mon 28 Dec 2026. "
        "Latest start at a hard pace: Sat 2 Jan 2027."
    )
    assert row.cautions.startswith("Weight changes can harm.")


def test_nobody_is_told_to_come_down_faster_than_one_percent_a_week(
    desk: Desk, wording: Wording
) -> None:
    enter(desk, "Bo", "86.45", weeks=4)
    (row,) = read(desk, wording).board
    assert row.verdict == "not in time"
    assert row.start == ""
    assert "faster than is ever planned: not in time" in row.detail
    assert "Latest start" not in row.detail
    assert row.detail.count("has passed") == 3


def test_a_minor_gets_no_figures_to_come_down_by(desk: Desk, wording: Wording) -> None:
    enter(desk, "Bo", "84.3", weeks=12, born=date(2009, 6, 1), division="sub_junior")
    (row,) = read(desk, wording).board
    assert (row.rate, row.start) == ("", "")
    assert "a week" not in row.detail
    assert "no loss plan" in row.detail
    assert "A parent or guardian and a physician decide" in row.cautions


def test_nothing_is_said_about_drying_out(desk: Desk, wording: Wording) -> None:
    for number, (kg, weeks) in enumerate((("84.3", 12), ("84.3", 4), ("86.45", 2), ("92", 1))):
        enter(desk, f"Bo {number}", kg, weeks=weeks)
    shown = read(desk, wording)
    said = " ".join(row.detail + row.cautions for row in shown.board).casefold()
    assert len(shown.board) == 4
    for word in ("sauna", "sweat", "dehydrat", "laxative", "diuretic", "fluid", "salt"):
        assert word not in said


@pytest.fixture
def screen(context: Context, qtbot: QtBot) -> TodayScreen:
    made = TodayScreen(context)
    qtbot.addWidget(made)
    made.resize(1100, 700)
    return made


def test_enter_leads_to_the_athlete_and_to_the_meet(screen: TodayScreen, qtbot: QtBot) -> None:
    athlete_id, meet_id = enter(screen.context.desk, "Bo", "84.3", weeks=8)
    went: list[Way] = []
    screen.go.connect(went.append)
    with qtbot.waitActive(screen):
        screen.show()
    for part in (screen.meets, screen.board, screen.missing):
        part.table.setFocus()
        qtbot.keyClick(part.table.view, Qt.Key.Key_Return)
    entry = screen.board.table.rows[0].id
    assert went == [
        Way("meets", meet_id),
        Way("roster", athlete_id),
        Way("meets", meet_id, part="entries", within=entry),
    ]


def test_the_arrow_keys_say_more_about_each(screen: TodayScreen, qtbot: QtBot) -> None:
    enter(screen.context.desk, "Ana", "84.3", weeks=8)
    enter(screen.context.desk, "Bo", "86.45", weeks=4)
    with qtbot.waitActive(screen):
        screen.show()
    screen.board.table.setFocus()
    assert screen.board.sentence.text().startswith("Bo weighs")
    qtbot.keyClick(screen.board.table.view, Qt.Key.Key_Down)
    assert screen.board.sentence.text().startswith("Ana weighs")
    assert screen.board.caution.text().startswith("Weight changes can harm.")
    assert "Squat: rack height is not on file." in screen.missing.sentence.text()


def test_nothing_to_do_is_said_rather_than_an_empty_table(
    screen: TodayScreen, qtbot: QtBot
) -> None:
    enter(screen.context.desk, "Bo", "80", weeks=12)
    with qtbot.waitActive(screen):
        screen.show()
    assert screen.concerns.none.isVisible()
    assert not screen.concerns.table.isVisible()
    assert screen.board.table.rows[0].verdict == "in the class"
    assert not screen.beginning.isVisible()


def test_an_empty_desk_leads_to_the_roster(screen: TodayScreen, qtbot: QtBot) -> None:
    with qtbot.waitActive(screen):
        screen.show()
    assert not screen.meets.isVisible()
    with qtbot.waitSignal(screen.go) as went:
        qtbot.keyClick(screen.beginning.to_roster, Qt.Key.Key_Space)
    assert went.args == [Way("roster")]


def test_a_new_weight_is_seen_at_once(screen: TodayScreen, qtbot: QtBot) -> None:
    context = screen.context
    athlete_id, _ = enter(context.desk, "Bo", "84.3", weeks=8)
    with qtbot.waitActive(screen):
        screen.show()
    reading = ReadingData(athlete_id=athlete_id, on=TODAY, weight=kilograms("81"))
    context.runner.now(lambda: add_readings(context.desk, [reading]))
    qtbot.waitUntil(lambda: "2 readings" in screen.board.table.rows[0].detail)


def test_a_large_team_is_read_while_the_window_stays_alive(
    screen: TodayScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(presenter, "MANY_ENTRIES", 1)
    enter(screen.context.desk, "Bo", "84.3", weeks=8)
    screen.show()
    qtbot.waitUntil(lambda: len(screen.board.table.rows) == 1)
    assert not screen.context.runner.is_busy


def test_a_name_is_shown_letter_by_letter(screen: TodayScreen, qtbot: QtBot) -> None:
    enter(screen.context.desk, "<b>Bo</b> & Co", "84.3", weeks=8)
    with qtbot.waitActive(screen):
        screen.show()
    assert screen.board.sentence.text().startswith("<b>Bo</b> & Co weighs")
    assert screen.board.sentence.textFormat() is Qt.TextFormat.PlainText
