"""Gathering a lift's history: training days, their trend, what is forecast, and what was."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.strength.forecast import EIGHT_IN_TEN, Forecast
from coachdesk.domain.strength.from_gym import set_in_words
from coachdesk.domain.strength.gym import dynamics
from coachdesk.domain.strength.kept import KeptForecast
from coachdesk.domain.strength.lift_sources import LiftSources
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.strength.trend import StrengthTrend, strength_trend
from coachdesk.domain.text import Text
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import read_known
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.weight_picture import DayBand, Span
from coachdesk.storage.kept_forecasts import entries_forecast, forecasts_of, meets_lifted
from coachdesk.storage.store import Reader
from coachdesk.storage.strength_states import all_days
from coachdesk.storage.weight_queries import next_entry

_POINTS = 400
"""A line of years looks the same with a point for every day."""


@dataclass(frozen=True, slots=True)
class SeenDay:
    """A training day: what its best set comes to [kg], and the set in words."""

    on: date
    kg: float
    judged: bool
    words: Text


@dataclass(frozen=True, slots=True)
class EarlierForecast:
    """What was forecast of a meet once; `on` is the meet's day."""

    meet: str
    on: date
    kept: KeptForecast


@dataclass(frozen=True, slots=True)
class StrengthPicture:
    """A lift from the day `first` to the day `last`, seen on `today`; weights in kilograms.

    `level` is the trend in the gym by days up to today, with the band that holds it eight times in
    ten; `forecast` what a day from today on would bring in the gym, the day's noise counted once;
    `platform` what is planned on for the next meet, None without one. For the coach alone.
    """

    first: date
    today: date
    last: date
    unit: Unit
    days: tuple[SeenDay, ...]
    level: tuple[DayBand, ...]
    forecast: tuple[DayBand, ...]
    platform: DayBand | None
    earlier: tuple[EarlierForecast, ...]

    def kg_range(self) -> tuple[float, float]:
        """The lightest and the heaviest weight to make room for [kg]."""
        bands = (*self.level, *self.forecast, *(() if self.platform is None else (self.platform,)))
        found = [kg for band in bands for kg in (band.low_kg, band.high_kg)]
        found += [day.kg for day in self.days]
        found += [each.kept.expected.kg for each in self.earlier]
        return min(found), max(found)


@dataclass(frozen=True, slots=True)
class StrengthHistory:
    """All that is known of a lift up to `today`.

    `meet` is the next one entered for it, `sources` what is known of the lift there; `earlier` what
    was forecast of it, this meet's among them, soonest first.
    """

    lift: Lift
    unit: Unit
    today: date
    trend: StrengthTrend
    meet: Meet | None = None
    sources: LiftSources | None = None
    earlier: tuple[EarlierForecast, ...] = ()

    @property
    def used(self) -> Forecast | None:
        """What is planned on for the next meet."""
        return None if self.sources is None else self.sources.used

    def picture(self, span: Span) -> StrengthPicture:
        """The picture of a span of days, and ahead to the meet where it is not too far."""
        first = self.trend.since
        if span.back is not None:
            first = max(first, self.today - span.back)
        on = self.today if self.meet is None else self.meet.starts_on
        last = max(self.today, min(on, self.today + span.ahead))
        if first == last:
            first -= timedelta(days=1)
        return StrengthPicture(
            first=first,
            today=self.today,
            last=last,
            unit=self.unit,
            days=_seen(self.trend.observations, first),
            level=self._bands(first, self.today, whole_day=False),
            forecast=self._bands(self.today, last, whole_day=True) if last > self.today else (),
            platform=self._platform(last),
            earlier=tuple(each for each in self.earlier if first <= each.on <= last),
        )

    def _bands(self, first: date, last: date, *, whole_day: bool) -> tuple[DayBand, ...]:
        step = max(1, (last - first).days // _POINTS)
        found = []
        for day in self.trend.days(first, last, step):
            off = EIGHT_IN_TEN * (day.sd if whole_day else day.error)
            low, high = (day.maximum_kg * (1.0 + at) for at in (-off, off))
            found.append(DayBand(day.on, day.maximum_kg, low, high))
        return tuple(found)

    def _platform(self, last: date) -> DayBand | None:
        if self.meet is None or self.used is None or self.meet.starts_on > last:
            return None
        used = self.used
        return DayBand(self.meet.starts_on, used.expected.kg, used.low.kg, used.high.kg)


def strength_history(desk: Desk, athlete_id: int, lift: Lift) -> StrengthHistory | None:
    """A lift's whole history up to today; None without a set that tells of it.

    A constant number of statements; some 60 ms for ten years of 30,000 sets.
    """
    today = desk.today()
    with desk.reading() as reader:
        athlete = reader.get(Athlete, athlete_id)
        seen = all_days(reader, athlete_id, lift, today).one_a_day()
        if not seen:
            return None
        behind = athlete.meets_before + meets_lifted(reader, athlete_id, today)
        entry = next_entry(reader, athlete_id, today)
        meet, sources = _ahead(desk, reader, entry, lift)
        earlier = _earlier(reader, athlete_id, lift)
    noise = DEFAULT.lift_noise.value
    trend = strength_trend(seen, noise=noise, going_on=dynamics(behind))
    return StrengthHistory(lift, athlete.unit, today, trend, meet, sources, earlier)


def _ahead(
    desk: Desk, reader: Reader, entry: Entry | None, lift: Lift
) -> tuple[Meet | None, LiftSources | None]:
    """The next meet where it is entered for the lift, and what is known of it there."""
    if entry is None or lift not in entry.event.lifts:
        return None, None
    record = read_meet(reader, entry.meet_id, desk.today(), only=frozenset({entry.id}))
    rulebook = desk.rulebooks.books.get(record.meet.rulebook)
    if rulebook is None:
        return record.meet, None
    try:
        known = read_known(reader, rulebook, record, desk.today())
        return record.meet, known.sources(entry, lift)
    except CoachdeskError:
        return record.meet, None


def _earlier(reader: Reader, athlete_id: int, lift: Lift) -> tuple[EarlierForecast, ...]:
    meets = entries_forecast(reader, athlete_id)
    found = [
        EarlierForecast(meets[entry_id].name, meets[entry_id].starts_on, each)
        for entry_id, kept in forecasts_of(reader, meets).items()
        for each in kept
        if each.lift is lift
    ]
    return tuple(sorted(found, key=lambda each: (each.kept.made_on, each.on)))


def _seen(observations: Iterable[Observation], first: date) -> tuple[SeenDay, ...]:
    return tuple(
        SeenDay(each.on, each.maximum_kg, each.judged, set_in_words(each))
        for each in observations
        if each.on >= first
    )
