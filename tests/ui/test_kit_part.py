"""Kit and tasks of a meet by keys: whose round is due, what is missing, ticked and undone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.readiness import Task
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_kit
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete
from coachdesk.services.rulebooks import read_kit_lists
from coachdesk.services.undo import undo, undoable
from coachdesk.ui.context import Context
from coachdesk.ui.screens.meets.kit_part import KitPart
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.widgets.form_dialog import FormDialog
from tests.ui.test_every_screen import nameless

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
TODAY = date(2026, 11, 25)


def meet_in(desk: Desk, days: int, *names: str) -> int:
    meet = MeetData(
        name="Harbour Open",
        starts_on=TODAY + timedelta(days=days),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
        entry_deadline=TODAY + timedelta(days=max(days - 3, 0)),
    )
    meet_id = add_meet(desk, meet).value
    for name in names:
        athlete_id = add_athlete(
            desk,
            AthleteData(
                given_name=name, family_name="", sex=Sex.FEMALE, birth_date=date(1995, 3, 1)
            ),
        ).value
        enter_athlete(
            desk,
            EntryData(
                athlete_id=athlete_id,
                meet_id=meet_id,
                event=Event.THREE_LIFT,
                equipment=Equipment.CLASSIC,
                divisions=("open",),
            ),
        )
    return meet_id


@pytest.fixture
def screen(context: Context, qtbot: QtBot) -> MeetsScreen:
    made = MeetsScreen(context)
    qtbot.addWidget(made)
    made.resize(1130, 760)
    return made


def shown(screen: MeetsScreen, qtbot: QtBot) -> KitPart:
    with qtbot.waitActive(screen):
        screen.show()
    QTest.keyClick(screen, Key.Key_K, CONTROL | SHIFT)
    assert screen.tabs.currentWidget() is screen.kit
    return screen.kit


def press(part: KitPart, view: str, key: Key) -> None:
    table = part.tasks if view == "tasks" else part.items
    table.setFocus()
    QTest.keyClick(table.view, key)
    settle()


def settle() -> None:
    """The screen reads anew once the key is through."""
    for _ in range(3):
        QApplication.processEvents()


def test_whose_round_is_due_and_how_far_it_is(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana", "Bo")
    part = shown(screen, qtbot)
    assert [row.athlete for row in part.table.rows] == ["Ana", "Bo"]
    assert part.table.rows[0].rounds == "0 of 2 complete, due: One week before"
    assert part.round.value() == "one_week"
    assert part.items.rows[0].seen == "not looked for"


def test_space_goes_on_from_there_to_missing_and_back(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana")
    part = shown(screen, qtbot)
    first = part.items.rows[0].code
    for expected in ("✓ there", "✗ missing", "not looked for"):
        press(part, "items", Key.Key_Space)
        assert part.items.rows[0].seen == expected
        assert part.items.current_key() == first
    press(part, "items", Key.Key_Space)
    press(part, "items", Key.Key_Space)
    assert part.table.rows[0].missing == part.items.rows[0].item
    undo(screen.context.desk)
    screen.reload()
    assert part.items.rows[0].seen == "✓ there"


def test_what_is_ticked_elsewhere_is_seen_on_coming_back(screen: MeetsScreen, qtbot: QtBot) -> None:
    context = screen.context
    meet_in(context.desk, 5, "Ana")
    part = shown(screen, qtbot)
    screen.tabs.setCurrentWidget(screen.entries)
    context.runner.now(lambda: tick_kit(context.desk, 1, "one_week", {"belt": Sight.MISSING}))
    settle()
    assert part.table.rows[0].missing == ""
    screen.tabs.setCurrentWidget(part)
    assert part.table.rows[0].missing == "Belt"


def test_all_there_for_everybody_chosen(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana", "Bo")
    part = shown(screen, qtbot)
    part.table.view.selectAll()
    assert "2 athletes" in part._several.text()
    assert "for the one shown" in part._several.text()
    QTest.keyClick(part, Key.Key_E, CONTROL | SHIFT)
    settle()
    assert {row.rounds for row in part.table.rows} == {"1 of 2 complete"}
    assert {row.sight for row in part.items.rows} == {Sight.PRESENT}


def test_a_task_is_ticked_for_all_chosen_and_undone(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 20, "Ana", "Bo")
    part = shown(screen, qtbot)
    part.table.view.selectAll()
    part.tasks.select("entry_sent")
    press(part, "tasks", Key.Key_Space)
    said = {row.key: row.state for row in part.tasks.rows}
    assert said["entry_sent"] == "✓ done 25 Nov"
    what = undoable(screen.context.desk)
    assert what is not None
    assert screen.words.say(what) == "Done for 2 athletes: Entry sent"
    press(part, "tasks", Key.Key_Space)
    assert {row.key: row.state for row in part.tasks.rows}["entry_sent"] != "✓ done 25 Nov"


def test_what_the_records_settle_cannot_be_ticked(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 20, "Ana")
    part = shown(screen, qtbot)
    part.tasks.select("medicines_checked")
    assert "physician" in part.hint.text()
    part.tasks.select("openers_chosen")
    assert "opener is chosen" in part.hint.text()


def typed(values: dict[str, str]) -> None:
    """Types into the form that opens, and keeps it."""

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, FormDialog)
        dialog.form.set_values(dialog.form.values() | values)
        dialog.save()

    QTimer.singleShot(100, answer)


def test_a_task_of_ones_own_is_added_changed_and_deleted(
    screen: MeetsScreen, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    meet_in(screen.context.desk, 20, "Ana", "Bo")
    part = shown(screen, qtbot)
    part.table.view.selectAll()
    typed({"words": "Book the ferry", "due_on": "2026-12-01"})
    QTest.keyClick(part, Key.Key_A, CONTROL | SHIFT)
    settle()
    (own,) = [row for row in part.tasks.rows if not row.code]
    assert (own.task, own.by, own.state) == ("Book the ferry", "1 Dec", "due")
    part.tasks.select(own.key)
    typed({"words": "Book the train", "due_on": "2026-12-10"})
    part.change_task()
    settle()
    (changed,) = [row for row in part.tasks.rows if not row.code]
    assert (changed.task, changed.by) == ("Book the train", "10 Dec")
    monkeypatch.setattr("coachdesk.ui.screens.meets.kit_part.ask", lambda *_args, **_more: True)
    part.tasks.select(changed.key)
    press(part, "tasks", Key.Key_Delete)
    assert all(row.code for row in part.tasks.rows)


def on_file(screen: MeetsScreen) -> tuple[Task, ...]:
    with screen.context.desk.reading() as reader:
        return reader.list(Task)


def test_a_usual_task_is_moved_for_all_chosen_and_goes_back_without_a_day(
    screen: MeetsScreen, qtbot: QtBot
) -> None:
    """By hand: openers a week before 15 December, on the 8th."""
    meet_in(screen.context.desk, 20, "Ana", "Bo")
    part = shown(screen, qtbot)
    part.table.view.selectAll()
    part.tasks.select("openers_chosen")
    typed({"due_on": "2026-12-10"})
    part.change_task()
    settle()
    assert [task.due_on for task in on_file(screen)] == [date(2026, 12, 10)] * 2
    part.tasks.select("openers_chosen")
    assert part.hint.text().startswith("Moved from Tue 8 Dec 2026.")
    typed({"due_on": ""})
    part.change_task()
    settle()
    assert on_file(screen) == ()
    assert "Moved" not in part.hint.text()


def test_a_day_that_was_not_changed_goes_on_following_the_meet(
    screen: MeetsScreen, qtbot: QtBot
) -> None:
    meet_in(screen.context.desk, 20, "Ana")
    part = shown(screen, qtbot)
    part.tasks.select("openers_chosen")
    typed({})
    part.change_task()
    assert on_file(screen) == ()


def test_the_three_keys_go_down_the_list(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana")
    part = shown(screen, qtbot)
    part.items.setFocus()
    for key in (Key.Key_Y, Key.Key_M, Key.Key_Y, Key.Key_U):
        QTest.keyClick(part.items.view, key, CONTROL | SHIFT)
        settle()
    assert [row.seen for row in part.items.rows[:5]] == [
        "✓ there", "✗ missing", "✓ there", "not looked for", "not looked for",
    ]  # fmt: skip
    assert part.items.current_key() == part.items.rows[4].code


def test_what_was_missing_the_last_time_is_said_in_the_next_round(
    screen: MeetsScreen, qtbot: QtBot
) -> None:
    desk = screen.context.desk
    meet_in(desk, 5, "Ana")
    tick_kit(desk, 1, "two_weeks", {"belt": Sight.MISSING})
    part = shown(screen, qtbot)
    seen = {row.code: row.seen for row in part.items.rows}
    assert (seen["belt"], seen["chalk"]) == ("missing last time", "not looked for")


def test_at_another_meet_the_rounds_begin_with_the_one_due(
    screen: MeetsScreen, qtbot: QtBot
) -> None:
    desk = screen.context.desk
    soon = meet_in(desk, 5, "Ana")
    later = meet_in(desk, 12, "Bo")
    part = shown(screen, qtbot)
    screen.show_record(soon)
    assert part.round.value() == "one_week"
    screen.show_record(later)
    assert part.round.value() == "two_weeks"


def test_a_fault_of_a_kit_list_is_said_where_the_team_would_stand(
    context: Context, qtbot: QtBot, tmp_path: Path
) -> None:
    (tmp_path / "classic.toml").write_text('equipment = "none"\n', encoding="utf-8")
    desk = replace(context.desk, kit=read_kit_lists(paths.resources() / "kit", tmp_path))
    screen = MeetsScreen(replace(context, desk=desk))
    qtbot.addWidget(screen)
    meet_in(desk, 5, "Ana")
    part = shown(screen, qtbot)
    assert "classic.toml" in part.fault.text()
    assert "line 1" in part.fault.text()
    assert part.fault.isVisible()
    assert not part.table.isVisible()


def test_the_day_of_the_inspection_is_asked_for_and_told(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana")
    part = shown(screen, qtbot)
    assert "its day is not on file" in part.inspection.text()
    typed({"kit_inspection_on": "2026-11-29"})
    screen.edit()
    settle()
    assert "Sun 29 Nov 2026" in part.inspection.text()
    assert screen.page is not None
    assert any("kit inspection Sun 29 Nov 2026, in 4 days" in fact for fact in screen.page.facts)


def test_an_inspection_after_the_meet_is_refused_at_its_field(
    screen: MeetsScreen, qtbot: QtBot
) -> None:
    meet_in(screen.context.desk, 5, "Ana")
    shown(screen, qtbot)
    said: list[str] = []

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, FormDialog)
        field = dialog.form.field("kit_inspection_on").control()
        QTest.keyClicks(field, "2026-12-01")
        QTest.keyClick(field, Key.Key_Return)
        said.append(dialog.form.sentence_at("kit_inspection_on"))
        dialog.form.put_back()
        dialog.reject()

    QTimer.singleShot(100, answer)
    screen.edit()
    assert len(said) == 1
    assert "inspect" in said[0]


def test_todays_list_leads_here(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_id = meet_in(screen.context.desk, 5, "Ana", "Bo")
    with qtbot.waitActive(screen):
        screen.show()
    screen.show_record(meet_id)
    screen.show_part("kit", 2)
    assert screen.kit.table.current_key() == 2
    assert screen.kit.shown is not None
    assert screen.kit.shown.title == "Bo"


def test_an_empty_meet_says_what_to_do(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5)
    part = shown(screen, qtbot)
    assert part.table.rows == ()
    assert not part._body.isVisible()


def test_every_control_of_the_tab_has_a_name(screen: MeetsScreen, qtbot: QtBot) -> None:
    meet_in(screen.context.desk, 5, "Ana")
    assert nameless(shown(screen, qtbot)) == []
