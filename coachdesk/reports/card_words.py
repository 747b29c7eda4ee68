"""What stands on every card: whose it is, what it is about, which meet and print it belongs to."""

from __future__ import annotations

from collections.abc import Callable

from coachdesk.reports.blocks import Block, blank, fitted_block, name_block, words_block
from coachdesk.reports.day_blocks import place_line
from coachdesk.reports.masthead import print_line, rules_line
from coachdesk.reports.theme import FOOT, LABEL, SECTION, STRONG
from coachdesk.services.packet_content import EntryPacket
from coachdesk.wording.wording import Wording

CARD_NAME = STRONG.sized(12)
LEAST_NAME = 8.0


def name_and_title(athlete: str, title: str, width: float) -> list[Block]:
    """Whose card it is and what it is about."""
    return [
        name_block(athlete, width, CARD_NAME, LEAST_NAME),
        fitted_block(title, width, SECTION, 8),
    ]


def card_head(packet: EntryPacket, title: str, wording: Wording, width: float) -> list[Block]:
    """The same with session, platform and lot."""
    return [
        *name_and_title(packet.athlete, title, width),
        fitted_block(place_line(packet, wording), width, LABEL, 6),
    ]


def short_foot(packet: EntryPacket, wording: Wording) -> Callable[[float], Block]:
    """Which meet a card is for, and when it was printed: cut apart, none must be mistaken."""
    printed = print_line(packet.mark, wording)
    words = wording("sheet.card.back_foot", meet=packet.meet.name, printed=printed)
    return lambda width: fitted_block(words, width, FOOT.sized(7), 5)


def card_foot(packet: EntryPacket, wording: Wording, width: float) -> list[Block]:
    """The same with the rules a card was made by."""
    return [
        blank(3),
        short_foot(packet, wording)(width),
        words_block(rules_line(packet.meet, wording), width, FOOT.sized(6)),
    ]
