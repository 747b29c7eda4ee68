"""What goes on a printed chart of weights and the discs that make them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import ROUND_CEILING

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import HEAVIEST, BarSet, Loading, lightest, load
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit
from coachdesk.services.disc_sets import OfferedSet

MOST_ROWS = 400
"""A chart of more weights than this is a slip of the keys; it would fill eight pages."""


@dataclass(frozen=True, slots=True)
class ChartRow:
    """A weight that the discs make, and how."""

    weight: Mass
    loading: Loading


@dataclass(frozen=True, slots=True)
class LoadingChart:
    """The chart of a disc set: its bar and discs, the step, the weights that can be loaded.

    `rulebook` and `edition` are empty for a coach's own set. `unit` stands first in every row.
    `gaps` counts the steps that the discs do not make.
    """

    name: Text
    unit: Unit
    bar_set: BarSet
    step: Mass
    rows: tuple[ChartRow, ...]
    gaps: int
    rulebook: str
    edition: str
    printed_at: datetime


def loading_chart(
    offered: OfferedSet, *, step: Mass, last: Mass, printed_at: datetime
) -> LoadingChart:
    """The weights from the bare bar up to `last`, in multiples of `step`.

    Raises InvalidInput (field "step" or "last") for a step of nothing, a last weight below the bar
    or above what can be loaded, and for more than `MOST_ROWS` weights.
    """
    weights = list(_weights(offered.bar_set, step, last))
    rows = [
        ChartRow(weight, exact)
        for weight in weights
        if (exact := load(weight, offered.bar_set).exact) is not None
    ]
    rulebook = offered.rulebook
    return LoadingChart(
        name=offered.name,
        unit=offered.unit,
        bar_set=offered.bar_set,
        step=step,
        rows=tuple(rows),
        gaps=len(weights) - len(rows),
        rulebook="" if rulebook is None else rulebook.name,
        edition="" if rulebook is None else rulebook.edition,
        printed_at=printed_at,
    )


def _weights(bar_set: BarSet, step: Mass, last: Mass) -> Iterator[Mass]:
    """The multiples of `step` from the bare bar to `last`."""
    if not step.number > 0:
        raise InvalidInput("step", text("scoring.step_not_positive"))
    bare = lightest(bar_set)
    if last.grams < bare.grams:
        raise InvalidInput("last", text("loading.lighter_than_bar", lightest=bare))
    if last.grams > HEAVIEST.grams:
        raise InvalidInput("last", text("loading.too_heavy", heaviest=HEAVIEST))
    first = (bare.in_unit(step.unit) / step.number).to_integral_value(ROUND_CEILING)
    end = last.in_unit(step.unit) / step.number
    if end - first > MOST_ROWS:
        raise InvalidInput("step", text("bar.too_many_rows", most=MOST_ROWS))
    return (Mass(step.number * at, step.unit) for at in range(int(first), int(end) + 1))
