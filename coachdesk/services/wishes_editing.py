"""Use cases that say what the coach wants of a plan: numbers with their bands, sources, aims.

Where an entry has a plan, it is made anew in the same action.
"""

from __future__ import annotations

from dataclasses import fields, replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import check_not_below_bar
from coachdesk.domain.checks import check_lifted
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.meet import Entry, EntryData
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.strength.own_number import OwnNumber
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.domain.wishes import LiftBasis, LiftBasisData, Wishes, WishesData, check_wishes
from coachdesk.services.desk import Desk, Done
from coachdesk.services.lift_sources import basis_of, floor_of, read_known
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import steps_of
from coachdesk.services.planning import plans_of, replan
from coachdesk.services.print_choice import Progress
from coachdesk.storage.entry_rows import bases_of, wishes_of
from coachdesk.storage.plans import add_snapshot
from coachdesk.storage.store import Work


def say_of_lift(
    desk: Desk,
    seen: Entry,
    number: Mass | None,
    said: LiftBasisData,
    *,
    basis: LiftBasis | None,
) -> Done[tuple[Text, ...]]:
    """Set the coach's number for a lift, and what is `said` of the lift besides; `basis` is what
    stood there.

    Answers what could not be planned, in words. Raises InvalidInput (field "number", "low", "high",
    "floor" or "lift") for what nothing can be planned on, and Trouble when the entry or the basis
    is no longer as it was seen.
    """
    lift = said.lift
    if lift not in seen.event.lifts:
        raise InvalidInput("lift", text("entry.lift", lift=text(f"lift.{lift}")))
    if number is not None:
        OwnNumber(number, said.low, said.high)
    elif said.low is not None or said.high is not None:
        raise InvalidInput("number", text("strength.band_without_number"))
    if said.floor is not None:
        check_lifted("floor", said.floor)
    label = text("did.set_number", name=_name(desk, seen), lift=text(f"lift.{lift}"))
    with desk.action(label) as work:
        _check_seen(work, seen, lift, basis)
        if seen.expected(lift) != number:
            work.update(seen.id, seen.version, with_number(seen, lift, number))
        _put_basis(work, replace(said, entry_id=seen.id), basis)
        _check_basis(desk, work, seen.id, lift)
        return Done(replan(desk, work, seen.meet_id, seen.id), work.changes())


def wish_for_all(
    desk: Desk, meet_id: int, entry_ids: frozenset[int], data: WishesData, progress: Progress
) -> Done[tuple[Text, ...]]:
    """Say what is wanted of the plans of several entries, in the place of what was said, and plan
    them; answers what could not be planned, in words. Nothing is kept when `progress` raises.

    Raises InvalidInput: see `check_wishes`. What is out of an athlete's reach gives way to the
    biggest total, and the plan says so.
    """
    check_wishes(data)
    today = desk.today()
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, today, only=entry_ids)
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, today)
    wished = known.with_wishes(data)
    plans, faults = plans_of(desk, wished, record, record.entries, progress)
    names = [record.athletes[entry.athlete_id].name for entry in record.entries]
    label = (
        text("did.set_wishes", name=names[0])
        if len(names) == 1
        else text("did.set_wishes_of_all", count=len(names))
    )
    with desk.action(label) as work:
        for entry in record.entries:
            before = wishes_of(work, entry.id)
            wanted = replace(data, entry_id=entry.id)
            _put(work, wanted, WishesData(entry_id=entry.id), before)
        for entry_id, plan in plans.items():
            add_snapshot(work, entry_id, desk.now(), plan)
        return Done(faults, work.changes())


