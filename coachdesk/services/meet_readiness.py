"""How ready the entries of a meet are, read together: kit and tasks of each, and the spares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from coachdesk.domain.errors import Trouble
from coachdesk.domain.kit import KitItem, team_bag
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text
from coachdesk.services.desk import Desk
from coachdesk.services.packet_kit import limits_of
from coachdesk.services.readiness import Readiness, is_inspected, readiness_of
from coachdesk.services.rulebooks import kit_list_for
from coachdesk.storage.readiness_queries import Starter, starters


@dataclass(frozen=True, slots=True)
class MeetReadiness:
    """The entries not withdrawn, by name; `ready` goes by entry, `spares` into the team's bag.

    Without its rulebook no limits are known. `inspects`: kit is inspected before the meet. `fault`
    says what is wrong with a kit list or the task list: there is nothing else to tell then.
    """

    meet: Meet
    rulebook: Rulebook | None
    today: date
    inspects: bool
    starters: tuple[Starter, ...] = ()
    ready: Mapping[int, Readiness] = field(default_factory=dict)
    spares: tuple[KitItem, ...] = ()
    fault: Text | None = None

    def starter(self, entry_id: int) -> Starter:
        """The entry with its athlete."""
        return next(each for each in self.starters if each.entry.id == entry_id)

    def limits(self, entry: Entry, item: KitItem) -> tuple[Text, ...]:
        """What gets a piece of an entry's kit turned away."""
        return () if self.rulebook is None else limits_of(self.rulebook, item, entry)


def meet_readiness(desk: Desk, meet_id: int) -> MeetReadiness:
    """Read how ready a meet's entries are; Trouble when the meet is no longer on file."""
    with desk.reading() as reader:
        meet = reader.get(Meet, meet_id)
        found = MeetReadiness(
            meet=meet,
            rulebook=desk.rulebooks.books.get(meet.rulebook),
            today=desk.today(),
            inspects=is_inspected(desk, meet),
        )
        there = starters(reader, [meet])
        kinds = sorted({starter.entry.equipment for starter in there})
        try:
            ready = readiness_of(desk, reader, there)
            spares = team_bag(kit_list_for(desk.kit, kind) for kind in kinds)
        except Trouble as trouble:
            return replace(found, fault=trouble.text)
    return replace(found, starters=there, ready=ready, spares=spares)
