"""What a rulebook file says about the lifts themselves: commands, causes of no lift, kit limits."""

from __future__ import annotations

from coachdesk.domain.kit import KIT_CODES
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.rulebook import Card, Cause, KitLimit, LiftRules
from coachdesk.domain.toml_reader import TomlTable

CAUSE_CODES = frozenset(
    {
        "squat.depth",
        "squat.knees",
        "squat.bounce",
        "squat.downward",
        "squat.stepping",
        "squat.signal",
        "squat.spotter",
        "squat.elbow",
        "squat.dumping",
        "squat.clock",
        "squat.strength",
        "squat.other",
        "bench.chest",
        "bench.elbow_depth",
        "bench.downward",
        "bench.lockout",
        "bench.heave",
        "bench.signal",
        "bench.position",
        "bench.spotter",
        "bench.foot_on_bench",
        "bench.uprights",
        "bench.clock",
        "bench.strength",
        "bench.other",
        "deadlift.knees",
        "deadlift.not_erect",
        "deadlift.downward",
        "deadlift.thighs",
        "deadlift.early_lowering",
        "deadlift.release",
        "deadlift.stepping",
        "deadlift.clock",
        "deadlift.strength",
        "deadlift.other",
    }
)


def read_lifts(table: TomlTable, lifts: tuple[Lift, ...]) -> tuple[LiftRules, ...]:
    """Read the rules of each of `lifts` from the table of that name; raises FileFault."""
    rules: list[LiftRules] = []
    for lift in lifts:
        row = table.table(lift)
        restarts = "restart_command" in row
        rules.append(
            LiftRules(
                lift=lift,
                commands=row.texts("commands"),
                causes=_causes(row, lift),
                restart_command=row.text("restart_command") if restarts else "",
                restart_seconds=row.integer("restart_seconds", 1, 60) if restarts else None,
            )
        )
        row.finish()
    return tuple(rules)


def read_kit_limits(table: TomlTable, equipment: tuple[Equipment, ...]) -> tuple[KitLimit, ...]:
    """Read the limits on kit; those that name no equipment hold for all the rulebook's."""
    limits: list[KitLimit] = []
    for row in table.tables("kit_limits"):
        limits.append(
            KitLimit(
                items=row.codes("items", KIT_CODES),
                equipment=row.choices("equipment", Equipment) if "equipment" in row else equipment,
                words=row.text("words"),
            )
        )
        row.finish()
    return tuple(limits)


def _causes(table: TomlTable, lift: Lift) -> tuple[Cause, ...]:
    known = {code for code in CAUSE_CODES if code.startswith(f"{lift}.")}
    causes: dict[str, Cause] = {}
    for row in table.tables("causes"):
        code, words = row.known_code(known, causes)
        causes[code] = Cause(
            code=code,
            card=row.choice("card", Card) if "card" in row else None,
            strength=row.boolean("strength") if "strength" in row else False,
            words=words,
        )
        row.finish()
    return tuple(causes.values())
