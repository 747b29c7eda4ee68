"""Kit lists, the team's bag and the check rounds."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from coachdesk.domain.kit import KIT_CODES, KitItem, KitList, parse_kit_list, team_bag
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.toml_reader import FileFault

FOLDER = Path(__file__).parents[2] / "resources" / "kit"


def shipped(key: str) -> KitList:
    file = FOLDER / f"{key}.toml"
    return parse_kit_list(file.read_bytes(), file.name)


CLASSIC = shipped("classic")
EQUIPPED = shipped("equipped")


def codes(items: tuple[KitItem, ...]) -> set[str]:
    return {item.code for item in items}


def test_there_is_a_kit_list_for_each_equipment() -> None:
    assert CLASSIC.equipment is Equipment.CLASSIC
    assert EQUIPPED.equipment is Equipment.EQUIPPED


@pytest.mark.parametrize("kit_list", [CLASSIC, EQUIPPED], ids=["classic", "equipped"])
@pytest.mark.parametrize(
    "item",
    # Source: common practice: what gets left at home.
    [
        "deadlift_socks",
        "spare_singlet",
        "membership_card",
        "photo_id",
        "chalk",
        "food",
        "drink",
        "tape",
        "medicines_list",
        "warm_clothes",
    ],
)
def test_what_people_forget_is_on_the_list(kit_list: KitList, item: str) -> None:
    assert item in codes(kit_list.items_for(Event.THREE_LIFT))


@pytest.mark.parametrize("kit_list", [CLASSIC, EQUIPPED], ids=["classic", "equipped"])
def test_worn_kit_is_inspected_and_food_is_not(kit_list: KitList) -> None:
    inspected = {item.code for item in kit_list.items if item.inspected}
    assert {"singlet", "t_shirt", "belt", "wrist_wraps", "deadlift_socks"} <= inspected
    assert not inspected & {"food", "drink", "membership_card", "towel"}


def test_a_bench_presser_packs_nothing_for_squat_and_deadlift() -> None:
    packed = codes(CLASSIC.items_for(Event.BENCH_ONLY))
    assert {"bench_shoes", "wrist_wraps", "singlet", "food"} <= packed
    assert not packed & {"squat_shoes", "deadlift_socks", "knee_sleeves", "talc"}


def test_equipped_lifters_pack_suit_shirt_and_wraps() -> None:
    needs = {item.code: item.lifts for item in EQUIPPED.items}
    assert needs["squat_suit"] == (Lift.SQUAT,)
    assert needs["bench_shirt"] == (Lift.BENCH,)
    assert needs["knee_wraps"] == (Lift.SQUAT,)
    assert not codes(CLASSIC.items) & {"squat_suit", "bench_shirt", "knee_wraps"}


def test_the_bag_of_a_mixed_team_holds_the_spares_of_both() -> None:
    bag = {item.code: item.count for item in team_bag([CLASSIC, EQUIPPED])}
    assert bag["knee_wraps"] == 2
    assert bag["knee_sleeves"] == 2
    assert bag["singlet"] == 2


def test_the_bag_takes_the_larger_number_of_the_same_spare() -> None:
    few = kit_list_of(spares='[{ code = "tape" }, { code = "chalk", count = 3 }]')
    many = kit_list_of(spares='[{ code = "tape", count = 4 }, { code = "chalk" }]')
    assert [(item.code, item.count) for item in team_bag([few, many])] == [
        ("tape", 4),
        ("chalk", 3),
    ]


@pytest.mark.parametrize("kit_list", [CLASSIC, EQUIPPED], ids=["classic", "equipped"])
def test_five_rounds_run_from_two_weeks_out_to_the_morning_itself(kit_list: KitList) -> None:
    meet = date(2026, 12, 12)
    assert [each.date_for(meet) for each in kit_list.rounds] == [
        date(2026, 11, 28),
        date(2026, 12, 5),
        date(2026, 12, 9),
        date(2026, 12, 11),
        meet,
    ]
    assert kit_list.rounds[0].label == text("kit_round.two_weeks")


def kit_list_of(
    items: str = '[{ code = "belt" }]',
    spares: str = '[{ code = "tape" }]',
    rounds: str = '[{ code = "morning", days_before = 0 }]',
    more: str = "",
) -> KitList:
    source = f"""equipment = "classic"
source = "invented"
items = {items}
spares = {spares}
rounds = {rounds}
{more}
"""
    return parse_kit_list(source.encode(), "club.toml")


def test_a_coachs_own_item_and_round_carry_their_own_words() -> None:
    club = kit_list_of(
        items='[{ code = "club_flag", words = "The club\'s flag" }]',
        rounds='[{ code = "monday", words = "Monday evening", days_before = 5 }]',
    )
    assert club.key == "club"
    assert club.items[0].label == text("kit.own", words="The club's flag")
    assert club.rounds[0].label == text("kit_round.own", words="Monday evening")
    assert CLASSIC.items[0].label == text("kit.singlet")


@pytest.mark.parametrize(
    ("part", "value", "line", "key", "expected"),
    [
        ("items", "[]", 3, "items", "expected.tables"),
        ("items", '[{ code = "belts" }]', 3, "items.code", "expected.known_code"),
        ("items", '[{ code = "belt" }, { code = "belt" }]', 3, "items.code", "expected.new_code"),
        ("items", '[{ code = "belt", count = 0 }]', 3, "items.count", "expected.integer"),
        ("items", '[{ code = "belt", lifts = ["curl"] }]', 3, "items.lifts", "expected.choices"),
        ("items", '[{ code = "belt", inspected = 1 }]', 3, "items.inspected", "expected.boolean"),
        ("spares", '["tape"]', 4, "spares", "expected.tables"),
        ("rounds", "[]", 5, "rounds", "expected.tables"),
        (
            "rounds",
            '[{ code = "morning", days_before = 0 },\n{ code = "one_week", days_before = 7 }]',
            6,
            "rounds.days_before",
            "expected.fewer_days",
        ),
    ],
)
def test_a_faulty_kit_list_names_line_and_key(
    part: str, value: str, line: int, key: str, expected: str
) -> None:
    with pytest.raises(FileFault) as fault:
        kit_list_of(**{part: value})
    assert (fault.value.file, fault.value.line, fault.value.key) == ("club.toml", line, key)
    said = dict(fault.value.text.values)["expected"]
    assert isinstance(said, Text)
    assert said.code == expected


def test_an_unknown_key_in_a_kit_list_is_named() -> None:
    with pytest.raises(FileFault) as fault:
        kit_list_of(more="colour = 3")
    assert (fault.value.line, fault.value.key) == (6, "colour")
    assert fault.value.text.code == "fault.unknown_key"


def test_every_item_we_have_words_for_is_used_or_limited() -> None:
    packed = codes(CLASSIC.items + CLASSIC.spares + EQUIPPED.items + EQUIPPED.spares)
    assert packed | {"elbow_sleeves"} == KIT_CODES
