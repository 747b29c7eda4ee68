"""The commands about one athlete: a week of training on paper, and the whole record."""

from __future__ import annotations

import argparse
from datetime import date

from coachdesk.app.file_commands import present_file
from coachdesk.app.print_training import print_training
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.text import text
from coachdesk.domain.training import Block
from coachdesk.services.block_reading import blocks_of
from coachdesk.services.desk import Desk
from coachdesk.services.record_export import write_record
from coachdesk.services.roster_reading import find_athlete
from coachdesk.services.training_content import week_on
from coachdesk.wording.wording import Wording


def training(options: argparse.Namespace, words: Wording) -> int:
    """Print a week of an athlete's training."""
    desk = open_desk(present_file(options), language=words.catalogue.language)
    try:
        athlete = find_athlete(desk, options.athlete)
        block, week = _week(desk, athlete, options.week)
        try:
            file = print_training(desk, block.id, [week], options.out, options.paper, words)
        except InvalidInput as error:
            raise Trouble(error.text) from error
    finally:
        desk.store.close()
    print(words("training.printed", file=str(file)))
    return 0


def record(options: argparse.Namespace, words: Wording) -> int:
    """Write an athlete's whole record to a zip."""
    desk = open_desk(present_file(options), language=words.catalogue.language)
    try:
        athlete = find_athlete(desk, options.athlete)
        written = write_record(desk, athlete.id, options.out)
    finally:
        desk.store.close()
    print(words("record.done", name=written.name, file=str(written.file), count=written.files))
    return 0


def _week(desk: Desk, athlete: Athlete, asked: str | None) -> tuple[Block, int]:
    """The block and its week: of a day, or the week of that number in the block under way, else
    in the next to come; this week where nothing is asked."""
    blocks = blocks_of(desk, athlete.id)
    if asked is not None and asked.isdecimal():
        to_come = [block for block in blocks if _is_ahead(block, desk.today())]
        if not to_come:
            raise Trouble(text("training.no_block", athlete=athlete.name))
        return to_come[0], int(asked)
    day = desk.today() if asked is None else _day(asked)
    for block in blocks:
        week = week_on(block, day)
        if week is not None:
            return block, week
    raise Trouble(text("training.no_block_on", athlete=athlete.name, day=day))


def _is_ahead(block: Block, today: date) -> bool:
    return week_on(block, today) is not None or block.starts_on > today


def _day(asked: str) -> date:
    try:
        return date.fromisoformat(asked)
    except ValueError as error:
        raise Trouble(text("training.week_unread", asked=asked)) from error
