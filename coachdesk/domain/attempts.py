"""Plans of attempts: a small tree a handler can follow, and the textbook pattern.

The textbook pattern: the opener is about 91 % of the third, the second about 5 % above the
opener, the third about 3 % above the second, and a missed weight is repeated. Source: Travis et
al. 2021, lifters who made all nine attempts; the three figures do not close (0.91 x 1.05 x 1.03
is 0.984), so the third is the anchor here and the last jump takes up the difference. That a
missed weight is repeated is common practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_UP, Decimal
from enum import StrEnum

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.plan_outlook import Checkpoint, DayOutlook, LiftOutlook
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Percent

OPENER_OF_THIRD = Decimal("0.91")
SECOND_OF_OPENER = Decimal("1.05")
LARGEST_JUMP_FIRST_MEET = Decimal("0.075")
"""Our own caution for a first meet: no jump above 7.5 %, though never under one step."""


class Outcome(StrEnum):
    """What a handler sees of an attempt, as far as a plan distinguishes it.

    A plan branches on made and missed, or on how a good lift moved and why a lift was missed.
    """

    GOOD = "good"
    EASY = "easy"
    AS_PLANNED = "as_planned"
    GRIND = "grind"
    NO_LIFT = "no_lift"
    STRENGTH = "strength"
    TECHNICAL = "technical"
    PASSED = "passed"

    @property
    def is_good(self) -> bool:
        """Whether the lift counts."""
        return self in {Outcome.GOOD, Outcome.EASY, Outcome.AS_PLANNED, Outcome.GRIND}


_USUAL = {Outcome.GOOD: Outcome.AS_PLANNED, Outcome.NO_LIFT: Outcome.STRENGTH}


class Method(StrEnum):
    """How a plan was made; it stands on everything that shows the plan."""

    TEXTBOOK = "textbook"
    ENGINE = "engine"


@dataclass(frozen=True, slots=True)
class Turn:
    """One attempt of a plan and where each outcome leads; no branches after the third.

    Where the plan was made with chances (0 to 1), `taken` is that the day comes to it, `good` that
    it is good then, and `aim` that the first aim is met from there on, where there is one. `fixed`
    marks a weight the coach chose; `notes` say why, where it is not obvious.
    """

    number: int
    weight: Mass
    branches: tuple[Branch, ...] = ()
    taken: float | None = None
    good: float | None = None
    aim: float | None = None
    fixed: bool = False
    notes: tuple[Text, ...] = ()

    @property
    def ways(self) -> tuple[tuple[tuple[Outcome, ...], Turn], ...]:
        """What may be seen of the attempt, together where the same follows, and what follows."""
        return together(self.branches)

    def after(self, outcome: Outcome) -> Turn | None:
        """The next attempt after `outcome`, or None after the third.

        Where a plan branches more finely, a good lift goes the way that is likeliest among good
        ones, a missed one that among missed ones; without chances one that moved as planned, or
        was missed on strength.
        """
        for branch in self.branches:
            if branch.outcome is outcome:
                return branch.turn
        if outcome not in _USUAL:
            return None
        likely = [
            (turn.taken or 0.0, _USUAL[outcome] in seen, turn)
            for seen, turn in self.ways
            if any(each.is_good is outcome.is_good for each in seen)
        ]
        return max(likely, key=lambda way: way[:2])[2] if likely else None


@dataclass(frozen=True, slots=True)
class Branch:
    """The turn that follows an outcome."""

    outcome: Outcome
    turn: Turn


def together(branches: tuple[Branch, ...]) -> tuple[tuple[tuple[Outcome, ...], Turn], ...]:
    """Branches by the turn they lead to."""
    found: dict[Turn, list[Outcome]] = {}
    for branch in branches:
        found.setdefault(branch.turn, []).append(branch.outcome)
    return tuple((tuple(seen), turn) for turn, seen in found.items())


@dataclass(frozen=True, slots=True)
class LiftPlan:
    """The plan for one lift: what it is built on, and the tree from the opener on.

    `source` says where the expected maximum comes from, `notes` what the coach should know,
    `outlook` what it leads to, where chances were worked out.
    """

    lift: Lift
    expected: Mass
    source: Text
    opener: Turn
    notes: tuple[Text, ...] = ()
    outlook: LiftOutlook | None = None

    @property
    def good_path(self) -> tuple[Mass, ...]:
        """The weights when every attempt is good, from the opener on."""
        turn, path = self.opener, [self.opener.weight]
        while (following := turn.after(Outcome.GOOD)) is not None:
            turn = following
            path.append(turn.weight)
        return tuple(path)

    @property
    def when_all_good(self) -> Mass:
        """The last weight when every attempt is good."""
        return self.good_path[-1]


@dataclass(frozen=True, slots=True)
class Fix:
    """A weight the coach fixed for `lift` after what was `seen` before; nothing for the opener."""

    lift: Lift
    seen: tuple[Outcome, ...]
    weight: Mass


@dataclass(frozen=True, slots=True)
class AttemptPlan:
    """A plan of attempts for a whole entry.

    Where chances were worked out, `outlook` says what the plan leads to and `textbook` what the
    textbook pattern would. `fixes` are the turns fixed besides the attempts chosen, `checkpoints`
    belong to an aim on the total, `notes` say what the coach should know of the whole. `aim` names
    the first aim the plan was made for, None for the biggest total, and `caps` the coach's caps.
    """

    method: Method
    rulebook: str
    edition: str
    lifts: tuple[LiftPlan, ...]
    outlook: DayOutlook | None = None
    textbook: DayOutlook | None = None
    checkpoints: tuple[Checkpoint, ...] = ()
    fixes: tuple[Fix, ...] = ()
    notes: tuple[Text, ...] = ()
    aim: Text | None = None
    caps: tuple[Text, ...] = ()

    def of(self, lift: Lift) -> LiftPlan | None:
        """The plan for `lift`, or None where nothing was known to plan from."""
        return next((plan for plan in self.lifts if plan.lift is lift), None)


@dataclass(frozen=True, slots=True)
class Steps:
    """What the rules say about weights on the bar: the step, and the lightest loadable bar."""

    step: Mass
    lightest: Mass

    def down(self, number: Decimal) -> Mass:
        """The step at or below `number` (in the step's unit), not below the lightest bar."""
        return self._stepped(number, ROUND_DOWN)

    def nearest(self, number: Decimal) -> Mass:
        """The step nearest to `number` (in the step's unit), not below the lightest bar."""
        return self._stepped(number, ROUND_HALF_EVEN)

    def up(self, number: Decimal) -> Mass:
        """The step at or above `number` (in the step's unit), not below the lightest bar."""
        return self._stepped(number, ROUND_UP)

    def allows(self, weight: Mass) -> bool:
        """Whether `weight` is a multiple of the step and not below the lightest bar."""
        number = weight.in_unit(self.step.unit)
        return number % self.step.number == 0 and weight.grams >= self.lightest.grams

    def _stepped(self, number: Decimal, rounding: str) -> Mass:
        step = self.step.number
        stepped = (number / step).to_integral_value(rounding) * step
        if stepped < self.lightest.in_unit(self.step.unit):
            stepped = (self.lightest.in_unit(self.step.unit) / step).to_integral_value(
                ROUND_UP
            ) * step
        return Mass(stepped, self.step.unit)


def textbook_plan(
    lift: Lift,
    *,
    expected: Mass,
    source: Text,
    steps: Steps,
    first_meet: bool,
    opener: Mass | None = None,
    second: Mass | None = None,
    third: Mass | None = None,
) -> LiftPlan:
    """The textbook pattern for one lift, in the rulebook's steps.

    `expected` is the day's maximum to plan the third on; `opener`, `second` and `third` are
    weights the coach has already chosen, and the rest is planned around them. Weights go up after
    a good lift, by a step at least, and stay after a no lift; a first meet's largest jump caps
    what is planned and is said of what was chosen. Raises InvalidInput (field "expected",
    "opener", "second" or "third") for a weight below the lightest loadable bar or off the steps,
    and for an opener above the day's maximum.
    """
    check_not_below_bar("expected", expected, steps)
    maximum = expected.in_unit(steps.step.unit)
    first = steps.down(maximum * OPENER_OF_THIRD) if opener is None else opener
    _check_opener(first, expected, steps)
    chosen = {"second": second, "third": third}
    notes: list[Text] = []
    path = [first]
    for name, wanted in (
        ("second", steps.nearest(first.in_unit(steps.step.unit) * SECOND_OF_OPENER)),
        ("third", steps.down(maximum)),
    ):
        own = chosen[name]
        if own is not None:
            check_on_bar(name, own, steps)
        weight = _raised(path[-1], wanted if own is None else own, steps)
        capped = _capped(path[-1], weight, steps) if first_meet else weight
        if own is not None and capped != weight:
            most = Percent(float(LARGEST_JUMP_FIRST_MEET * 100))
            notes.append(
                text("attempts.jump_first_meet", weight=weight, before=path[-1], most=most)
            )
        path.append(capped if own is None else weight)
    if path[-1].grams > expected.grams:
        code = "attempts.third_above_expected" if third is None else "attempts.third_chosen_above"
        notes.append(text(code, third=path[-1], expected=expected))
    return LiftPlan(lift, expected, source, _tree(*path), tuple(notes))


def check_on_bar(field: str, weight: Mass, steps: Steps) -> None:
    """A weight that can be asked for: on the steps, not below the lightest loadable bar; raises
    InvalidInput."""
    check_not_below_bar(field, weight, steps)
    if not steps.allows(weight):
        raise InvalidInput(field, text("attempts.off_step", weight=weight, step=steps.step))


def check_not_below_bar(field: str, weight: Mass, steps: Steps) -> None:
    """No weight below the lightest loadable bar; raises InvalidInput."""
    if weight.grams < steps.lightest.grams:
        raise InvalidInput(field, text("attempts.below_bar", lightest=steps.lightest))


def check_chosen(
    chosen: Mapping[int, Mass], number: int, weight: Mass, steps: Steps, field: str = "weight"
) -> None:
    """A weight the coach chooses for attempt `number` of a lift, beside those in `chosen`.

    It can be asked for (see `check_on_bar`), and the bar never gets lighter from one attempt to
    the next; raises InvalidInput (`field`).
    """
    check_on_bar(field, weight, steps)
    for other, beside in sorted(chosen.items()):
        if other < number and beside.grams > weight.grams:
            raise InvalidInput(
                field, text("attempts.below_earlier", weight=weight, number=other, before=beside)
            )
        if other > number and beside.grams < weight.grams:
            raise InvalidInput(
                field, text("attempts.above_later", weight=weight, number=other, after=beside)
            )


def _check_opener(opener: Mass, expected: Mass, steps: Steps) -> None:
    check_on_bar("opener", opener, steps)
    if opener.grams > expected.grams:
        raise InvalidInput(
            "opener", text("attempts.opener_above_expected", opener=opener, expected=expected)
        )


def _raised(before: Mass, wanted: Mass, steps: Steps) -> Mass:
    """`wanted`, but at least a step above `before`."""
    least = Mass(before.in_unit(steps.step.unit) + steps.step.number, steps.step.unit)
    return wanted if wanted.grams >= least.grams else least


def _capped(before: Mass, wanted: Mass, steps: Steps) -> Mass:
    """`wanted`, but no further above `before` than a first meet's largest jump or one step."""
    number = before.in_unit(steps.step.unit)
    most = max(
        steps.down(number * (1 + LARGEST_JUMP_FIRST_MEET)).number, number + steps.step.number
    )
    return wanted if wanted.in_unit(steps.step.unit) <= most else Mass(most, steps.step.unit)


def _tree(first: Mass, second: Mass, third: Mass) -> Turn:
    """A good lift moves on to the next planned weight, a missed weight is repeated."""
    planned = (first, second, third)

    def turn(number: int, reached: int) -> Turn:
        if number == 3:
            return Turn(number, planned[reached])
        return Turn(
            number,
            planned[reached],
            (
                Branch(Outcome.GOOD, turn(number + 1, reached + 1)),
                Branch(Outcome.NO_LIFT, turn(number + 1, reached)),
            ),
        )

    return turn(1, 0)
