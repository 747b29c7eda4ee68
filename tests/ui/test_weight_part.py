"""Weight and class of a meet's entries by keys: choose, compare classes, agree, let go, enter."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QMessageBox, QWidget
from pytestqt.qtbot import QtBot
from sqlalchemy import event

from coachdesk.domain.athlete import AthleteData, LossBar, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import Entry, EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, edit_entry, enter_athlete
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.undo import undo
from coachdesk.ui.context import Context
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.screens.meets.weight_part import WeightPart
from coachdesk.ui.way import Way
from tests.ui.test_every_screen import nameless

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
TODAY = date(2026, 11, 25)
BO = AthleteData(
    given_name="Bo",
    family_name="",
    sex=Sex.MALE,
    birth_date=date(1995, 3, 1),
    height_cm=175,
    meets_before=3,
)


def meet_in(desk: Desk, weeks: int) -> int:
    data = MeetData(
        name="Harbour Open",
        starts_on=TODAY + timedelta(weeks=weeks),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    return add_meet(desk, data).value


def enter(
    desk: Desk,
    meet_id: int,
    name: str,
    kg: str,
    data: AthleteData = BO,
    *,
    weight_class: str | None = "83",
    division: str = "open",
) -> int:
    athlete_id = add_athlete(desk, replace(data, given_name=name)).value
    days = [TODAY - timedelta(days=day) for day in range(21)] if kg else []
    add_readings(
        desk, [ReadingData(athlete_id=athlete_id, on=on, weight=kilograms(kg)) for on in days]
    )
    entry = EntryData(
        athlete_id=athlete_id,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=(division,),
        weight_class=weight_class,
    )
    return enter_athlete(desk, entry).value


def shown(context: Context, qtbot: QtBot) -> WeightPart:
    """The tab on the screen of meets, reached by its keys."""
    screen = MeetsScreen(context)
    qtbot.addWidget(screen)
    screen.resize(1130, 760)
    with qtbot.waitActive(screen):
        screen.show()
    QTest.keyClick(screen, Key.Key_C, CONTROL | SHIFT)
    assert screen.weight.isVisible()
    assert QApplication.focusWidget() is screen.weight.table.view
    return screen.weight


def alone(context: Context, qtbot: QtBot, meet_id: int) -> WeightPart:
    """The tab without the screen around it."""
    part = WeightPart(context)
    qtbot.addWidget(part)
    part.show_meet(meet_id)
    with qtbot.waitExposed(part):
        part.show()
    return part


def press(part: WeightPart, key: Key, modifier: Qt.KeyboardModifier | None = None) -> None:
    target = QApplication.focusWidget() or part
    QTest.keyClick(target, key, modifier or Qt.KeyboardModifier.NoModifier)


def answer(words: str, asked: list[str]) -> None:
    """Answer the next question with the button of these words, by the space bar."""

    def look() -> None:
        box = QApplication.activeModalWidget()
        if not isinstance(box, QMessageBox):
            QTimer.singleShot(10, look)
            return
        asked.append(f"{box.text()} {box.informativeText()}")
        (found,) = (each for each in box.buttons() if each.text() == words)
        QTest.keyClick(found, Key.Key_Space)

    QTimer.singleShot(10, look)


def back(part: WeightPart, qtbot: QtBot, widget: QWidget) -> None:
    """The question is answered: the window is active again, and the focus on `widget`."""
    part.window().activateWindow()
    qtbot.waitUntil(part.window().isActiveWindow)
    widget.setFocus()


def plans(desk: Desk) -> list[WeightPlan]:
    with desk.reading() as reader:
        return list(reader.list(WeightPlan))


def the_entry(desk: Desk, entry_id: int) -> Entry:
    with desk.reading() as reader:
        return reader.get(Entry, entry_id)


def said(part: WeightPart) -> str:
    """Everything the tab says, tables and all."""
    labels = [each.text() for each in part.findChildren(QLabel) if not each.isHidden()]
    rows = [str(row) for row in (*part.table.rows, *part.classes.rows, *part.marks.rows)]
    return " ".join((*labels, *rows))


def test_the_entry_most_pressing_is_shown_with_its_classes_and_marks(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    """By hand: 2 of 85 kg is 2.35 %; in the 5 weeks to a week before it takes 0.47 % a week, above
    0.35 and below 0.7: steady. At 0.35 % it takes 48 days of the 35 there are, at 0.7 % 24 days
    before 30 December. The line falls by 2 kg in 35 days, 0.4 kg a week."""
    meet_id = meet_in(desk, 6)
    enter(desk, meet_id, "Al", "80")
    enter(desk, meet_id, "Bo", "85")
    part = shown(context, qtbot)
    assert [row.athlete for row in part.table.rows] == ["Bo", "Al"]
    assert [row.label for row in part.classes.rows] == ["83 (entered)", "93 (weighs here)", "105"]
    lower, now, _ = part.classes.rows
    assert (lower.gap, lower.rate, lower.verdict) == ("2 kg", "0.47 %", "steady")
    assert (lower.comfortable, lower.steady) == ("passed", "6 Dec")
    assert (now.gap, now.rate, now.verdict, now.comfortable) == ("", "", "in the class", "")
    assert [(row.shown, row.mark) for row in part.marks.rows] == [
        ("Wed 2 Dec 2026", "84.6 kg"),
        ("Wed 9 Dec 2026", "84.2 kg"),
        ("Wed 16 Dec 2026", "83.8 kg"),
        ("Wed 23 Dec 2026", "83.4 kg"),
        ("Wed 30 Dec 2026", "83 kg"),
    ]
    first, takes, *rest = part.lines.words
    assert first.startswith("Bo weighs 85 kg")
    assert "takes 0.47 % of present bodyweight a week: steady" in takes
    assert any("In the last week the level" in line for line in rest)
    assert any(line.startswith("If the scale shows more than 83 kg") for line in rest)
    assert part.cautions.words[0].startswith("Weight changes can harm.")


def test_down_the_board_and_down_the_classes_by_keys(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    meet_id = meet_in(desk, 16)
    enter(desk, meet_id, "Al", "80")
    enter(desk, meet_id, "Bo", "85")
    part = shown(context, qtbot)
    press(part, Key.Key_Down)
    assert part.lines.words[0].startswith("Al weighs 80 kg")
    assert len(part.marks.rows) == 0
    press(part, Key.Key_Up)
    press(part, Key.Key_Return)
    assert QApplication.focusWidget() is part.classes.view
    assert len(part.marks.rows) == 15
    press(part, Key.Key_Down)
    assert len(part.marks.rows) == 0
    press(part, Key.Key_Escape)
    assert QApplication.focusWidget() is part.table.view


def test_a_way_down_is_agreed_on_and_let_go_of_by_keys_and_undone(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, meet_in(desk, 16), "Bo", "85")
    part, asked = shown(context, qtbot), list[str]()
    answer("Not now", asked)
    press(part, Key.Key_D, CONTROL)
    assert plans(desk) == []
    back(part, qtbot, part.table)
    answer("Agree on the way down", asked)
    press(part, Key.Key_D, CONTROL)
    (plan,) = plans(desk)
    assert (plan.weight_class, plan.agreed_on) == ("83", TODAY)
    assert "Eat and drink as usual" in asked[1]
    back(part, qtbot, part.table)
    qtbot.waitUntil(lambda: any("Agreed on" in line for line in part.lines.words))
    assert {row.agreed == row.mark for row in part.marks.rows} == {True}
    press(part, Key.Key_G, CONTROL | SHIFT)
    assert plans(desk) == []
    qtbot.waitUntil(lambda: not any("Agreed on" in line for line in part.lines.words))
    undo(desk)
    assert len(plans(desk)) == 1


def test_a_way_down_to_a_class_no_longer_entered_is_said_to_be_void(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    entry_id = enter(desk, meet_in(desk, 16), "Bo", "85")
    part, asked = shown(context, qtbot), list[str]()
    answer("Agree on the way down", asked)
    press(part, Key.Key_D, CONTROL)
    back(part, qtbot, part.table)
    seen = the_entry(desk, entry_id)
    context.runner.now(
        lambda: edit_entry(desk, entry_id, seen.version, replace(seen, weight_class="93"))
    )
    qtbot.waitUntil(lambda: any("holds no longer" in line for line in part.lines.words))
    press(part, Key.Key_G, CONTROL | SHIFT)
    assert plans(desk) == []


def test_another_class_is_entered_by_keys(context: Context, qtbot: QtBot, desk: Desk) -> None:
    """Nobody asks anything of an athlete who has lifted before."""
    entry_id = enter(desk, meet_in(desk, 16), "Bo", "85")
    part = shown(context, qtbot)
    press(part, Key.Key_Return)
    press(part, Key.Key_Down)
    press(part, Key.Key_E, CONTROL)
    assert the_entry(desk, entry_id).weight_class == "93"
    qtbot.waitUntil(lambda: part.classes.rows[1].label == "93 (entered, weighs here)")
    assert not the_entry(desk, entry_id).comes_down
    undo(desk)
    assert the_entry(desk, entry_id).weight_class == "83"


def test_a_first_timer_comes_down_after_a_question_alone(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    beginner = replace(BO, meets_before=0)
    entry_id = enter(desk, meet_in(desk, 16), "Bo", "85", beginner, weight_class="93")
    part, asked = shown(context, qtbot), list[str]()
    press(part, Key.Key_Return)
    press(part, Key.Key_Up)
    assert part.why.words[0].startswith("A first meet is lifted in the class weighed now")
    answer("Stay in the class weighed", asked)
    press(part, Key.Key_Return)
    assert the_entry(desk, entry_id).weight_class == "93"
    back(part, qtbot, part.classes)
    answer("Enter, and come down", asked)
    press(part, Key.Key_Return)
    entered = the_entry(desk, entry_id)
    assert (entered.weight_class, entered.comes_down) == ("83", True)
    assert asked[0].startswith("Is Bo to come down to 83 for a first meet?")
    assert "Weight changes can harm." in asked[0]
    qtbot.waitUntil(lambda: part.classes.rows[0].verdict == "comfortable")


@pytest.mark.parametrize(
    ("data", "kg", "weeks", "reason"),
    [
        (replace(BO, birth_date=date(2009, 6, 1)), "85", 16, "Under 18: no loss plan"),
        (replace(BO, loss_bar=LossBar.PREGNANCY), "85", 16, "Pregnancy: no plan"),
        (replace(BO, height_cm=212), "85", 16, "underweight"),
        (BO, "88", 30, "more than the"),
        (BO, "86.45", 4, ""),
    ],
)
def test_where_nobody_may_come_down_nothing_can_be_done_about_it(
    context: Context,
    qtbot: QtBot,
    desk: Desk,
    data: AthleteData,
    kg: str,
    weeks: int,
    reason: str,
) -> None:
    division = "sub_junior" if "Under 18" in reason else "open"
    entry_id = enter(desk, meet_in(desk, weeks), "Bo", kg, data, division=division)
    part = shown(context, qtbot)
    lower = part.classes.rows[0]
    assert (lower.name, lower.rate, lower.comfortable, lower.steady) == ("83", "", "", "")
    assert any(reason in line for line in part.why.words) is bool(reason)
    assert len(part.marks.rows) == 0
    press(part, Key.Key_D, CONTROL)
    press(part, Key.Key_E, CONTROL)
    assert plans(desk) == []
    assert the_entry(desk, entry_id).version == 1
    assert part.cautions.words


def test_no_pace_above_one_percent_and_nothing_about_drink(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    """The one sentence with a higher figure says that it is never planned."""
    for weeks in (1, 2, 4, 12):
        meet_id = meet_in(desk, weeks)
        for kg in ("83.5", "84.3", "86.45", "92"):
            enter(desk, meet_id, f"Bo {kg}", kg)
    screen = shown(context, qtbot).window()
    assert isinstance(screen, MeetsScreen)
    everything = []
    for meet in screen.presenter.rows():
        screen.list.select(meet.id)
        for row in screen.weight.table.rows:
            screen.weight.table.select(row.id)
            for chosen in screen.weight.classes.rows:
                screen.weight.classes.select(chosen.name)
                everything.append(said(screen.weight))
    assert len(everything) > 16
    whole = " ".join(everything)
    for word in ("sauna", "sweat", "dehydrat", "laxative", "diuretic", "fluid", "salt"):
        assert word not in whole.casefold()
    assert "Eat and drink as usual until the weigh-in." in whole
    for found in re.finditer(r"([\d.]+) % (?:of present bodyweight )?a week", whole):
        before, after = whole[: found.start()], whole[found.end() :]
        if float(found[1]) > 1.0 and not before.endswith("A week ago it took "):
            assert before.endswith("would take ")
            assert after.startswith(". That is faster than is ever planned: not in time.")
    assert all(
        float(row.rate.removesuffix(" %")) <= 1.0 for row in screen.weight.classes.rows if row.rate
    )


def test_totals_of_equal_score_are_shown_on_demand(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, meet_in(desk, 16), "Bo", "85")
    part = shown(context, qtbot)
    assert part.classes.view.isColumnHidden(2)
    part.with_totals.box.setFocus()
    press(part, Key.Key_Space)
    assert not part.classes.view.isColumnHidden(2)
    assert part.equal.text().startswith("There is no total to measure by")


def test_without_a_weight_it_leads_to_the_readings(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    entry_id = enter(desk, meet_in(desk, 16), "Bo", "")
    part = shown(context, qtbot)
    assert part.lines.words == ("Bo has no bodyweight of late: keep a few readings first.",)
    assert part.classes.rows == ()
    assert part.cautions.words
    screen = part.window()
    assert isinstance(screen, MeetsScreen)
    with qtbot.waitSignal(screen.go) as went:
        press(part, Key.Key_R, CONTROL)
    assert went.args == [Way("roster", the_entry(desk, entry_id).athlete_id, part="readings")]


def test_a_meet_without_entries_says_what_to_do(context: Context, qtbot: QtBot, desk: Desk) -> None:
    meet_in(desk, 16)
    part = shown(context, qtbot)
    assert part.table.rows == ()
    assert not part.lines.isVisible()
    for key in (Key.Key_D, Key.Key_E, Key.Key_R):
        press(part, key, CONTROL)
    assert plans(desk) == []


def test_a_meet_that_is_over_says_so(context: Context, qtbot: QtBot, desk: Desk) -> None:
    enter(desk, meet_in(desk, -2), "Bo", "85")
    part = shown(context, qtbot)
    assert not part.table.isVisible()
    assert "This meet is over." in said(part)


def test_a_class_that_cannot_be_found_is_said_in_place_of_a_verdict(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    own = desk.rulebooks.own_folder
    own.mkdir(parents=True)
    shipped = desk.rulebooks.shelf.files["ipf_2021"].read_text(encoding="utf-8")
    ends = shipped.replace("93, 105, 120]\nunlimited_above = true", "93]\nunlimited_above = false")
    (own / "county.toml").write_text(ends, encoding="utf-8")
    desk.rulebooks.read_again()
    meet = MeetData(
        name="County", starts_on=TODAY + timedelta(weeks=9), rulebook="county", time_zone="UTC"
    )
    meet_id = add_meet(desk, meet).value
    enter(desk, meet_id, "Bo", "99", weight_class=None)
    part = alone(context, qtbot, meet_id)
    assert [row.verdict for row in part.table.rows] == ["not known"]
    assert part.lines.words == ("99 kg is above the heaviest class.",)


def test_settling_a_matter_leads_to_the_entry_on_the_tab(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    meet_id = meet_in(desk, 16)
    enter(desk, meet_id, "Bo", "85")
    other = enter(desk, meet_id, "Al", "80")
    screen = MeetsScreen(context)
    qtbot.addWidget(screen)
    screen.resize(1130, 760)
    with qtbot.waitActive(screen):
        screen.show()
    screen.show_record(meet_id)
    screen.show_part("weight", other)
    assert screen.tabs.currentWidget() is screen.weight
    assert screen.weight.lines.words[0].startswith("Al weighs 80 kg")


def test_every_control_of_the_tab_has_a_name(context: Context, qtbot: QtBot, desk: Desk) -> None:
    enter(desk, meet_in(desk, 16), "Bo", "85")
    assert nameless(shown(context, qtbot)) == []


def test_the_athletes_weight_is_drawn_beside_the_marks(
    context: Context, qtbot: QtBot, desk: Desk
) -> None:
    enter(desk, meet_in(desk, 16), "Bo", "85")
    part = shown(context, qtbot)
    qtbot.waitUntil(lambda: "85" in part.chart.present.text())
    assert part.chart.isVisible()
    assert part.marks.isVisible()


@pytest.mark.parametrize("width", [460, 1000])
def test_in_the_height_it_asks_for_no_word_is_cut(
    context: Context, qtbot: QtBot, desk: Desk, width: int
) -> None:
    meet_id = meet_in(desk, 16)
    enter(desk, meet_id, "Bo", "85")
    part = alone(context, qtbot, meet_id)
    part.resize(width, 500)
    qtbot.waitUntil(lambda: "85" in part.chart.present.text())
    QApplication.processEvents()
    part.resize(width, part.needed_height())
    QApplication.processEvents()
    for each in part.findChildren(QLabel):
        if each.isVisible() and each.text():
            assert each.height() >= each.heightForWidth(each.width()), each.text()
            assert each.width() <= width


@contextmanager
def counted(desk: Desk) -> Iterator[list[str]]:
    statements: list[str] = []

    def count(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        statements.append(statement)

    engine = desk.store._engine
    event.listen(engine, "before_cursor_execute", count)
    try:
        yield statements
    finally:
        event.remove(engine, "before_cursor_execute", count)


def test_the_tab_takes_as_many_statements_for_thirty_entries_as_for_one(
    context: Context, qtbot: QtBot, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The chart's history is one athlete's, and is read in the background."""
    one, many = meet_in(desk, 8), meet_in(desk, 9)
    enter(desk, one, "Bo", "85")
    for number in range(30):
        enter(desk, many, f"Bo {number}", "85")
    part = shown(context, qtbot)
    for meet_id in (one, many):  # what readings come to is worked out once, and kept
        part.read(meet_id)
    qtbot.waitUntil(lambda: "85" in part.chart.present.text())
    monkeypatch.setattr(context.runner, "background", lambda *_args, **_more: lambda: None)
    with counted(desk) as few:
        part.read(one)
    with counted(desk) as lots:
        part.read(many)
    assert len(part.table.rows) == 30
    assert len(few) == len(lots)
