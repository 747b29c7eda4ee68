"""A day's readings as one observation, the noise learned from them, and which of them are odd."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.bodyweight.parameters import (
    LEAST_NOISE,
    NOISE,
    NOISE_LOOK_BACK,
    NOISE_WORTH,
    ODD,
    SAME_DAY,
)
from coachdesk.domain.bodyweight.weighing import Weighing
from coachdesk.domain.trend_filter import Day, Dynamics, State, smoothed, surprises

_CLOSE_ENOUGH = 0.01
_MOST_PASSES = 12
_MOST_ROUNDS = 20
_NEIGHBOUR_DAYS = 14
_NOTHING_KNOWN = 1e-5


@dataclass(frozen=True, slots=True)
class Odd:
    """What the other days lead a reading to show: `expected` [kg], off by `square` variances."""

    day: int
    expected: float
    square: float
    doubt: float


@dataclass(frozen=True, slots=True)
class Judged:
    """A history once it is judged.

    `states` by day, from the readings of the `days`; `noise` the variance of a reading [kg2]; `odd`
    the odd weighings by their place, each with the `doubt` that widened it [kg2].
    """

    states: Sequence[State]
    days: Sequence[Day]
    noise: float
    odd: Mapping[int, Odd]


class History:
    """Weighings by their days, the first on day 0, for so many `days`."""

    def __init__(self, weighings: Sequence[Weighing], days: int) -> None:
        self._weighings = weighings
        self._by_day: list[list[int]] = [[] for _ in range(days)]
        first, last = weighings[0].reading.on, weighings[-1].reading.on
        for place, weighing in enumerate(weighings):
            self._by_day[(weighing.reading.on - first).days].append(place)
        self._learn_from = next(
            number
            for number, places in enumerate(self._by_day)
            if places and last - weighings[places[0]].reading.on < NOISE_LOOK_BACK
        )

    def judged(self, dynamics: Dynamics) -> Judged:
        """Learn the noise and judge each reading by the other days, in turn until both agree.

        A reading `ODD` standard deviations off counts for less, the further off the less: its
        variance grows with the fourth power, so that the level follows it less and less. Of odd
        neighbours the oddest alone is doubted in a round, since it makes the others look odd too.
        """
        found = self._under({}, NOISE.value**2, dynamics)
        for _ in range(_MOST_ROUNDS):
            doubted = _doubted(dict(self._far_off(found)), found.odd)
            if _settled(doubted, found.odd):
                break
            found = self._under(doubted, found.noise, dynamics)
        return found

    def _under(self, odd: Mapping[int, Odd], noise: float, dynamics: Dynamics) -> Judged:
        """The history under the doubts about the `odd` ones; the noise lies about `noise`."""
        readings = self._readings(odd)
        noise = learned(readings[self._learn_from :], noise, dynamics)
        days = observed(readings, noise)
        return Judged(smoothed(days, _start(readings, dynamics), dynamics), days, noise, odd)

    def _readings(self, odd: Mapping[int, Odd]) -> list[list[tuple[float, float]]]:
        """Each day's readings [kg], each with the variance of its own, doubts included [kg2]."""
        weighings = self._weighings
        found = [(weighing.kg, weighing.variance) for weighing in weighings]
        for place, doubted in odd.items():
            kg, variance = found[place]
            found[place] = (kg, variance + doubted.doubt)
        return [[found[place] for place in places] for places in self._by_day]

    def _far_off(self, found: Judged) -> Iterator[tuple[int, Odd]]:
        """The weighings that lie far off what the other days lead to expect, by their place."""
        most_squares = ODD.value**2
        for number, (day, state) in enumerate(zip(found.days, found.states, strict=True)):
            if day is None:
                continue
            value, error = day
            known = 1.0 / state.level_variance - 1.0 / error
            if known < _NOTHING_KNOWN:
                continue
            expected = (state.level / state.level_variance - value / error) / known
            for place in self._by_day[number]:
                weighing = self._weighings[place]
                own = found.noise + weighing.variance
                square = (weighing.kg - expected) ** 2 / (1.0 / known + own)
                if square > most_squares:
                    doubt = own * ((square / most_squares) ** 2 - 1.0)
                    yield place, Odd(number, expected, square, doubt)


def learned(
    readings: Sequence[Sequence[tuple[float, float]]], start: float, dynamics: Dynamics
) -> float:
    """The noise at which the readings surprise as much as is expected of them, a variance [kg2].

    The usual noise counts as `NOISE_WORTH` readings. Days after a gap tell little of the noise and
    count little (the squares are weighed as in Fisher's scoring); no surprise counts for more than
    that of a reading just short of odd. The first day has a reading; the search begins at `start`.
    """
    usual, least = NOISE.value**2, LEAST_NOISE.value**2
    most_squares = ODD.value**2
    begin = _start(readings, dynamics)
    noise = start
    for _ in range(_MOST_PASSES):
        information = NOISE_WORTH.value / noise**2
        score = information * (usual - noise)
        for off, expected in surprises(observed(readings, noise), begin, dynamics):
            weight = 1.0 / (expected * expected)
            information += weight
            score += weight * (min(off * off, most_squares * expected) - expected)
        before, noise = noise, max(least, noise + score / information)
        if abs(noise - before) <= _CLOSE_ENOUGH * before:
            break
    return noise


def observed(readings: Sequence[Sequence[tuple[float, float]]], noise: float) -> list[Day]:
    """Each day's readings [kg], each with a variance of its own [kg2], as one observation.

    The greater part of the `noise`'s variance is the day's and shared by all of its readings.
    """
    apart = SAME_DAY.value * noise
    days: list[Day] = []
    for seen in readings:
        if not seen:
            days.append(None)
        elif len(seen) == 1:
            kg, variance = seen[0]
            days.append((kg, noise + variance))
        else:
            weights = [1.0 / (apart + variance) for _, variance in seen]
            total = sum(weights)
            mean = sum(weight * kg for weight, (kg, _) in zip(weights, seen, strict=True)) / total
            days.append((mean, noise - apart + 1.0 / total))
    return days


def _start(readings: Sequence[Sequence[tuple[float, float]]], dynamics: Dynamics) -> State:
    """What is known before the first day, which has a reading."""
    return dynamics.start(readings[0][0][0])


def _doubted(far: Mapping[int, Odd], before: Mapping[int, Odd]) -> dict[int, Odd]:
    """Those doubted `before` that are still far off, and the oddest of their neighbours' others."""
    fresh = {place: found for place, found in far.items() if place not in before}
    return {
        place: found
        for place, found in far.items()
        if place in before
        or not any(
            abs(other.day - found.day) <= _NEIGHBOUR_DAYS
            and (other.square, at) > (found.square, place)
            for at, other in fresh.items()
        )
    }


def _settled(now: Mapping[int, Odd], before: Mapping[int, Odd]) -> bool:
    return now.keys() == before.keys() and all(
        abs(found.doubt - before[place].doubt) <= _CLOSE_ENOUGH * before[place].doubt
        for place, found in now.items()
    )
