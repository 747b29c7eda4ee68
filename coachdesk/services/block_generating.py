"""Generating the blocks that lead an athlete to a meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.generator import Wanted, lay_out
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.blocks.practice import MOST_WEEKS, TAPER_WEEKS
from coachdesk.domain.division import age_on
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import Block
from coachdesk.domain.units import Mass
from coachdesk.domain.weight_limits import ADULT
from coachdesk.services.block_keeping import Holder, Say, check_maxima, insert_block
from coachdesk.services.desk import Desk, Done
from coachdesk.services.known_maxima import known_maxima
from coachdesk.storage import tables
from coachdesk.storage.block_queries import blocks_by_start
from coachdesk.storage.store import Reader
from coachdesk.storage.training_queries import past_entries


@dataclass(frozen=True, slots=True)
class Proposal:
    """Blocks to a meet that are not on file yet.

    `maxima` are the training maxima the per cents are of; a lift of the event without one is
    planned in per cents all the same. `overlapping` are blocks on file on the same days. `cautions`
    say what to know before it is kept.
    """

    athlete_id: int
    meet: Meet
    meet_on: date
    days_a_week: int
    maxima: Mapping[Lift, Mass]
    blocks: tuple[PlannedBlock, ...]
    overlapping: tuple[Block, ...]
    cautions: tuple[Text, ...]


def propose(
    desk: Desk,
    athlete_id: int,
    meet_id: int,
    days_a_week: int,
    maxima: Mapping[Lift, Mass] | None = None,
    *,
    starts_from: date | None = None,
) -> Proposal:
    """Lay out the blocks from today, or from the day `starts_from`, to a meet; nothing is kept.

    `maxima` None takes what is known of the athlete's lifts. Raises InvalidInput (fields
    "days_a_week", "meet", "maximum_" and the lift), and Trouble for records that are gone.
    """
    today = desk.today()
    with desk.reading() as reader:
        athlete, meet = reader.get(Athlete, athlete_id), reader.get(Meet, meet_id)
        entry = _entry(reader, athlete_id, meet_id)
        meet_on = _meet_day(reader, meet, entry)
        if maxima is None:
            maxima = known_maxima(desk, reader, athlete_id, today)
        first_meet = _is_first(reader, athlete, today)
        blocks_on_file = blocks_by_start(reader, athlete_id)
    check_maxima(maxima)
    lifts = tuple(Lift) if entry is None else entry.event.lifts
    young = _young(athlete, today)
    wanted = Wanted(
        today=starts_from or today,
        meet_on=meet_on,
        days_a_week=days_a_week,
        lifts=lifts,
        maxima=maxima,
        careful=first_meet or young is not None,
    )
    blocks = lay_out(wanted)
    overlapping = tuple(each for each in blocks_on_file if _overlap(each, blocks))
    careful = [*([text("generated.first_meet")] if first_meet else ()), *([young] if young else ())]
    return Proposal(
        athlete_id, meet, meet_on, days_a_week, maxima, blocks, overlapping,
        (*_cautions(wanted, blocks, overlapping), *careful, text("generated.usual")),
    )  # fmt: skip


def keep(desk: Desk, proposal: Proposal, say: Say) -> Done[tuple[int, ...]]:
    """Put the blocks of a proposal on file as they stand there; answers their ids. Blocks on file
    stay, overlapping or not. `say` puts their names into words."""
    holder = Holder(proposal.athlete_id, proposal.meet.id)
    with desk.action(text("did.generate_blocks", meet=proposal.meet.name)) as work:
        work.get(Athlete, proposal.athlete_id)
        work.get(Meet, proposal.meet.id)
        maxima = proposal.maxima
        ids = tuple(insert_block(work, holder, each, maxima, say) for each in proposal.blocks)
        return Done(ids, work.changes())


def sessions_of(block: PlannedBlock, week: int) -> Mapping[int, tuple[PlannedExercise, ...]]:
    """What a week of a proposed block holds, by day: the rows of a preview."""
    days: dict[int, list[PlannedExercise]] = {}
    for each in block.exercises:
        if each.sets.get(week):
            days.setdefault(each.day, []).append(each)
    return {day: tuple(several) for day, several in sorted(days.items())}


def _entry(reader: Reader, athlete_id: int, meet_id: int) -> Entry | None:
    column = tables.entry.c
    found = reader.list(Entry, column.athlete_id == athlete_id, column.meet_id == meet_id)
    return next((each for each in found if not each.withdrawn), None)


def _meet_day(reader: Reader, meet: Meet, entry: Entry | None) -> date:
    """The day of the athlete's session, where it is known; else the meet's first day."""
    if entry is None or entry.session_id is None:
        return meet.starts_on
    return reader.get(Session, entry.session_id).starts_at.date()


def _is_first(reader: Reader, athlete: Athlete, today: date) -> bool:
    past = past_entries(reader, [athlete.id], today).get(athlete.id, ())
    lifted = any(tried.result is not None for each in past for tried in each.attempts)
    return athlete.meets_before == 0 and not lifted


def _young(athlete: Athlete, today: date) -> Text | None:
    if athlete.birth_date is None:
        return text("generated.age_unknown")
    return text("generated.minor") if age_on(athlete.birth_date, today) < ADULT.value else None


def _overlap(block: Block, planned: tuple[PlannedBlock, ...]) -> bool:
    days = (block.starts_on - planned[0].starts_on).days
    return days + 7 * block.weeks > 0 and block.starts_on <= planned[-1].ends_on


def _cautions(
    wanted: Wanted, blocks: tuple[PlannedBlock, ...], overlapping: tuple[Block, ...]
) -> Iterator[Text]:
    for each in overlapping:
        yield text("generated.overlap", block=each.name, day=each.starts_on)
    weeks = sum(each.weeks for each in blocks)
    if weeks == MOST_WEEKS and (blocks[0].starts_on - wanted.today).days >= 7:
        yield text("generated.far", day=blocks[0].starts_on, weeks=MOST_WEEKS)
    elif blocks[0].starts_on > wanted.today:
        yield text("generated.days_left", day=blocks[0].starts_on)
    if weeks <= TAPER_WEEKS:
        yield text("generated.short", count=weeks)
    for lift in wanted.lifts:
        if lift not in wanted.maxima:
            yield text("generated.no_maximum", lift=text(f"lift.{lift}"))
    most = max(len(sessions_of(each, week)) for each in blocks for week in range(1, each.weeks + 1))
    if most < wanted.days_a_week:
        yield text("generated.fewer_days", days=most)
