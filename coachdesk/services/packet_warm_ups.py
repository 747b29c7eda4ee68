"""Warm-ups for an entry's openers, with the discs of the warm-up room, and when they begin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import BarSet
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.units import kilograms
from coachdesk.domain.warmup import WarmUps, minutes_of, warm_ups
from coachdesk.services.disc_sets import rulebook_bar_set
from coachdesk.services.packet_content import LiftCard, LiftWarmUps, WarmUpPage
from coachdesk.storage.meet_queries import MeetRecord

HEAVIEST_DISC = kilograms(25)
"""Heavier discs stand at the platform, seldom in the warm-up room (common practice)."""

_ROUNDS = 3


def warm_up_page(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, cards: Sequence[LiftCard]
) -> WarmUpPage:
    """The warm-ups of an entry's lifts, each for the opener on its card."""
    room = warm_up_room(rulebook)
    return WarmUpPage(room, tuple(_of_lift(record, rulebook, entry, card, room) for card in cards))


def warm_up_room(rulebook: Rulebook) -> BarSet:
    """What is taken to stand in the warm-up room: the meet's bar and collars, discs up to 25 kg."""
    whole = rulebook_bar_set(rulebook, for_records=False)
    discs = tuple(disc for disc in whole.discs if disc.weight.grams <= HEAVIEST_DISC.grams)
    return replace(whole, discs=discs or whole.discs)


def _of_lift(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, card: LiftCard, room: BarSet
) -> LiftWarmUps:
    if card.opener is None or not room.discs:
        return LiftWarmUps(card.lift, card.opener, card.opener_chosen, None, None)
    found = warm_ups(card.lift, opener=card.opener, room=room, equipment=entry.equipment)
    begins_at = _begins_at(record, rulebook, entry, found)
    return LiftWarmUps(card.lift, card.opener, card.opener_chosen, found, begins_at)


def _begins_at(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, found: WarmUps
) -> datetime | None:
    """When the first set is due for somebody called first in the flight.

    None for a lift that waits for an earlier one, and where session, flight or the size of an
    earlier flight is not known.
    """
    session = record.sessions.get(entry.session_id or 0)
    earlier = _minutes_of_earlier_flights(record, rulebook, entry, found)
    if session is None or earlier is None:
        return None
    return session.starts_at + timedelta(minutes=round(earlier) - found.usual[0].minutes)


def _minutes_of_earlier_flights(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, found: WarmUps
) -> float | None:
    """How long the flights before ours take [min], with the rest small ones are given.

    None where that is not known, or where the session begins with another lift.
    """
    flights = [each for each in record.flights.values() if each.session_id == entry.session_id]
    lifts = {flight.lift for flight in flights} or set(entry.event.lifts)
    if found.lift is not _first_of(rulebook, lifts):
        return None
    same_lift = [flight for flight in flights if flight.lift is found.lift]
    ours = record.flights_of_entry[entry.id]
    own = next((flight for flight in same_lift if flight.id in ours), None)
    if own is None:
        return None if same_lift else 0.0
    earlier = [flight.lifters for flight in same_lift if flight.position < own.position]
    known = [lifters for lifters in earlier if lifters is not None]
    if len(known) < len(earlier):
        return None
    return sum(
        minutes_of(_ROUNDS * lifters, found.seconds)
        + _ROUNDS * rulebook.groups.extra_minutes(lifters)
        for lifters in known
    )


def _first_of(rulebook: Rulebook, lifts: set[Lift]) -> Lift | None:
    return next((lift for lift in rulebook.lift_order if lift in lifts), None)
