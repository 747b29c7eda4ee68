"""Weight and class of a meet's entries without Qt: the team's board, and one entry closely."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.class_fit import Verdict
from coachdesk.domain.scoring import printed
from coachdesk.domain.text import Value
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.services.class_choices import class_choices, enter_in_class
from coachdesk.services.desk import Desk
from coachdesk.services.equal_totals import EqualTotals, equal_totals
from coachdesk.services.meet_weights import MeetWeights, meet_weights
from coachdesk.services.packet_weight import plan_b
from coachdesk.services.weight_board import BoardLine
from coachdesk.services.weight_history import weight_history
from coachdesk.services.weight_picture import WeightHistory
from coachdesk.services.weight_plans import agree_on_way_down, let_go_of_way_down
from coachdesk.ui.screens.meets.class_rows import ClassRow, class_row
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.weights.board_rows import (
    BoardRow,
    board_row,
    standing_in_words,
    what_it_takes,
)
from coachdesk.wording.weight_words import agreed_in_words, scale_in_words, week_in_words
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Asking:
    """A question before something is kept, and what should be known before it is answered."""

    question: str
    yes: str
    no: str
    more: str


@dataclass(frozen=True, slots=True)
class WeightLook:
    """One entry's weight and class in words.

    `lines` are the sentences above the classes, `cautions` what always stands, `equal` what the
    totals of equal score are measured by. `begin_at` is the class the table begins at.
    """

    id: int
    athlete_id: int
    title: str
    lines: tuple[Line, ...]
    cautions: tuple[str, ...] = ()
    classes: tuple[ClassRow, ...] = ()
    begin_at: str = ""
    equal: str = ""
    is_weightless: bool = False
    may_agree: bool = False
    may_let_go: bool = False


class WeightPresenter:
    """Reads weights and puts them in words; masses at the meet its unit rules."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._own_words = words
        self.words = words
        self._read: MeetWeights | None = None

    @property
    def is_over(self) -> bool:
        """Whether the meet read last is over."""
        return self._read is not None and self._read.is_over

    def rows(self, meet_id: int) -> tuple[BoardRow, ...]:
        """The board of a meet, the most pressing first."""
        read = self._read = meet_weights(self._desk, meet_id)
        words = self.words = self._own_words.in_unit(read.rulebook.unit)
        lines = (board_row(line, read.today, words) for line in read.lines)
        faults = (
            BoardRow(
                id=state.entry.id,
                athlete_id=state.athlete.id,
                meet_id=state.meet.id,
                athlete=state.athlete.name,
                meet=state.meet.name,
                weight_class=state.entry.weight_class or "",
                verdict=words("weight.unknown"),
                role="warn",
                detail=words.say(why),
            )
            for state, why in read.faults
        )
        return (*lines, *faults)

    def history(self, look: WeightLook) -> WeightHistory | None:
        """The history of an athlete's weight, for the background."""
        return weight_history(self._desk, look.athlete_id, look.id)

    def look(self, row: BoardRow, *, with_totals: bool) -> WeightLook | None:
        """One entry, closely; totals of equal score are read only `with_totals`."""
        read = self._read
        if read is None:
            return None
        line = next((each for each in read.lines if each.entry.id == row.id), None)
        if line is None:
            return WeightLook(row.id, row.athlete_id, row.athlete, (Line(row.detail, "warn"),))
        state, present = read.state(row.id), line.standing.present
        choices = class_choices(state, read.rulebook, read.today)
        equal = None
        if with_totals:
            classes = [choice.fit.weight_class for choice in choices]
            equal = equal_totals(self._desk, state, read.rulebook, classes)
        totals = {} if equal is None else equal.by_class
        rows = (
            ()
            if present is None
            else tuple(
                class_row(choice, present, line.plan, totals.get(name), read.today, self.words)
                for choice in choices
                for name in (choice.fit.weight_class.name,)
            )
        )
        fit = line.standing.fit
        return WeightLook(
            id=row.id,
            athlete_id=row.athlete_id,
            title=row.athlete,
            lines=self._lines(read, line, state.plan),
            cautions=tuple(self.words.say(each) for each in line.standing.cautions),
            classes=rows,
            begin_at="" if fit is None else fit.weight_class.name,
            equal=self._equal(read, equal) if with_totals and rows else "",
            is_weightless=present is None,
            may_agree=row.may_agree,
            may_let_go=state.plan is not None,
        )

    def agreeing(self, row: BoardRow) -> Asking:
        """What to ask before a way down is agreed on."""
        words = self.words
        question = words("today.agree.question", name=row.athlete, weight_class=row.weight_class)
        more = f"{row.detail} {row.cautions}"
        return Asking(question, words("today.agree"), words("today.agree.not"), more)

    def entering(self, row: BoardRow, chosen: ClassRow) -> Asking | None:
        """What to ask before somebody is entered in a class; None where nothing is."""
        if not chosen.choice.is_asked:
            return None
        words = self.words
        more = (
            words("class_fit.first_meet"),
            what_it_takes(chosen.choice.if_chosen, words),
            row.cautions,
        )
        return Asking(
            words("weight.enter.question", name=row.athlete, weight_class=chosen.name),
            words("weight.enter.yes"),
            words("weight.enter.no"),
            " ".join(more),
        )

    def agree(self, row: BoardRow) -> object:
        """Agree on the way down of an entry, from today's weight."""
        return agree_on_way_down(self._desk, row.id)

    def let_go(self, row: BoardRow) -> object:
        """Let go of the way down of an entry."""
        plan = None if self._read is None else self._read.state(row.id).plan
        return None if plan is None else let_go_of_way_down(self._desk, plan)

    def enter(self, row: BoardRow, chosen: ClassRow) -> object:
        """Enter an athlete in a class."""
        if self._read is None or not chosen.may_enter:
            return None
        return enter_in_class(self._desk, self._read.state(row.id).entry, chosen.choice)

    def _lines(
        self, read: MeetWeights, line: BoardLine, plan: WeightPlan | None
    ) -> tuple[Line, ...]:
        words, standing, fit = self.words, line.standing, line.standing.fit
        if standing.present is None:
            return (Line(words("weight_plan.no_weight", name=line.athlete.name), "warn"),)
        if fit is None:
            return (Line(words("today.board.no_class", name=line.athlete.name), "warn"),)
        missed = plan_b(read.rulebook, standing.classes, fit.weight_class)
        takes_role = "warn" if fit.verdict is Verdict.NOT_IN_TIME else ""
        behind = line.line is not None and line.line.behind_since is not None
        agreed = agreed_in_words(line.plan, line.line, words)
        if line.plan is None and plan is not None:
            agreed = (
                words("weight.plan.barred", weight_class=plan.weight_class, why=fit.reasons[0])
                if fit.reasons
                else words("weight.plan.void", weight_class=plan.weight_class)
            )
        lines = [
            Line(standing_in_words(line, fit, words)),
            Line(what_it_takes(fit, words), takes_role),
            Line(week_in_words(standing.change, fit, words)),
            Line(agreed, "warn" if behind or line.plan is None else ""),
            Line(scale_in_words(standing.scale, standing.chance, words)),
            Line("" if missed is None else words.say(missed)),
        ]
        return tuple(each for each in lines if each.words)

    def _equal(self, read: MeetWeights, equal: EqualTotals | None) -> str:
        words = self.words
        if equal is None:
            return words("weight.equal.none")
        one = equal.reference
        said: dict[str, Value] = {
            "total": one.total,
            "bodyweight": one.bodyweight,
            "points": words.number(printed(one.points)),
            "formula": words(f"formula.{read.rulebook.best_lifter}"),
        }
        if one.lifted_on is None:
            return words("weight.equal.planned", **said)
        return words("weight.equal.lifted", day=one.lifted_on, **said)
