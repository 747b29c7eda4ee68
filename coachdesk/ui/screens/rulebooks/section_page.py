"""One section of the form: its fields, and its lists as small tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.services.rulebook_draft import Draft, Row
from coachdesk.services.rulebook_fields import Field, Kind, Section
from coachdesk.ui.context import Context
from coachdesk.ui.screens.rulebooks.ordered_choices import OrderedChoicesField
from coachdesk.ui.screens.rulebooks.rows_editor import RowsEditor
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets import fields as kit
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.wording.wording import Wording

_HINTED = frozenset(
    {
        "checked_on",
        "note",
        "source",
        "team_points",
        "opener_change.later_group_minutes",
        "opener_change.later_group_attempts_left",
        "weigh_in.opens_minutes",
    }
)
"""Fields with a line of explanation."""
_SHORT_LINES, _LONG_LINES = 3, 4


class SectionPage(QWidget):
    """Filled in from a draft; tells what the coach changed."""

    edited = Signal()

    def __init__(
        self,
        context: Context,
        section: Section,
        draft: Draft,
        divisions: Callable[[], Sequence[tuple[str, str]]],
    ) -> None:
        super().__init__()
        self._words = context.words
        self._divisions = divisions
        self.form = Form(context.words)
        self.editors: dict[str, RowsEditor] = {}
        for part in section.parts:
            if isinstance(part, Field):
                hint = f"rulebook.hint.{part.name}" if part.name in _HINTED else ""
                field = self._field(part, draft.values[part.name])
                self.form.add(part.name, f"rulebook.field.{part.name}", field, hint)
            else:
                editor = RowsEditor(context, part, self.choices_of)
                editor.set_rows(draft.rows[part.name])
                editor.edited.connect(self.edited)
                self.form.add_widget(editor)
                self.editors[part.name] = editor
        self.form.set_values({name: draft.values[name] for name in self.form.values()})
        self._filled_in = self.form.values()
        self.form.edited.connect(self.edited)
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, GAP * 2, GAP)
        column.addWidget(self.form)
        column.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scrolled(inner))

    def changed_values(self) -> dict[str, str]:
        """The fields the coach changed; the others stay as they are in the file."""
        return {
            name: value
            for name, value in self.form.values().items()
            if value != self._filled_in[name]
        }

    def rows(self) -> Mapping[str, tuple[Row, ...]]:
        """The rows of the lists."""
        return {name: editor.rows for name, editor in self.editors.items()}

    def is_dirty(self) -> bool:
        """Whether the coach changed something."""
        return bool(self.changed_values()) or any(
            editor.is_dirty() for editor in self.editors.values()
        )

    def editor_with_draft(self) -> RowsEditor | None:
        """A list with a cell that holds something that cannot be taken."""
        return next((each for each in self.editors.values() if each.has_drafts), None)

    def show_error(self, error: InvalidInput) -> None:
        """Say it at its field, or at its cell."""
        name, *cell = error.field.split("/")
        if name not in self.editors:
            self.form.show_error(error)
            return
        number, column = (int(cell[0]), cell[1]) if cell else (None, "")
        self.editors[name].show_error(number, column, self._words.say(error.text))

    def clear_errors(self) -> None:
        """All is well so far."""
        self.form.clear_errors()

    def focus_first(self) -> None:
        """Go to the first thing that can be filled in."""
        if self._filled_in:
            self.form.focus_first()
        else:
            next(iter(self.editors.values())).table.setFocus()

    def choices_of(self, field: Field) -> list[tuple[str, str]]:
        """What can be chosen in a field, in words."""
        if field.name == "reserved_for":
            return list(self._divisions())
        return _choices(self._words, field)

    def _field(self, field: Field, value: str) -> kit.Field:
        words = self._words
        match field.kind:
            case Kind.PROSE:
                made: kit.Field = kit.LongTextField(lines=_SHORT_LINES)
            case Kind.LINES:
                made = kit.LongTextField(lines=_LONG_LINES)
            case Kind.DAY:
                made = kit.DateField(pick=words("rulebook.pick"))
            case Kind.NUMBER | Kind.WHOLE:
                made = kit.NumberField()
            case Kind.YES:
                made = kit.YesNoField(words("rulebook.yes"))
            case Kind.CHOICE:
                made = kit.ChoiceField(_with(value, _choices(words, field)))
            case Kind.CHOICES:
                choices = _choices(words, field)
                made = kit.ManyChoicesField(choices, lines=len(choices) + 1)
            case Kind.IN_ORDER:
                up, down = words("rulebook.up"), words("rulebook.down")
                made = OrderedChoicesField(_choices(words, field), up=up, down=down)
            case _:
                made = kit.TextField()
        return made


def _choices(words: Wording, field: Field) -> list[tuple[str, str]]:
    if not field.family:
        return [(value, value) for value in field.choices]
    return [(value, words(f"{field.family}{value}")) for value in field.choices]


def _with(value: str, choices: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The choices, and what a faulty file holds instead of one of them."""
    is_known = any(value == each for each, _ in choices)
    return choices if is_known else [(value, value), *choices]
