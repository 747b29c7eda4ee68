"""The forms of what a coach wants of a plan, and of what a lift is planned on."""

from __future__ import annotations

from coachdesk.domain.lifting import Lift
from coachdesk.domain.wishes import DayAim
from coachdesk.ui.widgets.fields import ChoiceField, MassField, NumberField
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording


class WishForm(Form):
    """First aim and caps; what an aim does not need is not shown."""

    def __init__(self, words: Wording, lifts: tuple[Lift, ...]) -> None:
        super().__init__(words)
        aims = [(aim, words(f"wishes.aim.{aim}")) for aim in DayAim]
        self._aim = self.add("aim", "wishes.aim", ChoiceField(aims), "wishes.aim.hint")
        choices = [("", ""), *((lift, words(f"lift.{lift}")) for lift in lifts)]
        self.add("aim_lift", "wishes.aim_lift", ChoiceField(choices))
        self.add("aim_weight", "wishes.aim_weight", MassField(), "wishes.aim_weight.hint")
        self.add("risk_cap", "wishes.risk_cap", NumberField(), "wishes.risk_cap.hint")
        self.add("largest_jump", "wishes.jump", NumberField(), "wishes.jump.hint")
        self.edited.connect(self._show_needed)

    def set_values(self, values: dict[str, str]) -> None:
        """Show these values."""
        super().set_values(values)
        self._show_needed()

    def _show_needed(self) -> None:
        aim = DayAim(self._aim.value())
        self.show_row("aim_lift", shown=aim.is_of_a_lift)
        self.show_row("aim_weight", shown=aim is not DayAim.BIGGEST_TOTAL)


def lift_form(words: Wording, sources: list[tuple[str, str]], *, equipped: bool) -> Form:
    """The coach's number with its band, the source to plan on, and a garment's floor."""
    form = Form(words)
    form.add("number", "lift_basis.number", MassField(), "lift_basis.number.hint")
    form.add("low", "lift_basis.low", MassField())
    form.add("high", "lift_basis.high", MassField(), "lift_basis.band.hint")
    form.add("source", "lift_basis.source", ChoiceField(sources), "lift_basis.source.hint")
    form.add("floor", "lift_basis.floor", MassField(), "lift_basis.floor.hint")
    form.show_row("floor", shown=equipped)
    return form
