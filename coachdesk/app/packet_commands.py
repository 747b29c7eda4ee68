"""The commands that print packets without a window."""

from __future__ import annotations

import argparse
from pathlib import Path

from coachdesk.app import paths
from coachdesk.app.demo.club import seed
from coachdesk.app.file_commands import present_file
from coachdesk.app.print_meet import print_meet
from coachdesk.app.wiring import open_desk
from coachdesk.domain.meet import Meet
from coachdesk.services.desk import Desk
from coachdesk.services.meets import find_meet, upcoming_meets
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import PrintChoice
from coachdesk.wording.wording import Wording


def demo_packets(file: Path, out: Path, paper: str, words: Wording) -> int:
    """Print the packets of the invented club's meets to come, seeded into `file`."""
    club = paths.resources() / "demo" / "club.toml"
    language = words.catalogue.language
    desk = open_desk(file, language=language)
    try:
        seed(desk, club.read_bytes(), club.name, language)
        code = 0
        for meet in upcoming_meets(desk):
            code |= _print(desk, meet, out, paper, words)
    finally:
        desk.store.close()
    return code


def packets(options: argparse.Namespace, words: Wording) -> int:
    """Print a meet's packets."""
    desk = open_desk(present_file(options), language=words.catalogue.language)
    try:
        return _print(desk, find_meet(desk, options.meet), options.out, options.paper, words)
    finally:
        desk.store.close()


def _print(desk: Desk, meet: Meet, out: Path, paper: str, words: Wording) -> int:
    """Plan what has no plan yet, print, and say what came of it; 1 when something did not."""
    faults = plan_meet(desk, meet.id, only_missing=True).value
    printed = print_meet(desk, meet.id, out, PrintChoice(paper), words)
    folder = str(printed.folder)
    print(words("printed.done", count=len(printed.files), meet=meet.name, folder=folder))
    for fault in (*faults, *printed.failures):
        print(words.say(fault))
    return 1 if printed.failures else 0
