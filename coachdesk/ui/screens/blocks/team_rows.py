"""The team in frozen rows: who is behind on sessions, who is forecast for what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.roster import RosterLine
from coachdesk.domain.scoring import printed
from coachdesk.services.team_sessions import Sessions
from coachdesk.services.team_strength import TeamStrength
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

_NEAR = timedelta(weeks=26)


@dataclass(frozen=True, slots=True)
class TeamRow:
    """An athlete in words, and what the columns sort by."""

    key: tuple[int, int]
    name: str
    by_name: tuple[str, str]
    sessions: str
    behind: int | None
    latest: str
    latest_on: date | None
    meet: str
    meet_on: date | None
    total: str
    total_g: int | None
    points: str
    by_points: float | None
    faults: str

    @property
    def athlete_id(self) -> int:
        """The athlete's id."""
        return self.key[0]


@dataclass(frozen=True, slots=True)
class TeamShown:
    """The rows, and what past forecasts say of how far to trust the ones ahead."""

    rows: tuple[TeamRow, ...]
    past: str


@dataclass(frozen=True, slots=True)
class _Days:
    """Days in words: without a year where the day says enough."""

    words: Wording
    today: date

    def said(self, day: date) -> str:
        near = abs(day - self.today) < _NEAR
        return self.words.short_day(day) if near else short_day(self.words, day)


def team_rows(
    lines: Sequence[tuple[RosterLine, tuple[str, str]]],
    sessions: Mapping[int, Sessions],
    strengths: Sequence[TeamStrength],
    words: Wording,
    today: date,
) -> tuple[TeamRow, ...]:
    """A row for each athlete, and for each entry to the next meet; who is behind most comes first.

    `lines` are the athletes with what they are sorted by. Days near `today` stand without a year.
    """
    ahead: dict[int, list[TeamStrength]] = {}
    for each in strengths:
        ahead.setdefault(each.athlete.id, []).append(each)
    rows = [
        _row(line, by_name, sessions.get(line.id), strength, _Days(words, today))
        for line, by_name in lines
        for strength in _or_none(ahead.get(line.id, []))
    ]
    return tuple(sorted(rows, key=lambda row: (-(row.behind or 0), row.by_name)))


def _or_none(entries: Sequence[TeamStrength]) -> Sequence[TeamStrength | None]:
    return entries or [None]


def _row(
    line: RosterLine,
    by_name: tuple[str, str],
    sessions: Sessions | None,
    strength: TeamStrength | None,
    days: _Days,
) -> TeamRow:
    words = days.words
    meet = None if strength is None else strength.meet
    latest = None if sessions is None else sessions.latest
    points = None if strength is None else strength.points
    return TeamRow(
        key=(line.id, 0 if strength is None else strength.entry.id),
        name=f"{line.given_name} {line.family_name}".strip(),
        by_name=by_name,
        sessions=_sessions(sessions, words),
        behind=None if sessions is None or not sessions.planned else sessions.behind,
        latest="" if latest is None else days.said(latest),
        latest_on=latest,
        meet=""
        if meet is None
        else words("blocks.team.meet", meet=meet.name, day=days.said(meet.starts_on)),
        meet_on=None if meet is None else meet.starts_on,
        total=_total(strength, words),
        total_g=None if strength is None or strength.total is None else strength.total.grams,
        points=""
        if strength is None or points is None
        else words(
            "blocks.team.points",
            points=words.number(printed(points)),
            formula=words(f"formula.{strength.formula}"),
        ),
        by_points=points,
        faults=""
        if strength is None
        else " ".join(words.say(fault) for fault in strength.faults.values()),
    )


def _sessions(sessions: Sessions | None, words: Wording) -> str:
    if sessions is None or not sessions.planned:
        return words("blocks.team.no_plan")
    if not sessions.behind:
        return words("blocks.team.all_done", count=sessions.planned)
    parts = {"behind": sessions.behind, "of": sessions.planned}
    if sessions.missed:
        return words("blocks.team.behind_missed", missed=sessions.missed, **parts)
    return words("blocks.team.behind", **parts)


def _total(strength: TeamStrength | None, words: Wording) -> str:
    if strength is None:
        return ""
    if strength.total is None or strength.low is None or strength.high is None:
        return words("blocks.team.no_total")
    return words(
        "blocks.team.total",
        total=words.mass(strength.total),
        low=words.bare_mass(strength.low),
        high=words.bare_mass(strength.high),
    )
