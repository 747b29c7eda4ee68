"""An entry's form: what stands in its fields, what they offer, and what is read from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import Entry, Role
from coachdesk.domain.text import text
from coachdesk.services import typed
from coachdesk.services.entry_look import OpenEntry
from coachdesk.services.meets import Place
from coachdesk.ui.screens.meets.entry_rows import division_name
from coachdesk.wording.wording import Wording

Values = dict[str, str]
Choices = list[tuple[str, str]]


def entry_values(opened: OpenEntry) -> Values:
    """What is on file, as it stands in the fields."""
    entry, place = opened.entry, opened.place
    flights = {flight.id: flight for flight in opened.flights}
    values = {
        "event": str(entry.event),
        "equipment": str(entry.equipment),
        "divisions": "\n".join(entry.divisions),
        "weight_class": entry.weight_class or "",
        "comes_down": typed.shown_yes(entry.comes_down),
        "session_id": typed.shown_whole(entry.session_id),
        "lot": typed.shown_whole(entry.lot),
        "bodyweight": typed.shown_mass(entry.bodyweight),
        "place": typed.shown_whole(entry.place),
        "note": entry.note,
    }
    for lift in Lift:
        values[f"expected_{lift}"] = typed.shown_mass(entry.expected(lift))
        of_lift = (each for each in place.flight_ids if flights[each].lift is lift)
        values[f"flight_{lift}"] = typed.shown_whole(next(of_lift, None))
    for role in Role:
        values[f"role_{role}"] = "\n".join(
            str(handler_id) for handler_id, duty in place.duties if duty is role
        )
    return values


def entry_choices(
    opened: OpenEntry, values: Mapping[str, str], words: Wording
) -> dict[str, Choices]:
    """What the fields offer beside what is typed in the others."""
    rulebook = opened.rulebook
    entry = draft(opened, values)
    nothing = ("", words("meets.choice.none"))
    classes = rulebook.classes(opened.athlete.sex, opened.meet.starts_on, entry.divisions)
    choices: dict[str, Choices] = {
        "event": [(each, words(f"event.{each}")) for each in rulebook.events],
        "equipment": [(each, words(f"equipment.{each}")) for each in rulebook.equipment],
        "divisions": [(each.key, division_name(each.key, rulebook)) for each in opened.divisions()],
        "weight_class": [nothing, *((each.name, words.show(each.name)) for each in classes)],
        "session_id": [nothing, *((str(each.id), each.name) for each in opened.sessions)],
    }
    for lift in Lift:
        of_lift = (
            each
            for each in opened.flights
            if each.lift is lift and each.session_id == entry.session_id
        )
        choices[f"flight_{lift}"] = [nothing, *((str(each.id), each.name) for each in of_lift)]
    handlers = [(str(each.id), each.name) for each in opened.handlers]
    for role in Role:
        several = _several(opened, role)
        choices[f"role_{role}"] = [nothing, *several, *handlers]
    return choices


def read_entry(opened: OpenEntry, values: Mapping[str, str]) -> tuple[Entry, Place]:
    """The entry and its place as typed; raises InvalidInput at the first field that is amiss."""
    unit = opened.rulebook.unit
    entry = opened.entry
    event = typed.choice("event", values["event"], Event)
    read = replace(
        entry,
        event=event,
        equipment=typed.choice("equipment", values["equipment"], Equipment),
        divisions=tuple(each for each in values["divisions"].split("\n") if each),
        weight_class=values["weight_class"] or None,
        comes_down=typed.yes(values["comes_down"]),
        session_id=typed.whole("session_id", values["session_id"]),
        lot=_from_one("lot", values),
        bodyweight=typed.mass("bodyweight", values["bodyweight"], unit),
        expected_squat=typed.mass("expected_squat", values["expected_squat"], unit),
        expected_bench=typed.mass("expected_bench", values["expected_bench"], unit),
        expected_deadlift=typed.mass("expected_deadlift", values["expected_deadlift"], unit),
        place=_from_one("place", values),
        note=values["note"],
    )
    return read, _place(values, event)


def draft(opened: OpenEntry, values: Mapping[str, str]) -> Entry:
    """The entry as far as what is typed can be read; the rest as it is on file."""
    kept = entry_values(opened)
    readable = dict(values)
    for _ in values:
        try:
            return read_entry(opened, readable)[0]
        except InvalidInput as error:
            readable[error.field] = kept[error.field]
    return opened.entry


def _from_one(field: str, values: Mapping[str, str]) -> int | None:
    """A whole number from 1 on, or nothing; raises InvalidInput."""
    found = typed.whole(field, values[field])
    if found is not None and found < 1:
        raise InvalidInput(field, text("check.from_one"))
    return found


def draft_place(opened: OpenEntry, values: Mapping[str, str]) -> Place:
    """Flights and handlers as chosen."""
    return _place(values, draft(opened, values).event)


def _place(values: Mapping[str, str], event: Event) -> Place:
    flights = (values[f"flight_{lift}"] for lift in event.lifts)
    duties = (
        (int(each), role) for role in Role for each in values[f"role_{role}"].split("\n") if each
    )
    return Place(tuple(int(each) for each in flights if each), tuple(duties))


def _several(opened: OpenEntry, role: Role) -> Choices:
    """A choice of its own where several handlers share a role on file, so that none is lost."""
    names = {each.id: each.name for each in opened.handlers}
    ids = [handler_id for handler_id, duty in opened.place.duties if duty is role]
    if len(ids) < 2:
        return []
    return [("\n".join(map(str, ids)), ", ".join(names[each] for each in ids))]
