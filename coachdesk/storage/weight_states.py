"""What athletes' readings come to, kept on file so that nobody goes through years of them to read
a roster. Where a state is not on file it is made on the spot: what is answered is the same.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, Select, String, func, insert, select, type_coerce

from coachdesk.domain.athlete import CycleNoteRecord, Reading
from coachdesk.domain.bodyweight import Bodyweight, CycleNote, OddWeight, Outlook, bodyweight
from coachdesk.domain.bodyweight.standing import LOOK_BACK
from coachdesk.domain.trend_filter import State
from coachdesk.storage import readiness_tables, tables
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader


def weight_states(
    reader: Reader, athlete_ids: Select[int] | Collection[int]
) -> dict[int, Bodyweight]:
    """What the readings of these athletes come to, of those who have some."""
    kept = readiness_tables.weight_state.c
    rows = reader.connection.execute(
        select(kept.athlete_id, type_coerce(kept.content, String)).where(
            kept.athlete_id.in_(athlete_ids)
        )
    )
    found = {athlete_id: _state(content) for athlete_id, content in rows}
    return found | _made(reader, _without(reader, athlete_ids))


def keep_weight_states(connection: Connection, most: int) -> int:
    """Put the states on file of up to `most` athletes who have readings and no state there;
    answers of how many."""
    reader = Reader(connection)
    made = _made(reader, _without(reader, select(tables.athlete.c.id), most))
    if made:
        connection.execute(
            insert(readiness_tables.weight_state),
            [
                {"athlete_id": athlete_id, "content": _to_json(state)}
                for athlete_id, state in made.items()
            ],
        )
    return len(made)


def _without(
    reader: Reader, athlete_ids: Select[int] | Collection[int], most: int | None = None
) -> Sequence[int]:
    """Those with readings whose state is not on file."""
    athlete, kept = tables.athlete.c, readiness_tables.weight_state.c
    is_kept = select(kept.id).where(kept.athlete_id == athlete.id).exists()
    has_readings = (
        select(tables.reading.c.id).where(tables.reading.c.athlete_id == athlete.id).exists()
    )
    query = select(athlete.id).where(athlete.id.in_(athlete_ids), ~is_kept, has_readings)
    return reader.connection.execute(query.limit(most)).scalars().all()


def _made(reader: Reader, athlete_ids: Sequence[int]) -> dict[int, Bodyweight]:
    if not athlete_ids:
        return {}
    reading = tables.reading.c
    latest = (
        select(reading.athlete_id, func.max(reading.on).label("latest"))
        .where(reading.athlete_id.in_(athlete_ids))
        .group_by(reading.athlete_id)
        .subquery()
    )
    recent = (
        select(reading.id)
        .join(latest, latest.c.athlete_id == reading.athlete_id)
        .where(reading.on >= func.date(latest.c.latest, f"-{LOOK_BACK.days} days"))
    )
    readings: Mapping[int, Sequence[Reading]] = by(
        reader.list(Reading, reading.id.in_(recent)), "athlete_id"
    )
    notes = by(
        reader.list(CycleNoteRecord, readiness_tables.cycle_note.c.athlete_id.in_(athlete_ids)),
        "athlete_id",
    )
    made = {}
    for athlete_id, listed in readings.items():
        spans = [CycleNote(note.first, note.last) for note in notes.get(athlete_id, ())]
        state = bodyweight(listed, spans)
        if state is not None:
            made[athlete_id] = state
    return made


def _to_json(state: Bodyweight) -> dict[str, Any]:
    outlook = state.outlook
    return {
        "on": outlook.on.isoformat(),
        "state": list(outlook.state),
        "noise_kg": outlook.noise_kg,
        "notes": [[note.first.isoformat(), note.last.isoformat()] for note in outlook.cycle_notes],
        "readings": state.readings,
        "levels": list(state.levels),
        "odd": [[odd.on.isoformat(), odd.shown_kg, odd.expected_kg] for odd in state.odd],
    }


@lru_cache(maxsize=2048)
def _state(content: str) -> Bodyweight:
    """What was put on file; from one look to the next few change."""
    return _from_json(json.loads(content))


def _from_json(content: Mapping[str, Any]) -> Bodyweight:
    day = date.fromisoformat
    return Bodyweight(
        outlook=Outlook(
            on=day(content["on"]),
            state=State(*content["state"]),
            noise_kg=content["noise_kg"],
            cycle_notes=tuple(CycleNote(day(first), day(last)) for first, last in content["notes"]),
        ),
        readings=content["readings"],
        levels=tuple(content["levels"]),
        odd=tuple(OddWeight(day(on), shown, due) for on, shown, due in content["odd"]),
    )
