"""What differs between two plans of an entry, in words."""

from __future__ import annotations

from collections.abc import Iterator

from coachdesk.domain.attempts import AttemptPlan, LiftPlan, Outcome, Turn
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent

_SAME_CHANCE = 0.0005


def changes_between(before: AttemptPlan, after: AttemptPlan) -> tuple[Text, ...]:
    """What `after` says otherwise than `before`: numbers planned on, weights, risk; nothing where
    both are the same."""
    said: list[Text] = []
    for plan in after.lifts:
        said.extend(_of_lift(before.of(plan.lift), plan))
    gone = [plan.lift for plan in before.lifts if after.of(plan.lift) is None]
    said.extend(text("plan_change.lift_gone", lift=text(f"lift.{lift}")) for lift in gone)
    if before.outlook is not None and after.outlook is not None:
        was, now = before.outlook, after.outlook
        if was.expected_total != now.expected_total:
            said.append(text("plan_change.total", was=was.expected_total, now=now.expected_total))
        if abs(was.no_total - now.no_total) >= _SAME_CHANCE:
            said.append(
                text(
                    "plan_change.risk",
                    was=Percent(100 * was.no_total),
                    now=Percent(100 * now.no_total),
                )
            )
    return tuple(said)


def _percent(chance: float) -> Percent:
    return Percent(100 * chance, 1)


def _of_lift(before: LiftPlan | None, after: LiftPlan) -> list[Text]:
    lift = text(f"lift.{after.lift}")
    if before is None:
        return [text("plan_change.lift_new", lift=lift, path=after.good_path)]
    said: list[Text] = []
    if before.expected != after.expected:
        said.append(
            text("plan_change.expected", lift=lift, was=before.expected, now=after.expected)
        )
    if before.good_path != after.good_path:
        said.append(text("plan_change.path", lift=lift, was=before.good_path, now=after.good_path))
    elif before.opener.weight == after.opener.weight and _weights(before) != _weights(after):
        said.append(text("plan_change.other_turns", lift=lift))
    return said


def _weights(plan: LiftPlan) -> list[tuple[tuple[Outcome, ...], Mass]]:
    """The weight at every turn the lift can take."""

    def walk(turn: Turn, seen: tuple[Outcome, ...]) -> Iterator[tuple[tuple[Outcome, ...], Mass]]:
        yield seen, turn.weight
        for branch in turn.branches:
            yield from walk(branch.turn, (*seen, branch.outcome))

    return list(walk(plan.opener, ()))
