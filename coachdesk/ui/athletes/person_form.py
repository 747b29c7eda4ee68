"""Asking who an athlete is: on the Roster, and wherever somebody new comes up."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtWidgets import QWidget

from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Done
from coachdesk.ui.athletes.profile_values import Values, first_values
from coachdesk.ui.context import Context
from coachdesk.ui.widgets.fields import ChoiceField, DateField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.wording.wording import Wording


def add_person(form: Form, words: Wording) -> None:
    """Add the fields that say who somebody is."""
    form.add("given_name", "roster.field.given_name", TextField())
    form.add("family_name", "roster.field.family_name", TextField())
    sexes = [("", words("roster.choose")), *choices_of(words, "roster.sex", Sex)]
    form.add("sex", "roster.field.sex", ChoiceField(sexes), "roster.hint.sex")
    form.add("birth_date", "roster.field.birth_date", DateField(pick=words("roster.pick")))
    form.add("unit", "roster.field.unit", ChoiceField(choices_of(words, "roster.unit", Unit)))
    equipment = ChoiceField(choices_of(words, "equipment", Equipment))
    form.add("equipment", "roster.field.equipment", equipment)


def choices_of(words: Wording, family: str, members: Iterable[str]) -> list[tuple[str, str]]:
    """Members of an enumeration with their words, the codes of which begin with `family`."""
    return [(member, words(f"{family}.{member}")) for member in members]


def ask_new_athlete(
    context: Context,
    parent: QWidget,
    add: Callable[[Values], Done[int]],
    *,
    name: str = "",
    save_words: str = "",
) -> int | None:
    """Ask for the least there must be of a new athlete, the rest stands in the profile.

    `add` puts what was typed on file. A `name` that is known already stands in the form, and the
    focus after it. Answers the athlete's id, None when left.
    """
    words = context.words
    form = Form(words)
    add_person(form, words)
    form.set_values(first_values(words.unit, name))
    asked = FormDialog(
        context,
        words("roster.action.add"),
        form,
        add,
        save_words=save_words,
        about=words("roster.add.about"),
        parent=parent,
    )
    if form.field("given_name").value():
        form.field("sex").control().setFocus()
    asked.exec()
    answer = asked.answer
    asked.deleteLater()
    return answer if isinstance(answer, int) else None
