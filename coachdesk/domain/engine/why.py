"""Why a plan does what it does, where it is not obvious."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coachdesk.domain.attempts import OPENER_OF_THIRD
from coachdesk.domain.engine.rules import Limits
from coachdesk.domain.engine.tree import Node, Way
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent

_UNUSUAL_STEPS = 2
_SETTLED = 0.005
_OPEN = 0.02


@dataclass(frozen=True, slots=True)
class Reasons:
    """What a plan was made with, as far as it explains the plan."""

    expected: Mass
    limits: Limits


def explained(opener: Node, reasons: Reasons) -> Node:
    """The plan with notes at the attempts that need one.

    An opener two steps or more from the textbook's, a weight raised after a miss, a jump as far as
    the cap allows, a garment's floor, and where the first aim is settled.
    """
    return _noted(opener, _of_opener(opener, reasons), reasons)


def _noted(node: Node, notes: tuple[Text, ...], reasons: Reasons) -> Node:
    ways = tuple(
        Way(way.outcomes, way.chance, _noted(way.then, _of_next(node, way, reasons), reasons))
        for way in node.ways
    )
    return replace(node, ways=ways, notes=notes)


def _of_opener(opener: Node, reasons: Reasons) -> tuple[Text, ...]:
    steps = reasons.limits.steps
    unit = steps.step.unit
    textbook = steps.down(reasons.expected.in_unit(unit) * OPENER_OF_THIRD)
    apart = (opener.weight.in_unit(unit) - textbook.in_unit(unit)) / steps.step.number
    floor = reasons.limits.floor
    if floor is not None and opener.weight.grams - floor.grams < steps.step.grams:
        return (text("engine.why.floor", floor=floor),)
    if apart <= -_UNUSUAL_STEPS:
        return (text("engine.why.low_opener", textbook=textbook),)
    if apart >= _UNUSUAL_STEPS:
        return (text("engine.why.high_opener", textbook=textbook),)
    return ()


def _of_next(node: Node, way: Way, reasons: Reasons) -> tuple[Text, ...]:
    notes = []
    raised = way.then.weight.grams > node.weight.grams
    if raised and not way.outcomes[0].is_good:
        notes.append(text("engine.why.raised_after_miss"))
    cap = reasons.limits.largest_jump
    if cap is not None and raised:
        jump = way.then.weight.grams / node.weight.grams - 1
        step = reasons.limits.steps.step.grams / node.weight.grams
        if cap - step < jump <= cap:
            notes.append(text("engine.why.jump_capped", most=Percent(100 * cap)))
    if node.aim is not None and way.then.aim is not None:
        if way.then.aim <= _SETTLED and node.aim > _OPEN:
            notes.append(text("engine.why.aim_gone"))
        if way.then.aim >= 1 - _SETTLED and node.aim < 1 - _OPEN:
            notes.append(text("engine.why.aim_made"))
    return tuple(notes)
