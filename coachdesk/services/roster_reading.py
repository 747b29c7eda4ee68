"""What the Roster shows: the list, and one athlete's records as far as they are looked at."""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal

from coachdesk.domain.athlete import Athlete, Handler, Reading
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.history import total_grams
from coachdesk.domain.roster import Belongings, BestTotal, RosterLine
from coachdesk.domain.scoring import Formula, printed, score
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.units import Unit
from coachdesk.services.athlete_names import NameBook
from coachdesk.services.desk import Desk
from coachdesk.services.results import PastResult
from coachdesk.storage import roster_queries
from coachdesk.wording.folding import folded


def roster(desk: Desk) -> tuple[RosterLine, ...]:
    """All athletes by family name, the archived ones too."""
    with desk.reading() as reader:
        return roster_queries.roster(reader, desk.today())


def by_name(line: RosterLine) -> tuple[str, str]:
    """What athletes are sorted by: family name, then given name, accents and case aside."""
    return folded(line.family_name or line.given_name), folded(line.given_name)


def best_totals(desk: Desk, athlete_ids: Collection[int]) -> dict[int, BestTotal]:
    """The best total on record of each of these athletes who has one."""
    with desk.reading() as reader:
        return roster_queries.best_totals(reader, athlete_ids)


def athlete(desk: Desk, athlete_id: int) -> Athlete:
    """An athlete; Trouble when there is none (any more)."""
    with desk.reading() as reader:
        return reader.get(Athlete, athlete_id)


def find_athlete(desk: Desk, name: str) -> Athlete:
    """The athlete of this name, not an archived one where there are both; Trouble for none."""
    with desk.reading() as reader:
        people = reader.list(Athlete)
    present = NameBook(each for each in people if not each.archived)
    book = present if present.knows(name) else NameBook(people)
    try:
        return book.find(name)
    except InvalidInput as error:
        raise Trouble(error.text) from error


def belongings(desk: Desk, athlete_id: int) -> Belongings:
    """How much goes with an athlete."""
    with desk.reading() as reader:
        return roster_queries.belongings(reader, athlete_id)


def readings(desk: Desk, athlete_id: int, limit: int | None) -> tuple[tuple[Reading, ...], int]:
    """An athlete's bodyweight readings, latest first, and how many there are in all."""
    with desk.reading() as reader:
        return roster_queries.readings_of(reader, athlete_id, limit)


def logged_sets(
    desk: Desk, athlete_id: int, limit: int | None
) -> tuple[tuple[LoggedSet, ...], int]:
    """An athlete's logged sets, latest day first, and how many there are in all."""
    with desk.reading() as reader:
        return roster_queries.sets_of(reader, athlete_id, limit)


def past_results(desk: Desk, athlete_id: int) -> tuple[PastResult, ...]:
    """An athlete's results, latest first."""
    with desk.reading() as reader:
        found = roster_queries.results_of(reader, athlete_id, desk.today())
    return tuple(PastResult(past.meet, past.entry, past.attempts) for past in found)


def is_alone(desk: Desk, result: PastResult) -> bool:
    """Whether a result is all there is at its meet, so that the meet goes with it."""
    with desk.reading() as reader:
        return roster_queries.is_alone(reader, result.entry)


def meet_unit(desk: Desk, rulebook: str) -> Unit:
    """The unit of a rulebook; kilograms where its file is gone or faulty."""
    book = desk.rulebooks.books.get(rulebook)
    return Unit.KG if book is None else book.unit


def points(result: PastResult, athlete: Athlete, formula: Formula) -> Decimal | None:
    """The points of a result as result sheets print them, without an age factor.

    None without a total or bodyweight, or when the formula has no constants for the event.
    """
    total_g = total_grams(result.attempts, result.entry.event)
    bodyweight = result.entry.bodyweight
    if total_g is None or bodyweight is None:
        return None
    found = score(
        formula,
        sex=athlete.sex,
        bodyweight_kg=bodyweight.kg,
        total_kg=total_g / 1000,
        event=result.entry.event,
        equipment=result.entry.equipment,
    )
    return None if found is None else printed(found)


def handlers(desk: Desk) -> tuple[tuple[Handler, int], ...]:
    """The handlers by name, each with the number of their duties."""
    with desk.reading() as reader:
        return roster_queries.handlers(reader)
