"""What an entry begins with: what is on file about the athlete, and the meet's rulebook."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TypeVar

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.class_fit import PresentWeight, present_weight
from coachdesk.domain.division import check_division, divisions_open_to
from coachdesk.domain.lifting import Equipment, Event
from coachdesk.domain.meet import EntryData, Meet
from coachdesk.domain.rulebook import Division, Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import class_for
from coachdesk.services.desk import Desk
from coachdesk.storage.entry_rows import EntryKey, entered_keys, latest_events
from coachdesk.storage.meet_list_queries import Candidate, candidates
from coachdesk.storage.weight_states import weight_states

T = TypeVar("T")

OLDEST = 200
"""Years no athlete reaches: the width of a division without an upper bound."""


@dataclass(frozen=True, slots=True)
class Default:
    """The entry an athlete would begin with; `fault` says why it cannot be made as it is."""

    athlete: Athlete
    data: EntryData
    fault: Text | None = None


def candidates_of(desk: Desk, meet_id: int) -> tuple[Candidate, ...]:
    """The athletes who can be entered to a meet, by name."""
    with desk.reading() as reader:
        return candidates(reader, meet_id)


def default_entries(
    desk: Desk, meet_id: int, athlete_ids: Sequence[int], event: Event | None = None
) -> tuple[Default, ...]:
    """Entries of these athletes to a meet as they would begin, in the order given.

    The event is `event` or the one each athlete lifted last, the equipment their own, the
    division the narrowest their age allows, and the class the one they weigh now: coming down to
    another is the coach's explicit choice.
    """
    today = desk.today()
    with desk.reading() as reader:
        meet = reader.get(Meet, meet_id)
        athletes = {each: reader.get(Athlete, each) for each in athlete_ids}
        weights = weight_states(reader, athlete_ids)
        events = latest_events(reader, athlete_ids)
        entered = entered_keys(reader, meet_id)
    rulebook = desk.rulebooks.get(meet.rulebook)
    made = (
        default_entry(
            athletes[each],
            meet,
            rulebook,
            event=event or events.get(each),
            present=present_weight(weights.get(each), today),
        )
        for each in athlete_ids
    )
    return tuple(_new_only(each, entered) for each in made)


def default_entry(
    athlete: Athlete,
    meet: Meet,
    rulebook: Rulebook,
    *,
    event: Event | None,
    present: PresentWeight | None,
) -> Default:
    """The entry of one athlete; `event` is the one lifted last, `present` the bodyweight now."""
    divisions = default_divisions(athlete.birth_date, meet.starts_on, rulebook)
    classes = rulebook.classes(athlete.sex, meet.starts_on, divisions)
    data = EntryData(
        athlete_id=athlete.id,
        meet_id=meet.id,
        event=_first_of(rulebook.events, event, Event.THREE_LIFT),
        equipment=_first_of(rulebook.equipment, athlete.equipment, Equipment.CLASSIC),
        divisions=divisions,
        weight_class=None if present is None else class_for(present.mass, classes).name,
    )
    if divisions:
        return Default(athlete, data)
    why = check_division(rulebook.divisions[0], athlete.birth_date, meet.starts_on)
    return Default(
        athlete,
        data,
        text("entry.no_division_open", name=athlete.name, why=why or text("entry.no_division")),
    )


def _new_only(default: Default, entered: frozenset[EntryKey]) -> Default:
    """The same, with a fault where it would be an entry that is on file already."""
    data = default.data
    if default.fault is None and (data.athlete_id, data.event, data.equipment) in entered:
        return replace(default, fault=text("entry.twice", name=default.athlete.name))
    return default


def default_divisions(birth_date: date | None, on: date, rulebook: Rulebook) -> tuple[str, ...]:
    """The narrowest division an athlete may enter by age; none where none is open."""
    found = divisions_open_to(birth_date, on, rulebook)
    return (min(found, key=_width).key,) if found else ()


def _width(division: Division) -> int:
    youngest = 0 if division.from_age is None else division.from_age
    oldest = OLDEST if division.to_age is None else division.to_age
    return oldest - youngest


def _first_of(offered: Iterable[T], *wanted: T | None) -> T:
    """The first wanted that is offered, else the first that is."""
    listed = list(offered)
    return next((each for each in wanted if each in listed), listed[0])
