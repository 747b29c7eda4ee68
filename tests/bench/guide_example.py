"""The worked example of the guide's page on attempts: an invented athlete, planned by the program.

What is believed of her is given here and not taken from the program's defaults, so that the page
shows what it says it shows.
"""

from __future__ import annotations

from dataclasses import replace

from coachdesk.domain.attempts import AttemptPlan, LiftPlan, Outcome, Steps, Turn
from coachdesk.domain.engine import LiftBelief, MissRate
from coachdesk.domain.engine.curve import chances_at
from coachdesk.domain.engine.plan_basis import Basis, PlanRequest
from coachdesk.domain.engine.whole_plan import whole_plan
from coachdesk.domain.lifting import Lift
from coachdesk.domain.plan_outlook import DayOutlook, LiftOutlook
from coachdesk.domain.text import text
from coachdesk.domain.units import Percent, kilograms
from coachdesk.ui.screens.meets.turn_rows import turn_rows
from coachdesk.wording.wording import Wording
from tests.bench.markdown import table

NUMBERS_KG = {Lift.SQUAT: 130, Lift.BENCH: 75, Lift.DEADLIFT: 155}
MISSES = {Lift.SQUAT: 0.09, Lift.BENCH: 0.05, Lift.DEADLIFT: 0.04}
SD = 0.036
"""3 % of a day's ups and downs and 2 % of what the number may be off: the root of the sum of their
squares."""
MISS_ATTEMPTS = 20
EIGHT_IN_TEN = 1.2816
HEAVIER_KG = (5, 10)
"""How much heavier than planned the openers are that the page tries."""
STEP_KG = 2.5

_REQUEST = PlanRequest(
    rulebook="the example's",
    edition="",
    steps=Steps(step=kilograms(STEP_KG), lightest=kilograms(25)),
    record_step=kilograms("0.5"),
    first_meet=False,
    lifts={
        lift: Basis(
            belief=LiftBelief(kilograms(number), SD, MissRate.learned(MISSES[lift], MISS_ATTEMPTS)),
            source=text("expected_max.coach"),
        )
        for lift, number in NUMBERS_KG.items()
    },
)


