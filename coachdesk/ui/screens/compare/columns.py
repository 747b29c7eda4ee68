"""The columns of the table: what each shows of a line, and what it sorts by."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial

from coachdesk.domain.lifting import Lift
from coachdesk.services.compare import CompareChoice, Line, Needed
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.compare.presenter import ComparePresenter
from coachdesk.wording.wording import Wording

APART = "kind"
"""The column that tells apart what is not ranked together."""

EQUAL = frozenset({"equal_total", "equal_one"})
"""Columns that hold something only where an athlete to equal is chosen."""


def columns_of(
    presenter: ComparePresenter, words: Wording, choice: Callable[[], CompareChoice]
) -> list[Column[Line]]:
    """The columns; `choice` tells what the lines shown were chosen by."""

    def plain(key: str, show: Callable[[Line], str]) -> Column[Line]:
        return Column(key, words(f"compare.column.{key}"), show)

    def figure(
        key: str, show: Callable[[Line], str], sort: Callable[[Line], float | None]
    ) -> Column[Line]:
        head = words(f"compare.column.{key}", unit=presenter.unit.value)
        return Column(key, head, show, sort, to_right=True)

    def lift_column(lift: Lift) -> Column[Line]:
        return figure(lift.value, partial(presenter.lift, lift), partial(_lift_g, lift))

    def needed_column(key: str, needed: Callable[[Line], Needed | None]) -> Column[Line]:
        return figure(
            key,
            lambda line: presenter.needed(needed(line)),
            lambda line: _more_g(needed(line)),
        )

    progress = figure("progress", presenter.progress, _gained_g)
    return [
        figure("rank", presenter.rank, lambda line: line.rank),
        plain("athlete", lambda line: line.athlete.name),
        plain("kind", presenter.kind),
        figure("points", presenter.score, lambda line: line.points),
        plain("scored_by", lambda line: presenter.scored_by(line, choice())),
        figure("total", presenter.total, _total_g),
        needed_column("equal_total", _equal_total),
        needed_column("equal_one", _equal_lift),
        *(lift_column(lift) for lift in Lift),
        figure("bodyweight", presenter.bodyweight, _bodyweight_kg),
        replace(progress, tip=presenter.progress_tip),
        plain("meet", presenter.meet),
        Column("day", words("compare.column.day"), presenter.day, _day),
    ]


def _lift_g(lift: Lift, line: Line) -> int | None:
    return None if line.day is None else line.day.performance.best_g.get(lift)


def _total_g(line: Line) -> int | None:
    return None if line.day is None else line.day.performance.total_g


def _bodyweight_kg(line: Line) -> float | None:
    return None if line.day is None else line.day.performance.bodyweight_kg


def _gained_g(line: Line) -> int | None:
    return None if line.progress is None else line.progress.grams


def _day(line: Line) -> date | None:
    return None if line.day is None else line.day.on


def _equal_total(line: Line) -> Needed | None:
    return None if line.equal is None else line.equal.total


def _equal_lift(line: Line) -> Needed | None:
    return None if line.equal is None else line.equal.lift


def _more_g(needed: Needed | None) -> int | None:
    return None if needed is None else needed.more_g
