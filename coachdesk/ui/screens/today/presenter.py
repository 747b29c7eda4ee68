"""Today without Qt: meets counted down, who is above a class, what is missing, in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from coachdesk.domain.class_fit import ClassFit, Pace, Verdict
from coachdesk.domain.units import Percent, from_grams
from coachdesk.services.desk import Desk
from coachdesk.services.today import (
    AboveClass,
    MeetAhead,
    Missing,
    entries_ahead,
    read_today,
)
from coachdesk.wording.wording import Wording

SOON_DAYS = 7
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
class AboveRow:
    """An athlete above the class entered. `start` is the latest day to begin at the slowest pace
    that is still to be had, `role` the colour of the verdict, `detail` all of it in sentences,
    `cautions` what always stands."""

    id: int
    athlete_id: int
    meet_id: int
    athlete: str
    meet: str
    weight_class: str
    gap: str
    rate: str
    verdict: str
    role: str
    weeks: str
    start: str
    detail: str
    cautions: str


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
    """Everything on the screen; `beginning` is what to do first where there is no meet."""

    day: str
    beginning: Beginning | None
    meets: tuple[MeetRow, ...]
    above: tuple[AboveRow, ...]
    missing: tuple[MissingRow, ...]


class TodayPresenter:
    """Reads the desk and puts it in words."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words

    def is_slow(self) -> bool:
        """Whether reading takes so long that the window should not wait for it."""
        return entries_ahead(self._desk) >= MANY_ENTRIES

    def read(self) -> Shown:
        """What needs the coach now."""
        today = read_today(self._desk)
        beginning = None
        if not today.meets:
            beginning = Beginning.NO_MEET if today.athletes else Beginning.EMPTY
        elif not today.athletes:
            beginning = Beginning.NO_ATHLETE
        return Shown(
            day=self._words.day(today.day),
            beginning=beginning,
            meets=tuple(self._meet(ahead) for ahead in today.meets),
            above=tuple(self._above(above, today.day) for above in today.above),
            missing=tuple(self._missing(missing) for missing in today.missing),
        )

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

    def _above(self, above: AboveClass, today: date) -> AboveRow:
        words, fit = self._words, above.fit
        gap_kg = fit.gap_kg or 0.0
        starts = [(day, pace) for pace, day in fit.latest_starts if day >= today]
        return AboveRow(
            id=above.entry.id,
            athlete_id=above.athlete.id,
            meet_id=above.meet.id,
            athlete=above.athlete.name,
            meet=above.meet.name,
            weight_class=fit.weight_class.name,
            gap=words.bare_mass(from_grams(round(gap_kg * 1000))),
            rate="" if fit.rate is None else words.show(fit.rate),
            verdict=self._verdict(fit.verdict),
            role=_ROLES[fit.verdict],
            weeks=words.number(max(fit.weeks, 0.0), 1),
            start=self._start(*starts[0]) if starts else "",
            detail=self._detail(above, today),
            cautions=" ".join(words.say(caution) for caution in above.cautions),
        )

    def _verdict(self, verdict: Verdict) -> str:
        """In the table a no is short: the sentences below it say why."""
        if verdict is Verdict.NO_PLAN:
            return self._words("today.no_plan")
        return self._words(f"verdict.{verdict}")

    def _start(self, day: date, pace: Pace) -> str:
        month = self._words(f"date.month.{day.month}")
        pace_words = self._words(f"pace.{pace}")
        return self._words("today.start_at", day=day.day, month=month, pace=pace_words)

    def _detail(self, above: AboveClass, today: date) -> str:
        words, fit, present = self._words, above.fit, above.present
        gap_kg = fit.gap_kg or 0.0
        sentences = [
            words(
                "today.above.standing",
                name=above.athlete.name,
                mass=present.mass,
                readings=words("sheet.weight.readings", count=present.readings),
                day=present.latest_on,
                gap=from_grams(round(gap_kg * 1000)),
                percent=Percent(gap_kg / present.kg * 100),
                weight_class=fit.weight_class.name,
            ),
            self._what_it_takes(fit),
            *(self._latest_start(pace, day, today) for pace, day in fit.latest_starts),
            *(words.say(reason) for reason in (*fit.reasons, *fit.notes)),
        ]
        return " ".join(sentence for sentence in sentences if sentence)

    def _latest_start(self, pace: Pace, day: date, today: date) -> str:
        code = "sheet.weight.latest_start" if day >= today else "today.start_passed"
        return self._words(code, pace=self._words(f"pace.{pace}"), day=day)

    def _what_it_takes(self, fit: ClassFit) -> str:
        if fit.verdict is Verdict.NO_PLAN:
            return ""
        if fit.rate is None:
            return self._words("today.above.no_time")
        code = "today.above.takes" if fit.verdict.has_way_down else "today.above.too_fast"
        verdict = self._words(f"verdict.{fit.verdict}")
        return self._words(code, rate=fit.rate, day=fit.arrive_on, verdict=verdict)

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


_ROLES = {
    Verdict.NOT_IN_TIME: "bad",
    Verdict.NO_PLAN: "bad",
    Verdict.HARD: "warn",
    Verdict.STEADY: "",
    Verdict.COMFORTABLE: "good",
    Verdict.IN_CLASS: "",
}
