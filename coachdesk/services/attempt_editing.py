"""Use cases that choose attempts and record what became of them.

Where an entry has a plan, it is made anew around what was chosen, in the same action: the sheets
and the screen show one plan.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import check_chosen
from coachdesk.domain.checks import check_lifted
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift, Result, Seen
from coachdesk.domain.meet import Attempt, AttemptData, Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meets import steps_of
from coachdesk.services.planning import replan
from coachdesk.storage.entry_rows import attempts_of
from coachdesk.storage.store import Reader, Work

LAST_PLANNED = 3


def check_choice(
    rulebook: Rulebook,
    entry: Entry,
    attempts: Iterable[AttemptData],
    lift: Lift,
    number: int,
    weight: Mass,
) -> None:
    """An attempt that can be chosen beside the others of the entry; raises InvalidInput."""
    check_lifted("weight", weight)
    if lift not in entry.event.lifts:
        raise InvalidInput("lift", text("entry.lift", lift=text(f"lift.{lift}")))
    if not 1 <= number <= LAST_PLANNED:
        raise InvalidInput("number", text("check.attempt_number"))
    others = {at: each.weight for at, each in standing(attempts, lift).items()}
    check_chosen(others, number, weight, steps_of(rulebook))


def choose_attempt(
    desk: Desk, entry_id: int, lift: Lift, number: int, weight: Mass, *, seen: Attempt | None
) -> Done[tuple[Text, ...]]:
    """Choose or change the weight of an attempt; `seen` is what stood there, None for nothing.

    Answers what could not be planned around it, in words.
    """
    with desk.reading() as reader:
        entry, name, rulebook = _entry_with_rules(desk, reader, entry_id)
        check_choice(rulebook, entry, attempts_of(reader, entry_id), lift, number, weight)
    label = text(
        "did.choose_attempt",
        name=name,
        lift=text(f"lift.{lift}"),
        which=text(f"attempt.{number}"),
        weight=weight,
    )
    with desk.action(label) as work:
        _check_seen(work, entry_id, lift, number, seen)
        if seen is None:
            work.insert(AttemptData(entry_id=entry_id, lift=lift, number=number, weight=weight))
        elif seen.weight != weight:
            work.update(seen.id, seen.version, replace(seen, weight=weight))
        faults = replan(desk, work, entry.meet_id, entry_id)
        return Done(faults, work.changes())


def clear_attempt(desk: Desk, seen: Attempt) -> Done[tuple[Text, ...]]:
    """Take back the choice of an attempt; answers what could not be planned, in words."""
    with desk.reading() as reader:
        entry, name, _rulebook = _entry_with_rules(desk, reader, seen.entry_id)
    label = text(
        "did.clear_attempt",
        name=name,
        lift=text(f"lift.{seen.lift}"),
        which=text(f"attempt.{seen.number}"),
    )
    with desk.action(label) as work:
        work.delete(Attempt, seen.id, seen.version)
        faults = replan(desk, work, entry.meet_id, entry.id)
        return Done(faults, work.changes())


def record_result(
    desk: Desk, seen: Attempt, result: Result | None, *, moved: Seen | None = None, cause: str = ""
) -> Done[None]:
    """Say what became of an attempt: how a good one moved, or the cause of a no lift.

    Raises InvalidInput for what does not go together, and before the meet's first day.
    """
    with desk.reading() as reader:
        entry, name, rulebook = _entry_with_rules(desk, reader, seen.entry_id)
        meet = reader.get(Meet, entry.meet_id)
    if result is not None and meet.starts_on > desk.today():
        raise InvalidInput("result", text("check.meet_not_begun", day=meet.starts_on))
    if moved is not None and result is not Result.GOOD:
        raise InvalidInput("seen", text("check.moved_when_good"))
    causes = {each.code for each in rulebook.lift_rules(seen.lift).causes}
    if cause and (result is not Result.NO_LIFT or cause not in causes):
        raise InvalidInput("cause", text("check.cause_of_no_lift"))
    lights = seen.lights if result is seen.result else ""
    label = text(
        "did.record_result",
        name=name,
        lift=text(f"lift.{seen.lift}"),
        which=text(f"attempt.{seen.number}"),
        result=text("result.none" if result is None else f"result.{result}"),
    )
    with desk.action(label) as work:
        changed = replace(seen, result=result, seen=moved, cause=cause, lights=lights)
        work.update(seen.id, seen.version, changed)
        return Done(None, work.changes())


def _entry_with_rules(desk: Desk, reader: Reader, entry_id: int) -> tuple[Entry, str, Rulebook]:
    entry = reader.get(Entry, entry_id)
    name = reader.get(Athlete, entry.athlete_id).name
    return entry, name, desk.rulebooks.get(reader.get(Meet, entry.meet_id).rulebook)


def _check_seen(work: Work, entry_id: int, lift: Lift, number: int, seen: Attempt | None) -> None:
    """Trouble when another attempt stands there than the coach saw."""
    present = standing(attempts_of(work, entry_id), lift).get(number)
    if present != seen:
        gone = "record.gone" if present is None else "record.moved_on"
        raise Trouble(text(gone, kind=text("kind.attempt")))
