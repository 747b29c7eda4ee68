"""The plans of a meet without Qt: the team in rows, one plan in words, turns overruled."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from coachdesk.domain.attempts import AttemptPlan, LiftPlan
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.scoring import printed
from coachdesk.domain.strength.lift_sources import LiftSources
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.domain.wishes import check_wishes
from coachdesk.services import plan_fixing, planning, typed
from coachdesk.services.desk import Desk, Done
from coachdesk.services.lift_sources import basis_of
from coachdesk.services.plan_page import (
    OpenPlan,
    PlanLine,
    free_outlook_of,
    has_fixed,
    is_outdated,
    open_plan,
    plan_page,
)
from coachdesk.services.print_choice import Progress
from coachdesk.services.wishes_editing import say_of_lift, wish_for_all
from coachdesk.ui.screens.meets.cost_words import cost_lines
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.screens.meets.turn_rows import TurnRow, row_of_missing, turn_rows
from coachdesk.ui.screens.meets.wish_values import (
    Values,
    lift_values,
    read_lift,
    read_wishes,
    wish_values,
)
from coachdesk.wording.plan_words import outlook_lines, tenths, textbook_line, whole
from coachdesk.wording.wording import Wording

_CURVE_POINTS = 41
_CURVE_BELOW, _CURVE_ABOVE = 0.06, 0.05


@dataclass(frozen=True, slots=True)
class PlanRow:
    """An entry and its plan in words; `to_know` are the sentences the coach should read."""

    id: int
    athlete: str
    by_name: tuple[str, str]
    openers: str
    all_good: str
    expected: str
    by_expected: int
    score: str
    by_score: float
    risk: str
    by_risk: float
    aim: str
    to_know: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """The chance at the first try by weight [kg], and the attempts on it when all goes well: what
    each is called, its weight [kg] and its chance. `ends` are the least and the greatest weight in
    words, `said` is all of it in words."""

    weights_kg: tuple[float, ...]
    chances: tuple[float, ...]
    attempts: tuple[tuple[str, float, float], ...]
    ends: tuple[str, str]
    said: str


@dataclass(frozen=True, slots=True)
class PlanLook:
    """One plan in words; `turns` are those of all lifts, `bases` what each lift is planned on,
    `evidence` what that rests on and what else is known, `has_fixed` whether the coach's own
    weights cost something that can be worked out."""

    id: int
    title: str
    figures: tuple[Line, ...]
    turns: tuple[TurnRow, ...]
    bases: Mapping[Lift, tuple[Line, ...]]
    evidence: Mapping[Lift, tuple[Line, ...]]
    changes: tuple[Line, ...]
    has_aim: bool
    has_fixed: bool
    is_equipped: bool


class PlansPresenter:
    """Reads plans and puts them in words; `words` are the coach's, at the meet its unit rules.

    `formula` is the name of the one the meet's scores go by.
    """

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._own_words = words
        self._words = words
        self._opened: OpenPlan | None = None
        self.formula = ""

    def rows(self, meet_id: int) -> tuple[PlanRow, ...]:
        """The plans of a meet."""
        page = plan_page(self._desk, meet_id)
        self._words = self._own_words.in_unit(page.rulebook.unit)
        self.formula = self._words(f"formula.{page.rulebook.best_lifter}")
        return tuple(self._row(line) for line in page.lines)

    def look(self, entry_id: int) -> PlanLook:
        """One plan, closely."""
        opened = self._opened = open_plan(self._desk, entry_id)
        self._words = self._own_words.in_unit(opened.rulebook.unit)
        snapshot = opened.line.plan
        plan = None if snapshot is None else snapshot.plan
        lifts = () if plan is None else plan.lifts
        rows = [
            row_of_missing(lift, self._why_missing(lift, plan), self._words)
            for lift in self.lifts
            if plan is None or plan.of(lift) is None
        ]
        rows += [row for each in lifts for row in turn_rows(each, self._words)]
        rows.sort(key=lambda row: self.lifts.index(row.lift))
        return PlanLook(
            id=entry_id,
            title=opened.line.athlete.name,
            figures=self._figures(opened),
            turns=tuple(rows),
            bases={each.lift: self._basis(each) for each in lifts},
            evidence={lift: self._evidence(lift) for lift in self.lifts},
            changes=self._changes(opened),
            has_aim=plan is not None and plan.outlook is not None and plan.outlook.aim is not None,
            has_fixed=has_fixed(opened),
            is_equipped=opened.line.entry.equipment is Equipment.EQUIPPED,
        )

    def curve(self, lift: Lift) -> Curve | None:
        """The chance by weight of a lift of the plan shown; None where it is not planned."""
        snapshot = self._shown.line.plan
        plan = None if snapshot is None else snapshot.plan.of(lift)
        return None if plan is None else self._curve(plan)

    def fix(self, row: TurnRow, words: str) -> Done[tuple[Text, ...]] | None:
        """Call for the weight typed at a turn; nothing typed leaves it to the engine again."""
        opened = self._shown
        if not row.weight:
            raise InvalidInput("weight", text("plans.not_planned.fix"))
        weight = typed.mass("weight", words, opened.rulebook.unit)
        if weight is not None and words.strip() == row.typed:
            return None
        entry_id = opened.line.entry.id
        if weight is None:
            return plan_fixing.free_turn(self._desk, entry_id, row.turn)
        return plan_fixing.fix_turn(self._desk, entry_id, row.turn, weight)

    def free_all(self) -> Done[tuple[Text, ...]]:
        """Leave all turns of the plan shown to the engine again."""
        return plan_fixing.free_all_turns(self._desk, self._shown.line.entry.id)

    def plan(self, entry_ids: Sequence[int]) -> Callable[[Progress], Done[tuple[Text, ...]]]:
        """Plan these entries anew, as a task for the background."""
        meet_id = self._shown.line.entry.meet_id
        wanted = frozenset(entry_ids)
        return lambda progress: planning.plan_meet(
            self._desk, meet_id, entry_ids=wanted, progress=progress
        )

    def cost(self) -> Callable[[Progress], tuple[Line, ...]]:
        """What the coach's own weights in the plan shown cost, as a task for the background."""
        opened, words = self._shown, self._words
        return lambda _progress: cost_lines(opened, free_outlook_of(opened), words)

    def wish_values(self) -> Values:
        """What is wanted of the plan shown, as its form begins."""
        wishes = self._shown.known.training.wishes.get(self._shown.line.entry.id)
        return wish_values(wishes, self._words.unit)

    def wish(
        self, entry_ids: Sequence[int], values: Mapping[str, str]
    ) -> Callable[[Progress], Done[tuple[Text, ...]]]:
        """Say what is wanted of these plans, as a task for the background; raises InvalidInput for
        what cannot be read or, of one plan, is out of reach."""
        opened = self._shown
        data = read_wishes(values, opened.rulebook.unit)
        check_wishes(data)
        if len(entry_ids) == 1:
            known = opened.known.with_wishes(data)
            planning.check_in_reach(known, opened.record, opened.line.entry)
        meet_id, wanted = opened.line.entry.meet_id, frozenset(entry_ids)
        return lambda progress: wish_for_all(self._desk, meet_id, wanted, data, progress)

    def lift_values(self, lift: Lift) -> Values:
        """What is said of a lift, as its form begins."""
        opened = self._shown
        basis = basis_of(opened.known.training, opened.line.entry.id, lift)
        return lift_values(opened.line.entry.expected(lift), basis, self._words.unit)

    def source_choices(self, lift: Lift) -> list[tuple[str, str]]:
        """What a lift can be planned on: each source with what it expects."""
        words, sources = self._words, self._sources(lift)
        forecasts = () if sources is None else sources.forecasts
        return [
            ("", words("plans.source.usual")),
            *(
                (
                    each.source,
                    words(
                        "plans.source.of", source=text(f"source.{each.source}"), mass=each.expected
                    ),
                )
                for each in forecasts
            ),
        ]

    def say_of_lift(self, lift: Lift, values: Mapping[str, str]) -> Done[tuple[Text, ...]]:
        """Keep what is said of a lift; raises InvalidInput at the field that cannot be taken."""
        opened = self._shown
        number, said = read_lift(values, opened.line.entry.id, lift, opened.rulebook.unit)
        basis = basis_of(opened.known.training, opened.line.entry.id, lift)
        return say_of_lift(self._desk, opened.line.entry, number, said, basis=basis)

    def _sources(self, lift: Lift) -> LiftSources | None:
        """What is known of a lift; None where the number and its band contradict each other."""
        opened = self._shown
        try:
            return opened.known.sources(opened.line.entry, lift)
        except InvalidInput:
            return None

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """The lifts of the entry shown, in the meet's order."""
        opened = self._shown
        return tuple(
            lift for lift in opened.rulebook.lift_order if lift in opened.line.entry.event.lifts
        )

    @property
    def _shown(self) -> OpenPlan:
        if self._opened is None:
            raise InvalidInput("plan", Text("plans.none_chosen"))
        return self._opened

    def _why_missing(self, lift: Lift, plan: AttemptPlan | None) -> str:
        """Why a lift is not in the plan, as far as the plan says so."""
        name = ("lift", text(f"lift.{lift}"))
        notes = () if plan is None else plan.notes
        missing = [note for note in notes if note.code == "plan.lift_missing"]
        said = next((note for note in missing if name in note.values), None)
        return self._words("plans.lift_none") if said is None else self._words.say(said)

    def _row(self, line: PlanLine) -> PlanRow:
        words, snapshot = self._words, line.plan
        plan = None if snapshot is None else snapshot.plan
        outlook = None if plan is None else plan.outlook
        lifts = () if plan is None else plan.lifts
        athlete = line.athlete
        return PlanRow(
            id=line.entry.id,
            athlete=athlete.name,
            by_name=(athlete.family_name, athlete.given_name),
            openers=" / ".join(words.bare_mass(each.opener.weight) for each in lifts),
            all_good=" / ".join(words.bare_mass(each.when_all_good) for each in lifts),
            expected="" if outlook is None else words.bare_mass(outlook.expected_total),
            by_expected=0 if outlook is None else outlook.expected_total.grams,
            score="" if line.score is None else words.number(printed(line.score)),
            by_score=line.score or 0.0,
            risk="" if outlook is None else words.show(tenths(outlook.no_total)),
            by_risk=-1.0 if outlook is None else outlook.no_total,
            aim="" if outlook is None or outlook.aim is None else words.show(whole(outlook.aim)),
            to_know=tuple(words.say(note) for note in self._notes(plan)),
        )

    def _notes(self, plan: AttemptPlan | None) -> tuple[Text, ...]:
        if plan is None:
            return (Text("plans.none_yet"),)
        notes = (*plan.notes, *(note for each in plan.lifts for note in each.notes))
        return tuple(dict.fromkeys(notes))  # what is true of two lifts is told once

    def _figures(self, opened: OpenPlan) -> tuple[Line, ...]:
        words, snapshot = self._words, opened.line.plan
        if snapshot is None or not snapshot.plan.lifts:
            return (Line(words("plans.none_yet"), "warn"),)
        plan = snapshot.plan
        lines = [Line(words.say(note), "warn") for note in self._notes(plan)]
        if is_outdated(opened):
            made = self._moment(snapshot.made_at)
            lines.insert(0, Line(words("plans.outdated", moment=made), "warn"))
        if plan.outlook is None:
            return (*lines, Line(words("plans.no_total"), "warn"))
        formula = opened.rulebook.best_lifter
        lines += [Line(each) for each in outlook_lines(plan, opened.line.score, formula, words)]
        if textbook := textbook_line(plan, words):
            lines.append(Line(textbook, "quiet"))
        return tuple(lines)

    def _basis(self, plan: LiftPlan) -> tuple[Line, ...]:
        words, sources = self._words, self._sources(plan.lift)
        lines = [words("meets.expected", mass=plan.expected, source=plan.source)]
        if sources is not None and sources.used is not None:
            lines.append(words.say(sources.used.width))
        if plan.outlook is not None:
            lines.append(words("plans.no_lift", no_lift=tenths(plan.outlook.no_lift)))
        return tuple(Line(each, "quiet") for each in lines)

    def _evidence(self, lift: Lift) -> tuple[Line, ...]:
        words, sources = self._words, self._sources(lift)
        if sources is None:
            return ()
        used = sources.used
        lines = [] if used is None else [words.say(each) for each in used.evidence]
        lines.append(words.say(sources.misses.told))
        others = [each for each in sources.forecasts if each is not used]
        if others:
            lines.append(words("plans.source.others"))
        lines += [
            words(
                "plans.source.line",
                source=text(f"source.{each.source}"),
                mass=each.expected,
                low=each.low,
                high=each.high,
            )
            for each in others
        ]
        return tuple(Line(each, "quiet") for each in lines)

    def _curve(self, plan: LiftPlan) -> Curve:
        # The engine needs numpy, which a start should not wait for.
        from coachdesk.domain.engine.curve import chances_at  # noqa: PLC0415

        words = self._words
        path = [mass.kg for mass in plan.good_path]
        low = min(path[0], plan.expected.kg) * (1 - _CURVE_BELOW)
        high = max(path[-1], plan.expected.kg) * (1 + _CURVE_ABOVE)
        every = (high - low) / (_CURVE_POINTS - 1)
        weights = tuple(low + every * at for at in range(_CURVE_POINTS))
        chances = chances_at(plan, (*weights, *path))
        marks = chances[len(weights) :]
        attempts = tuple(
            (words.bare_mass(mass), mass.kg, chance)
            for mass, chance in zip(plan.good_path, marks, strict=False)
        )
        said = [
            words("plans.curve.point", weight=mass, chance=whole(chance))
            for mass, chance in zip(plan.good_path, marks, strict=False)
        ]
        ends = (words.mass(_to_kilograms(low)), words.mass(_to_kilograms(high)))
        return Curve(weights, chances[: len(weights)], attempts, ends, " ".join(said))

    def _changes(self, opened: OpenPlan) -> tuple[Line, ...]:
        """What is new against the plan before, and when this one was made."""
        words, plan, before = self._words, opened.line.plan, opened.before
        if plan is None:
            return ()
        made = Line(words("plans.made", moment=self._moment(plan.made_at)), "quiet")
        if before is None:
            return (made,)
        code = "plans.changed_since" if opened.changes else "plans.same_as"
        head = Line(words(code, moment=self._moment(before.made_at)), "quiet")
        return (head, *(Line(words.say(change)) for change in opened.changes), made)

    def _moment(self, moment: datetime) -> str:
        return self._words.moment(moment.astimezone(self._desk.now().tzinfo))


def _to_kilograms(kilograms: float) -> Mass:
    return from_grams(round(kilograms) * 1000)
