"""The printed sheets, read back from the PDF."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from coachdesk.domain.attempts import Branch, Outcome
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Event
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit, kilograms
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.coach_sheet import render_coach_sheets
from coachdesk.reports.handler_card import render_handler_cards
from coachdesk.reports.team_sheet import render_team_sheet
from coachdesk.reports.text_runs import ELLIPSIS
from coachdesk.reports.theme import Paper, load_fonts
from coachdesk.services.packet_content import EntryPacket, Rack, TeamSheet, WeightPage
from coachdesk.wording.outcomes import seen_in_words
from coachdesk.wording.wording import Wording


def render_handler_card(packet: EntryPacket, wording: Wording, paper: Paper) -> bytes:
    return render_handler_cards([packet], wording, paper)


def render_coach_sheet(packet: EntryPacket, wording: Wording, paper: Paper) -> bytes:
    return render_coach_sheets([packet], wording, paper)


Team = Callable[[Sequence[str]], TeamSheet]
Render = Callable[[EntryPacket, Wording, Paper], bytes]
RENDERERS = [render_athlete_sheet, render_handler_card, render_coach_sheet]
NASTY = '<b>&"../../x'


def with_cue(packet: EntryPacket, cue: str) -> EntryPacket:
    return replace(packet, lifts=tuple(replace(card, cue=cue) for card in packet.lifts))


def read(data: bytes) -> PdfReader:
    return PdfReader(BytesIO(data), strict=True)


def words_on(data: bytes, page: int | None = None) -> str:
    """The words of a page or of all, with single spaces."""
    pages = read(data).pages
    chosen = pages if page is None else [pages[page]]
    return " ".join(" ".join(one.extract_text() for one in chosen).split())


def boxes_drawn(data: bytes) -> int:
    contents = [page.get_contents() for page in read(data).pages]
    return sum(one.get_data().count(b" re ") for one in contents if one is not None)


def titles(reader: PdfReader) -> list[str]:
    return [str(entry["/Title"]) for entry in reader.outline if not isinstance(entry, list)]


def test_the_first_page_of_the_athletes_sheet_holds_the_whole_day(
    packet: EntryPacket, wording: Wording
) -> None:
    page = words_on(render_athlete_sheet(packet, wording, Paper.A4), 0)
    for line in (*packet.timetable, *packet.food):
        assert wording.say(line.what) in page
    for card in packet.lifts:
        assert card.opener is not None
        assert wording.mass(card.opener) in page
        assert card.cue in page
        for rack in card.racks:
            assert str(rack.setting) in page
    for duty in packet.duties:
        assert duty.handler in page


def test_an_opener_says_where_it_may_lead(packet: EntryPacket, wording: Wording) -> None:
    page = words_on(render_athlete_sheet(packet, wording, Paper.A4), 0)
    # Textbook pattern for 207.5 kg worked by hand: 0.91 x 207.5 = 188.8 -> 187.5;
    # 1.05 x 187.5 = 196.9 -> 197.5; the third is the day's maximum, 207.5.
    assert page.index("187.5 kg") < page.index("197.5 kg") < page.index("207.5 kg")


def test_no_source_of_an_estimate_and_no_score_is_on_the_athletes_sheet(
    packet: EntryPacket, wording: Wording
) -> None:
    whole = words_on(render_athlete_sheet(packet, wording, Paper.A4))
    assert "241 kg" not in whole  # the deadlift's expected maximum
    for card in packet.lifts:
        assert card.plan is not None
        assert wording.say(card.plan.source) not in whole
    assert "71.23" not in whole
    assert packet.coach_note.splitlines()[0] not in whole
    for point in packet.open_points:
        assert wording.say(point) not in whole


def test_what_the_coach_knows_is_on_the_coachs_sheet(packet: EntryPacket, wording: Wording) -> None:
    whole = words_on(render_coach_sheet(packet, wording, Paper.A4))
    for said in ("241 kg", "71.23", "best set of the last eight weeks", "Watch the left knee."):
        assert said in whole
    assert wording.say(packet.open_points[0]) in whole


def test_without_a_plan_to_come_down_the_athletes_sheet_is_silent_on_why(
    packet_without_plan: EntryPacket, wording: Wording
) -> None:
    packet = packet_without_plan
    athlete = words_on(render_athlete_sheet(packet, wording, Paper.A4))
    coach = words_on(render_coach_sheet(packet, wording, Paper.A4))
    assert packet.weight.fit is not None
    assert packet.weight.present is not None
    for reason in packet.weight.fit.reasons:
        assert wording.say(reason) in coach
        assert wording.say(reason) not in athlete
    assert wording.mass(packet.weight.present.mass) not in athlete
    assert wording.say(packet.weight.cautions[0]) in athlete


@pytest.mark.parametrize("render", RENDERERS)
@pytest.mark.parametrize("paper", list(Paper))
def test_every_page_has_its_number_the_name_the_meet_and_the_rules(
    packet: EntryPacket, render: Render, paper: Paper, wording: Wording
) -> None:
    data = render(packet, wording, paper)
    pages = read(data).pages
    for number in range(len(pages)):
        page = words_on(data, number)
        assert wording("sheet.page", page=number + 1, pages=len(pages)) in page
        assert packet.athlete in page
        assert packet.meet.name in page
        assert "Fri 20 Nov 2026 18:05" in page  # the print it replaces
        assert packet.meet.rulebook in page
        assert packet.meet.edition in page


@pytest.mark.parametrize("render", RENDERERS)
def test_a_name_with_markup_is_printed_letter_by_letter(
    packet: EntryPacket, render: Render, wording: Wording
) -> None:
    data = render(replace(packet, athlete=NASTY), wording, Paper.A4)
    assert NASTY in words_on(data, 0)
    metadata = read(data).metadata
    assert metadata is not None
    assert NASTY in [metadata.title, *titles(read(data))] or NASTY in (metadata.title or "")


@pytest.mark.parametrize("render", RENDERERS)
@pytest.mark.parametrize(
    "name",
    [
        "Жанна Ли",
        "שלום לוי",
        "محمد علي",
        "Ana 😀🏋",
        "W" * 200,
        "a\x00b\nc\u202ed\ud800",
        "𰻝",
        "é́́" * 60,
    ],
)
def test_no_name_breaks_a_page(
    packet: EntryPacket, render: Render, name: str, wording: Wording
) -> None:
    plain = render(packet, wording, Paper.A4)
    data = render(replace(packet, athlete=name), wording, Paper.A4)
    assert len(read(data).pages) == len(read(plain).pages)


@given(st.text(max_size=60))
def test_any_letters_at_all_can_be_printed(
    packet: EntryPacket, wording: Wording, typed: str
) -> None:
    packet = replace(replace(packet, athlete=typed), coach_note=typed, session=typed)
    assert read(render_coach_sheet(packet, wording, Paper.LETTER)).pages


@pytest.mark.parametrize("render", RENDERERS)
def test_a_sheet_has_language_bookmarks_and_no_author(
    packet: EntryPacket, render: Render, wording: Wording
) -> None:
    reader = read(render(packet, wording, Paper.A4))
    assert str(reader.root_object["/Lang"]) == wording.catalogue.language
    assert reader.metadata is not None
    assert not reader.metadata.author
    assert titles(reader)


def test_bookmarks_lead_to_the_pages_their_sections_are_on(
    packet: EntryPacket, wording: Wording
) -> None:
    data = render_athlete_sheet(packet, wording, Paper.A4)
    reader = read(data)
    assert wording("sheet.section.kit") in titles(reader)
    for entry in reader.outline[1:]:
        assert not isinstance(entry, list)
        number = reader.get_destination_page_number(entry)
        assert number is not None
        assert str(entry["/Title"]) in words_on(data, number)


@pytest.mark.parametrize("render", RENDERERS)
def test_equal_content_gives_equal_bytes(
    packet: EntryPacket, render: Render, wording: Wording
) -> None:
    first = render(packet, wording, Paper.A4)
    assert render(packet, wording, Paper.A4) == first
    assert render(replace(packet, athlete="Else"), wording, Paper.A4) != first


@pytest.mark.parametrize("paper", list(Paper))
def test_a_full_day_stays_on_the_first_page(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    packet = replace(
        with_cue(packet, "long words " * 60),
        timetable=packet.timetable * 3,
        duties=packet.duties * 5,
    )
    page = words_on(render_athlete_sheet(packet, wording, paper), 0)
    assert page.count(wording.say(packet.timetable[-1].what)) == 3
    assert page.count(packet.duties[-1].handler) == 5
    assert wording.say(packet.food[-1].what) in page


def test_a_long_note_runs_over_pages_without_losing_a_line(
    packet: EntryPacket, wording: Wording
) -> None:
    lines = [f"line-{number}" for number in range(200)]
    packet = replace(packet, coach_note="\n".join(lines))
    printed = words_on(render_coach_sheet(packet, wording, Paper.A4)).split()
    assert [word for word in printed if word.startswith("line-")] == lines


def test_the_athletes_own_unit_stands_in_brackets(packet: EntryPacket, wording: Wording) -> None:
    packet = replace(packet, unit=Unit.LB)
    page = words_on(render_athlete_sheet(packet, wording, Paper.A4), 0)
    # 187.5 kg / 0.45359237 = 413.37 lb
    assert "413.37 lb" in page
    assert "413.37" not in words_on(render_handler_card(packet, wording, Paper.A4))


def test_a_meet_in_pounds_is_carded_in_pounds(pound_packet: EntryPacket, wording: Wording) -> None:
    card = words_on(render_handler_card(pound_packet, wording, Paper.A4))
    assert " lb" in card
    assert " kg" not in card


def test_the_card_shows_each_branch_with_its_discs(packet: EntryPacket, wording: Wording) -> None:
    packet = replace(packet, lifts=(packet.lifts[0],))
    card = words_on(render_handler_card(packet, wording, Paper.A4))
    good, missed = wording("outcome.good"), wording("outcome.no_lift")
    for way in (f"197.5 {good}", f"197.5 {missed}", f"187.5 {good}", f"187.5 {missed}"):
        assert way in card
    # (207.5 - 20 - 2 x 2.5) / 2 = 91.25 a side, largest discs first
    assert "25 25 25 15 1.25" in card
    assert wording.say(packet.lifts[0].latest_moments[0]) in card


def test_no_way_on_a_card_is_cut_off_and_each_bar_names_the_unit(
    packet: EntryPacket, wording: Wording
) -> None:
    card = packet.lifts[0]
    assert card.plan is not None
    opener = card.plan.opener
    second = opener.branches[0].turn
    lighter, heavier = (
        replace(second, number=3, branches=(), weight=kilograms(weight)) for weight in (200, 207.5)
    )
    # All good ways but an easy one, and a miss on technique: the longest that a plan can join.
    joined = (Outcome.AS_PLANNED, Outcome.GRIND, Outcome.TECHNICAL)
    leads = {Outcome.EASY: heavier, **dict.fromkeys(joined, lighter), Outcome.STRENGTH: second}
    thirds = tuple(Branch(outcome, third) for outcome, third in leads.items())
    seconds = tuple(
        Branch(outcome, replace(second, branches=thirds))
        for outcome in (Outcome.GOOD, Outcome.NO_LIFT)
    )
    plan = replace(card.plan, opener=replace(opener, branches=seconds))
    packet = replace(packet, lifts=(replace(card, plan=plan),))
    words = words_on(render_handler_card(packet, wording, Paper.A4))
    assert f"197.5 {seen_in_words(joined, wording)}" in words
    assert ELLIPSIS not in words
    assert words.count(", kg") == 3


def test_a_weight_the_discs_do_not_make_says_so(packet: EntryPacket, wording: Wording) -> None:
    card = packet.lifts[0]
    unloaded = replace(card, weights=tuple(replace(one, loading=None) for one in card.weights))
    packet = replace(packet, lifts=(unloaded,))
    said = wording("sheet.card.no_loading").split()[0]
    assert said in words_on(render_handler_card(packet, wording, Paper.A4))


@pytest.mark.parametrize("paper", list(Paper))
def test_no_rack_setting_is_left_out_of_a_card(
    packet: EntryPacket, wording: Wording, paper: Paper
) -> None:
    settings = ("17, outside holes, spotter to centre", "9, safeties at 4, feet on two blocks each")
    first = packet.lifts[0]
    racks = tuple(replace(first.racks[0], setting=setting) for setting in settings)
    packet = replace(packet, lifts=(replace(first, racks=racks), *packet.lifts[1:]))
    said = words_on(render_handler_card(packet, wording, paper))
    for setting in settings:
        assert setting in " ".join(said.split())


def test_a_lift_without_opener_leaves_room_on_every_sheet(
    packet: EntryPacket, wording: Wording
) -> None:
    empty = replace(packet.lifts[1], opener=None, plan=None, weights=(), cue="", racks=())
    packet = replace(packet, event=Event.BENCH_ONLY, lifts=(empty,))
    for render in (render_athlete_sheet, render_handler_card):
        assert wording("sheet.opener.none") in words_on(render(packet, wording, Paper.A4), 0)
    assert wording("lift.bench") in words_on(render_coach_sheet(packet, wording, Paper.A4))


def test_a_bare_packet_leaves_out_what_does_not_apply(
    packet: EntryPacket, wording: Wording
) -> None:
    packet = replace(
        packet,
        first_meet=False,
        kit=(),
        check_rounds=(),
        after_last_lift=(),
        weight=WeightPage(None, None, (), None, ()),
    )
    found = titles(read(render_athlete_sheet(packet, wording, Paper.A4)))
    for left_out in ("kit", "briefing", "after", "weight"):
        assert wording(f"sheet.section.{left_out}") not in found


@pytest.mark.parametrize("paper", list(Paper))
def test_sixteen_athletes_fit_one_landscape_page(
    team_of: Team, paper: Paper, wording: Wording
) -> None:
    names = [f"Lifter-{number:02}" for number in range(15)] + ["Q" * 200]
    data = render_team_sheet(team_of(names), wording, paper)
    (page,) = read(data).pages
    assert page.mediabox.width > page.mediabox.height
    for name in names[:15]:
        assert name in words_on(data)
    assert "3 pairs of laces" in words_on(data)


def test_a_larger_team_goes_on_to_a_second_page(team_of: Team, wording: Wording) -> None:
    names = [f"Lifter-{number:02}" for number in range(17)]
    team = team_of(names)
    lines = tuple(replace(line, missing_kit=()) for line in team.lines)
    data = render_team_sheet(replace(team, lines=lines, failed=("Somebody",)), wording, Paper.A4)
    assert len(read(data).pages) == 2
    assert "Lifter-16" in words_on(data, 1)
    assert "Somebody" in words_on(data, 1)
    assert words_on(data, 1).count("Lifter-") == 8  # nobody stands alone on the second page


def test_a_team_of_none_still_makes_a_page(team_of: Team, wording: Wording) -> None:
    assert len(read(render_team_sheet(team_of([]), wording, Paper.A4)).pages) == 1


def test_a_missing_font_is_named(tmp_path: Path) -> None:
    with pytest.raises(Trouble) as trouble:
        load_fonts(tmp_path)
    assert trouble.value.text.code == "print.font_missing"


def test_a_kit_list_has_a_box_for_each_round(packet: EntryPacket, wording: Wording) -> None:
    data = render_athlete_sheet(packet, wording, Paper.A4)
    fewer = render_athlete_sheet(replace(packet, kit=packet.kit[:-1]), wording, Paper.A4)
    assert boxes_drawn(data) - boxes_drawn(fewer) == len(packet.check_rounds)
    whole = words_on(data)
    for line in packet.kit:
        assert wording.say(line.item) in whole


def pages_with(data: bytes, said: str) -> list[int]:
    return [at for at in range(len(read(data).pages)) if said in words_on(data, at)]


@pytest.mark.parametrize("paper", list(Paper))
def test_the_commands_of_all_lifts_stand_on_one_page_each_with_its_cue(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    lifts = tuple(replace(card, cue=f"Cue for {card.lift}") for card in packet.lifts)
    data = render_athlete_sheet(replace(packet, lifts=lifts), wording, paper)
    (commands,) = pages_with(data, wording("sheet.causes"))
    assert words_on(data, commands).count(wording("sheet.causes")) == len(lifts)
    for card in lifts:
        assert pages_with(data, card.cue) == [0, commands]


@pytest.mark.parametrize("paper", list(Paper))
def test_briefing_and_what_follows_the_last_lift_are_read_together(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    packet = replace(packet, briefing=packet.briefing * 3)
    data = render_athlete_sheet(packet, wording, paper)
    briefing = pages_with(data, wording("sheet.section.briefing"))
    assert briefing == pages_with(data, wording("sheet.section.after"))


def test_a_kit_list_too_long_for_a_page_repeats_its_rounds(
    packet: EntryPacket, wording: Wording
) -> None:
    short = render_athlete_sheet(packet, wording, Paper.A4)
    shown = tuple(replace(line, inspected=True) for line in packet.kit * 5)
    long = render_athlete_sheet(replace(packet, kit=shown), wording, Paper.A4)
    assert len(pages_with(short, "Evening before")) == 1
    kit_pages = pages_with(long, wording("sheet.kit.inspected"))
    assert len(kit_pages) > 1
    assert pages_with(long, packet.athlete)[-len(kit_pages) :] == kit_pages
    assert pages_with(long, "Evening before") == kit_pages


@pytest.mark.parametrize("render", RENDERERS)
def test_a_long_rulebook_name_is_printed_to_its_end(
    packet: EntryPacket, render: Render, wording: Wording
) -> None:
    meet = replace(packet.meet, rulebook="Rules of many bodies " * 8, edition="second edition")
    data = render(replace(packet, meet=meet), wording, Paper.A4)
    assert len(pages_with(data, "second edition.")) == len(read(data).pages)


def test_brackets_on_the_team_sheet_are_explained(team_of: Team, wording: Wording) -> None:
    sheet = team_of(["Mara Lindqvist"])
    assert wording("sheet.team.legend") in words_on(render_team_sheet(sheet, wording, Paper.A4))
    handed_in = replace(
        sheet.lines[0],
        openers=tuple((lift, mass, True) for lift, mass, _ in sheet.lines[0].openers),
    )
    without = render_team_sheet(replace(sheet, lines=(handed_in,)), wording, Paper.A4)
    assert wording("sheet.team.legend") not in words_on(without)


def test_athletes_who_share_a_sheet_stand_in_its_outline_once(
    packet: EntryPacket, wording: Wording
) -> None:
    """Their cards stand below their names, those on the back too."""
    one_lift = replace(packet, lifts=(packet.lifts[1],))
    pair = [one_lift, replace(one_lift, athlete="Else")]
    outline = read(render_handler_cards(pair, wording, Paper.A4)).outline
    names = [str(entry["/Title"]) for entry in outline if not isinstance(entry, list)]
    assert names == [packet.athlete, "Else"]
    cards = [entry for entry in outline if isinstance(entry, list)]
    assert [len(below) for below in cards] == [4, 4]


def test_a_rack_setting_that_is_not_on_file_has_a_line_to_write_on(
    packet: EntryPacket, wording: Wording
) -> None:
    racks = (
        Rack(text("rack.bench"), ""),
        Rack(text("rack.safety"), "4"),
        Rack(text("rack.lift_off"), None),
    )
    lifts = (replace(packet.lifts[1], racks=racks),)
    page = words_on(render_athlete_sheet(replace(packet, lifts=lifts), wording, Paper.A4), 0)
    assert "Bench rack height: _____" in page
    assert "Bench safety height: 4" in page
    assert "Wants the bar handed out:" not in page


def test_hours_are_later_in_the_day_or_still_to_be_set(
    packet: EntryPacket, wording: Wording
) -> None:
    """Where the session is not known yet, the weigh-in does not open "later"."""
    open_day = tuple(replace(line, at=None) for line in packet.timetable)
    packet = replace(packet, timetable=open_day, food=())
    page = words_on(render_athlete_sheet(packet, wording, Paper.A4), 0)
    assert page.count(wording("sheet.time_open")) == len(open_day)
    assert wording("sheet.time_unknown") not in page.split()
