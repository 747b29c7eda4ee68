"""What logged sets tell of a lift's one-repetition maximum: one observation a training day.

The equation is Brzycki 1993, the lowest of the usual ones from two to nine repetitions, since an
opener must go up on a bad day. What the other six say apart from it counts as its error; so does
the guess at the reserve. A set whose reserve was not noted is counted with none, and so tells the
least that was there: of such days only the best one counts, and only where the others do not
say more.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from math import hypot, sqrt
from operator import attrgetter

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import Equation, one_rep_max, over_a_single, usable
from coachdesk.domain.strength.parameters import NOT_CALLED, RECENT
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass

EQUATION = Equation.BRZYCKI
_ON = attrgetter("on")
_GUESS = 1.0
_FAR_GUESS = 2.0
_FAR_FROM = 5.0


@dataclass(frozen=True, slots=True)
class Observation:
    """The best set of a training day: the maximum it comes to [kg], and how far off that may be.

    `error` is a standard deviation, a fraction of the maximum, without the training day's noise.
    """

    on: date
    weight: Mass
    reps: int
    rir: float | None
    judged: bool
    maximum_kg: float
    error: float

    @property
    def is_least(self) -> bool:
        """Whether it only tells the least that was there: the reserve was not noted."""
        return self.rir is None


@dataclass(frozen=True, slots=True)
class LiftDays:
    """What an athlete's training days say of a lift, soonest first: by `judged` singles, and by all
    other sets; one observation a day of each."""

    judged: tuple[Observation, ...] = ()
    sets: tuple[Observation, ...] = ()

    @classmethod
    def of(cls, seen: Iterable[Observation]) -> LiftDays:
        """What these observations say, one of each kind a day."""
        in_order = sorted(seen, key=_ON)
        return cls(
            tuple(each for each in in_order if each.judged),
            tuple(each for each in in_order if not each.judged),
        )

    def between(self, since: date, before: date, *, judged: bool) -> tuple[Observation, ...]:
        """Those that count of the days from `since` on and before another, latest first."""
        of_kind = self.judged if judged else self.sets
        first = bisect_left(of_kind, since, key=_ON)
        return counted(of_kind[first : bisect_left(of_kind, before, key=_ON)])

    def one_a_day(self) -> tuple[Observation, ...]:
        """Those that count, a judged single before the other sets of its day where it tells as
        much, latest first.

        A set that nobody called may be off by `NOT_CALLED` more.
        """
        best = {each.on: replace(each, error=_not_called(each)) for each in self.sets}
        for single in self.judged:
            other = best.get(single.on)
            if other is None or single.error <= other.error:
                best[single.on] = single
        return counted(sorted(best.values(), key=_ON))


def observe(
    on: date, weight: Mass, reps: int, rir: float | None, *, judged: bool = False
) -> Observation | None:
    """What a set of the competition lift tells; None beyond ten effective repetitions."""
    maximum = maximum_kg(weight.kg, reps, rir)
    if maximum is None:
        return None
    error = hypot(_equations_apart(reps, rir or 0.0), _reserve_error(reps, rir))
    return Observation(on, weight, reps, rir, judged, maximum, error)


def maximum_kg(weight_kg: float, reps: int, rir: float | None) -> float | None:
    """The one-repetition maximum [kg] of a set; None beyond ten effective repetitions."""
    factor = _over_weight(reps, rir or 0.0)
    return None if factor is None else weight_kg * factor


def lift_days(sets: Iterable[LoggedSetData], lift: Lift) -> LiftDays:
    """The best of each day's sets of `lift`; variations and no lifts tell nothing."""
    best: dict[tuple[bool, date], Observation] = {}
    for logged in sets:
        if logged.lift is not lift or logged.variation or logged.result is Result.NO_LIFT:
            continue
        seen = observe(logged.on, logged.weight, logged.reps, logged.rir, judged=logged.judged)
        so_far = best.get((logged.judged, logged.on))
        if seen is not None and (so_far is None or so_far.maximum_kg < seen.maximum_kg):
            best[logged.judged, logged.on] = seen
    return LiftDays.of(best.values())


def counted(in_order: Sequence[Observation]) -> tuple[Observation, ...]:
    """Those that count, latest first: those with a reserve, and of the others the best one of all
    within `RECENT` of it. What lies below others tells nothing, since more may have been left."""
    found = []
    first = 0
    for at, each in enumerate(in_order):
        if not each.is_least:
            found.append(each)
            continue
        while each.on - in_order[first].on > RECENT:
            first += 1
        if all(_yields(other, each) for other in _near(in_order, first, at)):
            found.append(each)
    return tuple(reversed(found))


def _near(in_order: Sequence[Observation], first: int, at: int) -> Iterator[Observation]:
    """The others from `first` on to the last within `RECENT` of the one in the place `at`."""
    yield from in_order[first:at]
    for other in in_order[at + 1 :]:
        if other.on - in_order[at].on > RECENT:
            return
        yield other


def _yields(other: Observation, least: Observation) -> bool:
    """Whether a day leaves it to `least` to say how much was there; of equals the latest does."""
    if other.maximum_kg == least.maximum_kg:
        return not other.is_least or other.on < least.on
    return other.maximum_kg < least.maximum_kg


def _not_called(seen: Observation) -> float:
    return hypot(seen.error, NOT_CALLED.value)


@cache
def _over_weight(reps: int, rir: float) -> float | None:
    """The maximum over the weight; None where a set tells none."""
    return one_rep_max(EQUATION, 1.0, reps, rir) if usable(reps, rir) else None


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
