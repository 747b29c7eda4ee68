"""Use cases that say what the coach wants of a plan: numbers with their bands, sources, aims.

Where an entry has a plan, it is made anew in the same action.
"""

from __future__ import annotations

from dataclasses import fields, replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, EntryData
from coachdesk.domain.strength import OwnNumber, Source
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.domain.wishes import LiftBasis, LiftBasisData, Wishes, WishesData, check_wishes
from coachdesk.services.desk import Desk, Done
from coachdesk.services.planning import replan
from coachdesk.storage.entry_rows import bases_of, wishes_of
from coachdesk.storage.store import Work


def set_lift_number(
    desk: Desk,
    seen: Entry,
    lift: Lift,
    number: Mass | None,
    low: Mass | None = None,
    high: Mass | None = None,
    *,
    basis: LiftBasis | None,
) -> Done[tuple[Text, ...]]:
    """Set the coach's number for a lift and its band; `basis` is what stood there beside it.

    Answers what could not be planned, in words. Raises InvalidInput (field "number", "low", "high"
    or "lift"), and Trouble when the entry or the basis is no longer as it was seen.
    """
    _check_lift(seen, lift)
    if number is not None:
        OwnNumber(number, low, high)
    elif low is not None or high is not None:
        raise InvalidInput("number", text("strength.band_without_number"))
    label = text("did.set_number", name=_name(desk, seen), lift=text(f"lift.{lift}"))
    with desk.action(label) as work:
        _check_seen(work, seen, lift, basis)
        if seen.expected(lift) != number:
            work.update(seen.id, seen.version, with_number(seen, lift, number))
        _put_basis(work, replace(_data(seen.id, lift, basis), low=low, high=high), basis)
        return Done(replan(desk, work, seen.meet_id, seen.id), work.changes())


def choose_source(
    desk: Desk, seen: Entry, lift: Lift, source: Source | None, *, basis: LiftBasis | None
) -> Done[tuple[Text, ...]]:
    """Choose what a lift is planned on, None for the usual; answers and errors as
    `set_lift_number`."""
    _check_lift(seen, lift)
    label = text("did.choose_source", name=_name(desk, seen), lift=text(f"lift.{lift}"))
    with desk.action(label) as work:
        _check_seen(work, seen, lift, basis)
        _put_basis(work, replace(_data(seen.id, lift, basis), source=source), basis)
        return Done(replan(desk, work, seen.meet_id, seen.id), work.changes())


def set_wishes(
    desk: Desk, seen: Entry, data: WishesData, *, wishes: Wishes | None
) -> Done[tuple[Text, ...]]:
    """Say what is wanted of an entry's plan; `wishes` is what stood there, None for nothing.

    Answers what could not be planned, in words. Raises InvalidInput (see `check_wishes`), and
    Trouble when the wishes are no longer as they were seen.
    """
    check_wishes(data)
    with desk.action(text("did.set_wishes", name=_name(desk, seen))) as work:
        if wishes_of(work, seen.id) != wishes:
            raise Trouble(text("record.moved_on", kind=text("kind.wishes")))
        wanted = WishesData(
            entry_id=seen.id,
            aim=data.aim,
            aim_lift=data.aim_lift,
            aim_weight=data.aim_weight,
            risk_cap=data.risk_cap,
            largest_jump=data.largest_jump,
        )
        _put(work, wanted, WishesData(entry_id=seen.id), wishes)
        return Done(replan(desk, work, seen.meet_id, seen.id), work.changes())


def settle_bands(work: Work, entry_id: int, data: EntryData) -> None:
    """Bands go with their numbers: without one they go, outside one they are refused.

    Raises InvalidInput (field "expected_squat" and so on).
    """
    for basis in bases_of(work, entry_id):
        number = data.expected(basis.lift)
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


def _check_lift(entry: Entry, lift: Lift) -> None:
    if lift not in entry.event.lifts:
        raise InvalidInput("lift", text("entry.lift", lift=text(f"lift.{lift}")))


def _check_seen(work: Work, seen: Entry, lift: Lift, basis: LiftBasis | None) -> None:
    if work.get(Entry, seen.id) != seen:
        raise Trouble(text("record.moved_on", kind=text("kind.entry")))
    present = next((each for each in bases_of(work, seen.id) if each.lift is lift), None)
    if present != basis:
        raise Trouble(text("record.moved_on", kind=text("kind.lift_basis")))


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
