"""What the attempt engine is told of entries: for each lift the expected maximum, its honest
spread, and the chance of a technical miss, with the sources they come from.

This brings numpy with it: import it where a plan is made, not where the program starts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.engine import LiftBelief, MissRate
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength import LiftSources
from coachdesk.domain.wishes import Wishes
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import lift_sources
from coachdesk.services.meet_reading import is_first_meet, read_meet, read_training
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.training_queries import Training


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
        training = read_training(reader, record, today)
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    return {
        entry.id: entry_beliefs(rulebook, record, training, entry, today)
        for entry in record.entries
    }


def entry_beliefs(
    rulebook: Rulebook, record: MeetRecord, training: Training, entry: Entry, today: date
) -> EntryBeliefs:
    """The beliefs of one entry, as it is on file or as it is typed; errors as `lift_sources`."""
    sources = {
        lift: lift_sources(rulebook, record, training, entry, lift, today)
        for lift in entry.event.lifts
    }
    found = {lift: lift_belief(each) for lift, each in sources.items()}
    return EntryBeliefs(
        entry=entry,
        first_meet=is_first_meet(record, entry),
        sources=sources,
        beliefs={lift: belief for lift, belief in found.items() if belief is not None},
        wishes=training.wishes.get(entry.id),
    )


def lift_belief(sources: LiftSources) -> LiftBelief | None:
    """What the engine is told of a lift; None when nothing is known of it."""
    used, misses = sources.used, sources.misses
    if used is None:
        return None
    return LiftBelief(used.expected, used.sd, MissRate.learned(misses.rate, misses.worth))
