"""Printing a meet from the screen: on real paper files, part of the team, stopped, and refused."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from threading import Event as Gate

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from coachdesk.app.printing import DeskPrinting
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import add_meet, enter_athletes
from coachdesk.services.preferences import Preferences
from coachdesk.services.print_choice import PrintChoice, Printed, Progress
from coachdesk.services.roster import add_athlete
from coachdesk.ui.context import Context
from coachdesk.ui.printing import Printing
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.print_dialog import PrintDialog
from coachdesk.ui.screens.meets.print_presenter import PrintPresenter

Key = Qt.Key
NAMES = ("Ana", "Bea", "Cleo")


@pytest.fixture
def meet_id(desk: Desk) -> int:
    """A meet with three entries, none of them planned."""
    made = add_meet(
        desk,
        MeetData(
            name="Harbour Open",
            starts_on=date(2027, 2, 20),
            rulebook="ipf_2021",
            time_zone="Europe/Berlin",
        ),
    ).value
    enter_athletes(
        desk,
        [
            EntryData(
                athlete_id=add_athlete(
                    desk,
                    AthleteData(
                        given_name=name,
                        family_name="Ruiz",
                        sex=Sex.FEMALE,
                        birth_date=date(1996, 5, 4),
                    ),
                ).value,
                meet_id=made,
                event=Event.THREE_LIFT,
                equipment=Equipment.CLASSIC,
                divisions=("open",),
                expected_squat=kilograms(120),
            )
            for name in NAMES
        ],
    )
    return made


def opened(
    context: Context,
    qtbot: QtBot,
    meet_id: int,
    *,
    chosen: tuple[int, ...] = (),
    printing: Printing | None = None,
) -> PrintDialog:
    """The dialog for the meet, seen; by default it prints on real files."""
    context = replace(context, printing=printing or DeskPrinting(context.desk, context.words))
    page = MeetsPresenter(context.desk, context.words).page(meet_id)
    presenter = PrintPresenter(context.desk, context.words, page)
    dialog = PrintDialog(context, presenter, chosen, context.notices.window())
    qtbot.addWidget(dialog)
    with qtbot.waitActive(dialog):
        dialog.show()
    return dialog


def folder_field(dialog: PrintDialog, folder: Path | str) -> None:
    line = dialog.form.field("folder").control()
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, str(folder))


def press(dialog: PrintDialog, key: Qt.Key) -> None:
    QTest.keyClick(QApplication.focusWidget() or dialog, key)


def is_over(dialog: PrintDialog) -> Callable[[], bool]:
    return lambda: dialog.print_button.isEnabled() and bool(dialog.lines.words)


def test_the_whole_team_is_printed_by_enter_and_plans_are_made_first(
    context: Context, qtbot: QtBot, desk: Desk, meet_id: int, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    told: list[frozenset[object]] = []
    context.changed.changed.connect(told.append)
    shown: list[str] = []
    monkeypatch.setattr(
        QDesktopServices, "openUrl", lambda url: shown.append(QUrl(url).toLocalFile())
    )
    dialog = opened(context, qtbot, meet_id)
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)
    folder = tmp_path / "Harbour Open - 2027-02-20"
    assert sorted(file.name for file in folder.iterdir()) == [
        "Ana Ruiz - 1 - athlete's sheet.pdf",
        "Bea Ruiz - 2 - athlete's sheet.pdf",
        "Cleo Ruiz - 3 - athlete's sheet.pdf",
        "coach's sheets.pdf",
        "handler cards.pdf",
        "team sheet.pdf",
    ]
    done, *not_planned = dialog.lines.words
    assert done == f"6 files for Harbour Open written to {folder}"
    assert all("Bench press, Deadlift: no plan" in line for line in not_planned)
    with desk.reading() as reader:
        assert len(read_meet(reader, meet_id, desk.today()).plans) == 3
    assert told  # the plans that were made make screens stale
    assert dialog.open_button.hasFocus()
    press(dialog, Key.Key_Return)
    assert shown == [str(folder)]


def test_one_packet_is_printed_and_the_whole_teams_files_stay(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    dialog = opened(context, qtbot, meet_id)
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)
    folder = tmp_path / "Harbour Open - 2027-02-20"
    before = {file: file.read_bytes() for file in folder.iterdir()}

    dialog.form.field("athletes").set_value("2")
    dialog.form.field("sheets").set_value("handler\nteam")
    dialog.print_button.setFocus()
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)

    new = {file.name for file in folder.iterdir()} - {file.name for file in before}
    assert {name.split(",")[0] for name in new} == {
        "handler cards - 1 of 3 athletes",
        "team sheet - 1 of 3 athletes",
    }
    assert all(file.read_bytes() == was for file, was in before.items())


def test_those_chosen_in_the_table_are_ticked_and_the_last_folder_is_remembered(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    asked: list[tuple[Path, PrintChoice]] = []

    class Notes(DeskPrinting):
        def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
            progress(1, 1)
            asked.append((out, choice))
            return Printed(out / str(meet_id), (), ())

    notes = Notes(context.desk, context.words)
    dialog = opened(context, qtbot, meet_id, chosen=(1, 3), printing=notes)
    assert dialog.form.values()["athletes"] == "1\n3"
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(lambda: bool(asked))
    qtbot.waitUntil(is_over(dialog))
    assert asked[0][1].entry_ids == frozenset({1, 3})
    again = opened(context, qtbot, meet_id, chosen=(1,), printing=notes)
    assert again.form.values()["folder"] == str(tmp_path)
    assert again.form.values()["athletes"] == "1\n2\n3"  # one row is just where the focus was


def test_the_paper_is_the_one_preferred(context: Context, qtbot: QtBot, meet_id: int) -> None:
    letter = replace(context, preferences=Preferences(paper="letter"))
    assert opened(letter, qtbot, meet_id).form.values()["paper"] == "letter"


def test_nothing_ticked_or_no_folder_is_said_at_its_field(
    context: Context, qtbot: QtBot, meet_id: int
) -> None:
    dialog = opened(context, qtbot, meet_id)
    for key, value in (("folder", ""), ("folder", "some where"), ("athletes", ""), ("sheets", "")):
        kept = dialog.form.values()
        if key != "folder":
            dialog.form.field("folder").set_value("/tmp/x")  # noqa: S108 - nothing is written
        dialog.form.field(key).set_value(value)
        dialog.print()
        assert dialog.form.sentence_at(key)
        dialog.form.set_values(kept)


def test_a_folder_without_rights_is_said_in_the_dialog_and_the_choices_stay(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    """A file stands where the folder should be, which no right helps against."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    dialog = opened(context, qtbot, meet_id)
    dialog.form.field("athletes").set_value("2\n3")
    folder_field(dialog, tmp_path / "taken")
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)
    assert "could not be written" in dialog.lines.words[0]
    assert dialog.form.values()["athletes"] == "2\n3"
    assert dialog.form.isEnabled()
    assert not dialog.open_button.isVisible()


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="root writes everywhere")
def test_a_read_only_folder_is_said_in_the_dialog(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    tmp_path.chmod(0o500)
    dialog = opened(context, qtbot, meet_id)
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)
    tmp_path.chmod(0o700)
    assert "could not be written" in dialog.lines.words[0]


