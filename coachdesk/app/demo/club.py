"""Seeds an empty data file with the demo club, through the same use cases as a coach."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from random import Random

from coachdesk.app.demo.file import Club, Person, read_club
from coachdesk.app.demo.history import (
    DatedBlock,
    Trainee,
    dated_blocks,
    draw_gaps,
    logged_sets,
    readings,
)
from coachdesk.app.demo.meets import seed_meets_ahead
from coachdesk.app.demo.members import Members
from coachdesk.app.demo.past_meets import seed_past_meets
from coachdesk.app.demo.plans import follow_plans, laid_out, lead_to_next_meet
from coachdesk.app.words import ENGLISH, wording
from coachdesk.domain.athlete import Athlete, AthleteData, ReadingData
from coachdesk.domain.training import LoggedSetData
from coachdesk.services.block_keeping import Say, keep_blocks
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athletes, add_handler, add_readings
from coachdesk.services.states import keep_bodyweights, keep_strengths
from coachdesk.services.training import add_blocks, log_sets


def seed(desk: Desk, data: bytes, file: str, language: str = ENGLISH) -> None:
    """Fill the empty file of `desk` with the club in a TOML file's `data`, dated from today.

    What the program names itself is named in `language`; the club speaks English. Raises Trouble
    when the TOML `file` cannot be read as a club.
    """
    club = read_club(data, file)
    today = desk.today()
    members = Members(
        club=club,
        people={person.key: person for person in club.people},
        athletes=_add_athletes(desk, club, today),
        handler_ids={handler.name: add_handler(desk, handler).value for handler in club.handlers},
    )
    say = wording(language).say
    _seed_records(desk, members, today, say)
    seed_past_meets(desk, members, Random(f"{club.seed} meets"))
    seed_meets_ahead(desk, members)
    lead_to_next_meet(desk, say)


def _add_athletes(desk: Desk, club: Club, today: date) -> dict[str, Athlete]:
    ids = add_athletes(desk, [_profile(person, today) for person in club.people]).value
    with desk.reading() as reader:
        on_file = {athlete.id: athlete for athlete in reader.list(Athlete)}
    return {
        person.key: on_file[athlete_id] for person, athlete_id in zip(club.people, ids, strict=True)
    }


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


def _seed_records(desk: Desk, members: Members, today: date, say: Say) -> None:
    """Bodyweights and training. Everybody has draws of their own, so that one can be changed."""
    club = members.club
    weighed: list[ReadingData] = []
    lifted: list[LoggedSetData] = []
    trained: list[tuple[Trainee, DatedBlock, Random]] = []
    for number, person in enumerate(club.people, start=1):
        if person.record is None:
            continue
        rng = Random(f"{club.seed} {number}")
        athlete_id = members.athletes[person.key].id
        athlete = Trainee(athlete_id, person.profile.unit, person.record, draw_gaps(rng))
        weighed.extend(readings(rng, athlete, today))
        trained.extend((athlete, block, rng) for block in dated_blocks(club, person.record, today))
    both = [(athlete, block) for athlete, block, _ in trained]
    block_ids = _add_blocks(desk, club, both, say)
    for block_id, (athlete, block, rng) in zip(block_ids, trained, strict=True):
        lifted.extend(logged_sets(rng, club, athlete, block, block_id, today))
    add_readings(desk, weighed)
    keep_bodyweights(desk)
    log_sets(desk, list(follow_plans(desk, lifted, Random(f"{club.seed} missed"))))
    keep_strengths(desk)


def _add_blocks(
    desk: Desk, club: Club, trained: Sequence[tuple[Trainee, DatedBlock]], say: Say
) -> tuple[int, ...]:
    """The blocks, those of now and ahead with all that is planned in them; their ids in order."""
    is_over = [block.ends_on <= desk.today() for _, block in trained]
    both = list(zip(trained, is_over, strict=True))
    past = add_blocks(desk, [block.data(athlete.id) for (athlete, block), over in both if over])
    ahead = [laid_out(club, athlete, block) for (athlete, block), over in both if not over]
    kept = keep_blocks(desk, ahead, say)
    old, new = iter(past.value), iter(kept.value)
    return tuple(next(old if over else new) for over in is_over)
