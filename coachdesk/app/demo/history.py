"""A believable past for the demo club: bodyweights and training, drawn from a seed.

All draws go by days and weeks before today, so that another day gives the same club, shifted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from random import Random

from coachdesk.app.demo.file import BlockPattern, Causes, Club, Record, SetPattern, Weight
from coachdesk.domain.athlete import Dress, ReadingData
from coachdesk.domain.lifting import Result
from coachdesk.domain.one_rep_max import Equation, weight_for
from coachdesk.domain.training import BlockData, LoggedSetData
from coachdesk.domain.units import KG_PER_LB, Mass, Unit, kilograms, pounds

AFTERNOON_KG = 1.1
WEEKS_BACK = 52
DAY_TO_DAY_SD_KG = 0.37
GYM_STEPS = {Unit.KG: (2.5, 20), Unit.LB: (5, 45)}
"""The step that a gym's discs make, and its empty bar, in the unit."""


@dataclass(frozen=True, slots=True)
class Gaps:
    """Spells of days before today without any record: holidays, a cold."""

    spells: tuple[tuple[int, int], ...]

    def hold(self, days_ago: int) -> bool:
        """Whether the day lies in a spell."""
        return any(first <= days_ago <= last for first, last in self.spells)


def draw_gaps(rng: Random) -> Gaps:
    """Two spells of one to two weeks, none in the last seven weeks."""
    firsts = [rng.randrange(50, 340) for _ in range(2)]
    return Gaps(tuple((first, first + rng.randrange(7, 14)) for first in firsts))


@dataclass(frozen=True, slots=True)
class Trainee:
    """An athlete on file whose records are drawn."""

    id: int
    unit: Unit
    record: Record
    gaps: Gaps


def bodyweight_kg(weight: Weight, days_ago: int) -> float:
    """The morning bodyweight [kg] that readings scatter around: a slow trend and slow waves."""
    trend = weight.now + (weight.year_ago - weight.now) * min(days_ago / 365, 1)
    return trend + 0.3 * math.sin(days_ago / 18)


def readings(rng: Random, athlete: Trainee, today: date) -> Iterator[ReadingData]:
    """A year of bodyweights up to yesterday, most in the morning, some after work in clothes."""
    weight = athlete.record.weight
    for days_ago in range(WEEKS_BACK * 7, 0, -1):
        if rng.random() >= weight.a_week / 7 or athlete.gaps.hold(days_ago):
            continue
        late = rng.random() < 0.1
        kg = bodyweight_kg(weight, days_ago) + rng.gauss(0, DAY_TO_DAY_SD_KG)
        yield ReadingData(
            athlete_id=athlete.id,
            on=today - timedelta(days=days_ago),
            weight=_scale(kg + AFTERNOON_KG if late else kg, athlete.unit),
            at=time(17 if late else 6, 10 + rng.randrange(40)),
            dress=Dress.LIGHT if late else Dress.UNDRESSED,
        )


def pick(rng: Random, codes: Sequence[str]) -> str:
    """One of the codes."""
    return rng.choice(codes)


@dataclass(frozen=True, slots=True)
class DatedBlock:
    """A block of a plan and the Monday it starts on."""

    starts_on: date
    pattern: BlockPattern

    @property
    def ends_on(self) -> date:
        """The first day after it."""
        return self.starts_on + timedelta(weeks=self.pattern.weeks)

    def data(self, athlete_id: int) -> BlockData:
        """The block as it goes on an athlete's file."""
        return BlockData(
            athlete_id=athlete_id,
            name=self.pattern.name,
            purpose=self.pattern.purpose,
            starts_on=self.starts_on,
            weeks=self.pattern.weeks,
        )


def dated_blocks(club: Club, record: Record, today: date) -> Iterator[DatedBlock]:
    """The blocks of a record's plan that were not over before its records begin."""
    starts_on = today - timedelta(days=today.weekday(), weeks=WEEKS_BACK)
    for pattern in club.plans[record.plan]:
        block = DatedBlock(starts_on, pattern)
        if block.ends_on > _first_day(record, today):
            yield block
        starts_on = block.ends_on


