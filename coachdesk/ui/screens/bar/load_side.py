"""The weight, the bar drawn with its discs, and the discs to put on it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import Loading
from coachdesk.domain.units import Mass
from coachdesk.ui.plain import button, figure, label, set_role, small, without_mnemonic
from coachdesk.ui.screens.bar.bar_drawing import BarDrawing, DrawnDisc
from coachdesk.ui.screens.bar.disc_buttons import DiscButtons
from coachdesk.ui.screens.bar.presenter import BarPresenter, Shown
from coachdesk.ui.theme import GAP, WIDE_GAP, Theme
from coachdesk.ui.widgets.fields import MassField
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.wording.wording import Wording


class LoadSide(QWidget):
    """Shows one loading; typing and clicking ask for others."""

    entered = Signal(str)
    """A weight was typed."""
    wanted = Signal(object)
    """A weight was chosen."""
    put = Signal(object)
    taken = Signal(object)
    stripped = Signal()

    def __init__(self, presenter: BarPresenter, words: Wording, theme: Theme) -> None:
        super().__init__()
        self._presenter = presenter
        self._words = words
        self._nearest: tuple[Mass, ...] = ()
        self.weight = MassField()
        self.weight.line.setAccessibleName(words("bar.weight"))
        self.both = figure()
        self.sentence = label(wrap=True)
        self.below = button("", lambda: self._want(0))
        self.above = button("", lambda: self._want(-1))
        self.drawing = BarDrawing(theme)
        self.drawing.setAccessibleName(words("bar.drawing"))
        self.each_side = label(wrap=True)
        self.discs = DiscButtons(words)
        self.strip = button(words("bar.strip"), self.stripped.emit)
        self._lay_out()
        self.weight.edited.connect(lambda: self.entered.emit(self.weight.value()))
        self.discs.put.connect(self.put)
        self.discs.taken.connect(self.taken)
        self.drawing.taken.connect(self._take_at)
        self._shown = presenter.bare()

    def show_set(self) -> None:
        """Offer the discs of the set that is chosen."""
        self.discs.show_set(self._presenter)

    def show_loading(self, shown: Shown, *, retype: bool) -> None:
        """Show what is on the bar; `retype` puts its weight into the field."""
        self._shown = shown
        presenter = self._presenter
        if retype:
            self.weight.set_value(presenter.retyped(shown))
        self.weight.set_refused(refused=False)
        self.both.setText(presenter.both_units(shown.total))
        self._say(presenter.verdict(shown), "" if shown.is_exact else "warn")
        self._offer(shown.below, shown.above)
        self.each_side.setText(self._words("bar.sides", discs=presenter.each_side(shown.discs)))
        drawn = [
            DrawnDisc(
                disc.weight.kg,
                presenter.disc(disc),
                disc.colour,
                self._words("bar.take.of", disc=presenter.disc_named(disc)),
            )
            for disc in shown.discs
        ]
        collar = bool(presenter.chosen.bar_set.collar.number)
        self.drawing.show_discs(drawn, collar=collar, said=presenter.said(shown))
        self.discs.show_discs(shown.discs)
        self.strip.setEnabled(bool(shown.discs))

    def show_error(self, error: InvalidInput) -> None:
        """Say why a weight or a disc cannot be taken; the bar stays as it is."""
        self.weight.set_refused(refused=error.field == "weight")
        self._offer(None, None)
        self._say(self._words.say(error.text), "bad")

    def _say(self, words: str, role: str) -> None:
        self.sentence.setText(words)
        self.weight.line.setAccessibleDescription(words)
        set_role(self.sentence, role)

    def _offer(self, below: Loading | None, above: Loading | None) -> None:
        """Offer the nearest weights."""
        for each, loading in ((self.below, below), (self.above, above)):
            each.setVisible(loading is not None)
            if loading is not None:
                each.setText(without_mnemonic(self._presenter.nearest(loading)))
        self._nearest = tuple(each.total for each in (below, above) if each is not None)

    def _want(self, at: int) -> None:
        self.wanted.emit(self._nearest[at])

    def _take_at(self, at: int) -> None:
        self.taken.emit(self._shown.discs[at])

    def _lay_out(self) -> None:
        name = small(self._words("bar.weight"))
        name.setBuddy(self.weight.control())
        typing_side = QWidget()
        typing = QVBoxLayout(typing_side)
        typing.setContentsMargins(0, 0, 0, 0)
        typing.setSpacing(1)
        typing.addWidget(name)
        typing.addWidget(self.weight)
        hint = small(self._words("bar.weight.hint"))
        hint.setWordWrap(False)
        typing.addWidget(hint)
        top = FlowLayout(gap=WIDE_GAP, line_gap=GAP)
        top.addWidget(typing_side)
        top.addWidget(self.both)
        nearest = QHBoxLayout()
        for each in (self.below, self.above):
            nearest.addWidget(each)
        nearest.addStretch(1)
        stripping = QHBoxLayout()
        stripping.addWidget(self.strip)
        stripping.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, GAP, 0)
        layout.setSpacing(GAP)
        layout.addLayout(top)
        layout.addWidget(self.sentence)
        layout.addLayout(nearest)
        layout.addWidget(self.each_side)
        layout.addWidget(self.drawing, 1)
        layout.addWidget(self.discs)
        layout.addLayout(stripping)
        layout.addStretch(0)
