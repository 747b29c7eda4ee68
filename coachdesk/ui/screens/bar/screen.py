"""Bar: a weight and its discs, the weights around it, and the sets of discs."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from PySide6.QtCore import QStandardPaths, Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QSplitter, QVBoxLayout

from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass
from coachdesk.services import typed
from coachdesk.services.loading_chart import LoadingChart
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action
from coachdesk.ui.screens.bar.load_side import LoadSide
from coachdesk.ui.screens.bar.presenter import BarPresenter, Shown
from coachdesk.ui.screens.bar.set_row import SetRow
from coachdesk.ui.screens.bar.weights_side import WeightsSide
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.screen_head import screen_head

_REMEMBERED = "bar/set"
_SIDES = (3, 2)
"""How the room is shared between the bar and the weights around it at first."""


class BarScreen(Screen):
    """What goes on the bar for a weight, and what a bar with discs weighs."""

    kinds: ClassVar[frozenset[str]] = frozenset({"disc_set", "rulebook"})

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = context.words
        self.presenter = BarPresenter(context.desk, words)
        self.presenter.read()
        self.presenter.choose(str(context.remembered.value(_REMEMBERED, "")))
        self.shown: Shown = self.presenter.bare()
        self.sets = SetRow(context, self.presenter)
        self.load = LoadSide(self.presenter, words, context.theme)
        self.weights = WeightsSide(context, self.presenter)
        self._lay_out()
        self.sets.chosen.connect(self._choose)
        self.load.entered.connect(self._load_typed)
        self.load.wanted.connect(self._want)
        self.load.put.connect(self._put)
        self.load.taken.connect(self._take)
        self.load.stripped.connect(lambda: self._show(self.presenter.bare()))
        self.weights.wanted.connect(self._want)
        self.weights.print_asked.connect(self.print_chart)
        action(self, words("bar.print"), self.print_chart, shortcuts.PRINT)
        action(self, words("bar.set.new"), self.sets.add_new, shortcuts.NEW)
        self.setFocusProxy(self.load.weight)

    def reload(self) -> None:
        """Read the sets anew; the weight on the bar stays where it can."""
        self.presenter.read()
        self._show_set()

    def _choose(self, key: str) -> None:
        self.presenter.read()
        self.presenter.choose(key)
        self.context.remembered.setValue(_REMEMBERED, self.presenter.chosen.key)
        self._show_set()

    def _show_set(self) -> None:
        self.sets.show_sets()
        self.load.show_set()
        self.weights.show_set()
        self._show(self.presenter.on_set(self.shown))

    def _show(self, shown: Shown, *, retype: bool = True) -> None:
        self.shown = shown
        self.load.show_loading(shown, retype=retype)
        self.weights.show_loading(shown)

    def _load_typed(self, entered: str) -> None:
        self.context.runner.now(
            lambda: self.presenter.load(entered),
            then=lambda shown: self._show(shown, retype=False),
            invalid=self.load.show_error,
        )

    def _want(self, mass: Mass) -> None:
        self.context.runner.now(
            lambda: self.presenter.load(typed.shown_mass(mass)),
            then=self._show,
            invalid=self.load.show_error,
        )

    def _put(self, disc: Disc) -> None:
        self.context.runner.now(
            lambda: self.presenter.put(self.shown, disc),
            then=self._show,
            invalid=self.load.show_error,
        )

    def _take(self, disc: Disc) -> None:
        self._show(self.presenter.take(self.shown, disc))

    def print_chart(self) -> None:
        """Print the chart of the set that is chosen."""
        values = self.weights.choices.values()
        self.context.runner.now(
            lambda: self.presenter.chart(values["step"], values["last"]),
            then=self._print,
            invalid=self.weights.show_error,
        )

    def _print(self, chart: LoadingChart) -> None:
        file = self._ask_where(self.words.say(chart.name))
        if file is None:
            return
        paper = self.context.preferences.paper
        self.context.runner.background(
            lambda _: self.context.printing.loading_chart(chart, paper, file),
            about=self.words("bar.printing"),
            then=self._printed,
            can_stop=False,
        )

    def _printed(self, file: Path) -> None:
        self.context.notices.say(self.words("bar.printed", file=str(file)))
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(file)))

    def _ask_where(self, name: str) -> Path | None:
        """Ask for the file to write."""
        documents = QStandardPaths.StandardLocation.DocumentsLocation
        folder = self.context.preferences.print_folder or QStandardPaths.writableLocation(documents)
        suggested = Path(folder) / self.words("bar.file", name=name.replace("/", "-"))
        chosen, _ = QFileDialog.getSaveFileName(
            self, self.words("bar.print"), str(suggested), "PDF (*.pdf)"
        )
        return Path(chosen) if chosen else None

    def _lay_out(self) -> None:
        sides = QSplitter(Qt.Orientation.Horizontal)
        sides.setChildrenCollapsible(False)
        sides.addWidget(scrolled(self.load))
        sides.addWidget(self.weights)
        for at, share in enumerate(_SIDES):
            sides.setStretchFactor(at, share)
        sides.setSizes([share * 100 for share in _SIDES])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(self.words, "bar"))
        layout.addWidget(self.sets)
        layout.addWidget(sides, 1)
