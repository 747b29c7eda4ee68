"""The questions before an athlete is deleted, or erased for good."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.dialogs import ask_form
from coachdesk.ui.widgets.fields import TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog


def may_delete(parent: QWidget, context: Context, detail: AthleteDetail) -> bool:
    """Ask, naming what goes along with the athlete."""
    words, agreed = context.words, []

    def question(goes_along: str) -> None:
        asked = words("roster.delete.athlete", name=detail.athlete.name)
        more = f"{goes_along} {words('roster.can_be_undone')}"
        agreed.append(ask(parent, asked, words("roster.delete"), words("roster.keep"), more=more))

    return context.runner.now(detail.goes_along, then=question) and any(agreed)


def may_erase(parent: QWidget, context: Context, detail: AthleteDetail) -> bool:
    """Ask, saying that backups keep a copy, and then for the athlete's name."""
    words, agreed = context.words, []

    def question(more: str) -> None:
        asked = words("roster.erase.question", name=detail.athlete.name)
        agreed.append(ask(parent, asked, words("roster.go_on"), words("roster.keep"), more=more))

    was_read = context.runner.now(lambda: detail.erase_question(context.backups), then=question)
    return was_read and any(agreed) and _types_the_name(parent, context, detail)


def _types_the_name(parent: QWidget, context: Context, detail: AthleteDetail) -> bool:
    words = context.words
    form = Form(words)
    form.add("name", "roster.field.full_name", TextField())
    asked = FormDialog(
        context,
        words("roster.erase.dots"),
        form,
        detail.is_erase_name,
        save_words=words("roster.erase"),
        about=words("roster.erase.type_name", name=detail.athlete.name),
        parent=parent,
    )
    return bool(ask_form(asked, parent))
