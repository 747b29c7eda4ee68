"""Who and what can be gone to by name: athletes and meets, in two statements."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.meet import Meet
from coachdesk.services.desk import Desk


@dataclass(frozen=True, slots=True)
class OnFile:
    """All athletes but the archived ones, and all meets, the latest first."""

    athletes: tuple[Athlete, ...]
    meets: tuple[Meet, ...]


def on_file(desk: Desk) -> OnFile:
    """Everybody and every meet on file."""
    with desk.reading() as reader:
        athletes = [each for each in reader.list(Athlete) if not each.archived]
        meets = sorted(reader.list(Meet), key=lambda meet: meet.starts_on, reverse=True)
        return OnFile(tuple(athletes), tuple(meets))
