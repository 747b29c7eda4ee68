"""Lays out the blocks that lead to a meet: general work, volume, intensity, peak and taper.

Weeks are counted back from the meet, so that none is cut in half: "week 0" holds the meet. They
begin on Mondays when the meet is on a Saturday or Sunday, and end on the meet's day otherwise. What
the figures are from stands in `practice`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from coachdesk.domain.blocks import practice
from coachdesk.domain.blocks.generated_taper import meet_week_sessions, taper_sets
from coachdesk.domain.blocks.generated_week import PlannedSlot, WeekOf, week_load, week_sets
from coachdesk.domain.blocks.notation import Prescription
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise
from coachdesk.domain.blocks.practice import (
    DELOAD_EVERY,
    HIGHEST_VOLUME,
    MOST_WEEKS,
    PEAK_WEEKS,
    TAPER_WEEKS,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Mass

_DAYS = 7
_SATURDAY = 5
_INTENSITY = (2, 6)
_LONGEST_VOLUME = 10
_SHORTEST_GENERAL = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What to lay out: blocks from the day `today` to the meet on `meet_on`.

    `days_a_week` 2 to 6; `lifts` of the event; `maxima` as far as they are known; `careful` for
    minors, unknown ages and first meets: lighter, and nothing that grinds.
    """

    today: date
    meet_on: date
    days_a_week: int
    lifts: tuple[Lift, ...]
    maxima: Mapping[Lift, Mass] = field(default_factory=dict)
    careful: bool = False


@dataclass(frozen=True, slots=True)
class Stretch:
    """A block to be: so many weeks of one purpose; `first` weeks before the meet week."""

    purpose: Purpose
    weeks: int
    first: int


def lay_out(wanted: Wanted) -> tuple[PlannedBlock, ...]:
    """The blocks in order, without a gap, the last one's last week holding the meet.

    Raises InvalidInput: field "days_a_week", or "meet" when no whole week is left.
    """
    if not practice.FEWEST_DAYS <= wanted.days_a_week <= practice.MOST_DAYS:
        least, most = practice.FEWEST_DAYS, practice.MOST_DAYS
        raise InvalidInput("days_a_week", text("generated.days_range", least=least, most=most))
    weeks = weeks_left(wanted.today, wanted.meet_on)
    if weeks < 1:
        raise InvalidInput("meet", text("generated.too_near"))
    monday = meet_week_start(wanted.meet_on)
    return tuple(
        _block(wanted, stretch, monday - timedelta(weeks=stretch.first))
        for stretch in stretches(weeks)
    )


def meet_week_start(meet_on: date) -> date:
    """The first day of the week that holds the meet."""
    if meet_on.weekday() >= _SATURDAY:
        return meet_on - timedelta(days=meet_on.weekday())
    return meet_on - timedelta(days=_DAYS - 1)


def weeks_left(today: date, meet_on: date) -> int:
    """Whole weeks from the day `today` to the meet, its own week included, at most `MOST_WEEKS`."""
    before = (meet_week_start(meet_on) - today).days
    return min(max(before // _DAYS + 1, 0), MOST_WEEKS)


def stretches(weeks: int) -> Iterator[Stretch]:
    """How so many weeks are shared out."""
    taper = min(TAPER_WEEKS, weeks)
    peak = min(PEAK_WEEKS, weeks - taper)
    rest = weeks - taper - peak
    least, most = _INTENSITY
    intensity = min(max(round(rest * 0.4), least), most, rest)
    volume = rest - intensity
    if volume == 1:
        intensity, volume = intensity + 1, 0
    general = max(volume - _LONGEST_VOLUME, 0)
    general = general if general >= _SHORTEST_GENERAL else 0
    left = weeks
    for purpose, length in (
        (Purpose.GENERAL, general),
        (Purpose.VOLUME, volume - general),
        (Purpose.INTENSITY, intensity),
        (Purpose.PEAK, peak),
        (Purpose.TAPER, taper),
    ):
        if length:
            yield Stretch(purpose, length, left - 1)
        left -= length


def _block(wanted: Wanted, stretch: Stretch, starts_on: date) -> PlannedBlock:
    weeks = _taper(wanted, stretch) if stretch.purpose is Purpose.TAPER else _work(wanted, stretch)
    return PlannedBlock(
        name=text(f"generated.name.{stretch.purpose}"),
        purpose=stretch.purpose,
        starts_on=starts_on,
        weeks=stretch.weeks,
        exercises=tuple(_rows(weeks)),
    )


def _work(wanted: Wanted, stretch: Stretch) -> dict[int, list[PlannedSlot]]:
    weeks: dict[int, list[PlannedSlot]] = {}
    for week in range(1, stretch.weeks + 1):
        before = stretch.first - week + 1
        done = (week - 1) / max(stretch.weeks - 1, 1)
        is_first = before == weeks_left(wanted.today, wanted.meet_on) - 1
        of = WeekOf(stretch.purpose, before, done, _is_deload(before) and not is_first)
        weeks[week] = week_sets(of, wanted.days_a_week, wanted.lifts, careful=wanted.careful)
    return weeks


def _is_deload(before: int) -> bool:
    after = before - HIGHEST_VOLUME
    return after > 0 and after % DELOAD_EVERY == 0


def _taper(wanted: Wanted, stretch: Stretch) -> dict[int, list[PlannedSlot]]:
    """The taper, fitted to the mean week of the peak block that stands before it, or would."""
    left = weeks_left(wanted.today, wanted.meet_on)
    peak = next((each for each in stretches(left) if each.purpose is Purpose.PEAK), None)
    before = _work(wanted, peak or Stretch(Purpose.PEAK, PEAK_WEEKS, PEAK_WEEKS + 1))
    usual = sum(week_load(week, wanted.maxima) for week in before.values()) / len(before)
    meet_day = (wanted.meet_on - meet_week_start(wanted.meet_on)).days + 1
    sessions = meet_week_sessions(wanted.days_a_week, wanted.lifts, meet_day)
    return taper_sets(
        wanted.days_a_week, wanted.lifts, wanted.maxima,
        weeks=stretch.weeks, usual=usual, meet_week=sessions,
        deadlift_single=peak is None, careful=wanted.careful,
    )  # fmt: skip


def _rows(weeks: Mapping[int, list[PlannedSlot]]) -> Iterator[PlannedExercise]:
    """An exercise for each lift and variation of a day, with its sets by week."""
    rows: dict[tuple[int, Lift, str], dict[int, tuple[Prescription, ...]]] = {}
    for week, slots in weeks.items():
        for each in slots:
            slot = each.slot
            row = rows.setdefault((slot.day, slot.lift, slot.variation), {})
            row[week] = row.get(week, ()) + tuple(each.lines)
    for (day, lift, variation), sets in sorted(rows.items(), key=lambda row: row[0][0]):
        yield PlannedExercise(
            day=day,
            lift=lift,
            sets=sets,
            variation=text(f"variation.{variation}") if variation else "",
            share=practice.SHARES[variation] if variation else 1.0,
        )