def settle_bands(work: Work, entry_id: int, data: EntryData) -> None:
    """Bands go with their numbers: without one they go, outside one they are refused. So are
    numbers that a garment's floor lies above.

    Raises InvalidInput (field "expected_squat" and so on).
    """
    for basis in bases_of(work, entry_id):
        number = data.expected(basis.lift)
        is_used = number is not None and basis.source in {None, Source.OWN_NUMBER}
        if is_used and data.equipment is Equipment.EQUIPPED:
            _check_floor(f"expected_{basis.lift}", basis.floor, number)
        if basis.low is None or basis.high is None:
            continue
        if number is None:
            without = replace(_data(entry_id, basis.lift, basis), low=None, high=None)
            _put_basis(work, without, basis)
        elif not basis.low.grams <= number.grams <= basis.high.grams:
            band = text("strength.outside_band", low=basis.low, high=basis.high)
            raise InvalidInput(f"expected_{basis.lift}", band)


def with_number(entry: Entry, lift: Lift, number: Mass | None) -> Entry:
    """The entry with another number of the coach's for `lift`."""
    match lift:
        case Lift.SQUAT:
            return replace(entry, expected_squat=number)
        case Lift.BENCH:
            return replace(entry, expected_bench=number)
        case Lift.DEADLIFT:
            return replace(entry, expected_deadlift=number)


def _name(desk: Desk, entry: Entry) -> str:
    with desk.reading() as reader:
        return reader.get(Athlete, entry.athlete_id).name


def _check_seen(work: Work, seen: Entry, lift: Lift, basis: LiftBasis | None) -> None:
    if work.get(Entry, seen.id) != seen:
        raise Trouble(text("record.moved_on", kind=text("kind.entry")))
    present = next((each for each in bases_of(work, seen.id) if each.lift is lift), None)
    if present != basis:
        raise Trouble(text("record.moved_on", kind=text("kind.lift_basis")))


def _check_basis(desk: Desk, work: Work, entry_id: int, lift: Lift) -> None:
    """What a lift rests on by now can be planned on; raises InvalidInput (field
    "number", "low", "high" or "floor")."""
    entry = work.get(Entry, entry_id)
    record = read_meet(work, entry.meet_id, desk.today(), only=frozenset({entry_id}))
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    number = entry.expected(lift)
    if number is not None:
        check_not_below_bar("number", number, steps_of(rulebook))
    known = read_known(work, rulebook, record, desk.today())
    sources = known.sources(entry, lift)
    used = sources.used
    if number is not None:
        basis = basis_of(known.training, entry_id, lift)
        low, high = (None, None) if basis is None else (basis.low, basis.high)
        OwnNumber(number, low, high).check_width(sources.day)
    _check_floor(
        "floor", floor_of(known.training, entry, lift), None if used is None else used.expected
    )


def _check_floor(field: str, floor: Mass | None, expected: Mass | None) -> None:
    """No opener is both below the day's expected maximum and heavy enough for such a garment;
    raises InvalidInput."""
    if floor is not None and expected is not None and floor.grams > expected.grams:
        raise InvalidInput(field, text("wishes.floor_above", floor=floor, expected=expected))


def _data(entry_id: int, lift: Lift, basis: LiftBasis | None) -> LiftBasisData:
    if basis is None:
        return LiftBasisData(entry_id=entry_id, lift=lift)
    return LiftBasisData(
        entry_id=entry_id,
        lift=lift,
        low=basis.low,
        high=basis.high,
        source=basis.source,
        floor=basis.floor,
    )


def _put_basis(work: Work, data: LiftBasisData, present: LiftBasis | None) -> None:
    _put(work, data, LiftBasisData(entry_id=data.entry_id, lift=data.lift), present)


def _put(
    work: Work,
    data: LiftBasisData | WishesData,
    nothing: LiftBasisData | WishesData,
    present: LiftBasis | Wishes | None,
) -> None:
    """Keep `data` in the place of what is present; a row that says `nothing` is not kept."""
    if present is None:
        if data != nothing:
            work.insert(data)
    elif data == nothing:
        work.delete(type(present), present.id, present.version)
    elif any(getattr(present, each.name) != getattr(data, each.name) for each in fields(data)):
        work.update(present.id, present.version, data)
