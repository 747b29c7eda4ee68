"""How pages look: nothing cut off, nothing on top of something else, no page nearly empty.

All sheets of the invented club's coming meets, and cases that are hard to lay out, on both papers,
in English, in French, and with texts a quarter longer, as other languages have them.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, replace
from io import BytesIO
from itertools import product
from pathlib import Path

import pytest
from pypdf import PdfReader

from coachdesk.app import paths
from coachdesk.app.wiring import open_desk
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheets
from coachdesk.reports.handler_card import render_handler_cards
from coachdesk.reports.team_sheet import render_team_sheet
from coachdesk.reports.text_runs import ELLIPSIS, whole_words, wrapped
from coachdesk.reports.theme import COLUMN_HEAD, Paper
from coachdesk.reports.training_sheet import render_training_sheets
from coachdesk.services.block_reading import blocks_of
from coachdesk.services.desk import Desk
from coachdesk.services.meets import upcoming_meets
from coachdesk.services.packet_content import EntryPacket, TeamSheet
from coachdesk.services.packets import entry_packet, print_job, team_sheet
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster_reading import roster
from coachdesk.services.training_content import TrainingWeek, training_week
from coachdesk.wording.catalogue import Catalogue
from coachdesk.wording.wording import Wording
from tests.conftest import NOW
from tests.reports.page_look import MM, Page, pages_of

LONG_NAME = "Wilhelmina-Theodora Oxenbridge-Harrowgate van der Lindenhoven"
FILLER = "et encore quelques mots de plus qui prennent de la place " * 4
WORDLESS = ("date.", "number.", "list.")
"""Codes that shape numbers and days."""
EDGE, CARD_EDGE = 24.0, 12.0
"""What a printer may not reach [pt]; cards use nearly all the paper."""
LEAST_BOX = 5 * MM
NOTES = "Notes"


class LongerWords(Catalogue):
    """English, a quarter longer."""

    def words(self, code: str, count: int | None = None) -> str:
        found = super().words(code, count)
        letters = round(0.25 * len(re.sub(r"\{[^}]*\}", "", found)))
        if code.startswith(WORDLESS) or not letters:
            return found
        return found + (FILLER[:letters].rstrip() if letters < 4 else f" {FILLER[: letters - 1]}")


LANGUAGES = {
    "english": Wording(Catalogue(paths.resources() / "catalogues", "en")),
    "french": Wording(Catalogue(paths.resources() / "catalogues", "fr")),
    "longer": Wording(LongerWords(paths.resources() / "catalogues", "en")),
}


@dataclass(frozen=True)
class Sheet:
    """A printed file: which, in which language, and what it looks like."""

    name: str
    kind: str
    language: str
    data: bytes
    pages: list[Page]

    @property
    def is_written(self) -> bool:
        """Whether the language is one that people read: its texts were cut to the paper."""
        return self.language != "longer"

    @property
    def foot(self) -> str:
        """How the foot of a page begins."""
        return LANGUAGES[self.language]("sheet.printed", at="").split()[0]

    @property
    def is_cards(self) -> bool:
        return self.kind == "cards"


@dataclass(frozen=True)
class Content:
    """What is printed: all entries of the club, and those that are hard to lay out."""

    packets: list[EntryPacket]
    hard: list[EntryPacket]
    teams: list[TeamSheet]
    weeks: list[list[TrainingWeek]]


@pytest.fixture(scope="module")
def content(club_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Content]:
    file = tmp_path_factory.mktemp("layout") / "coachdesk.db"
    shutil.copy(club_file, file)
    desk = open_desk(file, lambda: NOW)
    packets, teams = [], []
    for meet in upcoming_meets(desk):
        plan_meet(desk, meet.id, only_missing=True)
        job = print_job(desk, meet.id)
        pairs = [(entry, entry_packet(desk, job, entry)) for entry in job.entries]
        packets += [packet for _, packet in pairs]
        teams.append(team_sheet(desk, job, pairs, []))
    yield Content(packets, hard(packets), sizes_of(teams[-1]), weeks_of(desk))
    desk.store.close()


def hard(packets: list[EntryPacket]) -> list[EntryPacket]:
    """A long name with everything a packet holds; each way to enter; a minor; without a plan."""
    equipped = next(packet for packet in packets if packet.equipment.value == "equipped")
    first_meet = next(packet for packet in packets if packet.first_meet)
    everything = replace(equipped, athlete=LONG_NAME, first_meet=True, weight=first_meet.weight)
    one_lift = next(packet for packet in packets if len(packet.lifts) == 1)
    two_lifts = next(packet for packet in packets if len(packet.lifts) == 2)
    minor = next(packet for packet in packets if packet.minor)
    no_plan = next(packet for packet in packets if all(not card.opener for card in packet.lifts))
    other = replace(one_lift, athlete=LONG_NAME)
    return [everything, one_lift, two_lifts, minor, no_plan, other]


def sizes_of(team: TeamSheet) -> list[TeamSheet]:
    """A team of one, of a full page, and of one more than a page holds, with a long name each."""
    lines = (replace(team.lines[0], athlete=LONG_NAME), *team.lines * 2)
    return [replace(team, lines=lines[:count]) for count in (1, 16, 17)]


def weeks_of(desk: Desk) -> list[list[TrainingWeek]]:
    """A planned week of every athlete who has one."""
    found = []
    for line in roster(desk):
        for block in blocks_of(desk, line.id):
            week = training_week(desk, block.id, 1)
            if week.days:
                found.append([week])
                break
    return found


@pytest.fixture(scope="module")
def sheets(content: Content) -> list[Sheet]:
    return [
        Sheet(f"{name}, {language}, {paper}", kind, language, data, pages_of(data))
        for (language, words), paper in product(LANGUAGES.items(), Paper)
        for name, kind, data in rendered(content, words, paper)
    ]


def rendered(content: Content, words: Wording, paper: Paper) -> Iterator[tuple[str, str, bytes]]:
    """Every sheet there is: whose, of what kind, and the file."""
    for packet in (*content.packets, *content.hard):
        about = f"{packet.athlete} at {packet.meet.name}"
        yield about, "athlete", render_athlete_sheet(packet, words, paper)
        yield about, "coach", render_coach_sheets([packet], words, paper)
    yield "all", "cards", render_handler_cards(content.packets, words, paper)
    yield "hard", "cards", render_handler_cards(content.hard, words, paper)
    for team in content.teams:
        yield f"{len(team.lines)}", "team", render_team_sheet(team, words, paper)
    for weeks in content.weeks:
        yield weeks[0].athlete, "training", render_training_sheets(weeks, words, paper)


def test_nothing_is_cut_off_or_covered(sheets: list[Sheet]) -> None:
    faults: list[tuple[object, ...]] = []
    for sheet in sheets:
        edge = CARD_EDGE if sheet.is_cards else EDGE
        for number, page in enumerate(sheet.pages, start=1):
            where = (sheet.kind, sheet.name, number)
            faults += [(*where, "covers", pair) for pair in page.overlapping()]
            faults += [(*where, "outside", said) for said in page.outside(edge)]
            if sheet.is_written:
                faults += [(*where, "cut", said) for _, said in page.words if ELLIPSIS in said]
    assert faults == []


def test_no_word_of_a_head_is_broken() -> None:
    """A column's head is set smaller rather than over two lines within a word."""
    style = whole_words("before the weigh-in", COLUMN_HEAD, 30)
    assert wrapped("before the weigh-in", style, 30) == ("before", "the", "weigh-in")
    assert style.size < COLUMN_HEAD.size
    assert whole_words("Lot", COLUMN_HEAD, 30) == COLUMN_HEAD


