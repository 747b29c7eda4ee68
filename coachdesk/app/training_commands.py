"""The commands about one athlete: training sheets, and the whole record."""

from __future__ import annotations

import argparse

from coachdesk.app.file_commands import present_file
from coachdesk.app.print_training import print_training
from coachdesk.app.wiring import open_desk
from coachdesk.services.record_export import write_record
from coachdesk.services.roster_reading import find_athlete
from coachdesk.services.training_content import find_week
from coachdesk.wording.wording import Wording


def training(options: argparse.Namespace, words: Wording) -> int:
    """Print an athlete's training sheet of a week."""
    desk = open_desk(present_file(options))
    try:
        athlete = find_athlete(desk, options.athlete)
        block_id, week = find_week(desk, athlete.id, options.week)
        file = print_training(desk, block_id, (week,), options.out, options.paper, words)
    finally:
        desk.store.close()
    print(words("training.printed", file=str(file)))
    return 0


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
