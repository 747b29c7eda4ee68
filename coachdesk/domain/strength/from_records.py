"""What the records of a lift come to, source by source. Nothing counts but what came before."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from coachdesk.domain.attempts import OPENER_OF_THIRD
from coachdesk.domain.engine_parameters import DEFAULT, Experience, day_spread, widened
from coachdesk.domain.strength.carry_over import CarryOver, PastDay, carry_over
from coachdesk.domain.strength.forecast import Forecast, Source
from coachdesk.domain.strength.from_gym import from_gym
from coachdesk.domain.strength.gym import GymLevel, dynamics, gym_level
from coachdesk.domain.strength.last_meet import MeetBest, from_last_meet
from coachdesk.domain.strength.lift_sources import LiftRecord, LiftSources, PastMeet
from coachdesk.domain.strength.misses import ExpectedDay, miss_history
from coachdesk.domain.strength.observations import Observation
from coachdesk.domain.strength.parameters import (
    CARRY_OVER,
    CARRY_OVER_JUDGED,
    LEARNED_FROM,
    LOOK_BACK,
    RECENT,
)
from coachdesk.domain.strength.tried import Tried, outcome_of

_NOISE = DEFAULT.lift_noise.value


def from_records(record: LiftRecord) -> LiftSources:
    """The sources of a lift without the coach's own number, which `with_own` adds."""
    past = tuple(meet for meet in record.past if meet.on < record.until)
    usual = DEFAULT.miss_rate(record.lift, Experience.after(record.meets_behind), record.equipment)
    carried = {
        Source.JUDGED_SINGLES: _carry_over(record, past, usual, judged=True),
        Source.SETS: _carry_over(record, past, usual, judged=False),
    }
    told_most = max(carried.values(), key=lambda each: each.attempts)
    day = day_spread(told_most.day, first_meet=record.meets_behind == 0)
    days = [
        *_meet_days(record, past, carried[Source.SETS]),
        *_judged_days(record, carried[Source.SETS]),
    ]
    return LiftSources(
        tuple(_forecasts(record, past, carried, day)),
        miss_history(days, usual=usual, usual_attempts=DEFAULT.miss_attempts.value),
        day,
    )


def _forecasts(
    record: LiftRecord,
    past: tuple[PastMeet, ...],
    carried: dict[Source, CarryOver],
    day: float,
) -> Iterator[Forecast]:
    for source, carry in carried.items():
        seen = _observed(record, record.until, judged=source is Source.JUDGED_SINGLES)
        if seen:
            going_on = dynamics(record.meets_behind)
            yield from_gym(source, seen, carry, on=record.on, day=day, going_on=going_on)
    latest = next((meet for meet in past if meet.best is not None), None)
    if latest is not None and latest.best is not None:
        best = MeetBest(latest.best, latest.name, latest.on)
        yield from_last_meet(best, on=record.on, meets_behind=max(1, record.meets_behind), day=day)


def _carry_over(
    record: LiftRecord, past: tuple[PastMeet, ...], usual: float, *, judged: bool
) -> CarryOver:
    days = []
    for meet in past:
        level = _level(record, meet.on, judged=judged)
        if meet.on >= record.until - LOOK_BACK and level is not None:
            days.append(PastDay(level.maximum_kg, level.error, meet.attempts))
    prior = CARRY_OVER_JUDGED if judged else CARRY_OVER
    return carry_over(tuple(days), prior_sd=prior.value, day=_NOISE, miss_rate=usual)


def _observed(record: LiftRecord, before: date, *, judged: bool) -> tuple[Observation, ...]:
    """What the training days before a day tell; nothing where none of them is recent."""
    seen = record.days.between(before - LEARNED_FROM, before, judged=judged)
    return seen if seen and seen[0].on >= before - RECENT else ()


def _level(record: LiftRecord, day: date, *, judged: bool) -> GymLevel | None:
    seen = _observed(record, day, judged=judged)
    if not seen:
        return None
    going_on = dynamics(record.meets_behind)
    return gym_level(seen, noise=_NOISE, forecast_for=day, going_on=going_on)


def _meet_days(
    record: LiftRecord, past: tuple[PastMeet, ...], carry: CarryOver
) -> Iterator[ExpectedDay]:
    """Past meets with what was expected then: the coach's number, else what the gym said, else the
    heaviest weight called for."""
    for meet in past:
        if not meet.attempts:
            continue
        if meet.own is not None:
            yield _day(meet.own.kg, DEFAULT.coach_error.value, meet.attempts)
        else:
            heaviest = max(attempt.weight_kg for attempt in meet.attempts)
            yield _gym_day(record, meet.on, carry, meet.attempts, otherwise_kg=heaviest)


def _judged_days(record: LiftRecord, carry: CarryOver) -> Iterator[ExpectedDay]:
    """Judged singles with what the gym said then; else each is taken for an opener."""
    for logged in record.singles:
        if logged.on >= record.until:
            continue
        outcome = outcome_of(logged.result, logged.cause, record.strength_causes)
        if outcome is None or logged.variation:
            continue
        single = (Tried(logged.weight.kg, outcome),)
        as_opener = logged.weight.kg / float(OPENER_OF_THIRD)
        yield _gym_day(record, logged.on, carry, single, otherwise_kg=as_opener)


def _gym_day(
    record: LiftRecord,
    on: date,
    carry: CarryOver,
    attempts: tuple[Tried, ...],
    *,
    otherwise_kg: float,
) -> ExpectedDay:
    """What was expected matters only where the cause of a miss was not noted."""
    unexplained = any(attempt.is_unexplained for attempt in attempts)
    level = _level(record, on, judged=False) if unexplained else None
    if level is None:
        return _day(otherwise_kg, DEFAULT.coach_error.value, attempts)
    error = widened(level.error, carry.sd)
    return _day(level.maximum_kg * carry.factor, error, attempts)


def _day(expected_kg: float, error: float, attempts: tuple[Tried, ...]) -> ExpectedDay:
    return ExpectedDay(expected_kg, widened(_NOISE, error), attempts)
