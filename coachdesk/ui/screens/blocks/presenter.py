"""The Blocks screen without Qt: athletes, their blocks, and the way to one block."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Meet
from coachdesk.domain.roster import RosterLine
from coachdesk.domain.training import Block
from coachdesk.services import block_editing, block_reading, disc_sets, meets, roster_reading
from coachdesk.services.desk import Desk, Done
from coachdesk.services.kept_forecasts import past_forecast_error
from coachdesk.services.roster_reading import by_name
from coachdesk.services.strength_history import StrengthHistory, strength_history
from coachdesk.services.team_sessions import team_sessions
from coachdesk.services.team_strength import team_strength
from coachdesk.ui.screens.blocks.block_values import Values, block_data, new_block_values
from coachdesk.ui.screens.blocks.calendar_rows import Calendar, calendar
from coachdesk.ui.screens.blocks.open_block import OpenBlock
from coachdesk.ui.screens.blocks.plan_ahead import PlanAhead
from coachdesk.ui.screens.blocks.team_rows import TeamShown, team_rows
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class AthleteRow:
    """An athlete in the list, with the next meet in words."""

    id: int
    name: str
    by_name: tuple[str, str]
    meet: str
    meet_on: date | None


@dataclass(frozen=True, slots=True)
class BlockRow:
    """A block of the athlete in words."""

    block: Block
    name: str
    when: str
    state: str

    @property
    def id(self) -> int:
        """The block's id."""
        return self.block.id


class BlocksPresenter:
    """What the screen shows and does."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words
        self._lines: tuple[RosterLine, ...] = ()

    def load(self) -> None:
        """Read the list of athletes anew."""
        found = roster_reading.roster(self._desk)
        self._lines = tuple(sorted((each for each in found if not each.archived), key=by_name))

    def athletes(self, looked_for: str) -> tuple[AthleteRow, ...]:
        """The athletes whose names hold all words looked for, accents and case aside."""
        wanted = folded(looked_for).split()
        return tuple(
            self._row(line)
            for line in self._lines
            if all(word in " ".join(reversed(by_name(line))) for word in wanted)
        )

    def athlete(self, athlete_id: int) -> Athlete:
        """An athlete; Trouble when there is none (any more)."""
        return roster_reading.athlete(self._desk, athlete_id)

    def blocks(self, athlete_id: int) -> tuple[BlockRow, ...]:
        """An athlete's blocks, the latest first."""
        found = block_reading.blocks_of(self._desk, athlete_id)
        return tuple(self._block_row(each) for each in reversed(found))

    def present(self, rows: tuple[BlockRow, ...]) -> int | None:
        """The block to begin with: today's, else the next to come, else the last there was."""
        today = self._desk.today()
        ahead = [row for row in rows if ends_on(row.block) >= today]
        if ahead:
            return min(ahead, key=lambda row: row.block.starts_on).id
        return rows[0].id if rows else None

    def open(self, block_id: int) -> OpenBlock:
        """One block; Trouble when there is none (any more)."""
        return OpenBlock(self._desk, self._words, block_reading.block_page(self._desk, block_id))

    def meets(self) -> tuple[Meet, ...]:
        """The meets a block can lead to."""
        return meets.upcoming_meets(self._desk)

    def strength(self, athlete_id: int, lift: Lift) -> StrengthHistory | None:
        """A lift's history; None without a set that tells of it."""
        return strength_history(self._desk, athlete_id, lift)

    def team(self) -> TeamShown:
        """The team, who is behind most first, and how far forecasts were off so far."""
        lines = [(line, by_name(line)) for line in self._lines]
        sessions, strengths = team_sessions(self._desk), team_strength(self._desk)
        today = self._desk.today()
        told = past_forecast_error(self._desk).told
        return TeamShown(
            team_rows(lines, sessions, strengths, self._words, today),
            " ".join(self._words.say(each) for each in told),
        )

    def discs(self) -> list[tuple[str, str]]:
        """The coach's own sets of discs to choose from."""
        offered = disc_sets.offered_sets(self._desk)
        return [(str(each.own.id), each.own.name) for each in offered if each.own is not None]

    def calendar(self, athlete_id: int) -> Calendar:
        """An athlete's blocks on the way to the next meet."""
        blocks = block_reading.blocks_of(self._desk, athlete_id)
        return calendar(blocks, self._next_meet(athlete_id), self._desk.today(), self._words)

    def new_values(self, athlete_id: int) -> Values:
        """What a new block begins with: after the blocks there are, to the next meet."""
        blocks = block_reading.blocks_of(self._desk, athlete_id)
        meet = self._next_meet(athlete_id)
        return new_block_values(blocks, meet, self._desk.today())

    def add(self, athlete_id: int, values: Mapping[str, str]) -> Done[int]:
        """Start a block; answers its id."""
        return block_editing.add_block(self._desk, block_data(athlete_id, values))

    def ahead(self, athlete_id: int) -> PlanAhead:
        """What lays out blocks of an athlete."""
        return PlanAhead(self._desk, self._words, self.athlete(athlete_id))

    def first_meet(self, athlete_id: int) -> Meet | None:
        """The meet to lay out blocks to: the athlete's next, else the next of all."""
        return self._next_meet(athlete_id) or next(iter(self.meets()), None)

    def _next_meet(self, athlete_id: int) -> Meet | None:
        """The next meet the athlete is entered to."""
        line = next((each for each in self._lines if each.id == athlete_id), None)
        wanted = None if line is None else line.next_meet
        if wanted is None:
            return None
        named = (wanted.name, wanted.on)
        return next((each for each in self.meets() if (each.name, each.starts_on) == named), None)

    def _row(self, line: RosterLine) -> AthleteRow:
        meet = line.next_meet
        left = None if meet is None else max(0, (meet.on - self._desk.today()).days // 7)
        return AthleteRow(
            id=line.id,
            name=f"{line.given_name} {line.family_name}".strip(),
            by_name=by_name(line),
            meet="" if meet is None else self._words("blocks.meet_in", count=left or 0),
            meet_on=None if meet is None else meet.on,
        )

    def _block_row(self, block: Block) -> BlockRow:
        words, today = self._words, self._desk.today()
        if today < block.starts_on:
            days = (block.starts_on - today).days
            state = words("blocks.state.ahead", count=days)
        elif today > ends_on(block):
            state = words("blocks.state.over")
        else:
            week = (today - block.starts_on).days // 7 + 1
            state = words("blocks.state.now", week=week, weeks=block.weeks)
        return BlockRow(
            block=block,
            name=block.name,
            when=short_day(words, block.starts_on),
            state=state,
        )


def ends_on(block: Block) -> date:
    """A block's last day."""
    return date.fromordinal(block.starts_on.toordinal() + 7 * block.weeks - 1)
