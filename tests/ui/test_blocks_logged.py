"""A set logged from the plan: the estimate, the forecast and Today's list follow it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.training import log_sets
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from coachdesk.ui.screens.today.screen import TodayScreen
from tests.services.blocks import MONDAY, Written, athlete
from tests.ui.grid_hands import Grid, Key
from tests.ui.keyboard import Keyboard

ALT = Qt.KeyboardModifier.AltModifier
TODAY = date(2026, 11, 25)


@pytest.fixture
def block(desk: Desk) -> Written:
    """A first meet in 20 days, some fives of a squat, and a judged single of 95 % this week:
    142.5 kg, more than the fives come to (115 x 36 / 30 = 138 kg; Brzycki 1993)."""
    block = Written.on(desk, athlete(desk))
    meet = MeetData(
        name="Harbour Open",
        starts_on=TODAY + timedelta(days=20),
        rulebook="traditional_two_hour",
        time_zone="Europe/Berlin",
    )
    entry = EntryData(
        athlete_id=block.athlete_id,
        meet_id=add_meet(desk, meet).value,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
    )
    enter_athlete(desk, entry)
    fives = [
        LoggedSetData(
            athlete_id=block.athlete_id,
            on=MONDAY - timedelta(weeks=week),
            lift=Lift.SQUAT,
            weight=kilograms(115),
            reps=5,
            rir=2.0,
        )
        for week in range(1, 5)
    ]
    log_sets(desk, fives)
    block.type(block.squat_id, 2, "1x1 95% judged")
    return block


def present(keys: Keyboard, screen: BlocksScreen) -> tuple[str, str]:
    """What the tab of strength says: the gym's estimate, and what is planned on at the meet."""
    keys.press(Key.Key_4, held=ALT)
    Grid.settle()
    gym, ahead, _width = screen.strength.present.text().splitlines()
    return gym, ahead


def first_concerns(keys: Keyboard) -> list[str]:
    keys.control(Key.Key_1)
    Grid.settle()
    screen = keys.window.screen_at("today")
    assert isinstance(screen, TodayScreen)
    return [row.why for row in screen.concerns.table.rows if "first meet" in row.why]


def test_estimate_forecast_and_attention_follow_a_set_that_is_logged(
    block: Written, window: MainWindow, context: Context, qtbot: QtBot
) -> None:
    with qtbot.waitActive(window):
        window.show()
    window.work_with(context)
    keys = Keyboard(window, qtbot)
    assert first_concerns(keys) == [
        "A first meet without a judged single of late: Squat, Bench press, Deadlift."
    ]
    keys.control(Key.Key_3)
    screen = window.screen_at("blocks")
    assert isinstance(screen, BlocksScreen)
    gym, ahead = present(keys, screen)
    assert "Logged sets" in ahead

    keys.press(Key.Key_1, held=ALT)
    assert QApplication.focusWidget() is screen.weeks.grid
    keys.in_dialog(Key.Key_L, lambda: keys.press(Key.Key_Return))
    Grid.settle()
    assert block.page.logged

    new_gym, new_ahead = present(keys, screen)
    assert new_gym != gym
    assert new_ahead != ahead
    assert "Judged single" in new_ahead
    assert first_concerns(keys) == [
        "A first meet without a judged single of late: Bench press, Deadlift."
    ]
    keys.control(Key.Key_Z)
    assert first_concerns(keys)[0].endswith("Squat, Bench press, Deadlift.")
    keys.control(Key.Key_3)
    Grid.settle()
    assert present(keys, screen) == (gym, ahead)
