"""Warm-ups on paper, read back from the PDF."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PageObject, PdfReader

from coachdesk.domain.lifting import Event
from coachdesk.domain.units import kilograms
from coachdesk.domain.warmup import WarmUpSet, warm_ups
from coachdesk.reports.athlete_sheet import render_athlete_sheet
from coachdesk.reports.handler_card import render_handler_cards
from coachdesk.reports.theme import Paper
from coachdesk.services.packet_content import EntryPacket, LiftWarmUps
from coachdesk.wording.wording import Wording


def pages(data: bytes) -> list[str]:
    """The words of each page, with single spaces."""
    read = PdfReader(BytesIO(data), strict=True).pages
    return [" ".join(page.extract_text().split()) for page in read]


def cards(packet: EntryPacket, wording: Wording, paper: Paper = Paper.A4) -> list[str]:
    return pages(render_handler_cards([packet], wording, paper))


def with_lifts(packet: EntryPacket, lifts: Sequence[LiftWarmUps]) -> EntryPacket:
    return replace(packet, warm_up=replace(packet.warm_up, lifts=tuple(lifts)))


def line_of(one: WarmUpSet, wording: Wording) -> str:
    return f"{wording.bare_mass(one.weight)} × {one.reps}"


@pytest.mark.parametrize("paper", list(Paper))
def test_the_handlers_second_page_has_every_set_of_every_lift(
    packet: EntryPacket, paper: Paper, wording: Wording
) -> None:
    attempts, page = cards(packet, wording, paper)
    for lift in packet.warm_up.lifts:
        assert lift.warm_ups is not None
        title = wording("sheet.warm_up.of_lift", lift=wording(f"lift.{lift.lift}"))
        assert title in page
        assert title not in attempts
        for one in lift.warm_ups.usual:
            assert line_of(one, wording) in page
            discs = " ".join(wording.bare_mass(disc.weight) for disc in one.discs_per_side)
            assert discs in page
        assert wording.mass(lift.warm_ups.opener) in page
    assert wording("sheet.card.bare_bar") in page


def test_attempts_out_stand_in_front_of_their_sets(packet: EntryPacket, wording: Wording) -> None:
    lift = packet.warm_up.lifts[0]
    assert lift.warm_ups is not None
    words = cards(with_lifts(packet, [lift]), wording)[1].split()
    outs = [str(one.attempts_out) for one in lift.warm_ups.usual]
    at = words.index(outs[0])
    assert words[at : at + len(outs)] == outs


def test_what_to_skip_and_what_to_repeat_is_said_in_a_line_each(
    packet: EntryPacket, wording: Wording
) -> None:
    """Squat opener 187.5 kg: the second and fourth of six sets go when time is short."""
    lift = packet.warm_up.lifts[0]
    assert lift.warm_ups is not None
    page = cards(packet, wording)[1]
    skipped = ", ".join(wording.bare_mass(one.weight) for one in lift.warm_ups.left_out)
    assert f"skip {skipped}." in page
    again = line_of(lift.warm_ups.usual[-1], wording)
    assert f"{again} again at {lift.warm_ups.early[-1].attempts_out}." in page


def places(packet: EntryPacket, wording: Wording, titles: Sequence[str]) -> list[tuple[int, int]]:
    """Column and row on its page of each card with one of `titles`, read off the drawn words."""
    reader = PdfReader(BytesIO(render_handler_cards([packet], wording, Paper.A4)))
    found: dict[str, tuple[int, int]] = {}

    def look(page: PageObject) -> None:
        width, height = float(page.mediabox.width), float(page.mediabox.height)

        def seen(
            words: str, cm: Sequence[float], tm: Sequence[float], _font: object, _size: float
        ) -> None:
            for title in titles:
                if words.strip() == title and title not in found:
                    x, y = tm[4] * cm[0] + cm[4], tm[5] * cm[3] + cm[5]
                    found[title] = int(x > width / 2), int(y < height / 2)

        page.extract_text(visitor_text=seen)

    for page in reader.pages:
        look(page)
    return [found[title] for title in titles]


def test_printed_on_both_sides_warm_ups_are_on_the_back_of_their_lift(
    packet: EntryPacket, wording: Wording
) -> None:
    """Turned on its long edge, a sheet's left column lies behind its right one."""
    names = [wording(f"lift.{lift.lift}") for lift in packet.lifts]
    fronts = [wording("sheet.card.lift", lift=name, flight="B") for name in names]
    backs = [wording("sheet.warm_up.of_lift", lift=name) for name in names]
    for (front_column, front_row), (back_column, back_row) in zip(
        places(packet, wording, fronts), places(packet, wording, backs), strict=True
    ):
        assert back_row == front_row
        assert back_column == 1 - front_column


def cards_of(packets: Sequence[EntryPacket], wording: Wording) -> list[str]:
    """The words of each page of the cards."""
    return pages(render_handler_cards(packets, wording, Paper.A4))


def in_one_lift(packet: EntryPacket, name: str) -> EntryPacket:
    bench = with_lifts(packet, packet.warm_up.lifts[1:2])
    return replace(bench, athlete=name, event=Event.BENCH_ONLY, lifts=packet.lifts[1:2])


def test_each_entry_takes_two_pages_so_that_both_sides_stay_in_step(
    packet: EntryPacket, wording: Wording
) -> None:
    unknown = with_lifts(
        packet,
        [replace(lift, opener=None, warm_ups=None) for lift in packet.warm_up.lifts],
    )
    assert len(cards_of([unknown, packet], wording)) == 4


