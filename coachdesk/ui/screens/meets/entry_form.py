"""The form of an entry."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtWidgets import QComboBox

from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Role
from coachdesk.ui.widgets.fields import (
    ChoiceField,
    LongTextField,
    ManyChoicesField,
    MassField,
    NumberField,
    YesNoField,
)
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording

_DIVISION_LINES = 3
_LEAST_LETTERS = 8
_BY_LENGTH = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon


class EntryForm(Form):
    """What can be said about an entry; what its fields offer follows what is typed."""

    def __init__(self, words: Wording) -> None:
        super().__init__(words)
        self._offered: dict[str, list[tuple[str, str]]] = {}
        self.add("weight_class", "meets.entry.weight_class", ChoiceField())
        self.add(
            "comes_down",
            "meets.entry.way_down",
            YesNoField(words("meets.entry.comes_down")),
            "meets.entry.comes_down.hint",
        )
        self.add("divisions", "meets.entry.divisions", ManyChoicesField(lines=_DIVISION_LINES))
        self.add("event", "meets.entry.event", ChoiceField())
        self.add("equipment", "meets.entry.equipment", ChoiceField())
        self.add("session_id", "meets.entry.session_id", ChoiceField())
        for lift in Lift:
            self.add(f"flight_{lift}", f"meets.entry.flight_{lift}", ChoiceField())
        self.add("lot", "meets.entry.lot", NumberField())
        self.add_heading("meets.entry.expected")
        for lift in Lift:
            hint = "meets.entry.expected.hint" if lift is Lift.SQUAT else ""
            field = self.add(f"expected_{lift}", f"meets.entry.expected_{lift}", MassField(), hint)
            name = words("meets.entry.expected_of", lift=words(f"lift.{lift}"))
            field.control().setAccessibleName(name)
        self.add_heading("meets.entry.handlers")
        for role in Role:
            hint = "meets.entry.handlers.hint" if role is Role.HANDLING else ""
            self.add(f"role_{role}", f"meets.entry.role_{role}", ChoiceField(), hint)
        self.add_heading("meets.entry.day")
        self.add("bodyweight", "meets.entry.bodyweight", MassField())
        self.add("place", "meets.entry.place", NumberField())
        self.add("note", "meets.entry.note", LongTextField(lines=3))
        for key in self.values():
            box = self.field(key).control()
            if isinstance(box, QComboBox):
                box.setSizeAdjustPolicy(_BY_LENGTH)
                box.setMinimumContentsLength(_LEAST_LETTERS)

    def offer(self, choices: Mapping[str, list[tuple[str, str]]]) -> None:
        """Offer these choices; fields whose choices stay the same are left alone."""
        for key, offered in choices.items():
            if self._offered.get(key) == offered:
                continue
            self._offered[key] = offered
            field = self.field(key)
            if isinstance(field, ChoiceField | ManyChoicesField):
                field.set_choices(offered)

    def show_lifts(self, lifts: tuple[Lift, ...]) -> None:
        """Show what belongs to the lifts of the event."""
        for lift in Lift:
            self.show_row(f"flight_{lift}", shown=lift in lifts)
            self.show_row(f"expected_{lift}", shown=lift in lifts)
