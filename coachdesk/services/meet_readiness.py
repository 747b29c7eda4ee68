"""How ready the entries of a meet are, read together: kit and tasks of each, and the spares."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.kit import KitItem, team_bag
from coachdesk.domain.meet import Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.services.desk import Desk
from coachdesk.services.readiness import Readiness, readiness_of
from coachdesk.services.rulebooks import kit_list_for
from coachdesk.storage.readiness_queries import Starter, starters


@dataclass(frozen=True, slots=True)
class MeetReadiness:
    """The entries not withdrawn, by name; `ready` goes by entry, `spares` into the team's bag."""

    meet: Meet
    rulebook: Rulebook
    today: date
    starters: tuple[Starter, ...]
    ready: dict[int, Readiness]
    spares: tuple[KitItem, ...]

    def starter(self, entry_id: int) -> Starter:
        """The entry with its athlete."""
        return next(each for each in self.starters if each.entry.id == entry_id)


def meet_readiness(desk: Desk, meet_id: int) -> MeetReadiness:
    """Read how ready a meet's entries are; Trouble when the meet or its rulebook is not there, the
    fault of a kit list or the task list where one cannot be read."""
    with desk.reading() as reader:
        meet = reader.get(Meet, meet_id)
        there = starters(reader, [meet])
        ready = readiness_of(desk, reader, there)
    kinds = sorted({starter.entry.equipment for starter in there})
    return MeetReadiness(
        meet=meet,
        rulebook=desk.rulebooks.get(meet.rulebook),
        today=desk.today(),
        starters=there,
        ready=ready,
        spares=team_bag(kit_list_for(desk.kit, kind) for kind in kinds),
    )