def test_entries_in_one_lift_share_a_sheet_at_the_end(
    packet: EntryPacket, wording: Wording
) -> None:
    ours = [in_one_lift(packet, "Ada Fjord"), packet, in_one_lift(packet, "Bo Quill")]
    found = cards_of(ours, wording)
    assert len(found) == 4
    for page in found[:2]:
        assert packet.athlete in page
    for page in found[2:]:
        assert page.count("Ada Fjord") == page.count("Bo Quill") == 3  # two cards, and the foot
    assert wording("sheet.warm_up.both_sides") in found[3]


def test_one_left_over_has_all_cards_on_one_side_of_the_last_sheet(
    packet: EntryPacket, wording: Wording
) -> None:
    names = ("Ada Fjord", "Bo Quill", "Cy Marsh")
    found = cards_of([*(in_one_lift(packet, name) for name in names), packet], wording)
    assert len(found) == 5
    assert "Cy Marsh" not in " ".join(found[:4])
    assert wording("sheet.warm_up.of_lift", lift=wording("lift.bench")) in found[4]
    assert wording("sheet.card.day") in found[4]
    assert wording("sheet.warm_up.both_sides") not in found[4]


def test_a_place_left_free_has_a_card_to_write_on(packet: EntryPacket, wording: Wording) -> None:
    push_pull = replace(packet, event=Event.PUSH_PULL, lifts=packet.lifts[1:])
    front, back = cards_of([push_pull], wording)
    assert wording("sheet.card.others") in front
    assert wording("sheet.section.notes") in back
    assert wording("sheet.card.others") not in cards_of([packet], wording)[0]


def test_what_referees_look_at_has_a_box_on_the_card_and_the_rest_is_named(
    packet: EntryPacket, wording: Wording
) -> None:
    back = cards_of([packet], wording)[1]
    rest = tuple(
        wording("sheet.kit.several", number=line.count, item=line.item)
        if line.count > 1
        else wording.say(line.item)
        for line in packet.kit
        if not line.inspected
    )
    assert wording("sheet.card.kit") in back
    assert wording("sheet.card.bag", items=rest) in back
    assert "Singlet" not in wording("sheet.card.bag", items=rest)
    assert "Singlet" in back


def test_without_an_opener_the_card_leaves_rows_to_write_in(
    packet: EntryPacket, wording: Wording
) -> None:
    lift = replace(packet.warm_up.lifts[0], opener=None, warm_ups=None, begins_at=None)
    page = cards(with_lifts(packet, [lift]), wording)[1]
    assert wording("sheet.opener.none") in page
    assert wording("sheet.warm_up.discs") in page


def test_the_reading_card_says_when_to_begin_and_which_discs_were_meant(
    packet: EntryPacket, wording: Wording
) -> None:
    page = cards(packet, wording)[1]
    assert "Squat: first set at 09:30" in page
    assert "bar 20 kg, two collars of 2.5 kg" in page
    assert "60 s" in page


def test_gear_stands_below_each_set_of_an_equipped_lifter_only(
    packet: EntryPacket, equipped_packet: EntryPacket, wording: Wording
) -> None:
    equipped, classic = cards(equipped_packet, wording)[1], cards(packet, wording)[1]
    for lift in equipped_packet.warm_up.lifts:
        assert lift.warm_ups is not None
        for one in lift.warm_ups.usual:
            assert wording(f"gear.{one.gear}") in equipped
    assert wording("gear.full_wraps") not in classic
    assert wording("gear.none") not in classic


def test_a_room_in_pounds_is_read_in_pounds(pound_packet: EntryPacket, wording: Wording) -> None:
    page = cards(pound_packet, wording)[1]
    assert wording("sheet.warm_up.weight", unit="lb") in page
    assert "bar 45 lb" in page


def test_why_a_ladder_is_odd_is_said_on_its_card(packet: EntryPacket, wording: Wording) -> None:
    room = packet.warm_up.room
    light = warm_ups(packet.lifts[1].lift, opener=kilograms(25), room=room)
    lift = replace(packet.warm_up.lifts[1], opener=kilograms(25), warm_ups=light)
    page = cards(with_lifts(packet, [lift]), wording)[1]
    for note in light.notes:
        assert wording.say(note) in page
    assert wording("sheet.warm_up.hurry", first=4, last=4) in page


def test_the_athletes_first_page_has_weights_and_minutes_but_no_discs_and_no_odds(
    packet: EntryPacket, wording: Wording
) -> None:
    first = pages(render_athlete_sheet(packet, wording, Paper.A4))[0]
    assert wording("sheet.warm_up.title") in first
    for lift in packet.warm_up.lifts:
        assert lift.warm_ups is not None
        for one in lift.warm_ups.usual:
            assert f"{wording.mass(one.weight)} × {one.reps}" in first
            assert wording("sheet.warm_up.minutes", minutes=one.minutes) in first
    assert wording("sheet.warm_up.discs") not in first
    assert "%" not in first


def test_an_athlete_without_openers_reads_nothing_about_warm_ups(
    packet: EntryPacket, wording: Wording
) -> None:
    lifts = [replace(lift, opener=None, warm_ups=None) for lift in packet.warm_up.lifts]
    first = pages(render_athlete_sheet(with_lifts(packet, lifts), wording, Paper.A4))[0]
    assert wording("sheet.warm_up.title") not in first
