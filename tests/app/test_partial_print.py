"""Printing for some of the team leaves the whole team's files alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from coachdesk.app.print_meet import print_meet
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athletes
from coachdesk.services.packets import print_job
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import PrintChoice, Sheet
from coachdesk.services.roster import add_athlete
from coachdesk.wording.wording import Wording

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=ZoneInfo("Europe/Berlin"))


class Team:
    """A meet with three entries, planned."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.meet_id = add_meet(
            desk,
            MeetData(
                name="Harbour Open",
                starts_on=date(2027, 2, 20),
                rulebook="ipf_2021",
                time_zone="Europe/Berlin",
            ),
        ).value
        self.entry_ids = enter_athletes(
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
                    meet_id=self.meet_id,
                    event=Event.THREE_LIFT,
                    equipment=Equipment.CLASSIC,
                    divisions=("open",),
                    expected_squat=kilograms(120),
                )
                for name in ("Ana", "Bea", "Cleo")
            ],
        ).value
        plan_meet(desk, self.meet_id)


@pytest.fixture
def team(desk: Desk) -> Team:
    return Team(desk)


def test_a_part_of_the_team_gets_files_of_its_own(
    team: Team, wording: Wording, tmp_path: Path
) -> None:
    whole = print_meet(team.desk, team.meet_id, tmp_path, PrintChoice("a4"), wording)
    before = {file: file.read_bytes() for file in whole.files}
    choice = PrintChoice("a4", entry_ids=frozenset(team.entry_ids[:2]))

    part = print_meet(team.desk, team.meet_id, tmp_path, choice, wording)

    together = {file.name for file in part.files if "athlete's sheet" not in file.name}
    assert together == {
        f"{sheet} - 2 of 3 athletes, 2026-11-25 10.00.00.pdf"
        for sheet in ("handler cards", "coach's sheets", "team sheet")
    }
    untouched = [file for file in before if file not in part.files]
    assert len(untouched) == 4  # three files for all, and Cleo's own
    assert all(file.read_bytes() == before[file] for file in untouched)


def test_a_part_does_not_count_as_the_team_sheets_earlier_print(
    team: Team, wording: Wording, tmp_path: Path
) -> None:
    """The next print of the whole team replaces the last whole one, whatever came in between."""
    print_meet(team.desk, team.meet_id, tmp_path, PrintChoice("a4"), wording)
    first = print_job(team.desk, team.meet_id).printed_before[None]
    later = _later(team.desk)
    choice = PrintChoice("a4", entry_ids=frozenset(team.entry_ids[:1]))
    print_meet(later, team.meet_id, tmp_path, choice, wording)
    before = print_job(later, team.meet_id).printed_before
    assert before[None] == first
    assert before[team.entry_ids[0]] == first + timedelta(hours=1)


def _later(desk: Desk) -> Desk:
    """The same desk an hour on."""
    return replace(desk, now=lambda: NOW + timedelta(hours=1))


def test_all_entries_named_one_by_one_are_the_whole_team(
    team: Team, wording: Wording, tmp_path: Path
) -> None:
    choice = PrintChoice("a4", sheets=frozenset({Sheet.TEAM}), entry_ids=frozenset(team.entry_ids))
    printed = print_meet(team.desk, team.meet_id, tmp_path, choice, wording)
    assert [file.name for file in printed.files] == ["team sheet.pdf"]
