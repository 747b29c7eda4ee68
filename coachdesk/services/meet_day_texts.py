"""The day by the clock: when to be where, and when to eat and drink."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise

from coachdesk.domain.meet import Entry, Session
from coachdesk.domain.rulebook import Rulebook, WeighInKind
from coachdesk.domain.text import text
from coachdesk.services.class_standing import weigh_in_times
from coachdesk.services.packet_content import DayTime

LAST_SNACK = timedelta(minutes=20)


def timetable(rulebook: Rulebook, entry: Entry, session: Session | None) -> tuple[DayTime, ...]:
    """The day's times, in order; those not known yet have none."""
    opens, closes = weigh_in_times(rulebook, session)
    start = None if session is None else session.starts_at
    lifts = [lift for lift in rulebook.lift_order if lift in entry.event.lifts]
    minutes = rulebook.opener_change.first_group_minutes
    lines = [
        DayTime(opens, text("day.weigh_in_opens")),
        DayTime(closes, text("day.weigh_in_closes")),
        DayTime(
            None if start is None else start - timedelta(minutes=minutes),
            text("day.opener_change", minutes=minutes, lift=text(f"lift.{lifts[0]}")),
        ),
        DayTime(start, text("day.start", lift=text(f"lift.{lifts[0]}"))),
    ]
    lines += [
        DayTime(
            None, text("day.next_lift", lift=text(f"lift.{lift}"), after=text(f"lift.{before}"))
        )
        for before, lift in pairwise(lifts)
    ]
    return tuple(lines)


def food(rulebook: Rulebook, entry: Entry, session: Session | None) -> tuple[DayTime, ...]:
    """Food and drink by the clock. Before the weigh-in nothing is restricted by us."""
    opens, _closes = weigh_in_times(rulebook, session)
    start = None if session is None else session.starts_at
    day_before = rulebook.weigh_in.kind is WeighInKind.DAY_BEFORE
    lines = [DayTime(opens, text("food.after_weigh_in"))]
    if day_before:
        lines.append(DayTime(None, text("food.evening")))
        lines.append(DayTime(None, text("food.breakfast")))
    lines.append(DayTime(None if start is None else start - LAST_SNACK, text("food.last_snack")))
    if len(entry.event.lifts) > 1:
        lines.append(DayTime(None, text("food.between")))
    return tuple(lines)