def test_no_page_is_nearly_empty(sheets: list[Sheet]) -> None:
    """Cards are a sheet of four whatever is on them; a team of one has lines for notes."""
    faults = []
    for sheet in sheets:
        if sheet.kind in {"cards", "team"}:
            continue
        for number, page in enumerate(sheet.pages, start=1):
            least = 0.55 if number < len(sheet.pages) else 0.4
            if page.used(sheet.foot) < least:
                faults.append((sheet.kind, sheet.name, number, page.used(sheet.foot)))
    assert faults == []


def test_no_heading_is_left_at_the_foot_of_a_page(sheets: list[Sheet]) -> None:
    """Notes are written by hand below theirs."""
    faults = []
    for sheet in sheets:
        heads = {head for head in outline(sheet.data) if not head.startswith(NOTES)}
        for number, page in enumerate(sheet.pages, start=1):
            if sheet.is_cards:
                continue
            lowest = page.body(sheet.foot)[-1][1]
            if lowest in heads:
                faults.append((sheet.kind, sheet.name, number, lowest))
    assert faults == []


def test_boxes_are_wide_enough_for_a_pen(sheets: list[Sheet]) -> None:
    """Five millimetres at least, in a language people read."""
    seen, faults = set(), []
    for sheet in sheets:
        for number, page in enumerate(sheet.pages, start=1):
            for box in page.boxes:
                seen.add(sheet.kind)
                side = min(box.right - box.left, box.top - box.bottom)
                if sheet.is_written and side < LEAST_BOX:
                    faults.append((sheet.kind, sheet.name, number, side / MM))
    assert faults == []
    assert seen == {"athlete", "cards", "training"}


def test_every_sheet_has_a_title_a_language_and_an_outline(sheets: list[Sheet]) -> None:
    for sheet in sheets:
        reader = PdfReader(BytesIO(sheet.data))
        assert reader.metadata is not None
        assert reader.metadata.title, sheet.name
        language = LANGUAGES[sheet.language].catalogue.language
        assert str(reader.root_object["/Lang"]) == language
        assert outline(sheet.data), sheet.name


def test_a_coachs_sheet_is_one_page(sheets: list[Sheet]) -> None:
    """Of everybody in the club; texts of another language may take a second one."""
    long = [
        (sheet.name, len(sheet.pages))
        for sheet in sheets
        if sheet.kind == "coach" and sheet.language == "english" and LONG_NAME not in sheet.name
        if len(sheet.pages) > 1
    ]
    assert long == []


def test_sixteen_athletes_take_one_page_in_any_language(sheets: list[Sheet]) -> None:
    teams = [(sheet.name[:2], len(sheet.pages)) for sheet in sheets if sheet.kind == "team"]
    assert sorted(set(teams)) == [("1,", 1), ("16", 1), ("17", 2)]


def outline(data: bytes) -> list[str]:
    """The titles in a document's outline, in order."""

    def walk(entries: list[object]) -> Iterator[str]:
        for entry in entries:
            if isinstance(entry, list):
                yield from walk(entry)
            else:
                yield str(entry["/Title"])  # type: ignore[index]

    return list(walk(list(PdfReader(BytesIO(data)).outline)))
