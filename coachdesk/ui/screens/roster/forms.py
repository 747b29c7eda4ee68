"""The forms of the Roster: profile, reading, set, result, handler."""

from __future__ import annotations

from coachdesk.domain.athlete import LossBar
from coachdesk.domain.lifting import Equipment, Event, Lift, Result
from coachdesk.ui.athletes.person_form import add_person, choices_of
from coachdesk.ui.plain import small
from coachdesk.ui.screens.roster.result_records import ResultRecords
from coachdesk.ui.screens.roster.set_records import SetRecords
from coachdesk.ui.weights.vocabulary import dress_choices
from coachdesk.ui.widgets.fields import (
    ChoiceField,
    DateField,
    LongTextField,
    ManyChoicesField,
    MassField,
    NumberField,
    TextField,
    TimeField,
    YesNoField,
)
from coachdesk.ui.widgets.form import Form
from coachdesk.wording.wording import Wording

_NOTE_LINES = 3


def profile_form(words: Wording) -> Form:
    """All that is kept about an athlete themselves: what is asked for at a rack comes first."""
    form = Form(words)
    form.add_heading("roster.group.rack")
    for name in ("squat_rack", "bench_rack", "bench_safety", "bench_foot_blocks"):
        form.add(name, f"roster.field.{name}", TextField())
    form.add("bench_lift_off", "roster.field.bench_lift_off", YesNoField(words("roster.lift_off")))
    form.add_heading("roster.group.cues")
    for lift in Lift:
        form.add(f"{lift}_cue", f"lift.{lift}", TextField())
    form.add_heading("roster.group.person")
    add_person(form, words)
    form.add("height_cm", "roster.field.height_cm", NumberField())
    form.add_heading("roster.group.standing")
    form.add("meets_before", "roster.field.meets_before", NumberField(), "roster.hint.meets_before")
    form.add("member_number", "roster.field.member_number", TextField())
    form.add("member_until", "roster.field.member_until", DateField(pick=words("roster.pick")))
    form.add_heading("roster.group.private")
    form.add_widget(small(words("roster.private")))
    for name in ("phone", "email", "emergency_contact"):
        form.add(name, f"roster.field.{name}", TextField())
    form.add("health_note", "roster.field.health_note", LongTextField(lines=_NOTE_LINES))
    loss_bars = [(each.value, words(f"roster.loss_bar.{each}")) for each in LossBar]
    form.add("loss_bar", "roster.field.loss_bar", ChoiceField(loss_bars), "roster.hint.loss_bar")
    form.add("note", "roster.field.note", LongTextField(lines=_NOTE_LINES))
    return form


def reading_form(words: Wording, unit: str) -> Form:
    """A bodyweight reading."""
    form = Form(words)
    form.add("weight", f"roster.field.weight.{unit}", MassField())
    form.add("on", "roster.field.on", DateField(pick=words("roster.pick")))
    form.add("at", "roster.field.at", TimeField(), "roster.hint.at")
    form.add("dress", "roster.field.dress", ChoiceField(dress_choices(words)))
    form.add("scale", "roster.field.scale", TextField())
    form.add("note", "roster.field.note", TextField())
    return form


def set_form(words: Wording, records: SetRecords, *, several: bool) -> Form:
    """A logged set, or several equal ones."""
    form = Form(words)
    form.add("on", "roster.field.on", DateField(pick=words("roster.pick")))
    lift = ChoiceField(choices_of(words, "lift", Lift))
    form.add("lift", "roster.field.lift", lift)
    form.add("variation", "roster.field.variation", TextField(), "roster.hint.variation")
    form.add("weight", f"roster.field.weight.{records.unit}", MassField())
    form.add("reps", "roster.field.reps", NumberField())
    if several:
        form.add("sets", "roster.field.sets", NumberField())
    form.add("rir", "roster.field.rir", NumberField(), "roster.hint.rir")
    calls = [("", words("roster.not_judged"))]
    calls += [(each, words(f"outcome.{each}")) for each in (Result.GOOD, Result.NO_LIFT)]
    form.add("result", "roster.field.call", ChoiceField(calls), "roster.hint.call")
    cause = ChoiceField(records.causes(lift.value()))
    form.add("cause", "roster.field.cause", cause)
    form.add("note", "roster.field.note", TextField())
    lift.edited.connect(lambda: cause.set_choices(records.causes(lift.value())))
    return form


def fill_set_form(form: Form, records: SetRecords, values: dict[str, str]) -> None:
    """Fill in a set; the causes offered are those of its lift."""
    cause = form.field("cause")
    if isinstance(cause, ChoiceField):
        cause.set_choices(records.causes(values["lift"]))
    form.set_values(values)


def result_form(words: Wording, records: ResultRecords) -> Form:
    """A result as a result sheet has it."""
    form = Form(words)
    form.add("meet", "roster.field.meet", TextField())
    form.add("on", "roster.field.on", DateField(pick=words("roster.pick")))
    rulebook = ChoiceField(records.rulebooks())
    form.add("rulebook", "roster.field.rulebook", rulebook)
    event = ChoiceField(choices_of(words, "event", Event))
    form.add("event", "roster.field.event", event)
    form.add(
        "equipment",
        "roster.field.equipment",
        ChoiceField(choices_of(words, "equipment", Equipment)),
    )
    divisions = ManyChoicesField(records.divisions(rulebook.value()), lines=4)
    form.add("divisions", "roster.field.divisions", divisions)
    form.add("weight_class", "roster.field.weight_class", NumberField())
    form.add("bodyweight", "roster.field.bodyweight", MassField())
    form.add_widget(small(words("roster.hint.attempts")))
    for lift in Lift:
        form.add(lift, f"lift.{lift}", TextField())
    form.add("place", "roster.field.place", NumberField())
    form.add("note", "roster.field.note", TextField())
    rulebook.edited.connect(lambda: divisions.set_choices(records.divisions(rulebook.value())))
    event.edited.connect(lambda: _show_lifts(form, event.value()))
    return form


def fill_result_form(form: Form, records: ResultRecords, values: dict[str, str]) -> None:
    """Fill in a result; the divisions offered are those of its rulebook."""
    divisions = form.field("divisions")
    if isinstance(divisions, ManyChoicesField):
        divisions.set_choices(records.divisions(values["rulebook"]))
    form.set_values(values)
    _show_lifts(form, values["event"])


def handler_form(words: Wording) -> Form:
    """Somebody who handles athletes at meets."""
    form = Form(words)
    form.add("name", "roster.field.name", TextField())
    form.add("phone", "roster.field.phone", TextField())
    form.add("note", "roster.field.note", LongTextField(lines=_NOTE_LINES))
    return form


def _show_lifts(form: Form, event: str) -> None:
    """Only the lifts of the event can be filled in; what stands in another is let go."""
    lifted = Event(event).lifts
    for lift in Lift:
        form.show_row(lift, shown=lift in lifted)
        if lift not in lifted:
            form.field(lift).set_value("")
