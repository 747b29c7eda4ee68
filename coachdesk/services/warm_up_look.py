"""The warm-ups of one entry, looked at on screen; the same that its packet prints."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.services.desk import Desk
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.packet_content import WarmUpPage
from coachdesk.services.packet_lifts import lift_cards
from coachdesk.services.packet_warm_ups import warm_up_page


@dataclass(frozen=True)
class WarmUpLook:
    """The warm-ups of an entry's lifts under the meet's rulebook."""

    athlete: str
    rulebook: Rulebook
    page: WarmUpPage


def warm_up_look(desk: Desk, entry_id: int) -> WarmUpLook:
    """Read an entry's warm-ups; Trouble when the entry or its rulebook is not there."""
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        record = read_meet(reader, entry.meet_id, desk.today(), only=frozenset({entry_id}))
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    cards = lift_cards(record, rulebook, entry)
    page = warm_up_page(record, rulebook, entry, cards)
    return WarmUpLook(record.athletes[entry.athlete_id].name, rulebook, page)
