"""The forms of the Blocks screen."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.training import Purpose
from coachdesk.ui.plain import small
from coachdesk.ui.screens.blocks.block_values import maximum_field
from coachdesk.ui.widgets.fields import (
    ChoiceField,
    DateField,
    MassField,
    NumberField,
    TextField,
    YesNoField,
)
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording

Choices = Sequence[tuple[str, str]]


def block_form(words: Wording, meets: Choices, discs: Choices) -> Form:
    """A block."""
    form = Form(words)
    form.add("name", "blocks.field.name", TextField())
    purposes = [(each.value, words(f"purpose.{each}")) for each in Purpose]
    form.add("purpose", "blocks.field.purpose", ChoiceField(purposes))
    day = DateField(pick=words("roster.pick"))
    form.add("starts_on", "blocks.field.starts_on", day, "blocks.hint.starts_on")
    form.add("weeks", "blocks.field.weeks", NumberField())
    form.add("meet", "blocks.field.meet", ChoiceField([("", words("blocks.no_meet")), *meets]))
    sets = [("", words("blocks.usual_discs")), *discs]
    form.add("discs", "blocks.field.discs", ChoiceField(sets), "blocks.hint.discs")
    form.add("note", "blocks.field.note", TextField())
    return form


def exercise_form(words: Wording, days: Choices) -> Form:
    """A lift or a variation of it on a day of the week."""
    form = Form(words)
    form.add("lift", "blocks.field.lift", ChoiceField(lift_choices(words)))
    form.add("day", "blocks.field.day", ChoiceField(days))
    form.add("variation", "blocks.field.variation", TextField(), "blocks.hint.variation")
    form.add("share", "blocks.field.share", NumberField(), "blocks.hint.share")
    form.add("note", "blocks.field.note", TextField())
    return form


def maxima_form(words: Wording, unit: str) -> Form:
    """The training maxima."""
    form = Form(words)
    _add_maxima(form, unit)
    return form


def template_form(words: Wording, templates: Choices, unit: str) -> Form:
    """A block from a template."""
    form = Form(words)
    form.add("template", "blocks.field.template", ChoiceField(templates))
    form.add("starts_on", "blocks.field.starts_on", DateField(pick=words("roster.pick")))
    form.add_widget(small(words("blocks.template.maxima")))
    _add_maxima(form, unit)
    return form


def print_form(words: Wording, weeks: int) -> Form:
    """Which weeks to print, on which paper, into which folder."""
    form = Form(words)
    choices = _weeks(words, weeks)
    form.add("week", "blocks.field.from_week", ChoiceField(choices))
    form.add("last", "blocks.field.to_last", ChoiceField(choices))
    papers = [(each, words(f"settings.paper.{each}")) for each in ("a4", "letter")]
    form.add("paper", "meets.print.paper", ChoiceField(papers))
    form.add("folder", "meets.print.folder", TextField())
    return form


def copy_week_form(words: Wording, weeks: int) -> Form:
    """From which week to which."""
    form = Form(words)
    choices = _weeks(words, weeks)
    form.add("from_week", "blocks.field.from_week", ChoiceField(choices))
    form.add("to_week", "blocks.field.to_week", ChoiceField(choices))
    return form


def copy_block_form(words: Wording, athletes: Choices) -> Form:
    """For whom, and from when on."""
    form = Form(words)
    form.add("to_athlete", "blocks.field.to_athlete", ChoiceField(athletes))
    form.add("starts_on", "blocks.field.starts_on", DateField(pick=words("roster.pick")))
    return form


def day_form(words: Wording) -> Form:
    """What became of a training day."""
    form = Form(words)
    form.add("missed", "blocks.field.missed", YesNoField(words("blocks.missed")))
    form.add("note", "blocks.field.note", TextField())
    return form


def log_form(words: Wording, unit: str, planned: Choices, causes: Choices) -> Form:
    """A set, or several equal ones, as they were lifted."""
    form = Form(words)
    form.add("planned", "blocks.field.planned", ChoiceField(planned))
    form.add("weight", f"roster.field.weight.{unit}", MassField())
    form.add("reps", "roster.field.reps", NumberField())
    form.add("sets", "roster.field.sets", NumberField())
    form.add("rir", "roster.field.rir", NumberField(), "roster.hint.rir")
    form.add("on", "roster.field.on", DateField(pick=words("roster.pick")))
    calls = [("", words("roster.not_judged"))]
    calls += [(each, words(f"outcome.{each}")) for each in (Result.GOOD, Result.NO_LIFT)]
    form.add("result", "roster.field.call", ChoiceField(calls), "roster.hint.call")
    form.add("cause", "roster.field.cause", ChoiceField(causes))
    form.add("note", "roster.field.note", TextField())
    return form


def lift_choices(words: Wording) -> list[tuple[str, str]]:
    """The lifts."""
    return [(each.value, words(f"lift.{each}")) for each in Lift]


def _weeks(words: Wording, weeks: int) -> Choices:
    return [(str(week), words("blocks.week.plain", week=week)) for week in range(1, weeks + 1)]


def _add_maxima(form: Form, unit: str) -> None:
    for lift in Lift:
        form.add(maximum_field(lift), f"blocks.field.{lift}.{unit}", MassField())
