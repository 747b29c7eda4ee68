"""What a rulebook file is made of, field by field: one list for reading, form and file alike.

A field's `path` is where it stands in the file; joined by full stops it is what the form and its
errors call it. Within a list of rows a column's name takes the place of a path.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from coachdesk.domain.kit import KIT_CODES
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.rulebook import (
    AfterGood,
    AfterMiss,
    AgeRule,
    Card,
    FourthAttempt,
    LiftOff,
    OutOfClass,
    Tie,
    WeighInKind,
)
from coachdesk.domain.rulebook_lifts import CAUSE_CODES
from coachdesk.domain.scoring import Formula
from coachdesk.domain.units import Unit

Path: TypeAlias = tuple[str, ...]


class Kind(StrEnum):
    """What a field holds."""

    WORDS = "words"
    PROSE = "prose"
    DAY = "day"
    NUMBER = "number"
    WHOLE = "whole"
    YES = "yes"
    CHOICE = "choice"
    CHOICES = "choices"
    IN_ORDER = "in_order"
    """Choices whose order counts."""
    LINES = "lines"
    """Words, one to a line."""
    NUMBERS = "numbers"
    WHOLES = "wholes"
    CODES = "codes"
    """Codes, apart by blanks or commas."""

    @property
    def is_list(self) -> bool:
        """Whether the file keeps it as a list."""
        return self in _LISTS


_LISTS = {Kind.CHOICES, Kind.IN_ORDER, Kind.LINES, Kind.NUMBERS, Kind.WHOLES, Kind.CODES}


@dataclass(frozen=True, slots=True)
class Field:
    """One value. `choices` are what can be chosen, `family` is how the codes of their words begin
    (empty where they need no words); `required` says that the file cannot do without it, `is_open`
    that something else than the choices may be typed."""

    path: Path
    kind: Kind
    choices: tuple[str, ...] = ()
    family: str = ""
    required: bool = True
    is_open: bool = False

    @property
    def name(self) -> str:
        """What the form calls it."""
        return ".".join(self.path)


@dataclass(frozen=True, slots=True)
class Rows:
    """A list of rows, each with the same columns."""

    path: Path
    columns: tuple[Field, ...]

    @property
    def name(self) -> str:
        """What the form calls it."""
        return ".".join(self.path)

    def column(self, name: str) -> Field:
        """The column of this name."""
        return next(column for column in self.columns if column.name == name)


@dataclass(frozen=True, slots=True)
class Section:
    """Fields and lists of rows that belong together, in the order they are shown."""

    key: str
    parts: tuple[Field | Rows, ...]


def _field(path: str, kind: Kind, *, required: bool = True) -> Field:
    return Field(tuple(path.split(".")), kind, required=required)


def _choice(
    path: str,
    choices: type[StrEnum],
    family: str,
    kind: Kind = Kind.CHOICE,
    *,
    required: bool = True,
) -> Field:
    values = tuple(choice.value for choice in choices)
    return Field(tuple(path.split(".")), kind, values, family, required)


def _lift(lift: Lift) -> Section:
    causes = tuple(sorted(code for code in CAUSE_CODES if code.startswith(f"{lift}.")))
    columns = (
        Field(("code",), Kind.CHOICE, causes, "cause.", is_open=True),
        _choice("card", Card, "rulebook.card.", required=False),
        _field("strength", Kind.YES, required=False),
        _field("words", Kind.WORDS, required=False),
    )
    return Section(
        lift,
        (
            _field(f"{lift}.commands", Kind.LINES),
            _field(f"{lift}.restart_command", Kind.WORDS, required=False),
            _field(f"{lift}.restart_seconds", Kind.WHOLE, required=False),
            Rows((lift, "causes"), columns),
        ),
    )


CLASSES = Rows(
    ("classes",),
    (
        _choice("sex", Sex, "sex."),
        _field("limits", Kind.NUMBERS),
        _field("unlimited_above", Kind.YES),
        _field("reserved_limits", Kind.NUMBERS, required=False),
        _field("reserved_for", Kind.CODES, required=False),
        _field("valid_from", Kind.DAY, required=False),
        _field("valid_until", Kind.DAY, required=False),
    ),
)
DIVISIONS = Rows(
    ("divisions",),
    (
        _field("key", Kind.WORDS),
        _field("name", Kind.WORDS),
        _choice("age_rule", AgeRule, "rulebook.age_rule."),
        _field("from_age", Kind.WHOLE, required=False),
        _field("from_birthday", Kind.YES, required=False),
        _field("to_age", Kind.WHOLE, required=False),
    ),
)
DISCS = Rows(
    ("discs",),
    (
        _field("weight", Kind.NUMBER),
        _field("colour", Kind.WORDS, required=False),
        _field("records_only", Kind.YES, required=False),
    ),
)
SMALL_GROUPS = Rows(
    ("groups", "small"), (_field("up_to", Kind.WHOLE), _field("extra_minutes", Kind.WHOLE))
)
KIT_LIMITS = Rows(
    ("kit_limits",),
    (
        Field(("items",), Kind.CODES, tuple(sorted(KIT_CODES)), "kit."),
        _choice("equipment", Equipment, "equipment.", Kind.CODES, required=False),
        _field("words", Kind.WORDS),
    ),
)

SECTIONS: tuple[Section, ...] = (
    Section(
        "imprint",
        (
            _field("name", Kind.WORDS),
            _field("edition", Kind.WORDS),
            _field("edition_date", Kind.DAY),
            _field("source", Kind.PROSE),
            _field("checked_on", Kind.DAY),
            _field("note", Kind.PROSE),
            _choice("unit", Unit, ""),
            _choice("events", Event, "event.", Kind.CHOICES),
            _choice("equipment", Equipment, "equipment.", Kind.CHOICES),
            _choice("lift_order", Lift, "lift.", Kind.IN_ORDER),
        ),
    ),
    Section("classes", (CLASSES,)),
    Section("divisions", (DIVISIONS,)),
    Section(
        "weigh_in",
        (
            _choice("weigh_in.kind", WeighInKind, "rulebook.weigh_in."),
            _field("weigh_in.opens_minutes", Kind.WHOLE, required=False),
            _field("weigh_in.lasts_minutes", Kind.WHOLE, required=False),
            _field("weigh_in.reweighs", Kind.YES),
            _choice("weigh_in.out_of_class", OutOfClass, "rulebook.out_of_class."),
        ),
    ),
    Section(
        "attempts",
        (
            _field("smallest_step", Kind.NUMBER),
            _field("record_step", Kind.NUMBER),
            _field("opener_change.times", Kind.WHOLE),
            _field("opener_change.first_group_minutes", Kind.WHOLE),
            _field("opener_change.later_group_minutes", Kind.WHOLE, required=False),
            _field("opener_change.later_group_attempts_left", Kind.WHOLE, required=False),
            _field("opener_change.up", Kind.YES),
            _field("opener_change.down", Kind.YES),
            _field("attempts.next_weight_seconds", Kind.WHOLE),
            _choice("attempts.after_good", AfterGood, "rulebook.after_good."),
            _choice("attempts.after_miss", AfterMiss, "rulebook.after_miss."),
            _field("attempts.third_changes.squat", Kind.WHOLE),
            _field("attempts.third_changes.bench", Kind.WHOLE),
            _field("attempts.third_changes.deadlift", Kind.WHOLE),
            _field("attempts.third_changes.bench_only", Kind.WHOLE),
            _choice("attempts.fourth", FourthAttempt, "rulebook.fourth."),
            _field("attempts.void_repeats", Kind.YES),
            _field("attempts.clock_seconds", Kind.WHOLE),
        ),
    ),
    Section("bar", (_field("bar", Kind.NUMBER), _field("collar", Kind.NUMBER), DISCS)),
    Section(
        "groups",
        (
            _field("groups.largest", Kind.WHOLE),
            _field("groups.may_split_from", Kind.WHOLE),
            _field("groups.must_split_from", Kind.WHOLE),
            SMALL_GROUPS,
            _choice("bench_lift_off", LiftOff, "rulebook.lift_off."),
        ),
    ),
    *(_lift(lift) for lift in Lift),
    Section("kit", (_field("kit_inspection", Kind.YES), KIT_LIMITS)),
    Section(
        "scoring",
        (
            _choice("best_lifter", Formula, "formula."),
            _field("team_points", Kind.WHOLES),
            _choice("ties", Tie, "rulebook.tie.", Kind.IN_ORDER),
            _field("drug_test", Kind.YES),
        ),
    ),
)

FIELDS: tuple[Field, ...] = tuple(
    part for section in SECTIONS for part in section.parts if isinstance(part, Field)
)
ROWS: tuple[Rows, ...] = tuple(
    part for section in SECTIONS for part in section.parts if isinstance(part, Rows)
)
