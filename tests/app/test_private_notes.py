"""Cycle notes stay at the desk: all sheets of the invented club are looked through."""

from __future__ import annotations

import logging
import re
from datetime import date, timedelta
from pathlib import Path

import pytest
from pypdf import PdfReader

from coachdesk.app.print_meet import print_meet
from coachdesk.domain.athlete import Athlete, CycleNoteData
from coachdesk.services.cycle_notes import add_cycle_note
from coachdesk.services.desk import Desk
from coachdesk.services.meets import upcoming_meets
from coachdesk.services.packets import entry_packet, print_job
from coachdesk.services.print_choice import PrintChoice
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

FIRST = date(2026, 10, 9)
"""A day that nothing else of the club's sheets is about."""
DAYS = [FIRST + timedelta(days=at) for at in range(5)]


@pytest.fixture
def noted(club: Desk) -> Desk:
    """The club, a cycle note with each athlete."""
    with club.reading() as reader:
        athletes = reader.list(Athlete)
    for athlete in athletes:
        add_cycle_note(club, CycleNoteData(athlete_id=athlete.id, first=DAYS[0], last=DAYS[-1]))
    return club


def test_no_sheet_and_no_log_tells_of_a_cycle_note(
    noted: Desk, wording: Wording, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.DEBUG):
        files = [
            file
            for meet in upcoming_meets(noted)
            for file in print_meet(
                noted, meet.id, tmp_path / str(meet.id), PrintChoice("a4"), wording
            ).files
        ]
    said = " ".join(
        " ".join(page.extract_text() for page in PdfReader(file, strict=True).pages)
        for file in files
    )
    assert "Bodyweight, kg" in said
    private = [short_day(wording, day) for day in DAYS] + [day.isoformat() for day in DAYS]
    for text in (" ".join(said.split()), caplog.text):
        assert "ycle" not in text
        assert [each for each in private if re.search(rf"\b{each}\b", text)] == []


def test_no_packet_holds_a_cycle_note(noted: Desk) -> None:
    for meet in upcoming_meets(noted):
        job = print_job(noted, meet.id)
        for entry in job.entries:
            assert "CycleNote" not in repr(entry_packet(noted, job, entry))
