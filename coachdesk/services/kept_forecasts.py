"""Keeping what was forecast of entries ahead, and saying how far it was off once a meet is over."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from coachdesk.domain.engine_parameters import DEFAULT, Experience
from coachdesk.domain.lifting import Lift
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength.forecast_error import (
    ForecastError,
    PastForecast,
    forecast_error,
)
from coachdesk.domain.strength.kept import KeptForecast
from coachdesk.services.coming_lifts import coming_lifts
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import tried_at
from coachdesk.storage.kept_forecasts import Came, entries_kept_since, keep_forecasts, what_came

_EVERY = timedelta(weeks=1)


def keep_coming_forecasts(desk: Desk) -> int:
    """Put on file what is forecast of the lifts of entries ahead, but of those of which something
    was put there within a week; answers of how many lifts.

    Nothing is journalled: what was said stays said.
    """
    today = desk.today()
    with desk.reading() as reader:
        kept = entries_kept_since(reader, today - _EVERY)
        coming = coming_lifts(desk, reader, but=kept)
    made = [
        KeptForecast(
            entry_id=each.subject.entry.id,
            lift=lift,
            made_on=today,
            source=used.source,
            expected=used.expected,
            error=used.error,
            day=used.day,
        )
        for each in coming
        if each.subject.meet.starts_on > today
        for lift, used in each.forecasts.items()
        if used is not None
    ]
    if made:
        with desk.store.raw_writing() as connection:
            keep_forecasts(connection, made)
    return len(made)


def past_forecast_error(desk: Desk, athlete_id: int | None = None) -> ForecastError:
    """How far the last forecasts before meets that are over were off, of one athlete or of all."""
    with desk.reading() as reader:
        came = what_came(reader, desk.today(), athlete_id)
    past: list[PastForecast] = []
    for each in came:
        rulebook = desk.rulebooks.books.get(each.meet.rulebook)
        if rulebook is not None:
            past.extend(_past(each, rulebook))
    return forecast_error(past)


def _past(came: Came, rulebook: Rulebook) -> Iterator[PastForecast]:
    last: dict[Lift, KeptForecast] = {}
    for each in came.kept:
        if each.made_on < came.meet.starts_on:
            last[each.lift] = each
    for lift, kept in last.items():
        miss_rate = DEFAULT.miss_rate(lift, Experience.EARLY, came.entry.equipment)
        yield PastForecast(
            came.meet.id,
            kept.expected.kg,
            kept.sd,
            miss_rate,
            tried_at(came.attempts, lift, rulebook),
        )
