"""The form of a meet."""

from __future__ import annotations

from coachdesk.ui.screens.meets.presenter import Choices
from coachdesk.ui.widgets.fields import ChoiceField, DateField, LongTextField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording


def meet_form(words: Wording, rulebooks: Choices, time_zones: Choices, *, is_new: bool) -> Form:
    """Name, day, rules, times, place, deadline, kit inspection."""
    pick = words("meets.form.pick_day")
    form = Form(words)
    form.add("name", "meets.form.name", TextField())
    hint = "" if is_new else "meets.form.sessions_move"
    form.add("starts_on", "meets.form.starts_on", DateField(pick=pick), hint)
    form.add("rulebook", "meets.form.rulebook", ChoiceField(rulebooks))
    form.add("place", "meets.form.place", TextField())
    form.add("time_zone", "meets.form.time_zone", ChoiceField(time_zones))
    form.add("entry_deadline", "meets.form.entry_deadline", DateField(pick=pick))
    form.add("kit_inspection_on", "meets.form.kit_inspection_on", DateField(pick=pick))
    form.add("note", "meets.form.note", LongTextField(lines=3))
    return form
