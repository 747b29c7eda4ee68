"""The load of a training block, planned and done, by week and lift."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from coachdesk.domain.blocks.load import Load, Portion, load_of, loads, percent_of, week_of
from coachdesk.domain.lifting import Lift
from coachdesk.services.block_reading import BlockPage


@dataclass(frozen=True, slots=True)
class BlockLoad:
    """What a block comes to: by week and lift, by week over all lifts, and the lifts there are."""

    planned: Mapping[tuple[int, Lift], Load]
    done: Mapping[tuple[int, Lift], Load]
    planned_weeks: tuple[Load, ...]
    done_weeks: tuple[Load, ...]
    lifts: tuple[Lift, ...]


def block_load(page: BlockPage) -> BlockLoad:
    """The load of a block that was read: planned by the weights on the bar, done as logged."""
    planned, done = tuple(_planned(page)), tuple(_done(page))
    seen = {each.lift for each in (*planned, *done)}
    weeks = range(1, page.block.weeks + 1)
    return BlockLoad(
        planned=loads(planned),
        done=loads(done),
        planned_weeks=tuple(_week(planned, week) for week in weeks),
        done_weeks=tuple(_week(done, week) for week in weeks),
        lifts=tuple(lift for lift in Lift if lift in seen),
    )


def _week(portions: tuple[Portion, ...], week: int) -> Load:
    return load_of(each for each in portions if each.week == week)


def _planned(page: BlockPage) -> Iterator[Portion]:
    maxima = {lift: each.weight for lift, each in page.maxima.items()}
    for exercise in page.exercises:
        for week in range(1, page.block.weeks + 1):
            for each in page.cell(exercise.id, week):
                weight = page.bar_weight(exercise, each)
                asked = page.full_weight(exercise, each)
                percent = percent_of(asked, exercise.lift, maxima)
                if percent is None and each.percent is not None:
                    percent = each.percent * exercise.share
                yield Portion(week, exercise.lift, each.sets * each.reps, weight, percent)


def _done(page: BlockPage) -> Iterator[Portion]:
    maxima = {lift: each.weight for lift, each in page.maxima.items()}
    block = page.block
    for each in (*(one for several in page.logged.values() for one in several), *page.loose):
        week = week_of(block.starts_on, block.weeks, each.on)
        percent = percent_of(each.weight, each.lift, maxima)
        yield Portion(week, each.lift, each.reps, each.weight, percent)
