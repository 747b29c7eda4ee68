"""A disc set as it is typed: a row for each kind of disc."""

from __future__ import annotations

from coachdesk.domain.disc_set import DiscSet, DiscSetData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Unit
from coachdesk.services import typed
from coachdesk.services.desk import Desk, Done
from coachdesk.services.disc_sets import OfferedSet, add_disc_set, edit_disc_set

MOST_ROWS = 16
_JOINT = "\t"


def disc_key(number: int) -> str:
    """The key of a row of discs, counted from 1."""
    return f"disc_{number}"


def joined(weight: str, pairs: str, colour: str) -> str:
    """The value of a row of discs."""
    return _JOINT.join((weight, pairs, colour))


def parted(value: str) -> tuple[str, str, str]:
    """Weight, pairs and colour of a row of discs, as typed."""
    weight, pairs, colour = (*value.split(_JOINT), "", "", "")[:3]
    return weight, pairs, colour


def values_of(offered: OfferedSet, name: str) -> dict[str, str]:
    """A set as it is typed, under a name."""
    bar_set = offered.bar_set
    values = {
        "name": name,
        "unit": offered.unit.value,
        "bar": typed.shown_mass(bar_set.bar),
        "collar": typed.shown_mass(bar_set.collar),
    }
    for number, disc in enumerate(bar_set.discs, start=1):
        values[disc_key(number)] = joined(
            typed.shown_mass(disc.weight), typed.shown_whole(disc.pairs), disc.colour
        )
    return values


def set_from(values: dict[str, str]) -> tuple[DiscSetData, tuple[int, ...]]:
    """The set that was typed, and the row each of its discs stands in.

    Rows left empty are passed over; an empty collar weighs nothing. Raises InvalidInput.
    """
    unit = typed.choice("unit", values["unit"], Unit)
    bar = typed.required_mass("bar", values["bar"], unit)
    collar = typed.required_mass("collar", values["collar"] or "0", unit)
    discs: list[Disc] = []
    rows: list[int] = []
    for number in range(1, MOST_ROWS + 1):
        disc = _disc(disc_key(number), values.get(disc_key(number), ""), unit)
        if disc is not None:
            discs.append(disc)
            rows.append(number)
    data = DiscSetData(name=values["name"], unit=unit, bar=bar, collar=collar, discs=tuple(discs))
    return data, tuple(rows)


def keep_set(desk: Desk, values: dict[str, str], own: DiscSet | None) -> Done[int]:
    """Keep what was typed as a new set, or in place of `own`; answers the id.

    Raises InvalidInput; a fault of a disc is at its row.
    """
    data, rows = set_from(values)
    try:
        if own is None:
            return add_disc_set(desk, data)
        return Done(own.id, edit_disc_set(desk, own.id, own.version, data).changes)
    except InvalidInput as error:
        part, _, number = error.field.rpartition("_")
        if part not in {"weight", "colour"}:
            raise
        at = int(number) - 1
        row = rows[at] if at < len(rows) else 1
        raise InvalidInput(disc_key(row), error.text) from error


def _disc(key: str, value: str, unit: Unit) -> Disc | None:
    weight, pairs, colour = parted(value)
    if not weight.strip() and not pairs.strip():
        return None
    try:
        return Disc(typed.required_mass(key, weight, unit), typed.whole(key, pairs), colour)
    except InvalidInput as error:
        raise InvalidInput(key, error.text) from error
