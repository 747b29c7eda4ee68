"""One athlete's whole record as files of separated values in one zip.

Heads are the fixed names of fields, whatever the language of the desk, so that other programs can
go by them; a weight takes two columns, the number as entered and its unit. It is the athlete's own
record: contacts, health notes and cycle notes are in it.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any

from coachdesk.domain.athlete import Athlete, CycleNoteRecord, Reading
from coachdesk.domain.blocks.notation import plain
from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.training import (
    Block,
    Exercise,
    LoggedSet,
    PlannedSet,
    TrainingDay,
    TrainingMaximum,
)
from coachdesk.domain.units import Mass
from coachdesk.services.csv_reading import guarded
from coachdesk.services.desk import Desk
from coachdesk.services.whole_file import write_whole
from coachdesk.storage.record_queries import WholeRecord, whole_record
from coachdesk.storage.rows import Data

ENDING = ".zip"
_LEFT_OUT = frozenset({"athlete_id", "version"})
_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The earliest time a zip can give its files; a constant one makes equal records equal files."""


@dataclass(frozen=True, slots=True)
class RecordWritten:
    """The zip that was written, whose it is, and how many files are in it."""

    file: Path
    name: str
    files: int


def write_record(desk: Desk, athlete_id: int, file: Path) -> RecordWritten:
    """Write an athlete's record to `file`, whole or not at all; Trouble when that cannot be."""
    with desk.reading() as reader:
        record = whole_record(reader, athlete_id)
    parts = record_files(record)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as into:
        for name, data in parts.items():
            into.writestr(zipfile.ZipInfo(name, _EARLIEST), data, zipfile.ZIP_DEFLATED)
    write_whole(file, packed.getvalue())
    return RecordWritten(file, record.athlete.name, len(parts))


def record_files(record: WholeRecord) -> dict[str, bytes]:
    """The files by name, each with its heads even where it holds no rows."""
    name = {"athlete": record.athlete.name}
    meets = {
        each.id: {"meet": each.name, "meet_starts_on": each.starts_on} for each in record.meets
    }
    of_entry = {each.id: meets[each.meet_id] for each in record.entries}
    return {
        "profile.csv": _file(Athlete, [(record.athlete, {})]),
        "readings.csv": _file(Reading, [(each, name) for each in record.readings]),
        "cycle_notes.csv": _file(CycleNoteRecord, [(each, name) for each in record.cycle_notes]),
        "logged_sets.csv": _file(LoggedSet, [(each, name) for each in record.logged]),
        "blocks.csv": _plain_file(Block, record.blocks),
        "training_maxima.csv": _plain_file(TrainingMaximum, record.maxima),
        "exercises.csv": _plain_file(Exercise, record.exercises),
        "planned_sets.csv": _plain_file(PlannedSet, record.planned),
        "training_days.csv": _plain_file(TrainingDay, record.days),
        "meets.csv": _plain_file(Meet, record.meets),
        "entries.csv": _file(Entry, [(each, meets[each.meet_id]) for each in record.entries]),
        "attempts.csv": _file(
            Attempt, [(each, of_entry[each.entry_id]) for each in record.attempts]
        ),
    }


def _plain_file(kind: type[Data], records: Iterable[Data]) -> bytes:
    return _file(kind, [(each, {}) for each in records])


def _file(kind: type[Data], rows: Sequence[tuple[Data, Mapping[str, Any]]]) -> bytes:
    """A file of records of one kind, what they go by in front of them."""
    before = list(rows[0][1]) if rows else []
    masses = {each.name: "Mass" in str(each.type) for each in fields(kind)}
    names = [name for name in masses if name not in _LEFT_OUT]
    written = io.StringIO(newline="")
    lines = csv.writer(written)
    heads = [
        head for name in names for head in ((name, f"{name}_unit") if masses[name] else (name,))
    ]
    lines.writerow([*before, *heads])
    for record, named in rows:
        cells = [guarded(_shown(named[each])) for each in before]
        for name in names:
            value = getattr(record, name)
            cells += _mass_cells(value) if masses[name] else [guarded(_shown(value))]
        lines.writerow(cells)
    return written.getvalue().encode("utf-8-sig")


def _mass_cells(mass: Mass | None) -> list[str]:
    return ["", ""] if mass is None else [plain(mass.number), mass.unit.value]


def _shown(value: object) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case datetime() | date() | time():
            return value.isoformat()
        case float() | Decimal():
            return plain(value)
        case tuple():
            return "; ".join(map(_shown, value))
        case _:
            return str(value)