def logged_sets(
    rng: Random, club: Club, athlete: Trainee, block: DatedBlock, block_id: int, today: date
) -> Iterator[LoggedSetData]:
    """The sets of a block on file, up to yesterday."""
    first_day = _first_day(athlete.record, today)
    for week in range(block.pattern.weeks):
        for pattern in club.weeks[athlete.record.week]:
            on = block.starts_on + timedelta(weeks=week, days=pattern.day)
            days_ago = (today - on).days
            if days_ago < 1 or on < first_day or athlete.gaps.hold(days_ago):
                continue
            draw = _SetDraw(rng, athlete, pattern, on, days_ago, block_id)
            if is_judged(block.pattern, pattern):
                yield draw.judged_single(club.causes[pattern.lift])
            yield draw.work_set(block.pattern, week)


def is_judged(block: BlockPattern, pattern: SetPattern) -> bool:
    """Whether a judged single goes before the set: before top sets of the competition lifts."""
    return block.judged and not pattern.variation and pattern.drop == 1


def reps_and_reserve(block: BlockPattern, week: int) -> tuple[int, float]:
    """The repetitions and the reserve of a week of a block, from 0."""
    done = week / max(block.weeks - 1, 1)
    return round(_between(block.reps, done)), _between(block.rir, done)


def gym_weight(kg: float, unit: Unit) -> Mass:
    """The nearest weight that a gym's discs make."""
    step, bar = GYM_STEPS[unit]
    return _mass(max(round(_in_unit(kg, unit) / step) * step, bar), unit)


@dataclass(frozen=True, slots=True)
class _SetDraw:
    """One set about to be drawn."""

    rng: Random
    athlete: Trainee
    pattern: SetPattern
    on: date
    days_ago: int
    block_id: int

    def work_set(self, block: BlockPattern, week: int) -> LoggedSetData:
        """A set at the block's repetitions and reserve; the reserve noted is a guess."""
        reps, rir = reps_and_reserve(block, week)
        maximum = self._maximum()
        aimed = weight_for(Equation.BRZYCKI, maximum, reps, rir)
        weight = self._rounded(aimed * self.pattern.drop)
        return self._logged(weight, reps, self._reserve(weight, maximum, reps))

    def judged_single(self, causes: Causes) -> LoggedSetData:
        """A commanded single near an opener, now and then spoiled by technique."""
        maximum = self._maximum()
        weight = self._rounded(maximum * self.rng.uniform(0.88, 0.94))
        good = self.rng.random() < 0.84
        return self._logged(
            weight,
            1,
            self._reserve(weight, maximum, 1),
            judged=True,
            result=Result.GOOD if good else Result.NO_LIFT,
            cause="" if good else pick(self.rng, causes.technique),
        )

    def _maximum(self) -> float:
        strength = self.athlete.record.strength
        return strength.maximum(self.pattern.lift, self.days_ago) * self.pattern.share

    def _rounded(self, kg: float) -> Mass:
        return gym_weight(kg, self.athlete.unit)

    def _reserve(self, weight: Mass, maximum: float, reps: int) -> float:
        """What Brzycki's equation leaves, guessed to half a repetition and never below none."""
        left = 37 - 36 * weight.kg / maximum - reps + self.rng.gauss(-0.3, 0.4)
        return min(max(round(left * 2) / 2, 0.0), 5.0)

    def _logged(
        self,
        weight: Mass,
        reps: int,
        rir: float,
        *,
        judged: bool = False,
        result: Result | None = None,
        cause: str = "",
    ) -> LoggedSetData:
        return LoggedSetData(
            athlete_id=self.athlete.id,
            on=self.on,
            lift=self.pattern.lift,
            weight=weight,
            reps=reps,
            rir=rir,
            variation=self.pattern.variation,
            judged=judged,
            result=result,
            cause=cause,
            block_id=self.block_id,
        )


def _between(ends: tuple[float, float], done: float) -> float:
    return ends[0] + (ends[1] - ends[0]) * done


def _first_day(record: Record, today: date) -> date:
    return today - timedelta(weeks=record.weeks_logged)


def _scale(kg: float, unit: Unit) -> Mass:
    """What a scale at home shows: tenths of a kilogram, fifths of a pound."""
    parts = 10 if unit is Unit.KG else 5
    return _mass(round(_in_unit(kg, unit) * parts) / parts, unit)


def _in_unit(kg: float, unit: Unit) -> float:
    return kg if unit is Unit.KG else kg / float(KG_PER_LB)


def _mass(number: float, unit: Unit) -> Mass:
    return kilograms(number) if unit is Unit.KG else pounds(number)