def test_printing_can_be_stopped_and_says_so(
    context: Context, qtbot: QtBot, meet_id: int, tmp_path: Path
) -> None:
    begun, go_on = Gate(), Gate()

    class Slow(DeskPrinting):
        def meet(self, meet_id: int, out: Path, choice: PrintChoice, progress: Progress) -> Printed:
            progress(1, 4)
            begun.set()
            go_on.wait(10)
            progress(2, 4)
            return Printed(out / f"{meet_id} {choice.paper}", (), ())

    dialog = opened(context, qtbot, meet_id, printing=Slow(context.desk, context.words))
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(begun.is_set)
    qtbot.waitUntil(lambda: dialog.bar.maximum() == 4)
    assert dialog.bar.isVisible()
    assert not dialog.form.isEnabled()
    press(dialog, Key.Key_Escape)  # stops first, leaves the second time
    go_on.set()
    qtbot.waitUntil(is_over(dialog))
    assert dialog.lines.words == (
        "Stopped. Sheets that were written until then stay in the folder.",
    )
    assert dialog.isVisible()
    press(dialog, Key.Key_Escape)
    assert not dialog.isVisible()


def test_who_failed_and_why_is_named(
    context: Context, qtbot: QtBot, desk: Desk, meet_id: int, tmp_path: Path
) -> None:
    """One athlete's sheets cannot be made; the others are printed all the same."""
    with desk.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE entry SET divisions = '[\"giants\"]' WHERE id = 2")
    dialog = opened(context, qtbot, meet_id)
    folder_field(dialog, tmp_path)
    press(dialog, Key.Key_Return)
    qtbot.waitUntil(is_over(dialog), timeout=20_000)
    done, failed, *_not_planned = dialog.lines.words
    assert done.startswith("5 files for Harbour Open")
    assert failed.startswith("No packet for Bea Ruiz: ")
