"""The demo club once its people are on file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.app.demo.file import Club, Person
from coachdesk.domain.athlete import Athlete

SATURDAY = 5


@dataclass(frozen=True, slots=True)
class Members:
    """The club's file, its people and athletes on file by key, and handler ids by name."""

    club: Club
    people: Mapping[str, Person]
    athletes: Mapping[str, Athlete]
    handler_ids: Mapping[str, int]


def saturday_from(on: date) -> date:
    """The first Saturday from the day `on`: meets are lifted on Saturdays."""
    return on + timedelta(days=(SATURDAY - on.weekday()) % 7)
