"""Where a bodyweight stands, where it goes, and what the scale will show on a day to come."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

from coachdesk.domain.athlete import Reading
from coachdesk.domain.bodyweight.noise import History, Judged
from coachdesk.domain.bodyweight.outlook import USUAL, Outlook
from coachdesk.domain.bodyweight.weighing import CycleNote, Weighing, weighings
from coachdesk.domain.checks import check_bodyweight
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.trend_filter import State


@dataclass(frozen=True, slots=True)
class OddReading:
    """A reading far off what the other days lead to expect: kept, and counted for less.

    `expected_kg` [kg] is what the scale should have shown in that dress, at that hour; `weight` is
    how much the reading counts, above 0 and below 1 of an ordinary one.
    """

    reading: Reading
    expected_kg: float
    weight: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend(Outlook):
    """A bodyweight's trend up to the day `on`, from the day of the first reading, `since`.

    The level [kg] is the weight in the morning, undressed, on the usual scale, without the noise of
    the day and without the cycle's water. `states` has level and slope [kg a day] of every day from
    `since` to `on`, with their variances and covariance [kg2], in the light of all readings.
    `noise_kg` is learned from the readings; `odd` are those that count for less, in order of time.
    """

    since: date
    states: tuple[State, ...]
    odd: tuple[OddReading, ...]


def trend(readings: Iterable[Reading], *, on: date, cycle_notes: Iterable[CycleNote] = ()) -> Trend:
    """The trend of one athlete's bodyweight up to the day `on`; later readings are left out.

    Days may be missing or have several readings. A single reading gives a level and the usual
    spread of rates. Of what the trend runs on, only the noise is learned from the readings: a few
    weeks cannot tell how trends come and go, and bands from such a fit are far too narrow.

    Raises InvalidInput: field "readings" without any up to `on`, of more than one athlete, or with
    a weight nobody has.
    """
    past = [reading for reading in readings if reading.on <= on]
    if not past:
        raise InvalidInput("readings", text("trend.no_reading", on=on))
    if len({reading.athlete_id for reading in past}) > 1:
        raise InvalidInput("readings", text("trend.two_athletes"))
    notes = tuple(sorted(cycle_notes, key=lambda note: (note.first, note.last)))
    weighed = weighings(past, notes)
    for extreme in (min, max):
        check_bodyweight("readings", extreme(weighed, key=_shown).reading.weight)
    since = weighed[0].reading.on
    found = History(weighed, (on - since) // timedelta(days=1) + 1).judged(USUAL)
    return Trend(
        on=on,
        state=found.states[-1],
        noise_kg=sqrt(found.noise),
        cycle_notes=notes,
        since=since,
        states=tuple(found.states),
        odd=_odd_readings(weighed, found),
    )


def _shown(weighing: Weighing) -> float:
    return weighing.shown_kg


def _odd_readings(weighed: Sequence[Weighing], found: Judged) -> tuple[OddReading, ...]:
    """The odd ones as the scale showed them, with what it should have shown."""
    readings = []
    for place, odd in sorted(found.odd.items()):
        weighing = weighed[place]
        shift_kg = weighing.shown_kg - weighing.kg
        own = found.noise + weighing.variance
        readings.append(
            OddReading(weighing.reading, odd.expected + shift_kg, own / (own + odd.doubt))
        )
    return tuple(readings)
