"""The form of a disc set: name, unit, bar, collar, and a row for each kind of disc."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QWidget

from coachdesk.domain.disc_set import COLOURS, colour_text
from coachdesk.domain.units import Unit
from coachdesk.ui.plain import small
from coachdesk.ui.screens.bar.set_values import MOST_ROWS, disc_key, joined, parted
from coachdesk.ui.widgets.fields import ChoiceField, Field, MassField, NumberField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording

_EMPTY_ROWS = 3
_PAIRS_PX = 80
_LEAST_ROWS = 8


class DiscField(Field):
    """A kind of disc: its weight, the pairs at hand, its colour."""

    def __init__(self, words: Wording, number: int) -> None:
        super().__init__()
        self._weight = MassField(placeholder=words("bar.disc.weight"))
        self._pairs = NumberField(placeholder=words("bar.disc.pairs"))
        self._colour = ChoiceField(
            [
                ("", words("bar.disc.no_colour")),
                *((colour, words.say(colour_text(colour))) for colour in COLOURS),
            ]
        )
        for part, code in (
            (self._weight, "bar.disc.weight"),
            (self._pairs, "bar.disc.pairs"),
            (self._colour, "bar.disc.colour"),
        ):
            name = words("bar.disc.part", part=words(code), number=number)
            part.control().setAccessibleName(name)
            part.edited.connect(self.edited)
        self._pairs.control().setFixedWidth(_PAIRS_PX)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for part in (self._weight, self._pairs, self._colour):
            layout.addWidget(part)
        layout.addStretch(1)
        self.setFocusProxy(self._weight)

    def value(self) -> str:
        """Weight, pairs and colour, as typed; nothing where nothing is typed."""
        weight, pairs = self._weight.value(), self._pairs.value()
        colour = self._colour.value()
        return joined(weight, pairs, colour) if weight or pairs or colour else ""

    def set_value(self, value: str) -> None:
        """Fill in a kind of disc; a colour of the coach's own stays on offer."""
        weight, pairs, colour = parted(value)
        self._weight.set_value(weight)
        self._pairs.set_value(pairs)
        if colour and self._colour.box.findData(colour) < 0:
            self._colour.box.addItem(colour, colour)
        self._colour.set_value(colour)

    def control(self) -> QWidget:
        """The weight, which a label belongs to."""
        return self._weight.control()


def set_form(words: Wording, values: dict[str, str]) -> Form:
    """A form for a disc set, filled in, with a few rows to spare."""
    form = Form(words)
    form.add("name", "bar.set.name", TextField())
    units = [(unit.value, unit.value) for unit in Unit]
    form.add("unit", "bar.set.unit", ChoiceField(units), "bar.set.unit.hint")
    form.add("bar", "bar.set.bar", MassField())
    form.add("collar", "bar.set.collar", MassField(), "bar.set.collar.hint")
    form.add_heading("bar.set.discs")
    form.add_widget(small(words("bar.set.discs.hint")))
    filled = sum(key.startswith("disc_") for key in values)
    for number in range(1, min(MOST_ROWS, max(_LEAST_ROWS, filled + _EMPTY_ROWS)) + 1):
        form.add(disc_key(number), "bar.disc", DiscField(words, number))
    form.set_values(values)
    return form
