"""What logged sets tell of a lift's one-repetition maximum: one observation a training day.

The equation is Brzycki 1993, the lowest of the usual ones from two to nine repetitions, since an
opener must go up on a bad day. What the other six say apart from it counts as its error; so does
the guess at the reserve. A set whose reserve was not noted is counted with none, and so tells the
least that was there: of such days only the best one counts, and only where the others do not
say more.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache
from math import hypot, sqrt

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import Equation, one_rep_max, over_a_single, usable
from coachdesk.domain.training import LoggedSetData

EQUATION = Equation.BRZYCKI
_GUESS = 1.0
_FAR_GUESS = 2.0
_FAR_FROM = 5.0


@dataclass(frozen=True, slots=True)
class Observation:
    """The best set of a training day: the maximum it comes to [kg], and how far off that may be.

    `error` is a standard deviation, a fraction of the maximum, without the training day's noise.
    """

    logged: LoggedSetData
    maximum_kg: float
    error: float

    @property
    def on(self) -> date:
        """The training day."""
        return self.logged.on

    @property
    def is_least(self) -> bool:
        """Whether it only tells the least that was there: the reserve was not noted."""
        return self.logged.rir is None


def observe(logged: LoggedSetData) -> Observation | None:
    """What a set tells; None for a variation, a no lift, or beyond ten effective repetitions."""
    rir = logged.rir or 0.0
    tells = not logged.variation and logged.result is not Result.NO_LIFT
    if not tells or not usable(logged.reps, rir):
        return None
    maximum = one_rep_max(EQUATION, logged.weight.kg, logged.reps, rir)
    error = hypot(_equations_apart(logged.reps, rir), _reserve_error(logged.reps, logged.rir))
    return Observation(logged, maximum, error)


def observations(
    sets: Iterable[LoggedSetData], lift: Lift, *, judged: bool, since: date, before: date
) -> tuple[Observation, ...]:
    """The observations of `lift` from a day on and before another, latest first: from judged
    singles, or from all other sets."""
    best: dict[date, Observation] = {}
    for logged in sets:
        if logged.lift is not lift or logged.judged is not judged:
            continue
        if not since <= logged.on < before:
            continue
        seen = observe(logged)
        if seen is None:
            continue
        so_far = best.get(seen.on)
        if so_far is None or so_far.maximum_kg < seen.maximum_kg:
            best[seen.on] = seen
    return tuple(sorted(_telling(best.values()), key=lambda each: each.on, reverse=True))


def _telling(found: Iterable[Observation]) -> list[Observation]:
    """Those with a reserve, and the best of the others where it tells more than they do."""
    listed = list(found)
    telling = [each for each in listed if not each.is_least]
    least = [each for each in listed if each.is_least]
    best = max(least, key=lambda each: (each.maximum_kg, each.on), default=None)
    if best is not None and all(each.maximum_kg <= best.maximum_kg for each in telling):
        telling.append(best)
    return telling


@cache
def _equations_apart(reps: int, rir: float) -> float:
    """How far the equations lie from the one used, root mean square, as a fraction.

    Each from its own single on, so that a single leaves nothing open and every repetition more.
    """
    own = over_a_single(EQUATION, reps, rir)
    squares = [(over_a_single(each, reps, rir) / own - 1.0) ** 2 for each in Equation]
    return sqrt(sum(squares) / (len(squares) - 1))


def _reserve_error(reps: int, rir: float | None) -> float:
    """What the guess at the reserve may be off, as a fraction of the maximum.

    About one repetition, two beyond five in reserve (Hackett 2017), but never more than the reserve
    itself; one where none was noted. A repetition more is 1 / (37 - repetitions) by Brzycki.
    """
    reserve = 0.0 if rir is None else rir
    guess = _GUESS if reserve <= _FAR_FROM else _FAR_GUESS
    most = guess if rir is None else min(rir, guess)
    return most / (37.0 - reps - reserve)
