"""Who keeps up with what is planned for training days, and who is behind."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.services.desk import Desk
from coachdesk.storage.session_queries import session_days

LOOKED_BACK = timedelta(weeks=4)


@dataclass(frozen=True, slots=True)
class Sessions:
    """An athlete's training days of the last four weeks up to yesterday.

    Of the days `planned` in a block something was logged on `done`; `missed` of the others are
    noted as missed, and of `silent` ones nothing is known. `latest` is the last day with a set.
    """

    planned: int
    done: int
    missed: int
    latest: date | None

    @property
    def silent(self) -> int:
        """Days planned without a set and without a note."""
        return self.planned - self.done - self.missed

    @property
    def behind(self) -> int:
        """Days planned on which nothing was lifted, as far as is known."""
        return self.planned - self.done


def team_sessions(desk: Desk) -> dict[int, Sessions]:
    """Each athlete's training days by the athlete's id; who has no plan and no set is left out."""
    today = desk.today()
    with desk.reading() as reader:
        found = session_days(reader, today - LOOKED_BACK, today)
    none: frozenset[date] = frozenset()
    sessions = {}
    for athlete_id in {*found.planned, *found.latest}:
        planned = found.planned.get(athlete_id, none)
        lifted = found.lifted.get(athlete_id, none)
        missed = found.missed.get(athlete_id, none)
        sessions[athlete_id] = Sessions(
            planned=len(planned),
            done=len(planned & lifted),
            missed=len((planned & missed) - lifted),
            latest=found.latest.get(athlete_id),
        )
    return sessions
