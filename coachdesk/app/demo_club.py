"""Seeds an empty data file with the demo club, through the same use cases as a coach."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from coachdesk.app.demo_file import Person, read_club
from coachdesk.app.demo_history import Trainee, dated_blocks, draw_gaps, logged_sets, readings
from coachdesk.app.demo_meets import Members, seed_meets_ahead, seed_past_meets
from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.training import LoggedSetData
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete, add_handler, add_readings
from coachdesk.services.training import add_block, log_sets


def seed(desk: Desk, data: bytes, file: str) -> None:
    """Fill the empty file of `desk` with the club in a TOML file's `data`, dated from today.

    Raises Trouble when the TOML `file` cannot be read as a club.
    """
    club = read_club(data, file)
    today = desk.today()
    athletes = {person.key: add_athlete(desk, _profile(person, today)) for person in club.people}
    handlers = {handler.name: add_handler(desk, handler) for handler in club.handlers}
    members = Members(
        club=club,
        athlete_ids={key: done.value for key, done in athletes.items()},
        handler_ids={name: done.value for name, done in handlers.items()},
    )
    _seed_records(desk, members, today)
    seed_past_meets(desk, members, np.random.default_rng([club.seed, 0]))
    seed_meets_ahead(desk, members)


def _profile(person: Person, today: date) -> AthleteData:
    birth_date = None
    if person.age is not None:
        birthday = _years_before(today, person.age)
        birth_date = birthday - timedelta(days=person.days_since_birthday)
    days = person.member_until_days
    member_until = None if days is None else today + timedelta(days=days)
    return replace(person.profile, birth_date=birth_date, member_until=member_until)


def _years_before(on: date, years: int) -> date:
    """The same day `years` ago; 28 February where there is no 29th."""
    day = 28 if (on.month, on.day) == (2, 29) else on.day
    return date(on.year - years, on.month, day)


def _seed_records(desk: Desk, members: Members, today: date) -> None:
    """Bodyweights and training. Everybody has draws of their own, so that one can be changed."""
    club = members.club
    weighed: list[ReadingData] = []
    lifted: list[LoggedSetData] = []
    for number, person in enumerate(club.people, start=1):
        if person.record is None:
            continue
        rng = np.random.default_rng([club.seed, number])
        athlete_id = members.athlete_ids[person.key]
        athlete = Trainee(athlete_id, person.profile.unit, person.record, draw_gaps(rng))
        weighed.extend(readings(rng, athlete, today))
        for block in dated_blocks(club, person.record, today):
            block_id = add_block(desk, block.data(athlete_id)).value
            lifted.extend(logged_sets(rng, club, athlete, block, block_id, today))
    add_readings(desk, weighed)
    log_sets(desk, lifted)
