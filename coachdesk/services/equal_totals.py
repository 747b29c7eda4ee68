"""Totals of equal score: what a total is worth in another class."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.class_fit import present_weight
from coachdesk.domain.history import total_grams
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.scoring import kilograms_needed
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.weight_class import WeightClass
from coachdesk.services.desk import Desk
from coachdesk.services.packet_lifts import score_of
from coachdesk.storage.plans import latest_snapshots
from coachdesk.storage.roster_queries import results_of
from coachdesk.storage.today_queries import EntryState


@dataclass(frozen=True, slots=True)
class Reference:
    """A total, the bodyweight it is scored at, and its points by the rulebook's formula.

    `lifted_on` is the day of the meet it was made at, None for the one expected by the plan.
    """

    total: Mass
    bodyweight: Mass
    points: float
    lifted_on: date | None


@dataclass(frozen=True, slots=True)
class EqualTotals:
    """What scores as much as `reference` at each class limit: the least total on the rulebook's
    step, by the class's name; a class without a limit has none."""

    reference: Reference
    by_class: Mapping[str, Mass]


def equal_totals(
    desk: Desk, state: EntryState, rulebook: Rulebook, classes: Iterable[WeightClass]
) -> EqualTotals | None:
    """Totals that equal the one expected by the plan on file, else the last good total.

    The planned one is scored at the present bodyweight, the other at that day's. The age plays no
    part: it is the same athlete. None without a total that can be scored.
    """
    reference = _planned(desk, state, rulebook) or _lifted(desk, state, rulebook)
    if reference is None:
        return None
    by_class = {}
    for each in classes:
        needed = (
            None
            if each.limit is None
            else kilograms_needed(
                rulebook.best_lifter,
                reference.points,
                sex=state.athlete.sex,
                bodyweight_kg=each.limit.kg,
                event=state.entry.event,
                equipment=state.entry.equipment,
                step=rulebook.smallest_step,
            )
        )
        if needed is not None:
            by_class[each.name] = needed
    return EqualTotals(reference, by_class)


def _planned(desk: Desk, state: EntryState, rulebook: Rulebook) -> Reference | None:
    with desk.reading() as reader:
        snapshot = latest_snapshots(reader, [state.entry.id]).get(state.entry.id)
    outlook = None if snapshot is None else snapshot.plan.outlook
    present = present_weight(state.weight, desk.today())
    bodyweight = state.entry.bodyweight or (None if present is None else present.mass)
    if outlook is None or bodyweight is None:
        return None
    return _reference(state, rulebook, outlook.expected_total, bodyweight, None)


def _lifted(desk: Desk, state: EntryState, rulebook: Rulebook) -> Reference | None:
    """The last total in the same event and equipment that was made at a known bodyweight."""
    entry = state.entry
    with desk.reading() as reader:
        past = results_of(reader, state.athlete.id, desk.today())
    for each in past:
        same = (each.entry.event, each.entry.equipment) == (entry.event, entry.equipment)
        grams = total_grams(each.attempts, entry.event) if same else None
        if grams is not None and each.entry.bodyweight is not None:
            total, on = from_grams(grams), each.meet.starts_on
            return _reference(state, rulebook, total, each.entry.bodyweight, on)
    return None


def _reference(
    state: EntryState, rulebook: Rulebook, total: Mass, bodyweight: Mass, on: date | None
) -> Reference | None:
    points = score_of(rulebook, state.athlete, state.entry, total, bodyweight)
    return None if points is None else Reference(total, bodyweight, points, on)
