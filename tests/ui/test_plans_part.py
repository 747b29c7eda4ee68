"""The plans of a meet by keyboard: look at a plan, overrule a turn, see what it costs, undo."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from itertools import combinations

import pytest
from PySide6.QtCore import QPoint, QRect, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Entry, EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.domain.wishes import DayAim, WishesData
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, edit_entry, enter_athlete
from coachdesk.services.plan_page import open_plan
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import no_progress
from coachdesk.services.roster import add_athlete
from coachdesk.services.undo import undo
from coachdesk.services.wishes_editing import wish_for_all
from coachdesk.ui.context import Context
from coachdesk.ui.screens.meets.plans_part import PlansPart
from coachdesk.ui.widgets.form_dialog import FormDialog

Key = Qt.Key
CONTROL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


def _enter(desk: Desk, meet_id: int, name: str, squat: float | None) -> int:
    athlete = AthleteData(
        given_name=name, family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    data = EntryData(
        athlete_id=add_athlete(desk, athlete).value,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        expected_squat=None if squat is None else kilograms(squat),
        expected_bench=None if squat is None else kilograms(squat / 2),
        expected_deadlift=None if squat is None else kilograms(squat + 20),
    )
    return enter_athlete(desk, data).value


@pytest.fixture
def entry_id(desk: Desk) -> int:
    meet = MeetData(
        name="Harbour Open",
        starts_on=date(2027, 2, 20),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    meet_id = add_meet(desk, meet).value
    found = _enter(desk, meet_id, "Ana", 120)
    _enter(desk, meet_id, "Bea", None)
    plan_meet(desk, meet_id)
    return found


@pytest.fixture
def part(context: Context, qtbot: QtBot, desk: Desk, entry_id: int) -> Iterator[PlansPart]:
    made = PlansPart(context)
    qtbot.addWidget(made)
    made.resize(1000, 700)
    context.changed.changed.connect(lambda _: made.show_meet(_meet_id(desk, entry_id)))
    made.show_meet(_meet_id(desk, entry_id))
    with qtbot.waitActive(made):
        made.show()
    yield made
    context.runner.wait()


def _meet_id(desk: Desk, entry_id: int) -> int:
    return open_plan(desk, entry_id).line.entry.meet_id


def _type_on(part: PlansPart, row: int, typed: str) -> None:
    """Type a weight at a turn and press Enter."""
    part.turns.setFocus()
    part.turns.select(part.turns.rows[row].turn, 1)
    QTest.keyClick(part.turns.view, Key.Key_Return)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    QTest.keyClicks(editor, typed)
    QTest.keyClick(editor, Key.Key_Return)


def test_each_lift_is_shown_turn_by_turn_with_its_chances(part: PlansPart) -> None:
    openers = [row for row in part.turns.rows if row.number == 1]
    assert [row.lift for row in openers] == list(Lift)
    assert all(row.good.endswith("%") and row.taken == "100 %" for row in openers)
    assert len(part.turns.rows) <= 30
    assert "Expected total" in " ".join(part.figures.words)
    assert "textbook pattern" in " ".join(part.figures.words)
    assert part.curve.accessibleDescription()


def test_the_curve_follows_the_lift_the_turns_stand_on(part: PlansPart) -> None:
    squat = part.curve.accessibleDescription()
    deadlift = next(row for row in part.turns.rows if row.lift is Lift.DEADLIFT)
    part.turns.select(deadlift.turn)
    assert part.curve.accessibleDescription() != squat


def test_the_source_planned_on_comes_first_and_the_others_small_below(part: PlansPart) -> None:
    assert part.basis.words[0].startswith("Expected 120 kg")
    assert "Eight days in ten" in part.basis.words[1]
    assert any("Technical misses" in line for line in part.evidence.words)
    (first, *_), (small, *_) = part.basis.findChildren(QLabel), part.evidence.findChildren(QLabel)
    assert small.font().pointSizeF() < first.font().pointSizeF()


def test_a_small_team_is_seen_whole_with_the_formula_as_head(part: PlansPart) -> None:
    last = part.table.view.visualRect(part.table.view.model().index(1, 0))
    assert part.table.view.viewport().rect().contains(last.center())
    assert part.table.model.columns[4].head == "IPF GL"
    assert part.table.view.isColumnHidden(6)  # nobody has an aim


@pytest.mark.parametrize("width", [440, 1000])
def test_in_the_height_it_asks_for_nothing_covers_anything(part: PlansPart, width: int) -> None:
    part.resize(width, 500)
    QApplication.processEvents()
    part.resize(width, part.needed_height())
    QApplication.processEvents()
    seen = (part.table, part.figures, part.turns, part.curve, part.basis, part.evidence)
    places = [QRect(each.mapTo(part, QPoint(0, 0)), each.size()) for each in seen]
    for one, other in combinations(places, 2):
        assert not one.intersects(other)
    for line in part.evidence.findChildren(QLabel):
        assert line.height() >= line.heightForWidth(line.width())
    is_below = places[3].top() > places[2].bottom()
    assert is_below == (width == 440)


def test_who_has_no_plan_is_told_why(part: PlansPart) -> None:
    bea = next(row for row in part.table.rows if "Bea" in row.athlete)
    part.table.select(bea.id)
    assert not any(row.weight for row in part.turns.rows)
    assert "no plan yet" in " ".join(part.figures.words)


def test_who_has_no_records_is_given_numbers_lift_by_lift(
    part: PlansPart, context: Context, qtbot: QtBot
) -> None:
    """A lift that is not planned has its line, and what is missing is named while it is."""
    bea = next(row for row in part.table.rows if "Bea" in row.athlete)
    part.table.select(bea.id)

    def give(at: int, number: str) -> str:
        titles: list[str] = []

        def act(dialog: FormDialog) -> None:
            titles.append(dialog.windowTitle())
            dialog.form.field("number").set_value(number)
            QTest.keyClick(dialog, Key.Key_Return)

        part.turns.select(part.turns.rows[at].turn)
        _in_the_dialog(act)
        part.say_of_lift()
        return titles[0]

    assert "Squat" in give(0, "100")
    assert "Bench" in give(1, "60")
    with qtbot.waitSignal(context.changed.changed, timeout=10_000):
        part.plan_chosen()
    told = " ".join(part.figures.words)
    assert "A lift is missing: Deadlift" in told
    assert "Expected total" not in told
    assert part.turns.rows[-1].label == "Deadlift: not planned"
    assert "Deadlift" in give(len(part.turns.rows) - 1, "130")
    assert "Expected total" in " ".join(part.figures.words)


def test_a_lift_that_is_not_planned_has_no_turn_to_overrule(part: PlansPart, qtbot: QtBot) -> None:
    part.table.select(next(row for row in part.table.rows if "Bea" in row.athlete).id)
    _type_on(part, 1, "60")
    qtbot.waitUntil(lambda: bool(part.turns.sentence))
    assert "not planned" in part.turns.sentence


def test_a_turn_is_overruled_its_cost_is_told_and_undo_takes_it_back(
    part: PlansPart, desk: Desk, qtbot: QtBot
) -> None:
    before = part.turns.rows
    last = max(at for at, row in enumerate(before) if row.lift is Lift.SQUAT and row.number == 2)
    heavier = f"{float(before[last].weight) + 5:g}"
    _type_on(part, last, heavier)
    qtbot.waitUntil(lambda: any(row.fixed for row in part.turns.rows))
    (row,) = (each for each in part.turns.rows if each.fixed)
    assert (row.turn, row.weight) == (before[last].turn, heavier)
    assert "Your weight" in row.note
    qtbot.waitUntil(lambda: bool(part.cost.words), timeout=10_000)
    assert "Your own weights" in part.cost.words[0]
    assert "Changed since" in part.changes.words[0]
    part._context.runner.now(lambda: undo(desk))
    assert part.turns.rows == before


def test_what_cannot_be_called_for_is_said_below_and_nothing_is_lost(
    part: PlansPart, desk: Desk, entry_id: int, qtbot: QtBot
) -> None:
    before = open_plan(desk, entry_id).line.plan
    _type_on(part, 1, "103.1")
    qtbot.waitUntil(lambda: bool(part.turns.sentence))
    assert "2.5" in part.turns.sentence
    assert part.has_unsaved()
    assert open_plan(desk, entry_id).line.plan == before


def _in_the_dialog(act: Callable[[FormDialog], None]) -> None:
    """Do this in the dialog that opens next."""

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, FormDialog):
            act(dialog)
        else:
            QTimer.singleShot(20, look)

    QTimer.singleShot(20, look)


def test_a_first_aim_out_of_reach_is_said_at_its_field_and_one_in_reach_is_planned(
    part: PlansPart, desk: Desk, entry_id: int, qtbot: QtBot
) -> None:
    said: list[str] = []

    def act(dialog: FormDialog) -> None:
        dialog.form.field("aim").set_value(DayAim.NUMBER)
        dialog.form.field("aim_weight").set_value("500")
        QTest.keyClick(dialog, Key.Key_Return)
        said.append(dialog.form.sentence_at("aim_weight"))
        dialog.form.field("aim_weight").set_value("325")
        dialog.form.field("risk_cap").set_value("5")
        QTest.keyClick(dialog, Key.Key_Return)

    _in_the_dialog(act)
    QTest.keyClick(part, Key.Key_B, CONTROL_SHIFT)
    assert "out of reach" in said[0]
    qtbot.waitUntil(lambda: "first aim" in " ".join(part.figures.words), timeout=10_000)
    plan = open_plan(desk, entry_id).line.plan
    assert plan is not None
    assert [point.after for point in plan.plan.checkpoints] == [Lift.SQUAT, Lift.BENCH]
    assert not part.turns.view.isColumnHidden(4)
    told = " ".join(part.figures.words)
    assert "Chance of the first aim, 325 kg on the total: " in told
    assert "Caps: risk of no total at most 5.0 %." in told


def test_with_an_aim_no_column_lies_under_the_scroll_bar(
    part: PlansPart, desk: Desk, entry_id: int
) -> None:
    """In the width that is left at 1280 by 800."""
    wish = WishesData(entry_id=entry_id, aim=DayAim.NUMBER, aim_weight=kilograms(325))
    wish_for_all(desk, _meet_id(desk, entry_id), frozenset({entry_id}), wish, no_progress)
    part.show_meet(_meet_id(desk, entry_id))
    part.resize(870, 700)
    QApplication.processEvents()
    assert not part.turns.view.isColumnHidden(4)
    assert part.turns.view.horizontalScrollBar().maximum() == 0
    assert part.curve.width() >= 200
    part.resize(870, part.needed_height())
    QApplication.processEvents()
    for line in (*part.basis.findChildren(QLabel), *part.evidence.findChildren(QLabel)):
        assert line.height() >= line.heightForWidth(line.width())
    part.resize(440, 700)
    QApplication.processEvents()
    assert part.turns.width() <= 440


def test_a_cap_and_a_jump_that_cannot_be_are_said_at_their_fields(part: PlansPart) -> None:
    said: list[str] = []

    def act(dialog: FormDialog) -> None:
        for field, typed in (("risk_cap", "150"), ("risk_cap", "some"), ("largest_jump", "-3")):
            dialog.form.put_back()
            dialog.form.field(field).set_value(typed)
            QTest.keyClick(dialog, Key.Key_Return)
            said.append(dialog.form.sentence_at(field))
        dialog.form.put_back()
        dialog.reject()

    _in_the_dialog(act)
    part.wish()
    assert all(said)
    assert len(said) == 3


def test_number_band_and_source_of_a_lift_are_set_and_the_plan_follows(
    part: PlansPart, desk: Desk, entry_id: int
) -> None:
    said: list[str] = []

    def act(dialog: FormDialog) -> None:
        dialog.form.set_values({"number": "125", "low": "126", "high": "130"})
        QTest.keyClick(dialog, Key.Key_Return)
        said.append(dialog.form.sentence_at("low"))
        dialog.form.field("low").set_value("120")
        QTest.keyClick(dialog, Key.Key_Return)

    _in_the_dialog(act)
    QTest.keyClick(part, Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    assert said[0]
    plan = open_plan(desk, entry_id).line.plan
    assert plan is not None
    squat = plan.plan.of(Lift.SQUAT)
    assert squat is not None
    assert squat.expected == kilograms(125)
    told = (*part.basis.words, *part.evidence.words)
    assert any("120 kg" in line and "130 kg" in line for line in told)


def test_the_chosen_are_planned_anew_in_the_background(
    part: PlansPart, context: Context, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(context.changed.changed, timeout=10_000):
        part.plan_chosen()
    assert "Says the same" in part.changes.words[0]
    assert context.notices.words == "Attempts are planned."


def test_who_cannot_be_planned_anew_is_named_with_why(
    part: PlansPart, context: Context, qtbot: QtBot
) -> None:
    bea = next(row for row in part.table.rows if "Bea" in row.athlete)
    part.table.select(bea.id)
    part.plan_chosen()
    qtbot.waitUntil(lambda: "Bea Ruiz" in context.notices.words, timeout=10_000)
    assert "nothing to plan on" in context.notices.words


def test_a_plan_older_than_its_numbers_says_its_day(
    part: PlansPart, context: Context, desk: Desk, entry_id: int, qtbot: QtBot
) -> None:
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    edit_entry(desk, entry.id, entry.version, replace(entry, expected_squat=kilograms(130)))
    part.show_meet(entry.meet_id)
    assert part.figures.words[0].startswith("Planned Wed 25 Nov 2026")
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    nothing = replace(entry, expected_squat=None, expected_bench=None, expected_deadlift=None)
    edit_entry(desk, entry.id, entry.version, nothing)
    part.plan_chosen()
    qtbot.waitUntil(lambda: "The plan of Wed 25 Nov" in context.notices.words, timeout=10_000)
    assert any(row.weight for row in part.turns.rows)
