"""What is known about entries as far as class and readiness go: a constant number of statements,
however many meets and entries there are, and no more rows than the answers need.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Select, func, select, true

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.storage import tables
from coachdesk.storage.attention_queries import weight_plans
from coachdesk.storage.meet_queries import (
    first_lifted,
    judged_lifts,
    lifts_by_owner,
)
from coachdesk.storage.store import Reader
from coachdesk.storage.weight_states import weight_states


@dataclass(frozen=True, slots=True)
class EntryState:
    """An entry with what its class and its open points depend on.

    `weight` is what the athlete's readings come to, `plan` the way down agreed on; `planned`,
    `chosen` and `judged` are the lifts with a plan, with an opener chosen, and with a judged single
    of late; `lifted_before` tells of an attempt at an earlier meet on file.
    """

    meet: Meet
    entry: Entry
    athlete: Athlete
    session: Session | None
    weight: Bodyweight | None
    plan: WeightPlan | None
    planned: frozenset[Lift]
    chosen: frozenset[Lift]
    judged: frozenset[Lift]
    lifted_before: bool
    has_handler: bool

    @property
    def first_meet(self) -> bool:
        """Whether the athlete has lifted at no meet before, on file or before the record began."""
        return self.athlete.meets_before == 0 and not self.lifted_before


def entry_states(
    reader: Reader, meets: Sequence[Meet], *, today: date, judged_from: date
) -> tuple[EntryState, ...]:
    """The entries to these meets that are not withdrawn, by meet as given, then by athlete's name.

    Judged singles from `judged_from` to `today`.
    """
    of_meet = {meet.id: meet for meet in meets}
    found = entries_with_athletes(reader, of_meet)
    column = tables.entry.c
    wanted = (column.meet_id.in_(of_meet), column.withdrawn.is_(other=False))
    entry_ids = select(column.id).where(*wanted)
    athlete_ids = select(column.athlete_id).where(*wanted)
    sessions = {
        session.id: session
        for session in reader.list(Session, tables.session.c.meet_id.in_(of_meet))
    }
    weights = weight_states(reader, athlete_ids)
    plans = weight_plans(reader, entry_ids)
    judged = judged_lifts(reader, athlete_ids, since=judged_from, until=today)
    planned = _planned(reader, entry_ids)
    chosen = chosen_lifts(reader, entry_ids)
    handled = _handled(reader, entry_ids)
    first = first_lifted(reader, athlete_ids)
    states = [
        EntryState(
            meet=of_meet[entry.meet_id],
            entry=entry,
            athlete=athlete,
            session=sessions.get(entry.session_id or 0),
            weight=weights.get(entry.athlete_id),
            plan=plans.get(entry.id),
            planned=planned.get(entry.id, frozenset()),
            chosen=chosen.get(entry.id, frozenset()),
            judged=judged.get(entry.athlete_id, frozenset()),
            lifted_before=first.get(entry.athlete_id, date.max) < of_meet[entry.meet_id].starts_on,
            has_handler=entry.id in handled,
        )
        for entry, athlete in found
    ]
    place = {meet_id: at for at, meet_id in enumerate(of_meet)}
    return tuple(sorted(states, key=lambda state: (place[state.meet.id], *_by_name(state))))


def entries_with_athletes(
    reader: Reader, meet_ids: Collection[int]
) -> tuple[tuple[Entry, Athlete], ...]:
    """The entries to these meets that are not withdrawn, each with its athlete."""
    entries = reader.list(
        Entry, tables.entry.c.meet_id.in_(meet_ids), tables.entry.c.withdrawn.is_(other=False)
    )
    athlete_ids = sorted({entry.athlete_id for entry in entries})
    athletes = {
        athlete.id: athlete
        for athlete in reader.list(Athlete, tables.athlete.c.id.in_(athlete_ids))
    }
    return tuple((entry, athletes[entry.athlete_id]) for entry in entries)


def count_athletes(reader: Reader) -> int:
    """How many athletes are on the roster, archived ones aside."""
    athlete = tables.athlete.c
    query = select(func.count(athlete.id)).where(athlete.archived.is_(other=False))
    return reader.connection.execute(query).scalar_one()


def count_entries_ahead(reader: Reader, today: date) -> int:
    """How many entries there are to meets from today on."""
    entry, meet = tables.entry.c, tables.meet.c
    query = (
        select(func.count(entry.id))
        .join(tables.meet, meet.id == entry.meet_id)
        .where(meet.starts_on >= today)
    )
    return reader.connection.execute(query).scalar_one()


def _by_name(state: EntryState) -> tuple[str, str, int]:
    athlete = state.athlete
    return athlete.family_name.casefold(), athlete.given_name.casefold(), state.entry.id


def chosen_lifts(
    reader: Reader, entry_ids: Select[int] | Collection[int]
) -> dict[int, frozenset[Lift]]:
    """The lifts of each entry with an opener chosen."""
    attempt = tables.attempt.c
    return lifts_by_owner(
        reader,
        select(attempt.entry_id, attempt.lift).where(
            attempt.entry_id.in_(entry_ids), attempt.number == 1
        ),
    )


def _planned(reader: Reader, entry_ids: Select[int]) -> dict[int, frozenset[Lift]]:
    """The lifts in each entry's latest plan, read without unpacking the plans."""
    snapshot = tables.plan_snapshot.c
    latest = (
        select(func.max(snapshot.id))
        .where(snapshot.entry_id.in_(entry_ids))
        .group_by(snapshot.entry_id)
    )
    lifts = func.json_each(snapshot.content, "$.lifts").table_valued("value")
    return lifts_by_owner(
        reader,
        select(snapshot.entry_id, func.json_extract(lifts.c.value, "$.lift"))
        .join(lifts, true())
        .where(snapshot.id.in_(latest)),
    )


def _handled(reader: Reader, entry_ids: Select[int]) -> frozenset[int]:
    duty = tables.handler_duty.c
    query = select(duty.entry_id).where(duty.entry_id.in_(entry_ids)).distinct()
    return frozenset(reader.connection.execute(query).scalars())
