"""What stands at the head and foot of every page, in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from coachdesk.services.packet_content import EntryPacket, MeetHead, PrintMark
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Masthead:
    """What stands on every page: whose sheet, which kind, what it is about and where and when that
    is, when it was printed, and the rules it was made by."""

    subject: str
    kind: str
    about: str
    where: str
    mark: PrintMark
    rules: str


def meet_masthead(
    subject: str, kind: str, meet: MeetHead, mark: PrintMark, wording: Wording
) -> Masthead:
    """The masthead of a sheet about a meet."""
    where = wording.day(meet.starts_on)
    if meet.place:
        where = wording("sheet.where", place=meet.place, day=meet.starts_on)
    return Masthead(subject, kind, meet.name, where, mark, rules_line(meet, wording))


def sheet_title(masthead: Masthead, wording: Wording) -> str:
    """The title of a document for one."""
    return wording("sheet.title", kind=masthead.kind, name=masthead.subject, meet=masthead.about)


def meet_names(packets: Iterable[EntryPacket]) -> tuple[str, ...]:
    """The meets that packets are for, each once."""
    return tuple(dict.fromkeys(packet.meet.name for packet in packets))


def print_line(mark: PrintMark, wording: Wording) -> str:
    """When it was printed, and which print it replaces."""
    if mark.replaces is None:
        return wording("sheet.printed", at=mark.printed_at)
    return wording("sheet.printed_replaces", at=mark.printed_at, earlier=mark.replaces)


def rules_line(meet: MeetHead, wording: Wording) -> str:
    """The rulebook it was made by, and that the meet's own rules come first."""
    return wording("sheet.rules", rulebook=meet.rulebook, edition=meet.edition)
