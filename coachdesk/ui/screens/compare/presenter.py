"""Compare, without widgets: choices as typed, lines as shown."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TypeAlias

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.performance import AgeFactor, Scale
from coachdesk.domain.scoring import Formula, printed
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit, from_grams, kilograms, pounds
from coachdesk.services import typed
from coachdesk.services.compare import (
    CompareChoice,
    Counted,
    Line,
    Needed,
    compare,
)
from coachdesk.services.compare_days import CompareData, is_large, read_compare_data
from coachdesk.services.desk import Desk
from coachdesk.wording.wording import Wording

Choices: TypeAlias = list[tuple[str, str]]

_STEPS = {
    "0.5": kilograms("0.5"),
    "1": kilograms(1),
    "2.5": kilograms("2.5"),
    "5lb": pounds(5),
}


@dataclass(frozen=True, slots=True)
class Compared:
    """What the screen shows for a choice."""

    choice: CompareChoice
    lines: tuple[Line, ...] = ()
    notes: tuple[str, ...] = ()
    athletes: Choices = field(default_factory=list)


class ComparePresenter:
    """Reads when it must, and works every choice out from what was read."""

    def __init__(self, desk: Desk, words: Wording, formula: Formula) -> None:
        self._desk = desk
        self._words = words
        self._formula = formula
        self._data: CompareData | None = None

    def forget(self) -> None:
        """What was read is stale."""
        self._data = None

    def is_slow(self) -> bool:
        """Whether there is so much on file that it is better compared in the background."""
        return is_large(self._desk)

    def choice(self, values: dict[str, str]) -> CompareChoice:
        """The choice that was typed; raises InvalidInput."""
        return _choice(values)

    def first_values(self) -> dict[str, str]:
        """The choices to begin with."""
        return {"formula": self._formula, "counted": Counted.BEST, "equal_on": Lift.DEADLIFT}

    def compared(self, choice: CompareChoice) -> Compared:
        """The lines for a choice."""
        data = self._data = self._data or read_compare_data(self._desk)
        lines = compare(data, choice, self._desk.rulebooks)
        nobody = ("", self._words("compare.equal.nobody"))
        athletes = [nobody, *((str(each.id), each.name) for each in data.athletes)]
        return Compared(choice, lines, tuple(self._notes(choice, lines)), athletes)

    # what can be chosen

    def counted_choices(self) -> Choices:
        """Which result counts."""
        return [(each.value, self._words(f"compare.counted.{each}")) for each in Counted]

    def lift_choices(self) -> Choices:
        """The total, or one lift."""
        return [("", self._words("compare.total")), *self.single_lift_choices()]

    def single_lift_choices(self) -> Choices:
        """One of the lifts."""
        return [(lift.value, self._words(f"lift.{lift}")) for lift in Lift]

    def formula_choices(self) -> Choices:
        """The formulas, each under its own name."""
        return [(each.value, self._words(f"formula.{each}")) for each in Formula]

    def event_choices(self) -> Choices:
        """Any event, or one."""
        events = [(each.value, self._words(f"event.{each}")) for each in Event]
        return [("", self._words("compare.any_event")), *events]

    def equipment_choices(self) -> Choices:
        """Any equipment, or one."""
        kinds = [(each.value, self._words(f"equipment.{each}")) for each in Equipment]
        return [("", self._words("compare.any_equipment")), *kinds]

    def step_choices(self) -> Choices:
        """The rulebook's step, or one of the usual ones."""
        steps = [(key, self._words.mass(step, step.unit)) for key, step in _STEPS.items()]
        return [("", self._words("compare.step.rulebook")), *steps]

    # what a line shows

    def is_apart(self, lines: Iterable[Line]) -> bool:
        """Whether there are kinds of results that are ranked apart."""
        return len({line.group for line in lines if line.group is not None}) > 1

    def rank(self, line: Line) -> str:
        """The rank."""
        return "" if line.rank is None else str(line.rank)

    def score(self, line: Line) -> str:
        """Points as result sheets print them; nothing where there are none."""
        return "" if line.points is None else self._points(line.points)

    def scored_by(self, line: Line, choice: CompareChoice) -> str:
        """The formula and the age factor that was applied, or why there are no points."""
        if line.why is not None:
            return self._words.say(line.why)
        name = self._words(f"formula.{choice.scale.formula}")
        if line.age_factor is None:
            return name
        factor = self._age_factor(line.age_factor)
        return self._words("compare.scored_with", formula=name, factor=factor)

    def kind(self, line: Line) -> str:
        """Event and equipment."""
        if line.day is None:
            return ""
        performance = line.day.performance
        return self._words(
            "compare.kind",
            event=text(f"event.{performance.event}"),
            equipment=text(f"equipment.{performance.equipment}"),
        )

    def total(self, line: Line) -> str:
        """The total."""
        return "" if line.day is None else self._bare(line.day.performance.total_g)

    def lift(self, lift: Lift, line: Line) -> str:
        """The best of a lift, and its share in the total."""
        grams = None if line.day is None else line.day.performance.best_g.get(lift)
        if lift not in line.shares:
            return self._bare(grams)
        share = line.shares[lift]
        return self._words("compare.with_share", weight=self._bare(grams), share=share)

    def bodyweight(self, line: Line) -> str:
        """The bodyweight the points were made at."""
        bodyweight_kg = None if line.day is None else line.day.performance.bodyweight_kg
        return "" if bodyweight_kg is None else self._words.bare_mass(kilograms(bodyweight_kg))

    def meet(self, line: Line) -> str:
        """The meet."""
        return "" if line.day is None else line.day.meet

    def day(self, line: Line) -> str:
        """The day."""
        return "" if line.day is None else self._words.day(line.day.on)

    def progress(self, line: Line) -> str:
        """What was gained since the meet before."""
        if line.progress is None:
            return ""
        gained = self._signed(line.progress.grams)
        if line.progress.points is None:
            return gained
        return self._words(
            "compare.progress",
            weight=gained,
            points=f"{_sign(line.progress.points)}{self._points(abs(line.progress.points))}",
        )

    def progress_tip(self, line: Line) -> str:
        """Which meet that was."""
        if line.progress is None:
            return ""
        since = line.progress.since
        return self._words("compare.progress.since", meet=since.meet, day=since.on)

    def needed(self, needed: Needed | None) -> str:
        """The weight that equals the athlete chosen, and how much more or less that is."""
        if needed is None:
            return ""
        weight = self._words.bare_mass(needed.weight)
        if needed.more_g is None:
            return weight
        code = "compare.equal.more" if needed.more_g > 0 else "compare.equal.spare"
        more = self._bare(abs(needed.more_g))
        return self._words(code, weight=weight, more=more)

    @property
    def unit(self) -> Unit:
        """The unit weights are shown in."""
        return self._words.unit

    def _notes(self, choice: CompareChoice, lines: Iterable[Line]) -> Iterable[str]:
        """What to know about the choice."""
        scale = choice.scale
        if scale.formula is Formula.IPF_GL:
            alone = scale.lift is Lift.BENCH
            yield self._words("compare.note.bench_alone" if alone else "compare.note.ipf_gl")
        elif self.is_apart(lines):
            yield self._words(
                "compare.note.kept_apart", formula=self._words(f"formula.{scale.formula}")
            )
        if scale.with_age_factor:
            yield self._words("compare.note.age_factor")
        if choice.equal_to is not None and choice.step is None and self._lacks_rulebook(lines):
            yield self._words("compare.note.no_rulebook")
        if choice.counted.is_planned:
            yield self._words("compare.note.planned")

    def _lacks_rulebook(self, lines: Iterable[Line]) -> bool:
        """Whether a meet goes by a rulebook that cannot be read, so that its step is unknown."""
        shelf = self._desk.rulebooks.books
        return any(line.day is not None and line.day.rulebook not in shelf for line in lines)

    def _age_factor(self, applied: AgeFactor) -> str:
        code = "none" if applied.table is None else applied.table
        factor = self._words.number(applied.factor, 3)
        return self._words(f"compare.age_factor.{code}", factor=factor, age=applied.age_years)

    def _points(self, points: float) -> str:
        return self._words.number(printed(points))

    def _bare(self, grams: int | None) -> str:
        return "" if grams is None else self._words.bare_mass(from_grams(grams))

    def _signed(self, grams: int) -> str:
        return f"{_sign(grams)}{self._bare(abs(grams))}"


def _sign(number: float) -> str:
    return "-" if number < 0 else "+" if number > 0 else ""


def _choice(values: dict[str, str]) -> CompareChoice:
    lift = values.get("lift", "")
    event, equipment = values.get("event", ""), values.get("equipment", "")
    equal_to, step = values.get("equal_to", ""), values.get("step", "")
    first = typed.day("first", values.get("first", ""))
    last = typed.day("last", values.get("last", ""))
    if first is not None and last is not None and first > last:
        raise InvalidInput("last", text("compare.range"))
    return CompareChoice(
        scale=Scale(
            typed.choice("formula", values["formula"], Formula),
            typed.choice("lift", lift, Lift) if lift else None,
            typed.yes(values.get("age_factor", "")),
        ),
        counted=typed.choice("counted", values["counted"], Counted),
        event=typed.choice("event", event, Event) if event else None,
        equipment=typed.choice("equipment", equipment, Equipment) if equipment else None,
        first=first,
        last=last,
        equal_to=int(equal_to) if equal_to else None,
        equal_on=typed.choice("equal_on", values["equal_on"], Lift),
        step=_step(step),
    )


def _step(key: str) -> Mass | None:
    return _STEPS[key] if key else None
