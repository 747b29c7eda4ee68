"""Warm-up sets for an opener: the usual ladder, what to leave out, what to put in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.loading import HEAVIEST, BarSet, Disc, lightest
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent
from coachdesk.domain.warmup.ladder import (
    Rung,
    Step,
    best_ladder,
    disc_changes,
    ladder_cost,
    last_steps,
    loadable,
    near,
)
from coachdesk.domain.warmup.practice import (
    FULL_HEIGHT_AT_MOST,
    FULL_HEIGHT_GRAMS,
    LAST_FROM,
    LAST_TO,
    LAST_WANTED,
    LIGHT_FROM,
    STAY_WARM,
    Gear,
    gear_stage,
    hurried_count,
    ideal_shares,
    minutes_before_call,
    repetitions,
    set_count,
)

SECONDS_AN_ATTEMPT = 60
"""The usual pace of a flight [s an attempt]: common practice; the clock gives a minute."""

_MOST_SECONDS = 600


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmUpSet:
    """One set.

    `discs_per_side` run from the inside out. From the set before, or from the empty bar,
    `taken_off` discs come off each side and `put_on` go on. It is taken `minutes` [min] before
    the call, when `attempts_out` attempts still stand before ours. `gear` is what an equipped
    lifter wears, None for a classic one.
    """

    weight: Mass
    reps: int
    discs_per_side: tuple[Disc, ...]
    taken_off: int
    put_on: int
    minutes: int
    attempts_out: int
    gear: Gear | None = None
    notes: tuple[Text, ...] = ()

    @property
    def disc_changes(self) -> int:
        """Discs moved on each side."""
        return self.taken_off + self.put_on


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmUps:
    """The warm-ups of a lift for an opener.

    `usual` is the whole ladder. `late` is what is left of it when time is short. `early` is put
    in after the last set when the flight is delayed, and again while it stays so. `seconds` [s] is
    the pace its minutes and attempts are reckoned with.
    """

    lift: Lift
    opener: Mass
    seconds: int
    usual: tuple[WarmUpSet, ...]
    late: tuple[WarmUpSet, ...]
    early: tuple[WarmUpSet, ...]
    notes: tuple[Text, ...] = ()

    @property
    def left_out(self) -> tuple[WarmUpSet, ...]:
        """The usual sets that are left out when time is short."""
        kept = {one.weight.grams for one in self.late}
        return tuple(one for one in self.usual if one.weight.grams not in kept)


def attempts_in(minutes: float, seconds: int = SECONDS_AN_ATTEMPT) -> int:
    """How many attempts are taken in `minutes` [min], at `seconds` [s] an attempt, rounded."""
    return round(minutes * 60 / seconds)


def minutes_of(attempts: int, seconds: int = SECONDS_AN_ATTEMPT) -> float:
    """How long `attempts` take [min], at `seconds` [s] an attempt."""
    return attempts * seconds / 60


def warm_ups(
    lift: Lift,
    *,
    opener: Mass,
    room: BarSet,
    equipment: Equipment = Equipment.CLASSIC,
    seconds: int = SECONDS_AN_ATTEMPT,
) -> WarmUps:
    """The warm-ups for `opener` with the bar, collars and discs of the warm-up room.

    The ladder begins with the empty bar, in the deadlift with a disc of full height where that is
    not too heavy, and ends with a single of 88 to 93 % of the opener. `seconds` is the pace of the
    flight [s an attempt], 1 to 600. Rules of thumb are common practice (see `practice`); the
    weights are found by the cost in `ladder`.

    Raises InvalidInput: field "opener" for less than the bar with its collars or more than can be
    loaded, "room" when there are no discs, "seconds" for a pace outside its range.
    """
    _check(opener, room, seconds)
    steps = _usual_steps(lift, opener.grams, room)
    reps = repetitions([step.grams / opener.grams for step in steps])
    maker = _Maker(lift, opener, equipment, seconds)
    last = steps[-1]
    usual = list(zip(steps, reps, strict=True))
    late = _hurried(usual, opener.grams)
    early = _staying_warm(usual, opener.grams)
    return WarmUps(
        lift=lift,
        opener=opener,
        seconds=seconds,
        usual=maker.sets(usual),
        late=maker.sets(late, hurried=True),
        early=maker.sets(early, on_the_bar=last.pattern),
        notes=_notes(last, opener, room),
    )


def _check(opener: Mass, room: BarSet, seconds: int) -> None:
    if not (opener.number.is_finite() and opener.grams <= HEAVIEST.grams):
        raise InvalidInput("opener", text("loading.too_heavy", heaviest=HEAVIEST))
    bare = lightest(room)
    if opener.grams < bare.grams:
        raise InvalidInput("opener", text("loading.lighter_than_bar", lightest=bare))
    if all(disc.pairs == 0 for disc in room.discs):
        raise InvalidInput("room", text("warmup.no_discs"))
    if not 1 <= seconds <= _MOST_SECONDS:
        raise InvalidInput("seconds", text("warmup.pace", most=_MOST_SECONDS))


def _usual_steps(lift: Lift, opener_grams: int, room: BarSet) -> tuple[Step, ...]:
    """The weights of the usual ladder."""
    steps = loadable(room, opener_grams)
    last = last_steps(room, opener_grams)
    first = _first_steps(lift, steps, opener_grams)
    if last[-1].grams <= first[0].grams:
        first = steps[:1]
    if last[-1].grams <= first[0].grams:
        return steps[:1]
    span = round(LAST_WANTED * opener_grams) - first[0].grams
    ideals = ideal_shares(first[0].grams / opener_grams, set_count(lift, opener_grams, span))
    rungs = [
        Rung(ideals[0], first),
        *(Rung(ideal, near(steps, ideal, opener_grams)) for ideal in ideals[1:-1]),
        Rung(ideals[-1], last),
    ]
    return best_ladder(rungs, opener_grams)


def _first_steps(lift: Lift, steps: Sequence[Step], opener_grams: int) -> tuple[Step, ...]:
    """What the first set may weigh: the bare bar, in the deadlift with discs of full height."""
    if lift is Lift.DEADLIFT:
        high = [
            step
            for step in steps
            if _has_full_height(step) and step.grams <= FULL_HEIGHT_AT_MOST * opener_grams
        ]
        if high:
            return near(high, high[0].grams / opener_grams, opener_grams)
    return tuple(steps[:1])


def _has_full_height(step: Step) -> bool:
    return any(disc.weight.grams >= FULL_HEIGHT_GRAMS for disc in step.loading.discs_per_side)


_Planned = tuple[Step, int]
"""A weight and its repetitions."""


def _hurried(usual: Sequence[_Planned], opener_grams: int) -> list[_Planned]:
    """The first set, the last, and those between them that make the cheapest shorter ladder."""
    between = hurried_count(len(usual)) - 2
    if between < 0:
        return list(usual)
    ideals = ideal_shares(usual[0][0].grams / opener_grams, between + 2)
    ladders = ([usual[0], *middle, usual[-1]] for middle in combinations(usual[1:-1], between))
    return min(
        ladders,
        key=lambda ladder: ladder_cost([step for step, _ in ladder], ideals, opener_grams),
    )


def _staying_warm(usual: Sequence[_Planned], opener_grams: int) -> list[_Planned]:
    """A middle weight for two repetitions at most, then the last set again."""
    if len(usual) == 1:
        return list(usual)
    step, reps = min(
        usual[:-1], key=lambda planned: abs(planned[0].grams / opener_grams - STAY_WARM)
    )
    return [(step, min(reps, 2)), usual[-1]]


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes sets of weights and repetitions: discs, times, gear, notes."""

    lift: Lift
    opener: Mass
    equipment: Equipment
    seconds: int

    def sets(
        self,
        planned: Sequence[_Planned],
        *,
        hurried: bool = False,
        on_the_bar: tuple[int, ...] = (),
    ) -> tuple[WarmUpSet, ...]:
        """The sets, from a bar that carries the pattern `on_the_bar`."""
        gear = [self._gear(step) for step, _ in planned]
        times = minutes_before_call(gear, hurried=hurried)
        made = []
        for (step, reps), stage, minutes in zip(planned, gear, times, strict=True):
            off, on = disc_changes(on_the_bar, step.pattern)
            on_the_bar = step.pattern
            low = self.lift is Lift.DEADLIFT and not _has_full_height(step)
            made.append(
                WarmUpSet(
                    weight=step.loading.total,
                    reps=reps,
                    discs_per_side=step.loading.discs_per_side,
                    taken_off=off,
                    put_on=on,
                    minutes=minutes,
                    attempts_out=attempts_in(minutes, self.seconds),
                    gear=stage,
                    notes=(text("warmup.low_bar"),) if low else (),
                )
            )
        return tuple(made)

    def _gear(self, step: Step) -> Gear | None:
        if self.equipment is Equipment.CLASSIC:
            return None
        return gear_stage(self.lift, step.grams / self.opener.grams)


def _notes(last: Step, opener: Mass, room: BarSet) -> tuple[Text, ...]:
    """What to know about the whole ladder."""
    notes = []
    bare = lightest(room)
    if bare.grams >= LIGHT_FROM * opener.grams:
        notes.append(text("warmup.light_opener", bar=bare, share=_share(bare.grams, opener)))
    if not LAST_FROM <= last.grams / opener.grams <= LAST_TO:
        notes.append(
            text(
                "warmup.last_off",
                least=Percent(LAST_FROM * 100, 0),
                most=Percent(LAST_TO * 100, 0),
                share=_share(last.grams, opener),
            )
        )
    return tuple(notes)


def _share(grams: int, opener: Mass) -> Percent:
    return Percent(grams / opener.grams * 100, 0)
