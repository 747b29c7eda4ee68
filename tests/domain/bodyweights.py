"""Bodyweight readings for tests of the trend."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time, timedelta
from random import Random

from coachdesk.domain.athlete import Dress, Reading
from coachdesk.domain.units import from_grams

START = date(2026, 1, 5)


def day(number: int) -> date:
    """The day so many days after the start."""
    return START + timedelta(days=number)


def reading(
    number: int,
    kg: float,
    *,
    at: time | None = None,
    dress: Dress = Dress.UNKNOWN,
    scale: str = "",
    athlete_id: int = 1,
) -> Reading:
    """A reading of `kg` so many days after the start."""
    return Reading(
        id=number,
        version=1,
        athlete_id=athlete_id,
        on=day(number),
        weight=from_grams(round(1000 * kg)),
        at=at,
        dress=dress,
        scale=scale,
    )


def daily(weights: Iterable[float]) -> list[Reading]:
    """A reading each day from the start on [kg]."""
    return [reading(number, kg) for number, kg in enumerate(weights)]


def noisy(
    days: int, *, start_kg: float = 82.0, a_week: float = 0.0, sd: float = 0.35, seed: int = 1
) -> list[float]:
    """Weights of so many days [kg] along a straight line, `a_week` [kg], shown to a tenth."""
    random = Random(seed)  # noqa: S311
    return [round(start_kg + a_week / 7 * at + random.gauss(0, sd), 1) for at in range(days)]
