"""Kit on paper, read back from the PDF: marks of what was seen, and whose is still missing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.team_sheet import render_team_sheet
from coachdesk.reports.theme import Paper
from coachdesk.services.packet_content import EntryPacket, TeamSheet
from coachdesk.wording.wording import Wording

Team = Callable[[Sequence[str]], TeamSheet]


def pages_of(data: bytes) -> list[str]:
    """The words of each page, with single spaces."""
    pages = PdfReader(BytesIO(data), strict=True).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def kit_page(packet: EntryPacket, wording: Wording, paper: Paper = Paper.A4) -> str:
    pages = pages_of(render_athlete_sheet(packet, wording, paper))
    (page,) = [page for page in pages if wording("sheet.kit.item") in page]
    return page


@pytest.mark.parametrize("paper", list(Paper))
def test_what_was_seen_of_the_kit_is_ticked_and_what_was_missing_crossed(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    """Read back from the words of the page: a mark for each look, and one of each in the key."""
    looks = [sight for line in packet.kit for sight in line.sights]
    page = kit_page(packet, wording, paper)
    assert page.count("✓") == looks.count(Sight.PRESENT) + 1
    assert page.count("✗") == looks.count(Sight.MISSING) + 1
    assert "Two weeks" in page
    assert "28 Nov" in page  # the day of the first round, by hand


def test_a_kit_list_nobody_looked_through_has_no_marks(
    packet: EntryPacket, wording: Wording
) -> None:
    kit = tuple(replace(line, sights=()) for line in packet.kit)
    page = kit_page(replace(packet, kit=kit), wording)
    assert "✓" not in page
    assert "✗" not in page


@pytest.mark.parametrize("paper", list(Paper))
def test_marks_in_the_boxes_take_no_more_pages(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    for copies in (1, 2, 3):
        marked = replace(packet, kit=packet.kit * copies)
        kit = tuple(replace(line, sights=()) for line in marked.kit)
        bare = replace(marked, kit=kit)
        pages = [
            len(pages_of(render_athlete_sheet(each, wording, paper))) for each in (marked, bare)
        ]
        assert pages[0] == pages[1]


def test_the_team_sheet_says_whose_kit_is_missing_once_below_all_athletes(
    team_of: Team, wording: Wording
) -> None:
    sheet = team_of([f"Lifter {number}" for number in range(20)])
    first, said = pages_of(render_team_sheet(sheet, wording, Paper.A4))
    assert "Still missing" not in first
    assert "Still missing: Lifter 1: Belt, Chalk; Lifter 4: Belt, Chalk;" in said
    assert "Lifter 2: Belt" not in said
    assert "Spare in the team's bag" in said


def test_of_much_that_is_missing_the_team_sheet_names_the_first_four(
    team_of: Team, packet: EntryPacket, wording: Wording
) -> None:
    sheet = team_of(["Ana Ruiz"])
    items = tuple(line.item for line in packet.kit)
    sheet = replace(sheet, lines=(replace(sheet.lines[0], missing_kit=items),))
    (said,) = pages_of(render_team_sheet(sheet, wording, Paper.A4))
    assert "Ana Ruiz: Singlet, Belt, Knee sleeves, Wrist wraps and 8 more." in said


def test_nobodys_kit_missing_leaves_no_line(team_of: Team, wording: Wording) -> None:
    (said,) = pages_of(render_team_sheet(team_of(["Ana Ruiz"]), wording, Paper.A4))
    assert "missing" not in said


def test_a_piece_called_after_its_lift_does_not_say_it_twice(
    packet: EntryPacket, wording: Wording
) -> None:
    shoes = replace(packet.kit[0], item=text("kit.deadlift_shoes"), count=1, lifts=(Lift.DEADLIFT,))
    sleeves = replace(shoes, item=text("kit.knee_sleeves"))
    page = kit_page(replace(packet, kit=(*packet.kit, shoes, sleeves)), wording)
    assert "Deadlift shoes or slippers" in page
    assert "slippers, for Deadlift" not in page
    assert "Knee sleeves, for Deadlift" in page
