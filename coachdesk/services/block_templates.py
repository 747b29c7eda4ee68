"""Starting a training block from a template."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import partial
from pathlib import Path

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.template import BlockTemplate, parse_template
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass
from coachdesk.services.block_keeping import Holder, Say, check_maxima, insert_block
from coachdesk.services.desk import Desk, Done
from coachdesk.services.known_maxima import known_maxima
from coachdesk.services.rulebooks import BlockTemplates, read_shelf


def read_block_templates(
    shipped: Path, own: Path | None = None, language: str = ""
) -> BlockTemplates:
    """Read the templates in the folder `shipped` and, where it exists, the coach's folder `own`,
    their texts in `language` where they hold them."""
    return read_shelf(partial(parse_template, language=language), shipped, own)


def templates(desk: Desk) -> tuple[BlockTemplate, ...]:
    """The templates there are, by name; what is wrong with others stands in
    `desk.block_templates.faults`."""
    return tuple(sorted(desk.block_templates.books.values(), key=lambda each: each.name))


def start_from_template(
    desk: Desk,
    athlete_id: int,
    template: BlockTemplate,
    starts_on: date,
    maxima: Mapping[Lift, Mass] | None,
    say: Say,
) -> Done[int]:
    """Put a template's block on file for an athlete from a day; answers its id.

    `maxima` None takes what is known of the athlete's lifts on that day. Raises InvalidInput (field
    "maximum_" and the lift).
    """
    with desk.action(text("did.start_template", name=template.name)) as work:
        work.get(Athlete, athlete_id)
        if maxima is None:
            maxima = known_maxima(desk, work, athlete_id, starts_on)
        check_maxima(maxima)
        planned = template.from_day(starts_on)
        block_id = insert_block(work, Holder(athlete_id), planned, maxima, say)
        return Done(block_id, work.changes())
