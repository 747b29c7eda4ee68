"""Sets of discs: those of the rulebooks, and the coach's own."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.checks import check_disc_set
from coachdesk.domain.disc_set import DiscSet, DiscSetData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import BarSet, Disc
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.store import Reader

_SIDES = 2


@dataclass(frozen=True, slots=True)
class OfferedSet:
    """A set to load the bar from.

    `key` tells sets apart between sessions. `step` is the smallest step between weights that the
    rulebook allows or, in an own set, that its discs make. `rulebook` is the rulebook a set is
    from, `own` the coach's own record: one of the two is None.
    """

    key: str
    name: Text
    unit: Unit
    bar_set: BarSet
    step: Mass
    rulebook: Rulebook | None = None
    own: DiscSet | None = None


def offered_sets(desk: Desk) -> tuple[OfferedSet, ...]:
    """The coach's own sets by name, then those of the rulebooks, with and without the discs for
    records."""
    with desk.reading() as reader:
        own = reader.list(DiscSet)
    shelf = desk.rulebooks.books.values()
    return (
        *(_own_set(each) for each in sorted(own, key=lambda each: each.name.casefold())),
        *(offered for book in shelf for offered in _rulebook_sets(book)),
    )


def add_disc_set(desk: Desk, data: DiscSetData) -> Done[int]:
    """Keep a set of discs; answers the id."""
    data = _ordered(data)
    with desk.action(text("did.add_disc_set", name=data.name)) as work:
        _check_name(work, data, None)
        set_id = work.insert(data)
        return Done(set_id, work.changes())


def edit_disc_set(desk: Desk, set_id: int, version: int, data: DiscSetData) -> Done[None]:
    """Replace what is on file about a set, unless somebody else did meanwhile."""
    data = _ordered(data)
    with desk.action(text("did.edit_disc_set", name=data.name)) as work:
        _check_name(work, data, set_id)
        work.update(set_id, version, data)
        return Done(None, work.changes())


def delete_disc_set(desk: Desk, disc_set: DiscSet) -> Done[None]:
    """Delete a set of discs."""
    with desk.action(text("did.delete_disc_set", name=disc_set.name)) as work:
        work.delete(DiscSet, disc_set.id, disc_set.version)
        return Done(None, work.changes())


def rulebook_bar_set(rulebook: Rulebook, *, for_records: bool) -> BarSet:
    """The meet's bar, collars and discs, with those for records or without."""
    discs = (
        Disc(disc.weight, colour=disc.colour)
        for disc in rulebook.discs
        if for_records or not disc.records_only
    )
    return BarSet(rulebook.bar, rulebook.collar, tuple(discs))


def _ordered(data: DiscSetData) -> DiscSetData:
    """The set in order, heaviest disc first; raises InvalidInput."""
    check_disc_set(data)
    heaviest_first = sorted(data.discs, key=lambda disc: -disc.weight.grams)
    return DiscSetData(
        name=data.name.strip(),
        unit=data.unit,
        bar=data.bar,
        collar=data.collar,
        discs=tuple(heaviest_first),
    )


def _check_name(reader: Reader, data: DiscSetData, own_id: int | None) -> None:
    """No two sets go by the same name."""
    wanted = data.name.casefold()
    others = (each for each in reader.list(DiscSet) if each.id != own_id)
    if any(other.name.casefold() == wanted for other in others):
        raise InvalidInput("name", text("check.name_taken"))


def _own_set(own: DiscSet) -> OfferedSet:
    smallest = min((disc.weight for disc in own.discs), key=lambda weight: weight.grams)
    return OfferedSet(
        key=f"own:{own.id}",
        name=text("bar.set.own", name=own.name),
        unit=own.unit,
        bar_set=own.bar_set,
        step=Mass((smallest.number * _SIDES).normalize(), smallest.unit),
        own=own,
    )


def _rulebook_sets(rulebook: Rulebook) -> tuple[OfferedSet, ...]:
    ordinary = OfferedSet(
        key=f"rulebook:{rulebook.key}",
        name=text("bar.set.rulebook", name=rulebook.name),
        unit=rulebook.unit,
        bar_set=rulebook_bar_set(rulebook, for_records=False),
        step=rulebook.smallest_step,
        rulebook=rulebook,
    )
    if not any(disc.records_only for disc in rulebook.discs):
        return (ordinary,)
    for_records = OfferedSet(
        key=f"records:{rulebook.key}",
        name=text("bar.set.records", name=rulebook.name),
        unit=rulebook.unit,
        bar_set=rulebook_bar_set(rulebook, for_records=True),
        step=rulebook.record_step,
        rulebook=rulebook,
    )
    return (ordinary, for_records)
