"""What an athlete can be expected to lift on the day, and where that number comes from.

In order: the coach's own number; the best one-repetition maximum of the last six weeks' sets of
the competition lift; the best lift of the latest meet. The equation is Brzycki 1993, the lowest
of the usual ones from two to nine repetitions, since an opener must go up on a bad day.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import Equation, one_rep_max, usable
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass, Unit, from_grams

RECENT = timedelta(weeks=6)
EQUATION = Equation.BRZYCKI


@dataclass(frozen=True, slots=True)
class Expected:
    """The maximum to plan on, and where it comes from, in words."""

    maximum: Mass
    source: Text


@dataclass(frozen=True, slots=True)
class MeetBest:
    """The best good lift of an earlier meet."""

    maximum: Mass
    meet: str
    on: date


def expected_maximum(
    lift: Lift,
    *,
    coach: Mass | None,
    sets: Iterable[LoggedSetData],
    last_meet: MeetBest | None,
    on: date,
) -> Expected | None:
    """The maximum to plan `lift` on as seen on the day `on`; None when nothing is known."""
    if coach is not None:
        return Expected(coach, text("expected_max.coach"))
    best = max(
        (
            (_grams(logged), logged)
            for logged in sets
            if logged.lift is lift and _tells(logged) and on - RECENT <= logged.on <= on
        ),
        key=lambda pair: pair[0],
        default=None,
    )
    if best is not None:
        grams, logged = best
        code = "expected_max.judged_single" if logged.judged else "expected_max.set"
        reserve = (
            text("expected_max.reserve_unknown")
            if logged.rir is None
            else text("expected_max.reserve", number=f"{logged.rir:g}")
        )
        source = text(code, weight=logged.weight, count=logged.reps, reserve=reserve, day=logged.on)
        return Expected(_rounded(grams, logged.weight.unit), source)
    if last_meet is not None:
        source = text("expected_max.last_meet", meet=last_meet.meet, day=last_meet.on)
        return Expected(last_meet.maximum, source)
    return None


def _tells(logged: LoggedSetData) -> bool:
    return (
        not logged.variation
        and logged.result is not Result.NO_LIFT
        and usable(logged.reps, logged.rir or 0)
    )


def _grams(logged: LoggedSetData) -> float:
    return 1000 * one_rep_max(EQUATION, logged.weight.kg, logged.reps, logged.rir or 0)


def _rounded(grams: float, unit: Unit) -> Mass:
    """To 0.1 kg: an equation knows no more than that."""
    return from_grams(round(grams / 100) * 100, unit)
