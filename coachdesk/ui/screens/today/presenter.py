"""Today without Qt: what needs the coach, meets counted down, the weight board, what is missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from coachdesk.services import typed
from coachdesk.services.attention import Concern, bring_back, put_off
from coachdesk.services.desk import Desk
from coachdesk.services.kept import Kept
from coachdesk.services.today import MeetAhead, Missing, entries_ahead, look_at, read_today
from coachdesk.services.weight_board import BoardLine
from coachdesk.services.weight_plans import agree_on_way_down
from coachdesk.ui.screens.today.concern_rows import SOON_DAYS, ConcernRow, concern_row, grouped
from coachdesk.ui.weights.board_rows import BoardRow, board_row
from coachdesk.wording.wording import Wording

MANY_ENTRIES = 150
"""From so many on, reading could be felt."""


class Beginning(StrEnum):
    """What there is to begin with where a desk has no meet to come."""

    EMPTY = "empty"
    NO_ATHLETE = "no_athlete"
    NO_MEET = "no_meet"


@dataclass(frozen=True, slots=True)
class MeetRow:
    """A meet to come; `urgent` marks a deadline that is near."""

    id: int
    name: str
    place: str
    day: str
    countdown: str
    deadline: str
    entries: int
    open_points: int
    fault: str
    urgent: bool


@dataclass(frozen=True, slots=True)
class MissingRow:
    """What is missing in an entry: how much, in one line, and point by point."""

    id: int
    athlete_id: int
    meet_id: int
    athlete: str
    meet: str
    count: int
    summary: str
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """Everything on the screen; `beginning` is what to do first where there is no meet, `put_off`
    what rests for a while, `fault` why nothing is known of kit and tasks."""

    day: str
    beginning: Beginning | None
    meets: tuple[MeetRow, ...]
    concerns: tuple[ConcernRow, ...]
    put_off: tuple[ConcernRow, ...]
    board: tuple[BoardRow, ...]
    missing: tuple[MissingRow, ...]
    fault: str = ""


class TodayPresenter:
    """Reads the desk and puts it in words."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words
        self._looks = Kept(look_at)
        self._concern_rows = Kept(self._concern_row)
        self._board_rows = Kept(self._board_row)
        self._missing_rows = Kept(self._missing)

    def is_slow(self) -> bool:
        """Whether reading takes so long that the window should not wait for it."""
        return entries_ahead(self._desk) >= MANY_ENTRIES

    def read(self) -> Shown:
        """What needs the coach now."""
        today = read_today(self._desk, self._looks)
        beginning = None
        if not today.meets:
            beginning = Beginning.NO_MEET if today.athletes else Beginning.EMPTY
        elif not today.athletes:
            beginning = Beginning.NO_ATHLETE
        concerns = self._concern_rows.of(
            (key, (group, today.day)) for key, group in grouped(today.concerns).items()
        )
        return Shown(
            day=self._words.day(today.day),
            beginning=beginning,
            meets=tuple(self._meet(ahead) for ahead in today.meets),
            concerns=tuple(row for row in concerns if not row.put_off),
            put_off=tuple(row for row in concerns if row.put_off),
            board=tuple(
                self._board_rows.of((line.entry.id, (line, today.day)) for line in today.board)
            ),
            missing=tuple(self._missing_rows.of((each.entry.id, each) for each in today.missing)),
            fault="" if today.fault is None else self._words.say(today.fault),
        )

    def put_off(self, row: ConcernRow, values: Mapping[str, str]) -> object:
        """Let a matter rest; raises InvalidInput for what cannot be taken."""
        until = typed.required_day("until", values["until"])
        return put_off(self._desk, row.concerns, until, values["reason"])

    def bring_back(self, row: ConcernRow) -> object:
        """Let a matter that rests need the coach again."""
        return bring_back(self._desk, row.concerns)

    def first_put_off(self) -> dict[str, str]:
        """What the form for putting off begins with: a week."""
        until = self._desk.today() + timedelta(days=SOON_DAYS)
        return {"until": typed.shown_day(until), "reason": ""}

    def agree(self, row: BoardRow) -> object:
        """Agree on the way down of an entry, from today's weight."""
        return agree_on_way_down(self._desk, row.id)

    def _concern_row(self, of: tuple[tuple[Concern, ...], date]) -> ConcernRow:
        return concern_row(*of, self._words)

    def _board_row(self, of: tuple[BoardLine, date]) -> BoardRow:
        return board_row(*of, self._words)

    def _meet(self, ahead: MeetAhead) -> MeetRow:
        words, meet = self._words, ahead.meet
        days = ahead.deadline_days
        return MeetRow(
            id=meet.id,
            name=meet.name,
            place=meet.place,
            day=words.day(meet.starts_on),
            countdown=self._countdown(ahead.days),
            deadline=self._deadline(meet.entry_deadline, days),
            entries=ahead.entries,
            open_points=ahead.open_points,
            fault="" if ahead.fault is None else words.say(ahead.fault),
            urgent=days is not None and 0 <= days <= SOON_DAYS,
        )

    def _countdown(self, days: int) -> str:
        if days == 0:
            return self._words("today.in.today")
        if days == 1:
            return self._words("today.in.tomorrow")
        return self._words("today.in.days", count=days)

    def _deadline(self, deadline: date | None, days: int | None) -> str:
        if deadline is None or days is None:
            return self._words("today.no_deadline")
        if days < 0:
            return self._words("today.closed")
        return self._words("today.deadline", day=deadline, countdown=self._countdown_inside(days))

    def _countdown_inside(self, days: int) -> str:
        """A span of days within a sentence."""
        return self._words("today.in_days", count=days) if days > 1 else self._countdown(days)

    def _missing(self, missing: Missing) -> MissingRow:
        points = tuple(self._words.say(point) for point in missing.points)
        return MissingRow(
            id=missing.entry.id,
            athlete_id=missing.athlete.id,
            meet_id=missing.meet.id,
            athlete=missing.athlete.name,
            meet=missing.meet.name,
            count=len(points),
            summary=" ".join(points),
            points=points,
        )
