"""What needs the coach, in rows: what, who, why, by when, and the way to where it is settled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.attention import Kind, Place
from coachdesk.services.attention import Concern
from coachdesk.ui.way import Way
from coachdesk.wording.wording import Wording

SOON_DAYS = 7


TOGETHER = frozenset({Kind.ENTRY_CLOSES, Kind.INSPECTION, Kind.KIT_CHECK, Kind.TASK})
"""Matters of a whole team: those of one meet that say the same stand in one row."""


@dataclass(frozen=True, slots=True)
class ConcernRow:
    """A matter that needs the coach, of one athlete or of several at a meet. `role` is the colour
    of its day, `way` leads to where it is settled, `put_off` says until when and why it rests,
    empty where it does not."""

    concerns: tuple[Concern, ...]
    kind: str
    athlete: str
    why: str
    by: str
    since: str
    role: str
    detail: str
    put_off: str
    way: Way

    @property
    def key(self) -> tuple[object, ...]:
        """What tells it apart."""
        first = self.concerns[0]
        return (*first.key, first.matter.why)


def grouped(concerns: Sequence[Concern]) -> dict[tuple[object, ...], tuple[Concern, ...]]:
    """Concerns by what makes a row of them, in the order given: those of a team together."""
    groups: dict[tuple[object, ...], list[Concern]] = {}
    for concern in concerns:
        groups.setdefault(_group(concern), []).append(concern)
    return {key: tuple(group) for key, group in groups.items()}


def _group(concern: Concern) -> tuple[object, ...]:
    matter, rests = concern.matter, concern.put_off
    if matter.kind not in TOGETHER:
        return (*concern.key, matter.why)
    resting = None if rests is None else (rests.until, rests.reason)
    return matter.kind, concern.meet.id, matter.why, matter.by, resting


def concern_row(concerns: tuple[Concern, ...], today: date, words: Wording) -> ConcernRow:
    """A row's concerns in words."""
    first, matter = concerns[0], concerns[0].matter
    names = tuple(concern.athlete.name for concern in concerns)
    why = words.say(matter.why)
    rests = first.put_off
    put_off = (
        "" if rests is None else words("attention.put_off", day=rests.until, reason=rests.reason)
    )
    detail = words("attention.detail", names=names, meet=first.meet.name, why=why)
    return ConcernRow(
        concerns=concerns,
        kind=words(f"attention.kind.{matter.kind}"),
        athlete=names[0] if len(names) == 1 else words("attention.several", count=len(names)),
        why=put_off or why,
        by=_by(matter.by, (matter.by - today).days, words),
        since=words.short_day(matter.since),
        role="" if put_off else _role((matter.by - today).days),
        detail=" ".join(part for part in (detail, put_off, _came_back(first, words)) if part),
        put_off=put_off,
        way=_way(first),
    )


def _came_back(concern: Concern, words: Wording) -> str:
    """Why it was put off, once its day has come."""
    if concern.came_back is None:
        return ""
    rested = concern.came_back
    return words("attention.came_back", day=rested.until, reason=rested.reason)


def _by(day: date, days: int, words: Wording) -> str:
    if days < 0:
        return words("attention.over", count=-days)
    if days == 0:
        return words("today.in.today")
    return words("attention.by", day=words.short_day(day), count=days)


def _role(days: int) -> str:
    if days < 0:
        return "bad"
    return "warn" if days <= SOON_DAYS else ""


def _way(concern: Concern) -> Way:
    place = concern.matter.place
    if place in {Place.PROFILE, Place.READINGS, Place.SETS}:
        return Way("roster", concern.athlete.id, part=place)
    return Way("meets", concern.meet.id, part=place, within=concern.entry.id)
