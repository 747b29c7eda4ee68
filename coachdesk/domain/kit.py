"""Kit lists: what an athlete packs, what the team carries spare, and when it is checked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import PurePath

from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.toml_reader import TomlTable, read_toml

KIT_CODES = frozenset(
    {
        "bandages",
        "belt",
        "bench_shirt",
        "bench_shoes",
        "chalk",
        "charger",
        "deadlift_shoes",
        "deadlift_socks",
        "deadlift_suit",
        "drink",
        "elbow_sleeves",
        "entry_confirmation",
        "food",
        "handler_cards",
        "knee_sleeves",
        "knee_wraps",
        "loading_chart",
        "medicines_list",
        "membership_card",
        "pens",
        "photo_id",
        "plasters",
        "safety_pins",
        "scissors",
        "shoelaces",
        "singlet",
        "spare_singlet",
        "squat_shoes",
        "squat_suit",
        "t_shirt",
        "talc",
        "tape",
        "towel",
        "underwear",
        "warm_clothes",
        "warm_up_shoes",
        "wrist_wraps",
    }
)
ROUND_CODES = frozenset({"two_weeks", "one_week", "three_days", "evening_before", "morning"})


@dataclass(frozen=True, slots=True, kw_only=True)
class KitItem:
    """Something to pack.

    `code` names it; `words` are the coach's own for something that is not one of ours. `lifts`
    need it, none of them when it serves the whole day. `count` pieces. `inspected`: shown at kit
    inspection.
    """

    code: str
    lifts: tuple[Lift, ...] = ()
    count: int = 1
    inspected: bool = False
    words: str = ""

    @property
    def label(self) -> Text:
        """The item in words."""
        return text("kit.own", words=self.words) if self.words else text(f"kit.{self.code}")


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRound:
    """A round in which the whole list is checked, `days_before` [days] the meet.

    `code` names it; `words` are the coach's own for a round that is not one of ours.
    """

    code: str
    days_before: int
    words: str = ""

    @property
    def label(self) -> Text:
        """The round in words."""
        if self.words:
            return text("kit_round.own", words=self.words)
        return text(f"kit_round.{self.code}")

    def date_for(self, meet_date: date) -> date:
        """The day of this round for a meet on `meet_date`."""
        return meet_date - timedelta(days=self.days_before)


@dataclass(frozen=True, slots=True, kw_only=True)
class KitList:
    """A kit list.

    `key` is the stem of its file; `equipment` whom it is for; `source` where it comes from;
    `items` an athlete packs; `spares` go into the team's bag; `rounds` run from the first to the
    last before the meet.
    """

    key: str
    equipment: Equipment
    source: str
    items: tuple[KitItem, ...]
    spares: tuple[KitItem, ...]
    rounds: tuple[CheckRound, ...]

    def items_for(self, event: Event) -> tuple[KitItem, ...]:
        """What an athlete packs who lifts `event`."""
        return tuple(
            item for item in self.items if not item.lifts or set(item.lifts) & set(event.lifts)
        )


def team_bag(kit_lists: Iterable[KitList]) -> tuple[KitItem, ...]:
    """The spares of all `kit_lists`: of each item the largest number any of them asks for."""
    bag: dict[str, KitItem] = {}
    for kit_list in kit_lists:
        for spare in kit_list.spares:
            if spare.code not in bag or spare.count > bag[spare.code].count:
                bag[spare.code] = spare
    return tuple(bag.values())


def parse_kit_list(data: bytes, file: str) -> KitList:
    """Read a kit list from the bytes of the TOML file named `file`; raises FileFault."""
    table = read_toml(data, file)
    kit_list = KitList(
        key=PurePath(file).stem,
        equipment=table.choice("equipment", Equipment),
        source=table.text("source"),
        items=_items(table, "items"),
        spares=_items(table, "spares") if "spares" in table else (),
        rounds=_rounds(table),
    )
    table.finish()
    return kit_list


def _items(table: TomlTable, key: str) -> tuple[KitItem, ...]:
    items: dict[str, KitItem] = {}
    for row in table.tables(key):
        code, words = row.known_code(KIT_CODES, items)
        items[code] = KitItem(
            code=code,
            lifts=row.choices("lifts", Lift) if "lifts" in row else (),
            count=row.integer("count", 1, 99) if "count" in row else 1,
            inspected=row.boolean("inspected") if "inspected" in row else False,
            words=words,
        )
        row.finish()
    return tuple(items.values())


def _rounds(table: TomlTable) -> tuple[CheckRound, ...]:
    rounds: dict[str, CheckRound] = {}
    before: int | None = None
    for row in table.tables("rounds"):
        code, words = row.known_code(ROUND_CODES, rounds)
        days_before = row.integer("days_before", 0, 365)
        if before is not None and days_before >= before:
            raise row.fault("days_before", text("expected.fewer_days", before=before))
        rounds[code] = CheckRound(code=code, days_before=days_before, words=words)
        before = days_before
        row.finish()
    return tuple(rounds.values())
