"""An athlete's blocks on the way to the next meet, in frozen rows and words, without Qt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.meet import Meet
from coachdesk.domain.training import Block
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

_DAYS_AROUND = 7
_LOOKED_BACK = timedelta(weeks=12)


@dataclass(frozen=True, slots=True)
class CalendarBar:
    """A block on the line of time, from its first day to its last, and the weeks still to do."""

    id: int
    first: date
    last: date
    name: str
    purpose: str
    weeks: str
    left: str


@dataclass(frozen=True, slots=True)
class Calendar:
    """What is drawn between two days. `said` says the whole in words."""

    first: date
    last: date
    today: date
    bars: tuple[CalendarBar, ...]
    meet: str
    meet_on: date | None
    said: str
    today_words: str


def calendar(blocks: Sequence[Block], meet: Meet | None, today: date, words: Wording) -> Calendar:
    """The calendar of an athlete's blocks of late and ahead, up to `meet` where there is one."""
    ordered = sorted(blocks, key=lambda each: (each.starts_on, each.id))
    every = (_bar(each, today, words) for each in ordered)
    bars = tuple(bar for bar in every if bar.last >= today - _LOOKED_BACK)
    days = [today, *(bar.first for bar in bars), *(bar.last for bar in bars)]
    if meet is not None:
        days.append(meet.starts_on)
    return Calendar(
        first=max(min(days), today - 2 * _LOOKED_BACK) - timedelta(days=_DAYS_AROUND),
        last=max(days) + timedelta(days=_DAYS_AROUND),
        today=today,
        bars=bars,
        meet="" if meet is None else meet.name,
        meet_on=None if meet is None else meet.starts_on,
        said=_said(bars, meet, today, words),
        today_words=words("blocks.calendar.today"),
    )


def _bar(block: Block, today: date, words: Wording) -> CalendarBar:
    last = block.starts_on + timedelta(days=7 * block.weeks - 1)
    left = max(0, min(block.weeks, -(-((last - today).days + 1) // 7)))
    return CalendarBar(
        id=block.id,
        first=block.starts_on,
        last=last,
        name=block.name,
        purpose=words(f"purpose.{block.purpose}"),
        weeks=words("blocks.weeks_left", count=block.weeks),
        left=words("blocks.state.over") if left == 0 else words("blocks.weeks_left", count=left),
    )


def _said(bars: Sequence[CalendarBar], meet: Meet | None, today: date, words: Wording) -> str:
    lines = []
    if meet is None:
        lines.append(words("blocks.calendar.no_meet"))
    else:
        weeks = words("blocks.weeks_left", count=(meet.starts_on - today).days // 7)
        day = short_day(words, meet.starts_on)
        lines.append(words("blocks.calendar.meet", meet=meet.name, day=day, weeks=weeks))
        gap = _bare_days(bars, today, meet.starts_on)
        if gap:
            lines.append(words("blocks.calendar.bare", count=gap))
    return " ".join(lines)


def _bare_days(bars: Sequence[CalendarBar], today: date, until: date) -> int:
    """Whole weeks between today and a day that no block covers."""
    days = range(today.toordinal(), until.toordinal())
    covered = {
        day for bar in bars for day in range(bar.first.toordinal(), bar.last.toordinal() + 1)
    }
    return sum(1 for day in days if day not in covered) // 7
