"""From the text of a rulebook file to a rulebook, checked for sense on the way."""

from __future__ import annotations

from datetime import date
from pathlib import PurePath

from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.rulebook import (
    AfterGood,
    AfterMiss,
    AgeRule,
    AttemptRules,
    Disc,
    Division,
    FourthAttempt,
    Groups,
    LiftOff,
    OpenerChange,
    OutOfClass,
    Rulebook,
    SmallGroup,
    ThirdChanges,
    Tie,
    WeighIn,
    WeighInKind,
)
from coachdesk.domain.rulebook_lifts import read_kit_limits, read_lifts
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import text
from coachdesk.domain.toml_reader import TomlTable, read_toml
from coachdesk.domain.units import Mass, Unit
from coachdesk.domain.weight_class import ClassSet, WeightClass, class_name

OLDEST = 120


def parse_rulebook(data: bytes, file: str, language: str = "") -> Rulebook:
    """Read a rulebook from the bytes of the TOML file named `file`; its stem becomes the key.

    Its texts are those of `language` where the file holds them. Raises FileFault, which names line,
    key and what is expected.
    """
    table = read_toml(data, file, language)
    unit = table.choice("unit", Unit)
    equipment = table.choices("equipment", Equipment)
    lift_order = table.choices("lift_order", Lift)
    divisions = _divisions(table)
    rulebook = Rulebook(
        key=PurePath(file).stem,
        name=table.text("name"),
        edition=table.text("edition"),
        edition_date=table.date("edition_date"),
        source=table.text("source"),
        checked_on=_checked_on(table),
        note=table.text("note"),
        unit=unit,
        events=_events(table, lift_order),
        equipment=equipment,
        lift_order=lift_order,
        class_sets=_class_sets(table, unit, divisions),
        divisions=divisions,
        weigh_in=_weigh_in(table.table("weigh_in")),
        smallest_step=table.mass("smallest_step", unit),
        record_step=_record_step(table, unit),
        opener_change=_opener_change(table.table("opener_change")),
        attempts=_attempts(table.table("attempts")),
        bar=table.mass("bar", unit),
        collar=table.mass("collar", unit, zero_allowed=True),
        discs=_discs(table, unit),
        groups=_groups(table.table("groups")),
        lift_off=table.choice("bench_lift_off", LiftOff),
        best_lifter=table.choice("best_lifter", Formula),
        team_points=_team_points(table),
        ties=_ties(table),
        lifts=read_lifts(table, lift_order),
        kit_limits=read_kit_limits(table, equipment),
        kit_inspection=table.boolean("kit_inspection"),
        drug_test=table.boolean("drug_test"),
    )
    table.finish()
    return rulebook


def _checked_on(table: TomlTable) -> date:
    edition_date, checked_on = table.date("edition_date"), table.date("checked_on")
    if checked_on < edition_date:
        raise table.fault("checked_on", text("expected.date_from", earliest=edition_date))
    return checked_on


def _events(table: TomlTable, lift_order: tuple[Lift, ...]) -> tuple[Event, ...]:
    events = table.choices("events", Event)
    for index, event in enumerate(events):
        if not set(event.lifts) <= set(lift_order):
            raise table.fault("events", text("expected.event_of_lifts"), index)
    return events


def _record_step(table: TomlTable, unit: Unit) -> Mass:
    smallest_step, record_step = table.mass("smallest_step", unit), table.mass("record_step", unit)
    if record_step.number > smallest_step.number:
        raise table.fault(
            "record_step", text("expected.record_step", most=str(smallest_step.number))
        )
    return record_step


def _divisions(table: TomlTable) -> tuple[Division, ...]:
    divisions: dict[str, Division] = {}
    for row in table.tables("divisions"):
        key = row.code("key")
        if key in divisions:
            raise row.fault("key", text("expected.new_code", used=key))
        divisions[key] = _division(row, key)
        row.finish()
    return tuple(divisions.values())


def _division(row: TomlTable, key: str) -> Division:
    age_rule = row.choice("age_rule", AgeRule)
    from_age = row.integer("from_age", 0, OLDEST) if "from_age" in row else None
    to_age = row.integer("to_age", from_age or 0, OLDEST) if "to_age" in row else None
    from_birthday = row.boolean("from_birthday") if "from_birthday" in row else False
    if from_birthday and (from_age is None or age_rule is not AgeRule.CALENDAR_YEAR):
        raise row.fault("from_birthday", text("expected.from_birthday"))
    return Division(
        key=key,
        name=row.text("name"),
        age_rule=age_rule,
        from_age=from_age,
        to_age=to_age,
        from_birthday=from_birthday,
    )


def _class_sets(
    table: TomlTable, unit: Unit, divisions: tuple[Division, ...]
) -> tuple[ClassSet, ...]:
    class_sets: list[ClassSet] = []
    for row in table.tables("classes"):
        class_set = _class_set(row, unit, divisions)
        if any(class_set.overlaps(earlier) for earlier in class_sets):
            key = next((key for key in ("valid_from", "valid_until") if key in row), "sex")
            raise row.fault(key, text("expected.no_overlap"))
        class_sets.append(class_set)
        row.finish()
    for sex in Sex:
        if all(class_set.sex is not sex for class_set in class_sets):
            raise table.fault("classes", text("expected.classes_of", sex=text(f"sex.{sex}")))
    return tuple(class_sets)


