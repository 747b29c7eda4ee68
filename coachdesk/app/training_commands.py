"""The commands about one athlete: training sheets, and the whole record."""

from __future__ import annotations

import argparse

from coachdesk.app.file_commands import present_file
from coachdesk.app.wiring import open_desk
from coachdesk.services.record_export import write_record
from coachdesk.services.roster_reading import find_athlete
from coachdesk.wording.wording import Wording


def record(options: argparse.Namespace, words: Wording) -> int:
    """Write an athlete's whole record to a zip."""
    desk = open_desk(present_file(options))
    try:
        athlete = find_athlete(desk, options.athlete)
        written = write_record(desk, athlete.id, options.out)
    finally:
        desk.store.close()
    print(words("record.done", name=written.name, file=str(written.file), count=written.files))
    return 0
