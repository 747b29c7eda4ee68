"""What a record must satisfy before it is kept: the first fault found, with its field."""

from __future__ import annotations

from datetime import date
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from coachdesk.domain.athlete import AthleteData, HandlerData, ReadingData
from coachdesk.domain.disc_set import DiscSetData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Result
from coachdesk.domain.loading import BarSet
from coachdesk.domain.meet import AttemptData, FlightData, MeetData, SessionData
from coachdesk.domain.readiness import TaskData
from coachdesk.domain.text import text
from coachdesk.domain.training import BlockData, LoggedSetData
from coachdesk.domain.units import Mass, from_grams

LONGEST_NAME = 200
LIGHTEST_PERSON = from_grams(20_000)
HEAVIEST_PERSON = from_grams(400_000)
HEAVIEST_LIFT = from_grams(700_000)
SHORTEST_CM, TALLEST_CM = 80, 260
MOST_REPS = 100
LONGEST_BLOCK_WEEKS = 52
HEAVIEST_DISC = from_grams(100_000)
LONGEST_COLOUR = 40
MOST_KINDS_OF_DISC = 16
EARLIEST = date(1900, 1, 1)


def check_athlete(data: AthleteData, today: date) -> None:
    """Names given and not too long; dates and height that can be; raises InvalidInput."""
    _required("given_name", data.given_name)
    if len(data.family_name) > LONGEST_NAME:
        raise InvalidInput("family_name", text("check.too_long", count=LONGEST_NAME))
    if data.birth_date is not None and not EARLIEST <= data.birth_date <= today:
        raise InvalidInput("birth_date", text("check.birth_date"))
    if data.height_cm is not None and not SHORTEST_CM <= data.height_cm <= TALLEST_CM:
        raise InvalidInput("height_cm", text("check.height", least=SHORTEST_CM, most=TALLEST_CM))
    if data.meets_before < 0:
        raise InvalidInput("meets_before", text("check.not_negative"))


def check_reading(data: ReadingData, today: date) -> None:
    """A weight a person can have, on a day that has come; raises InvalidInput."""
    check_bodyweight("weight", data.weight)
    if not EARLIEST <= data.on <= today:
        raise InvalidInput("on", text("check.day_not_come"))


def check_bodyweight(field: str, weight: Mass) -> None:
    """A weight a person can have; raises InvalidInput."""
    if not LIGHTEST_PERSON.grams <= weight.grams <= HEAVIEST_PERSON.grams:
        raise InvalidInput(
            field, text("check.bodyweight", least=LIGHTEST_PERSON, most=HEAVIEST_PERSON)
        )


def check_lifted(field: str, weight: Mass) -> None:
    """A weight somebody can lift; raises InvalidInput."""
    if not 0 < weight.grams <= HEAVIEST_LIFT.grams:
        raise InvalidInput(field, text("check.lifted", most=HEAVIEST_LIFT))


def check_handler(data: HandlerData) -> None:
    """A name; raises InvalidInput."""
    _required("name", data.name)


def check_block(data: BlockData) -> None:
    """A name and a length of whole weeks; raises InvalidInput."""
    _required("name", data.name)
    if not 1 <= data.weeks <= LONGEST_BLOCK_WEEKS:
        raise InvalidInput("weeks", text("check.weeks", most=LONGEST_BLOCK_WEEKS))


def check_logged_set(data: LoggedSetData, today: date) -> None:
    """Weight, repetitions and reserve that can be; a judged single is called; or InvalidInput."""
    check_lifted("weight", data.weight)
    if not 0 <= data.reps <= MOST_REPS:
        raise InvalidInput("reps", text("check.reps", most=MOST_REPS))
    if data.rir is not None and not (0 <= data.rir <= 10 and (data.rir * 2).is_integer()):
        raise InvalidInput("rir", text("check.rir"))
    if data.judged and (data.reps > 1 or data.result not in {Result.GOOD, Result.NO_LIFT}):
        raise InvalidInput("result", text("check.judged_single"))
    if data.cause and data.result is not Result.NO_LIFT:
        raise InvalidInput("cause", text("check.cause_of_no_lift"))
    if not EARLIEST <= data.on <= today:
        raise InvalidInput("on", text("check.day_not_come"))


def check_meet(data: MeetData) -> None:
    """A name, a time zone there is, deadline and inspection not after it; raises InvalidInput."""
    _required("name", data.name)
    try:
        ZoneInfo(data.time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise InvalidInput("time_zone", text("check.time_zone")) from error
    if data.entry_deadline is not None and data.entry_deadline > data.starts_on:
        raise InvalidInput("entry_deadline", text("check.deadline_after_meet"))
    if data.kit_inspection_on is not None and data.kit_inspection_on > data.starts_on:
        raise InvalidInput("kit_inspection_on", text("check.inspection_after_meet"))


def check_task(data: TaskData) -> None:
    """Words and a day for one of the coach's own; raises InvalidInput."""
    if data.code:
        return
    _required("words", data.words)
    if data.due_on is None:
        raise InvalidInput("due_on", text("typed.day_missing"))


def check_session(data: SessionData) -> None:
    """A name; a weigh-in that opens, closes, and is over before lifting; raises InvalidInput."""
    _required("name", data.name)
    times = [data.weigh_in_opens, data.weigh_in_closes, data.starts_at]
    given = [moment for moment in times if moment is not None]
    if given != sorted(given):
        raise InvalidInput("weigh_in_opens", text("check.weigh_in_order"))


def check_flight(data: FlightData) -> None:
    """A name, a position from 1, and at least one lifter where the number is known."""
    _required("name", data.name)
    if data.position < 1:
        raise InvalidInput("position", text("check.from_one"))
    if data.lifters is not None and data.lifters < 1:
        raise InvalidInput("lifters", text("check.from_one"))


def check_attempt(data: AttemptData) -> None:
    """A weight that can be, a number from 1 to 4, three lights or none; raises InvalidInput."""
    check_lifted("weight", data.weight)
    if not 1 <= data.number <= 4:
        raise InvalidInput("number", text("check.attempt_number"))
    if data.lights and (len(data.lights) != 3 or set(data.lights) - {"w", "r"}):
        raise InvalidInput("lights", text("check.lights"))


def check_disc_set(data: DiscSetData) -> None:
    """A name; a bar that weighs something; discs, each weight once; raises InvalidInput.

    A fault of a disc is at the field `weight_1`, `weight_2` and so on, in the order of the discs.
    """
    _required("name", data.name)
    BarSet(data.bar, data.collar, ())
    if not data.discs:
        raise InvalidInput("weight_1", text("check.no_disc"))
    if len(data.discs) > MOST_KINDS_OF_DISC:
        raise InvalidInput("name", text("check.too_many_discs", most=MOST_KINDS_OF_DISC))
    for number, disc in enumerate(data.discs, start=1):
        if disc.weight.grams > HEAVIEST_DISC.grams:
            raise InvalidInput(f"weight_{number}", text("check.disc_weight", most=HEAVIEST_DISC))
        if any(disc.weight.grams == other.weight.grams for other in data.discs[: number - 1]):
            raise InvalidInput(f"weight_{number}", text("check.disc_twice"))
        if len(disc.colour) > LONGEST_COLOUR:
            raise InvalidInput(f"colour_{number}", text("check.too_long", count=LONGEST_COLOUR))


def _required(field: str, value: str) -> None:
    if not value.strip():
        raise InvalidInput(field, text("check.required"))
    if len(value) > LONGEST_NAME:
        raise InvalidInput(field, text("check.too_long", count=LONGEST_NAME))
