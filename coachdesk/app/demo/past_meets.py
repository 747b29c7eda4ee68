"""The meets the demo club has behind it: what was forecast, and everybody's attempts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

from coachdesk.app.demo.attempts import NOT_ON_FILE, draw_attempts
from coachdesk.app.demo.file import PastMeet
from coachdesk.app.demo.history import bodyweight_kg
from coachdesk.app.demo.members import Members, saturday_from
from coachdesk.domain.athlete import Athlete
from coachdesk.domain.division import divisions_open_to
from coachdesk.domain.history import total_grams
from coachdesk.domain.lifting import Event
from coachdesk.domain.meet import AttemptData, EntryData, MeetData
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.weight_class import class_for
from coachdesk.services.desk import Desk
from coachdesk.services.kept_forecasts import keep_coming_forecasts
from coachdesk.services.meets import add_meet, enter_athletes, record_attempts, steps_of

LOWEST_PLACE = 6
FORECAST_BEFORE = timedelta(days=5)
"""How long before a meet its forecast was kept."""


def seed_past_meets(desk: Desk, members: Members, rng: Random) -> None:
    """The meets behind the club: entries with bodyweight and place, what was forecast of them with
    what was known by then, and attempts."""
    for pattern in members.club.past_meets:
        rulebook = desk.rulebooks.get(pattern.rulebook)
        on = saturday_from(desk.today() - timedelta(days=pattern.days_ago))
        data = MeetData(
            name=pattern.name.format(year=on.year),
            starts_on=on,
            rulebook=pattern.rulebook,
            time_zone=members.club.time_zone,
            place=pattern.place,
        )
        meet_id = add_meet(desk, data).value
        days = [_day(rng, members, key, pattern, rulebook, on) for key in pattern.lifted]
        entries = [replace(entry, meet_id=meet_id) for entry, _ in days]
        entry_ids = enter_athletes(desk, entries).value
        _keep_forecast(desk, on)
        lifted = [
            replace(attempt, entry_id=entry_id)
            for entry_id, (_, attempts) in zip(entry_ids, days, strict=True)
            for attempt in attempts
        ]
        record_attempts(desk, lifted)


def _keep_forecast(desk: Desk, meet_on: date) -> None:
    """Keep what the desk would have forecast a few days before a meet."""
    moment = desk.now() - (desk.today() - meet_on) - FORECAST_BEFORE
    keep_coming_forecasts(replace(desk, now=lambda: moment))


def _day(
    rng: Random, members: Members, key: str, meet: PastMeet, rulebook: Rulebook, on: date
) -> tuple[EntryData, tuple[AttemptData, ...]]:
    """What somebody's day brought, for an entry and a meet that are yet to be put on file."""
    person, athlete = members.people[key], members.athletes[key]
    if person.record is None:
        raise ValueError(key)
    attempts = draw_attempts(
        rng,
        person.event,
        person.record.strength,
        meet.days_ago,
        members.club.causes,
        steps_of(rulebook),
    )
    weighed_kg = bodyweight_kg(person.record.weight, meet.days_ago)
    entry = _entry(athlete, person.event, rulebook, on, from_grams(round(weighed_kg * 100) * 10))
    place = rng.randint(1, LOWEST_PLACE)
    bombed = total_grams(attempts, person.event) is None
    return replace(entry, place=None if bombed else place), attempts


def _entry(
    athlete: Athlete, event: Event, rulebook: Rulebook, on: date, bodyweight: Mass
) -> EntryData:
    """In the division closest in age and the class weighed."""
    division = divisions_open_to(athlete.birth_date, on, rulebook)[-1].key
    return EntryData(
        athlete_id=athlete.id,
        meet_id=NOT_ON_FILE,
        event=event,
        equipment=athlete.equipment,
        divisions=(division,),
        weight_class=class_for(bodyweight, rulebook.classes(athlete.sex, on, [division])).name,
        bodyweight=bodyweight,
    )
