"""The team's weight board: how each entry ahead stands to its class, and to the way down agreed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.class_fit import Verdict
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.weight_plan import Standing, WeightPlan, standing_to
from coachdesk.services.class_standing import ClassStanding, standing_to_class
from coachdesk.storage.today_queries import EntryState

_PRESSING = (
    Verdict.NOT_IN_TIME,
    Verdict.NO_PLAN,
    Verdict.HARD,
    Verdict.STEADY,
    Verdict.COMFORTABLE,
    Verdict.IN_CLASS,
)
"""Verdicts, most pressing first."""


@dataclass(frozen=True, slots=True)
class BoardLine:
    """How an athlete stands to the class of an entry.

    `levels` [kg] are those of the days up to the last reading, a day apart. `plan` is the way down
    agreed on for the class entered, `line` how the weight stands to it.
    """

    meet: Meet
    entry: Entry
    athlete: Athlete
    standing: ClassStanding
    levels: tuple[float, ...]
    plan: WeightPlan | None
    line: Standing | None

    @property
    def is_above(self) -> bool:
        """Whether the athlete is above the class, with the weigh-in still to come."""
        fit = self.standing.fit
        is_weighed = self.entry.bodyweight is not None
        return fit is not None and fit.verdict is not Verdict.IN_CLASS and not is_weighed


def board_line(state: EntryState, rulebook: Rulebook, today: date) -> BoardLine:
    """How an entry stands; raises Trouble or InvalidInput as `standing_to_class` does."""
    standing = standing_of(state, state.entry, rulebook, today)
    plan = plan_in_force(state.plan, standing)
    line = None
    if plan is not None and state.weight is not None:
        line = standing_to(plan, state.weight, today)
    levels = () if state.weight is None else state.weight.levels
    return BoardLine(state.meet, state.entry, state.athlete, standing, levels, plan, line)


def standing_of(state: EntryState, entry: Entry, rulebook: Rulebook, today: date) -> ClassStanding:
    """How `entry`, the one of `state` or one that differs from it, stands to its class."""
    return standing_to_class(
        entry,
        state.meet,
        state.athlete,
        rulebook,
        session=state.session,
        weight=state.weight,
        today=today,
        first_meet=state.first_meet,
    )


def plan_in_force(plan: WeightPlan | None, standing: ClassStanding) -> WeightPlan | None:
    """The way down agreed on, as long as the class is the same and nothing bars it."""
    fit = standing.fit
    if plan is None or fit is None or fit.verdict is Verdict.NO_PLAN:
        return None
    return plan if plan.weight_class == fit.weight_class.name else None


def ranked(lines: Iterable[BoardLine]) -> tuple[BoardLine, ...]:
    """The most pressing first: by verdict, then by the day to arrive, then by how far to go.

    Those of whom nothing is known come last.
    """
    return tuple(sorted(lines, key=_pressing))


def _pressing(line: BoardLine) -> tuple[int, date, float]:
    fit, present = line.standing.fit, line.standing.present
    if fit is None or present is None:
        return len(_PRESSING), line.meet.starts_on, 0.0
    return _PRESSING.index(fit.verdict), fit.arrive_on, -(fit.gap_kg or 0.0) / present.kg
