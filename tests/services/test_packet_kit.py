"""What is on file about kit comes to the packets, as of the moment of the print."""

from __future__ import annotations

from datetime import date

import pytest

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_kit
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.packet_content import EntryPacket, TeamSheet
from coachdesk.services.packets import entry_packet, print_job, team_sheet
from coachdesk.services.roster import add_athlete

MEET_DAY = date(2026, 12, 5)
"""Ten days after the clock of the tests stands: the first check round is behind it."""


def entered(desk: Desk, inspection: date | None = None) -> tuple[int, int]:
    """A meet and an entry to it, by id."""
    meet_id = add_meet(
        desk,
        MeetData(
            name="Harbour Open",
            starts_on=MEET_DAY,
            rulebook="ipf_2021",
            time_zone="Europe/Berlin",
            kit_inspection_on=inspection,
        ),
    ).value
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    entry_id = enter_athlete(
        desk,
        EntryData(
            athlete_id=add_athlete(desk, athlete).value,
            meet_id=meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
        ),
    ).value
    return meet_id, entry_id


def printed(desk: Desk, meet_id: int) -> tuple[EntryPacket, TeamSheet]:
    job = print_job(desk, meet_id)
    (entry,) = job.entries
    packet = entry_packet(desk, job, entry)
    return packet, team_sheet(desk, job, [(entry, packet)], [])


def sights_of(packet: EntryPacket, item: str) -> tuple[Sight, ...]:
    (line,) = [line for line in packet.kit if line.item == text(f"kit.{item}")]
    return line.sights


def test_each_look_stands_in_its_round(desk: Desk) -> None:
    meet_id, entry_id = entered(desk)
    tick_kit(desk, entry_id, "two_weeks", {"belt": Sight.MISSING, "singlet": Sight.PRESENT})
    tick_kit(desk, entry_id, "one_week", {"belt": Sight.PRESENT})
    packet, _ = printed(desk, meet_id)
    not_yet = Sight.NOT_LOOKED
    rounds = [each.what.code for each in packet.check_rounds]
    assert rounds[:2] == ["kit_round.two_weeks", "kit_round.one_week"]
    later = (not_yet,) * (len(rounds) - 2)
    assert sights_of(packet, "belt") == (Sight.MISSING, Sight.PRESENT, *later)
    assert sights_of(packet, "singlet") == (Sight.PRESENT, not_yet, *later)
    assert sights_of(packet, "chalk") == (not_yet, not_yet, *later)


def test_the_team_sheet_names_what_the_last_look_missed_but_nobodys_medicines(desk: Desk) -> None:
    meet_id, entry_id = entered(desk)
    missing = dict.fromkeys(("belt", "chalk", "medicines_list"), Sight.MISSING)
    tick_kit(desk, entry_id, "two_weeks", missing)
    tick_kit(desk, entry_id, "one_week", {"chalk": Sight.PRESENT})
    packet, sheet = printed(desk, meet_id)
    assert set(packet.missing_kit) == {text("kit.belt"), text("kit.medicines_list")}
    assert sheet.lines[0].missing_kit == (text("kit.belt"),)


@pytest.mark.parametrize("day", [None, date(2026, 12, 4)])
def test_the_day_of_the_inspection_is_printed_where_it_is_known(
    desk: Desk, day: date | None
) -> None:
    meet_id, _ = entered(desk, inspection=day)
    packet, _ = printed(desk, meet_id)
    known = text("kit.inspection_on", day=day) if day else text("kit.inspection")
    assert packet.kit_inspection == known


def test_a_look_taken_back_is_off_the_next_print(desk: Desk) -> None:
    meet_id, entry_id = entered(desk)
    tick_kit(desk, entry_id, "two_weeks", {"belt": Sight.MISSING})
    assert printed(desk, meet_id)[1].lines[0].missing_kit
    tick_kit(desk, entry_id, "two_weeks", {"belt": Sight.NOT_LOOKED})
    assert not printed(desk, meet_id)[1].lines[0].missing_kit
