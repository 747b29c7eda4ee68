"""Bar, without widgets: a weight typed becomes discs, discs put on become a weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_FLOOR
from itertools import groupby
from typing import TypeAlias

from coachdesk.domain.disc_set import colour_text
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import (
    HEAVIEST,
    BarSet,
    Disc,
    Loading,
    LoadingAnswer,
    lightest,
    load,
    weight_of,
)
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass, Unit
from coachdesk.services import typed
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import OfferedSet, offered_sets
from coachdesk.services.loading_chart import LoadingChart, loading_chart
from coachdesk.wording.wording import Wording

Choices: TypeAlias = list[tuple[str, str]]

ROWS_EACH_WAY = 10


@dataclass(frozen=True, slots=True)
class Shown:
    """What is on the bar: the discs of one side from the inside out, what the bar weighs with
    them, and the weight that was asked for. `below` and `above` are the nearest weights where
    that one cannot be made."""

    discs: tuple[Disc, ...]
    total: Mass
    asked: Mass | None = None
    below: Loading | None = None
    above: Loading | None = None

    @property
    def is_exact(self) -> bool:
        """Whether the bar weighs what was asked for."""
        return self.below is None and self.above is None


@dataclass(frozen=True, slots=True)
class WeightRow:
    """A weight near the one on the bar; no discs where they do not make it."""

    weight: Mass
    discs: tuple[Disc, ...] | None


class BarPresenter:
    """Works out everything from the disc set that is chosen."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words
        self._sets: tuple[OfferedSet, ...] = ()
        self._chosen: OfferedSet | None = None

    def read(self) -> None:
        """Read the sets anew; the one chosen stays chosen where it is still there."""
        key = "" if self._chosen is None else self._chosen.key
        self._sets = offered_sets(self._desk)
        self.choose(key)

    def choose(self, key: str) -> None:
        """Work with another set; the first where there is none of this key."""
        self._chosen = next((each for each in self._sets if each.key == key), self._sets[0])

    @property
    def chosen(self) -> OfferedSet:
        """The set that is worked with."""
        if self._chosen is None:
            self.read()
        if self._chosen is None:
            raise LookupError
        return self._chosen

    @property
    def words(self) -> Wording:
        """The words, with masses in the set's unit."""
        return self._words.in_unit(self.chosen.unit)

    def set_choices(self) -> Choices:
        """The sets by key."""
        return [(each.key, self._words.say(each.name)) for each in self._sets]

    # weight to discs, and back

    def bare(self) -> Shown:
        """The bare bar."""
        return Shown((), lightest(self.chosen.bar_set))

    def load(self, entered: str) -> Shown:
        """The discs for a weight typed in either unit; raises InvalidInput (field "weight")."""
        asked = typed.required_mass("weight", entered, self.chosen.unit)
        answer: LoadingAnswer = load(asked, self.chosen.bar_set)
        nearest = answer.nearest
        return Shown(nearest.discs_per_side, nearest.total, asked, answer.below, answer.above)

    def put(self, shown: Shown, disc: Disc) -> Shown:
        """One more disc on each side; raises InvalidInput (field "discs")."""
        used = sum(other.weight == disc.weight for other in shown.discs)
        if disc.pairs is not None and used >= disc.pairs:
            raise InvalidInput(
                "discs", text("bar.no_more", count=disc.pairs, disc=self._named(disc.weight))
            )
        discs = (*shown.discs, disc)
        ordered = tuple(sorted(discs, key=lambda each: -each.weight.grams))
        total = weight_of(ordered, self.chosen.bar_set)
        if total.grams > HEAVIEST.grams:
            raise InvalidInput("discs", text("loading.too_heavy", heaviest=HEAVIEST))
        return Shown(ordered, total)

    def take(self, shown: Shown, disc: Disc) -> Shown:
        """One disc less on each side; the same where there is none of it."""
        discs = list(shown.discs)
        at = next((at for at, each in enumerate(discs) if each.weight == disc.weight), None)
        if at is None:
            return shown
        del discs[at]
        return Shown(tuple(discs), weight_of(discs, self.chosen.bar_set))

    def on_set(self, shown: Shown) -> Shown:
        """The weight on the bar with the discs of the set that is chosen now."""
        weight = shown.asked or shown.total
        if weight.grams < lightest(self.chosen.bar_set).grams:
            return self.bare()
        return self.load(typed.shown_mass(weight))

    def retyped(self, shown: Shown) -> str:
        """The weight on the bar as it is typed, without needless zeros."""
        weight = shown.asked or shown.total
        return typed.shown_mass(Mass(weight.number.normalize(), weight.unit))

    # in words

    def both_units(self, mass: Mass) -> str:
        """A weight in the set's unit and in the other one."""
        return self.words.both_units(mass)

    def disc(self, disc: Disc) -> str:
        """A disc's number, with its unit where that is not the set's."""
        if disc.weight.unit is self.chosen.unit:
            return self.words.bare_mass(disc.weight)
        return self._named(disc.weight)

    def disc_named(self, disc: Disc) -> str:
        """A disc with its unit and its colour."""
        if not disc.colour:
            return self._named(disc.weight)
        colour = colour_text(disc.colour)
        return self._words("bar.disc_coloured", disc=self._named(disc.weight), colour=colour)

    def each_side(self, discs: Sequence[Disc]) -> str:
        """The discs from the inside out, several of a kind as "3 × 25"."""
        if not discs:
            return self._words("bar.bare")
        runs = [(number, len(list(run))) for number, run in groupby(map(self.disc, discs))]
        return ", ".join(
            number if times == 1 else self._words("bar.several", times=times, disc=number)
            for number, times in runs
        )

    def said(self, shown: Shown) -> str:
        """What is on the bar in a sentence, for those who do not see the drawing."""
        collar = self.chosen.bar_set.collar
        code = "bar.said" if collar.number else "bar.said.no_collars"
        return self._words(
            code,
            total=self.both_units(shown.total),
            discs=", ".join(map(self.disc_named, shown.discs)) or self._words("bar.bare"),
            bar=self._named(self.chosen.bar_set.bar),
            collar=self._named(collar),
        )

    def verdict(self, shown: Shown) -> str:
        """Whether the bar weighs what was asked for, and if not by how much it does not."""
        if shown.asked is None:
            return ""
        asked = self._named(shown.asked)
        if shown.is_exact:
            return self._words("bar.exact", asked=asked)
        if shown.above is None:
            return self._words("bar.discs_run_out", asked=asked)
        return self._words("bar.not_exact", asked=asked)

    def nearest(self, loading: Loading) -> str:
        """A nearest weight and its difference, in the unit that was asked for."""
        code = "bar.below" if loading.difference.number < 0 else "bar.above"
        difference = loading.difference
        size = Mass(abs(difference.number), difference.unit)
        return self._words(code, total=self.words.mass(loading.total), difference=self._named(size))

    # weights around it

    def step(self, entered: str) -> Mass:
        """The step typed, or the set's own; raises InvalidInput (field "step")."""
        step = typed.mass("step", entered, self.chosen.unit)
        if step is None:
            return self.chosen.step
        if not 0 < step.grams <= HEAVIEST.grams:
            raise InvalidInput("step", text("scoring.step_not_positive"))
        return step

    def rows(self, shown: Shown, step: Mass) -> tuple[WeightRow, ...]:
        """The weights around the one on the bar that are multiples of `step`."""
        bare = lightest(self.chosen.bar_set)
        middle = (shown.asked or shown.total).in_unit(step.unit) / step.number
        at = int(middle.to_integral_value(ROUND_FLOOR))
        least = -int(-bare.in_unit(step.unit) // step.number)
        first = max(at - ROWS_EACH_WAY, least)
        masses = (
            Mass(step.number * number, step.unit)
            for number in range(first, first + 2 * ROWS_EACH_WAY + 1)
        )
        return tuple(
            WeightRow(mass, self._exact(mass))
            for mass in masses
            if bare.grams <= mass.grams <= HEAVIEST.grams
        )

    def row_discs(self, row: WeightRow) -> str:
        """The discs of a row, or that they do not make it."""
        return self._words("bar.not_made") if row.discs is None else self.each_side(row.discs)

    def row_weight(self, row: WeightRow, unit: Unit) -> str:
        """The weight of a row in one of the units."""
        return self._words.column_mass(row.weight, unit)

    # on paper

    def chart(self, entered_step: str, entered_last: str) -> LoadingChart:
        """The chart to print; raises InvalidInput (field "step" or "last")."""
        last = typed.required_mass("last", entered_last, self.chosen.unit)
        return loading_chart(
            self.chosen, step=self.step(entered_step), last=last, printed_at=self._desk.now()
        )

    def usual_last(self) -> str:
        """How far a chart goes when nothing else is typed."""
        return "350" if self.chosen.unit is Unit.KG else "800"

    def _exact(self, mass: Mass) -> tuple[Disc, ...] | None:
        exact = load(mass, self._bar_set).exact
        return None if exact is None else exact.discs_per_side

    @property
    def _bar_set(self) -> BarSet:
        return self.chosen.bar_set

    def _named(self, mass: Mass) -> str:
        """A mass in the unit it was entered in: discs are known by what is cast into them."""
        return self._words.mass(mass, mass.unit)
