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
from coachdesk.domain.units import kilograms
from coachdesk.ui.screens.meets.turn_rows import turn_rows
from tests.bench.guide_words import GuideWords
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
    """The plan, and what the page shows of it, in a language."""

    def __init__(self, words: GuideWords) -> None:
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
        rows, words = [], self._words
        for lift, number in NUMBERS_KG.items():
            low, high = (number * (1 + side * EIGHT_IN_TEN * SD) for side in (-1, 1))
            span = words("example", "from_to", low=f"{low:.0f}", high=words.kilograms(high, 0))
            rows.append(
                (self._name(lift), words.kilograms(number), span, self._whole(MISSES[lift]))
            )
        return table(words.head("numbers"), rows)

    def _outlook(self) -> str:
        plan, textbook = _outlook_of(self._plan), self._plan.textbook
        assert textbook is not None
        rows = [
            (self._words("example", "plan"), *self._day(plan)),
            (self._words("example", "textbook"), *self._day(textbook)),
        ]
        return table(self._words.head("outlook"), rows)

    def _turns(self) -> str:
        say = self._words.of_program
        rows = [
            (row.label, say("number.mass", number=row.weight, unit="kg"), row.good, row.taken)
            for row in turn_rows(self._squat, say)
        ]
        return table(self._words.head("turns"), rows)

    def _all_lifts(self) -> str:
        rows = []
        for plan in self._plan.lifts:
            outlook = _lift_outlook(plan)
            mass = self._words.of_program.mass
            weights = [mass(turn.weight) for turn in _likeliest(plan.opener)]
            none = self._tenth(outlook.no_lift)
            rows.append((self._name(plan.lift), *weights, mass(outlook.expected_best), none))
        return table(self._words.head("all_lifts"), rows)

    def _first_try(self) -> str:
        opener, third = (turn.weight.kg for turn in _likeliest(self._squat.opener)[::2])
        count = round((third - opener) / STEP_KG)
        weights = [opener + STEP_KG * at for at in range(count + 1)]
        chances = chances_at(self._squat, weights)
        say = self._words
        head = (say("example", "first_try"), *(say.kilograms(weight) for weight in weights))
        goes_up = (say("example", "goes_up"), *(self._whole(chance) for chance in chances))
        return table(head, [goes_up])

    def _what_was_seen(self) -> str:
        second, third = _likeliest(self._squat.opener)[1:]
        missed = second.after(Outcome.STRENGTH)
        assert missed is not None
        at_first = chances_at(self._squat, [second.weight.kg, third.weight.kg])
        mass = self._words.of_program.mass
        return self._words(
            "example",
            "seen",
            third=mass(third.weight),
            at_first=self._whole(at_first[1]),
            later=self._whole(_known(third.good)),
            second=mass(missed.weight),
            once=self._whole(at_first[0]),
            again=self._whole(_known(missed.good)),
        )

    def _overruled(self) -> str:
        planned, say = self._squat.opener.weight.kg, self._words
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
            shown = say.kilograms(opener.kg)
            if not more:
                shown = say("example", "as_planned", opener=shown)
            goes_up = self._whole(_known(squat.opener.good))
            rows.append((shown, goes_up, total, none, all_good, say.kilograms(counted, 1)))
        return table(say.head("overruled"), rows)

    def _lift(self, lift: Lift) -> LiftPlan:
        plan = self._plan.of(lift)
        assert plan is not None
        return plan

    def _day(self, outlook: DayOutlook) -> tuple[str, str, str]:
        total = self._words.kilograms(outlook.expected_total.kg, 1)
        return total, self._tenth(outlook.no_total), self._whole(_known(outlook.all_good))

    def _name(self, lift: Lift) -> str:
        return self._words.of_program(f"lift.{lift}")

    def _whole(self, chance: float) -> str:
        return self._words.percent(chance, 0)

    def _tenth(self, chance: float) -> str:
        return self._words.percent(chance, 1)


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
