"""What needs the coach, in rows: what, who, why, by when, and the way to where it is settled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.attention import Place
from coachdesk.services.attention import Concern
from coachdesk.ui.way import Way
from coachdesk.wording.wording import Wording

SOON_DAYS = 7


@dataclass(frozen=True, slots=True)
class ConcernRow:
    """A matter that needs the coach. `role` is the colour of its day, `way` leads to where it is
    settled, `put_off` says until when and why it rests, empty where it does not."""

    concern: Concern
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
        return (*self.concern.key, self.concern.matter.why)


def concern_row(concern: Concern, today: date, words: Wording) -> ConcernRow:
    """A concern in words."""
    matter = concern.matter
    days = (matter.by - today).days
    why = words.say(matter.why)
    put_off = ""
    if concern.put_off is not None:
        put_off = words(
            "attention.put_off", day=concern.put_off.until, reason=concern.put_off.reason
        )
    detail = words("attention.detail", name=concern.athlete.name, meet=concern.meet.name, why=why)
    return ConcernRow(
        concern=concern,
        kind=words(f"attention.kind.{matter.kind}"),
        athlete=concern.athlete.name,
        why=put_off or why,
        by=_by(matter.by, days, words),
        since=words.day(matter.since),
        role="" if put_off else _role(days),
        detail=" ".join(part for part in (detail, put_off) if part),
        put_off=put_off,
        way=_way(concern),
    )


def _by(day: date, days: int, words: Wording) -> str:
    if days < 0:
        return words("attention.over", count=-days)
    if days == 0:
        return words("today.in.today")
    return words("attention.by", day=words.day(day), count=days)


def _role(days: int) -> str:
    if days < 0:
        return "bad"
    return "warn" if days <= SOON_DAYS else ""


def _way(concern: Concern) -> Way:
    place = concern.matter.place
    if place in {Place.PROFILE, Place.READINGS, Place.SETS}:
        return Way("roster", concern.athlete.id, part=place)
    return Way("meets", concern.meet.id, part=place, within=concern.entry.id)
