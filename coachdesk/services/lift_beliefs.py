"""What the attempt engine is told of entries: for each lift the expected maximum, its honest
spread, and the chance of a technical miss, with the sources they come from.

This brings numpy with it: import it where a plan is made, not where the program starts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coachdesk.domain.engine import LiftBelief, MissRate
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.strength import LiftSources
from coachdesk.domain.wishes import Wishes
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import KnownLifts, read_known
from coachdesk.services.meet_reading import is_first_meet, read_meet


@dataclass(frozen=True, slots=True)
class EntryBeliefs:
    """What is believed of an entry's day: ready for `DayBelief.of`.

    `sources` holds each lift of the event, `beliefs` those of which something is known; `wishes`
    what the coach wants of the plan, None when nothing was said.
    """

    entry: Entry
    first_meet: bool
    sources: Mapping[Lift, LiftSources]
    beliefs: Mapping[Lift, LiftBelief]
    wishes: Wishes | None


def meet_beliefs(
    desk: Desk, meet_id: int, *, entry_ids: frozenset[int] | None = None
) -> dict[int, EntryBeliefs]:
    """The beliefs of a meet's entries, or those that `entry_ids` names, by entry.

    A constant number of statements, however many entries there are.
    """
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today, only=entry_ids)
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, today)
    return {entry.id: entry_beliefs(known, entry) for entry in record.entries}


def entry_beliefs(known: KnownLifts, entry: Entry) -> EntryBeliefs:
    """The beliefs of one entry, as it is on file or as it is typed; errors as
    `KnownLifts.sources`."""
    sources = {lift: known.sources(entry, lift) for lift in entry.event.lifts}
    found = {lift: lift_belief(each) for lift, each in sources.items()}
    return EntryBeliefs(
        entry=entry,
        first_meet=is_first_meet(known.record, entry),
        sources=sources,
        beliefs={lift: belief for lift, belief in found.items() if belief is not None},
        wishes=known.training.wishes.get(entry.id),
    )


def lift_belief(sources: LiftSources) -> LiftBelief | None:
    """What the engine is told of a lift; None when nothing is known of it."""
    used, misses = sources.used, sources.misses
    if used is None:
        return None
    return LiftBelief(used.expected, used.sd, MissRate.learned(misses.rate, misses.worth))
