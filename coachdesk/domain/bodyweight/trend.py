"""Where a bodyweight stands, where it goes, and what the scale will show on a day to come."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from math import isfinite, sqrt
from statistics import NormalDist

from coachdesk.domain.athlete import Reading
from coachdesk.domain.bodyweight.kalman import Dynamics, State, ahead
from coachdesk.domain.bodyweight.noise import History, Judged
from coachdesk.domain.bodyweight.parameters import (
    EIGHT_IN_TEN,
    FARTHEST,
    HALF_LIFE,
    LEVEL_SPREAD,
    RATE_SPREAD,
)
from coachdesk.domain.bodyweight.weighing import (
    ANOTHER_SCALE,
    CycleNote,
    Weighing,
    cycle_shift,
    hour_shift,
    weighings,
)
from coachdesk.domain.checks import check_bodyweight
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text

DAYS_A_WEEK = 7
_DAMPING = 0.5 ** (1.0 / HALF_LIFE.value)
USUAL = Dynamics(
    damping=_DAMPING,
    level_variance=LEVEL_SPREAD.value**2,
    slope_variance=(1.0 - _DAMPING**2) * (RATE_SPREAD.value / DAYS_A_WEEK) ** 2,
)
"""How bodyweight goes on, of every athlete: a trend fades by half in `HALF_LIFE` days."""


@dataclass(frozen=True, slots=True)
class OddReading:
    """A reading far off what the other days lead to expect: kept, and counted for less.

    `expected_kg` [kg] is what the scale should have shown in that dress, at that hour; `weight` is
    how much the reading counts, above 0 and below 1 of an ordinary one.
    """

    reading: Reading
    expected_kg: float
    weight: float


@dataclass(frozen=True, slots=True)
class ScaleForecast:
    """What the scale will show on a day, undressed: `mean_kg` and standard deviation `sd_kg`."""

    on: date
    mean_kg: float
    sd_kg: float

    @property
    def low_kg(self) -> float:
        """The lower end of the band that holds eight readings in ten [kg]."""
        return self.mean_kg - EIGHT_IN_TEN * self.sd_kg

    @property
    def high_kg(self) -> float:
        """The upper end of the band that holds eight readings in ten [kg]."""
        return self.mean_kg + EIGHT_IN_TEN * self.sd_kg


@dataclass(frozen=True, slots=True)
class Trend:
    """A bodyweight's trend up to the day `on`, from the day of the first reading, `since`.

    The level [kg] is the weight in the morning, undressed, on the usual scale, without the noise of
    the day and without the cycle's water. `states` has level and slope [kg a day] of every day from
    `since` to `on`, with their variances and covariance [kg2], in the light of all readings.
    `noise_kg` [kg] is the standard deviation of a reading about the level, learned from the
    readings; `odd` are those that count for less, in order of time.
    """

    since: date
    on: date
    states: tuple[State, ...]
    noise_kg: float
    odd: tuple[OddReading, ...]
    cycle_notes: tuple[CycleNote, ...] = ()

    @property
    def level_kg(self) -> float:
        """The present level [kg]."""
        return self.states[-1].level

    @property
    def level_error_kg(self) -> float:
        """The standard deviation of the present level [kg]."""
        return sqrt(self.states[-1].level_variance)

    @property
    def rate_kg(self) -> float:
        """The present rate [kg a week], below 0 on the way down."""
        return DAYS_A_WEEK * self.states[-1].slope

    @property
    def rate_error_kg(self) -> float:
        """The standard deviation of the present rate [kg a week]."""
        return DAYS_A_WEEK * sqrt(self.states[-1].slope_variance)

    def forecast(
        self, day: date, *, at: time | None = None, other_scale: bool = False
    ) -> ScaleForecast:
        """What the scale will show on `day` if the present trend fades as usual.

        `at` is the time of the weigh-in, in the morning where not given; `other_scale` says that
        it is not the usual one. Nothing special is done for the day: no day of eating less, none of
        making weight. Raises InvalidInput: field "day" before the trend ends or more than
        `FARTHEST` after it.
        """
        if day < self.on:
            raise InvalidInput("day", text("trend.day_past", on=self.on))
        if day - self.on > FARTHEST:
            raise InvalidInput("day", text("trend.day_too_far", last=self.on + FARTHEST))
        state = ahead(self.states[-1], (day - self.on).days, USUAL)
        shift = hour_shift(at) + cycle_shift(day, self.cycle_notes)
        if other_scale:
            shift += ANOTHER_SCALE
        variance = state.level_variance + self.noise_kg**2 + shift.variance
        return ScaleForecast(day, state.level + shift.kg, sqrt(variance))

    def chance_at_most(
        self, limit_kg: float, day: date, *, at: time | None = None, other_scale: bool = False
    ) -> float:
        """The chance, 0 to 1, that the scale shows `limit_kg` [kg] or less, as `forecast` has it.

        Raises InvalidInput: field "limit_kg" that is no weight, "day" as for `forecast`.
        """
        if not (isfinite(limit_kg) and limit_kg > 0.0):
            raise InvalidInput("limit_kg", text("trend.limit"))
        foretold = self.forecast(day, at=at, other_scale=other_scale)
        return NormalDist(foretold.mean_kg, foretold.sd_kg).cdf(limit_kg)


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
        since, on, tuple(found.states), sqrt(found.noise), _odd_readings(weighed, found), notes
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