def _class_set(row: TomlTable, unit: Unit, divisions: tuple[Division, ...]) -> ClassSet:
    valid_from = row.date("valid_from") if "valid_from" in row else None
    valid_until = row.date("valid_until") if "valid_until" in row else None
    if valid_from and valid_until and valid_until < valid_from:
        raise row.fault("valid_until", text("expected.date_from", earliest=valid_from))
    limits = row.rising_masses("limits", unit)
    open_to: dict[Mass, frozenset[str] | None] = dict.fromkeys(limits)
    open_to |= _reserved_limits(row, unit, limits, divisions)
    classes = [
        WeightClass(name=class_name(limit), limit=limit, divisions=open_to[limit])
        for limit in sorted(open_to, key=lambda limit: limit.number)
    ]
    if row.boolean("unlimited_above"):
        classes.append(WeightClass(name=class_name(limits[-1], above=True), limit=None))
    return ClassSet(
        sex=row.choice("sex", Sex),
        classes=tuple(classes),
        valid_from=valid_from,
        valid_until=valid_until,
    )


def _reserved_limits(
    row: TomlTable, unit: Unit, limits: tuple[Mass, ...], divisions: tuple[Division, ...]
) -> dict[Mass, frozenset[str] | None]:
    """The limits of classes open to some divisions alone, with the keys of those divisions."""
    if "reserved_limits" not in row and "reserved_for" not in row:
        return {}
    reserved = row.rising_masses("reserved_limits", unit)
    for index, limit in enumerate(reserved):
        if limit in limits or limit.number > limits[-1].number:
            raise row.fault("reserved_limits", text("expected.reserved_limit"), index)
    return dict.fromkeys(
        reserved, frozenset(row.codes("reserved_for", [division.key for division in divisions]))
    )


def _weigh_in(table: TomlTable) -> WeighIn:
    kind = table.choice("kind", WeighInKind)
    timed = kind is WeighInKind.TWO_HOUR
    opens = table.integer("opens_minutes", 0, 2880) if timed or "opens_minutes" in table else None
    lasts = (
        table.integer("lasts_minutes", 1, 2880 if opens is None else opens)
        if timed or "lasts_minutes" in table
        else None
    )
    weigh_in = WeighIn(
        kind=kind,
        reweighs=table.boolean("reweighs"),
        out_of_class=table.choice("out_of_class", OutOfClass),
        opens_minutes=opens,
        lasts_minutes=lasts,
    )
    table.finish()
    return weigh_in


def _opener_change(table: TomlTable) -> OpenerChange:
    by_minutes = "later_group_minutes" in table
    if by_minutes is ("later_group_attempts_left" in table):
        raise table.fault("later_group_attempts_left", text("expected.one_later_group_rule"))
    change = OpenerChange(
        times=table.integer("times", 0, 9),
        first_group_minutes=table.integer("first_group_minutes", 0, 1440),
        later_group_minutes=table.integer("later_group_minutes", 0, 1440) if by_minutes else None,
        later_group_attempts_left=(
            None if by_minutes else table.integer("later_group_attempts_left", 0, 99)
        ),
        up=table.boolean("up"),
        down=table.boolean("down"),
    )
    table.finish()
    return change


def _attempts(table: TomlTable) -> AttemptRules:
    changes = table.table("third_changes")
    rules = AttemptRules(
        next_weight_seconds=table.integer("next_weight_seconds", 1, 600),
        after_good=table.choice("after_good", AfterGood),
        after_miss=table.choice("after_miss", AfterMiss),
        third_changes=ThirdChanges(
            squat=changes.integer("squat", 0, 9),
            bench=changes.integer("bench", 0, 9),
            deadlift=changes.integer("deadlift", 0, 9),
            bench_only=changes.integer("bench_only", 0, 9),
        ),
        fourth=table.choice("fourth", FourthAttempt),
        void_repeats=table.boolean("void_repeats"),
        clock_seconds=table.integer("clock_seconds", 1, 600),
    )
    changes.finish()
    table.finish()
    return rules


def _discs(table: TomlTable, unit: Unit) -> tuple[Disc, ...]:
    discs: list[Disc] = []
    for row in table.tables("discs"):
        disc = Disc(
            weight=row.mass("weight", unit),
            colour=row.text("colour") if "colour" in row else "",
            records_only=row.boolean("records_only") if "records_only" in row else False,
        )
        if any(disc.weight.number == other.weight.number for other in discs):
            raise row.fault("weight", text("expected.new_disc"))
        discs.append(disc)
        row.finish()
    return tuple(discs)


def _groups(table: TomlTable) -> Groups:
    largest = table.integer("largest", 1, 99)
    must_split_from = table.integer("must_split_from", 2, largest + 1)
    groups = Groups(
        largest=largest,
        may_split_from=table.integer("may_split_from", 2, must_split_from),
        must_split_from=must_split_from,
        small=_small_groups(table) if "small" in table else (),
    )
    table.finish()
    return groups


def _small_groups(table: TomlTable) -> tuple[SmallGroup, ...]:
    groups: list[SmallGroup] = []
    for row in table.tables("small"):
        group = SmallGroup(
            up_to=row.integer("up_to", 1, 99), extra_minutes=row.integer("extra_minutes", 0, 60)
        )
        if any(group.up_to == other.up_to for other in groups):
            raise row.fault("up_to", text("expected.new_size"))
        groups.append(group)
        row.finish()
    return tuple(sorted(groups, key=lambda group: group.up_to))


def _team_points(table: TomlTable) -> tuple[int, ...]:
    points = table.integers("team_points", 0, 999)
    for index in range(1, len(points)):
        if points[index] > points[index - 1]:
            raise table.fault("team_points", text("expected.falling_points"), index)
    return points


def _ties(table: TomlTable) -> tuple[Tie, ...]:
    ties = table.choices("ties", Tie)
    if Tie.SHARED in ties[:-1]:
        raise table.fault("ties", text("expected.shared_last"), ties.index(Tie.SHARED))
    return ties
