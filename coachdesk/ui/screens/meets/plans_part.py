"""The plans of a meet: the team in a table, and below it the plan chosen, turn by turn."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.domain.text import Text
from coachdesk.services.desk import Done
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, button, heading, small, tip
from coachdesk.ui.screens.meets.chance_curve import ChanceCurve
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.screens.meets.plans_presenter import PlanLook, PlanRow, PlansPresenter
from coachdesk.ui.screens.meets.tall_part import TallPart
from coachdesk.ui.screens.meets.turn_rows import TurnRow
from coachdesk.ui.screens.meets.wish_forms import WishForm, lift_form
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.more_button import HEADING_DROP
from coachdesk.ui.widgets.table import Table

_LEAST_TURNS = 300
_NARROW = 640
_LEAST_BESIDE = 250
"""Sizes [px]; in less than `_NARROW` what stands beside the turns goes below them, in more it has
`_LEAST_BESIDE` at least."""
_SHARES = (5, 3)
"""Of the turns and of what stands beside or below them, where the columns need no more."""
_TEAM_AT_ONCE = 6
"""Athletes seen without scrolling, where the team has so many."""
_AIM = 6
_TURN_AIM = 4
"""Columns that only an aim fills."""


class PlansPart(TallPart):
    """Compares plans, shows one, overrules its turns, plans anew."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._context = context
        self._presenter = PlansPresenter(context.desk, context.words)
        self._is_filling = False
        self._shown: PlanLook | None = None
        self.table = self._team_table()
        self.turns = self._turns_table()
        self.figures = LineList()
        self.cost = LineList()
        self.why = LineList()
        self.basis = LineList()
        self.evidence = LineList(is_small=True)
        self.changes = LineList()
        self.curve = ChanceCurve(context.theme, context.words)
        self._name = heading()
        self._lay_out()
        self.table.moved.connect(self._show_chosen)
        self.table.opened.connect(lambda _: self.turns.setFocus())
        self.turns.moved.connect(self._show_lift)
        self.turns.delete_asked.connect(self._free_chosen)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Side by side where there is room, else one below the other."""
        ways = QBoxLayout.Direction
        self._both.setDirection(ways.TopToBottom if self._is_narrow else ways.LeftToRight)
        self._give_turns_room()
        super().resizeEvent(event)

    @property
    def _is_narrow(self) -> bool:
        return self.width() < _NARROW

    def _give_turns_room(self) -> None:
        """All columns of the turns are seen, as far as what stands beside them leaves room."""
        of_turns, of_the_rest = _SHARES
        if not self._is_narrow:
            room = self.width() - GAP - WIDE_GAP
            needed = min(self.turns.needed_width(), room - _LEAST_BESIDE)
            of_turns = max(needed, room * of_turns // sum(_SHARES))
            of_the_rest = room - of_turns
        self._both.setStretch(0, of_turns)
        self._both.setStretch(1, of_the_rest)

    def has_unsaved(self) -> bool:
        """Whether a weight is typed that could not be taken."""
        return self.turns.model.has_drafts

    def plan_chosen(self) -> None:
        """Plan the chosen entries anew in the background."""
        chosen = [row.id for row in self.table.selected_rows()]
        if chosen and self._shown is not None:
            self._context.runner.background(
                self._presenter.plan(chosen),
                about=self._context.words("meets.plan_all.about"),
                then=self._planned_anew,
            )

    def wish(self) -> None:
        """Ask what is wanted of the plans chosen, and plan them for it in the background."""
        chosen = [row.id for row in self.table.selected_rows()]
        if not chosen or self._shown is None:
            return
        words = self._context.words
        form = WishForm(words, self._presenter.lifts)
        form.set_values(self._presenter.wish_values())
        about = (
            words("wishes.about_one", name=self._shown.title)
            if len(chosen) == 1
            else words("wishes.about_all", count=len(chosen))
        )
        dialog = FormDialog(
            self._context,
            words("wishes.title"),
            form,
            lambda values: self._presenter.wish(chosen, values),
            about=about,
            parent=self,
        )
        dialog.exec()
        if callable(dialog.answer):
            self._context.runner.background(
                dialog.answer, about=words("meets.plan_all.about"), then=self._planned_anew
            )
        dialog.deleteLater()

    def say_of_lift(self) -> None:
        """Ask for the number and the source of the lift the turns stand on."""
        look = self._shown
        if look is None:
            return
        row, words = self.turns.current_row(), self._context.words
        lift = self._presenter.lifts[0] if row is None else row.lift
        sources = self._presenter.source_choices(lift)
        form = lift_form(words, sources, equipped=look.is_equipped)
        form.set_values(self._presenter.lift_values(lift))
        dialog = FormDialog(
            self._context,
            words("lift_basis.title", name=look.title, lift=words(f"lift.{lift}")),
            form,
            lambda values: self._presenter.say_of_lift(lift, values),
            parent=self,
        )
        dialog.exec()
        if isinstance(dialog.answer, tuple) and dialog.answer:
            self._context.notices.trouble(" ".join(words.say(each) for each in dialog.answer))
        dialog.deleteLater()

    def free_all(self) -> None:
        """Leave all turns of the plan shown to the engine again."""
        if self._shown is not None:
            self._context.runner.now(self._presenter.free_all, then=self._planned)

    def read(self, meet_id: int) -> None:
        """Read the plans of a meet."""
        if self._context.runner.now(lambda: self._presenter.rows(meet_id), then=self._show_rows):
            self._show_chosen()

    def _show_rows(self, rows: Sequence[PlanRow]) -> None:
        """Who is chosen stays chosen; the plan shown follows once."""
        self._is_filling = True
        self.table.set_rows(rows)
        self.table.set_head("score", self._presenter.formula)
        self.table.view.setColumnHidden(_AIM, not any(row.aim for row in rows))
        self.table.show_at_once(min(len(rows), _TEAM_AT_ONCE))
        if self.table.current_key() is None and rows:
            self.table.select(rows[0].id)
        self._is_filling = False

    def _show_chosen(self) -> None:
        if self._is_filling:
            return
        key = self.table.current_key()
        if not isinstance(key, int):
            self._show(None)
        else:
            self._context.runner.now(lambda: self._presenter.look(key), then=self._show)

    def _show(self, look: PlanLook | None) -> None:
        same = look is not None and self._shown is not None and look.id == self._shown.id
        self._shown = look
        self._body.setVisible(look is not None)
        if look is None:
            return
        if not same:
            self.turns.model.forget_drafts()
        self._name.setText(look.title)
        self.figures.show_lines(look.figures)
        self.changes.show_lines(look.changes)
        self.turns.view.setColumnHidden(_TURN_AIM, not look.has_aim)
        self._is_filling = True
        self.turns.set_rows(look.turns)
        self.turns.fit_columns()
        self._give_turns_room()
        if look.turns and (not same or self.turns.current_key() is None):
            self.turns.select(look.turns[0].turn)
        self._is_filling = False
        self._free.setEnabled(any(row.fixed for row in look.turns))
        self._show_lift()
        self._ask_cost(look)

    def _ask_cost(self, look: PlanLook) -> None:
        """What the coach's own weights cost takes a second plan: the window does not wait."""
        self.cost.show_lines(())
        if not look.has_fixed:
            return

        def show(lines: tuple[Line, ...]) -> None:
            if isValid(self) and self._shown is look:
                self.cost.show_lines(lines)

        self._context.runner.background(
            self._presenter.cost(),
            about=self._context.words("plans.cost.about"),
            then=show,
            can_stop=False,
            quiet=True,
        )

    def _show_lift(self) -> None:
        """Why the turn chosen is as it is, and the curve and the basis of its lift."""
        if self._is_filling:
            return
        row, look = self.turns.current_row(), self._shown
        if row is None or look is None:
            self.curve.show_curve(None)
            self.why.show_lines(())
            self.basis.show_lines(())
            self.evidence.show_lines(())
            return
        self.curve.show_curve(self._presenter.curve(row.lift))
        self.why.show_lines([Line(row.note)] if row.note else [])
        self.basis.show_lines(look.bases.get(row.lift, ()))
        self.evidence.show_lines(look.evidence.get(row.lift, ()))

    def _free_chosen(self) -> None:
        row = self.turns.current_row()
        if row is not None and row.fixed:
            self._context.runner.now(lambda: self._presenter.fix(row, ""), then=self._planned)

    def _planned_anew(self, done: Done[tuple[Text, ...]]) -> None:
        if not done.value:
            self._context.notices.say(self._context.words("meets.plan_all.done"))
        self._planned(done)

    def _planned(self, done: Done[tuple[Text, ...]] | None) -> None:
        if done is not None and done.value:
            words = self._context.words
            self._context.notices.trouble(" ".join(words.say(each) for each in done.value))

    def _team_table(self) -> Table[PlanRow]:
        words = self._context.words
        return Table(
            self._context,
            "meet plans",
            [
                Column(
                    "athlete", words("plans.column.athlete"), lambda row: row.athlete,
                    lambda row: row.by_name,
                    tip=lambda row: "\n".join(row.to_know),
                    role=lambda row: "warn" if row.to_know else "",
                ),
                Column("openers", words("plans.column.openers"), lambda row: row.openers),
                Column("all_good", words("plans.column.all_good"), lambda row: row.all_good),
                Column(
                    "expected", words("plans.column.expected"), lambda row: row.expected,
                    lambda row: row.by_expected, to_right=True,
                ),
                Column(
                    "score", words("plans.column.score"), lambda row: row.score,
                    lambda row: row.by_score, to_right=True,
                ),
                Column(
                    "risk", words("plans.column.risk"), lambda row: row.risk,
                    lambda row: row.by_risk, to_right=True,
                ),
                Column("aim", words("plans.column.aim"), lambda row: row.aim, to_right=True),
            ],
            lambda row: row.id,
            about=words("plans.team"),
            empty=words("plans.team.empty"),
            several=True,
        )  # fmt: skip

    def _turns_table(self) -> Table[TurnRow]:
        words = self._context.words
        return Table(
            self._context,
            "plan turns",
            [
                Column("turn", words("plans.column.turn"), lambda row: row.label),
                Column(
                    "weight", words("plans.column.weight"),
                    lambda row: words("plans.fixed", weight=row.weight) if row.fixed
                    else row.weight,
                    to_right=True,
                    tip=lambda row: row.note,
                    edit=self._presenter.fix,
                    typed=lambda row: row.typed,
                ),
                Column("good", words("plans.column.good"), lambda row: row.good, to_right=True),
                Column("taken", words("plans.column.taken"), lambda row: row.taken, to_right=True),
                Column("aim", words("plans.column.aim"), lambda row: row.aim, to_right=True),
            ],
            lambda row: row.turn,
            about=words("plans.turns"),
            empty=words("plans.none_yet"),
            sortable=False,
        )  # fmt: skip

    def _lay_out(self) -> None:
        words = self._context.words
        plan = button(words("plans.plan_chosen"), self.plan_chosen, hint="Ctrl+L")
        tip(plan, words("plans.plan_chosen.hint"))
        self._free = button(words("plans.free_all"), self.free_all)
        tip(self._free, words("plans.free_all.hint"))
        action(self, words("plans.plan_chosen"), self.plan_chosen, "Ctrl+L")
        wish = button(words("wishes.ask"), self.wish, hint="Ctrl+Shift+B")
        tip(wish, words("wishes.ask.hint"))
        number = button(words("lift_basis.ask"), self.say_of_lift, hint="Ctrl+B")
        tip(number, words("lift_basis.ask.hint"))
        action(self, words("wishes.ask"), self.wish, "Ctrl+Shift+B")
        action(self, words("lift_basis.ask"), self.say_of_lift, "Ctrl+B")
        self._name.setContentsMargins(0, 0, 0, HEADING_DROP)
        buttons = FlowLayout()
        for each in (self._name, wish, number, plan, self._free):
            buttons.addWidget(each)
        beside = QVBoxLayout()
        beside.setSpacing(GAP)
        for widget in (self.why, self.curve, self.basis, self.changes, self.evidence):
            beside.addWidget(widget)
        beside.addStretch(1)
        self.turns.setMinimumHeight(_LEAST_TURNS)
        self._both = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._both.setSpacing(WIDE_GAP)
        self._both.addWidget(self.turns, _SHARES[0])
        self._both.addLayout(beside, _SHARES[1])
        self._body = QWidget()
        body = QVBoxLayout(self._body)
        body.setContentsMargins(0, GAP, GAP, 0)
        body.setSpacing(GAP // 2)
        body.addLayout(buttons)
        body.addWidget(self.figures)
        body.addWidget(self.cost)
        body.addWidget(small(words("plans.turns.hint")))
        body.addLayout(self._both, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.table)
        layout.addWidget(self._body, 1)