class Example:
    """The plan, and what the page shows of it; `words` are those of the screen."""

    def __init__(self, words: Wording) -> None:
        self._words = words
        self._plan = _planned(_REQUEST)
        self._squat = self._lift(Lift.SQUAT)

    def blocks(self) -> dict[str, str]:
        """What the page shows, by the names of its places."""
        return {
            "numbers": self._numbers(),
            "outlook": self._outlook(),
            "squat": self._turns(),
            "all lifts": self._all_lifts(),
            "first try": self._first_try(),
            "what was seen": self._what_was_seen(),
            "overruled": self._overruled(),
        }

    def _numbers(self) -> str:
        rows = []
        for lift, number in NUMBERS_KG.items():
            low, high = (number * (1 + side * EIGHT_IN_TEN * SD) for side in (-1, 1))
            rows.append(
                (self._name(lift), f"{number} kg", f"{low:.0f} to {high:.0f} kg",
                 self._whole(MISSES[lift]))
            )  # fmt: skip
        head = ("Lift", "Your number", "Eight days in ten", "Other misses")
        return table(head, rows)

    def _outlook(self) -> str:
        plan, textbook = _outlook_of(self._plan), self._plan.textbook
        assert textbook is not None
        head = ("The day", "Expected total", "No total", "Every attempt good")
        return table(
            head,
            [("The plan", *self._day(plan)), ("The textbook pattern", *self._day(textbook))],
        )

    def _turns(self) -> str:
        rows = [
            (row.label, f"{row.weight} kg", row.good, row.taken)
            for row in turn_rows(self._squat, self._words)
        ]
        return table(("Turn", "Weight", "Goes up", "Comes to it"), rows)

    def _all_lifts(self) -> str:
        rows = []
        for plan in self._plan.lifts:
            outlook = _lift_outlook(plan)
            weights = [self._words.mass(turn.weight) for turn in _likeliest(plan.opener)]
            none = self._tenth(outlook.no_lift)
            best = self._words.mass(outlook.expected_best)
            rows.append((self._name(plan.lift), *weights, best, none))
        head = ("Lift", "Opener", "Second", "Third", "Best, on average", "No lift")
        return table(head, rows)

    def _first_try(self) -> str:
        opener, third = (turn.weight.kg for turn in _likeliest(self._squat.opener)[::2])
        count = round((third - opener) / STEP_KG)
        weights = [opener + STEP_KG * at for at in range(count + 1)]
        chances = chances_at(self._squat, weights)
        head = ("First try at", *(f"{weight:g} kg" for weight in weights))
        return table(head, [("Goes up", *(self._whole(chance) for chance in chances))])

    def _what_was_seen(self) -> str:
        second, third = _likeliest(self._squat.opener)[1:]
        missed = second.after(Outcome.STRENGTH)
        assert missed is not None
        at_first = chances_at(self._squat, [second.weight.kg, third.weight.kg])
        return (
            f"{self._words.mass(third.weight)} goes up {self._whole(at_first[1])} of the time"
            " if it is the very first thing she tries. As a third, after a good opener and a second"
            f" that moved as planned, it goes up {self._whole(_known(third.good))} of the time:"
            f" those two lifts have said that it is one of her better days."
            f" {self._words.mass(missed.weight)} as a first try goes up"
            f" {self._whole(at_first[0])} of the time; a second time, after a miss at it,"
            f" {self._whole(_known(missed.good))}."
        )

    def _overruled(self) -> str:
        planned = self._squat.opener.weight.kg
        rows = []
        for more in (0, *HEAVIER_KG):
            opener = kilograms(planned + more)
            chosen = {(Lift.SQUAT, 1): opener} if more else {}
            plan = _planned(replace(_REQUEST, chosen=chosen))
            outlook = _outlook_of(plan)
            squat = plan.of(Lift.SQUAT)
            assert squat is not None
            total, none, all_good = self._day(outlook)
            counted = outlook.expected_total.kg * (1 - outlook.no_total)
            whose = "" if more else ", as planned"
            rows.append(
                (f"{opener.kg:g} kg{whose}", self._whole(_known(squat.opener.good)), total, none,
                 all_good, f"{counted:.1f} kg")
            )  # fmt: skip
        head = ("Squat opener", "Goes up", "Expected total", "No total", "All good",
                "No total as 0")  # fmt: skip
        return table(head, rows)

    def _lift(self, lift: Lift) -> LiftPlan:
        plan = self._plan.of(lift)
        assert plan is not None
        return plan

    def _day(self, outlook: DayOutlook) -> tuple[str, str, str]:
        total = f"{outlook.expected_total.kg:.1f} kg"
        return total, self._tenth(outlook.no_total), self._whole(_known(outlook.all_good))

    def _name(self, lift: Lift) -> str:
        return self._words(f"lift.{lift}")

    def _whole(self, chance: float) -> str:
        return self._words.show(Percent(100 * chance, 0))

    def _tenth(self, chance: float) -> str:
        return self._words.show(Percent(100 * chance, 1))


def _planned(request: PlanRequest) -> AttemptPlan:
    plan, faults = whole_plan(request)
    assert not faults
    return plan


def _likeliest(opener: Turn) -> list[Turn]:
    """The turns the day most probably comes to when every attempt is good."""
    turns = [opener]
    while turns[-1].branches:
        good = [then for seen, then in turns[-1].ways if seen[0].is_good]
        turns.append(max(good, key=lambda turn: _known(turn.taken)))
    return turns


def _outlook_of(plan: AttemptPlan) -> DayOutlook:
    assert plan.outlook is not None
    return plan.outlook


def _lift_outlook(plan: LiftPlan) -> LiftOutlook:
    assert plan.outlook is not None
    return plan.outlook


def _known(chance: float | None) -> float:
    assert chance is not None
    return chance
