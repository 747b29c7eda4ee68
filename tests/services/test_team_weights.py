"""The team's weights: read together, asked about where they are odd, kept together."""

from __future__ import annotations

from datetime import date, time
from typing import TYPE_CHECKING

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData, Reading, ReadingData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Sex
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete, add_readings, archive_athlete
from coachdesk.services.team_weights import (
    Cell,
    Common,
    Morning,
    keep_morning,
    read_morning,
    read_pasted,
    team,
)
from coachdesk.services.undo import undo

if TYPE_CHECKING:
    from tests.conftest import Results

TODAY = date(2026, 11, 25)
COMMON = Common(on="2026-11-25", at="7:05", dress="undressed")


@pytest.fixture
def ids(desk: Desk, results: Results) -> dict[str, int]:
    """Zoë has a meet ahead; Łucja weighed 132 lb, her own unit, last week; Ina is archived."""
    found = {}
    for given, family, unit in (
        ("Łucja", "Bąk", Unit.LB),
        ("Mia", "Oster", Unit.KG),
        ("Zoë", "Żółw", Unit.KG),
        ("Ina", "Adler", Unit.KG),
    ):
        data = AthleteData(
            given_name=given,
            family_name=family,
            sex=Sex.FEMALE,
            unit=unit,
            birth_date=date(1999, 3, 1),
        )
        found[given] = add_athlete(desk, data).value
    results.entry(found["Zoë"], results.meet("Cup", date(2026, 12, 12)))
    with desk.reading() as reader:
        archive_athlete(desk, reader.get(Athlete, found["Ina"]), archived=True)
    last = ReadingData(athlete_id=found["Łucja"], on=date(2026, 11, 18), weight=pounds(132))
    add_readings(desk, [last])
    return found


def morning(desk: Desk, cells: dict[int, str], common: Common = COMMON) -> Morning:
    typed = {athlete_id: Cell(weight) for athlete_id, weight in cells.items()}
    return read_morning(desk, team(desk), typed, common)


def test_those_with_a_meet_ahead_come_first_and_the_archived_not_at_all(
    desk: Desk, ids: dict[str, int]
) -> None:
    assert [person.id for person in team(desk)] == [ids["Zoë"], ids["Łucja"], ids["Mia"]]


def test_either_unit_comma_or_point(desk: Desk, ids: dict[str, int]) -> None:
    found = morning(desk, {ids["Zoë"]: "58,4", ids["Łucja"]: "131.5", ids["Mia"]: "182 lb"})
    assert found.faults == {}
    assert [(each.weight, each.on, each.at, each.dress.value) for each in found.readings] == [
        (kilograms("58.4"), TODAY, time(7, 5), "undressed"),
        (pounds("131.5"), TODAY, time(7, 5), "undressed"),
        (pounds("182"), TODAY, time(7, 5), "undressed"),
    ]


def test_all_or_nothing_and_one_undo(desk: Desk, ids: dict[str, int]) -> None:
    faulty = morning(desk, {ids["Zoë"]: "58,4", ids["Mia"]: "5"})
    assert faulty.faults.keys() == {ids["Mia"]}
    with pytest.raises(InvalidInput):
        keep_morning(desk, faulty, ())
    with desk.reading() as reader:
        assert len(reader.list(Reading)) == 1
    keep_morning(desk, morning(desk, {ids["Zoë"]: "58,4", ids["Mia"]: "80"}), ())
    with desk.reading() as reader:
        assert len(reader.list(Reading)) == 3
    undo(desk)
    with desk.reading() as reader:
        assert len(reader.list(Reading)) == 1


def test_nothing_typed_cannot_be_kept(desk: Desk, ids: dict[str, int]) -> None:
    with pytest.raises(InvalidInput):
        keep_morning(desk, morning(desk, {ids["Mia"]: "  "}), ())


def test_an_odd_weight_is_asked_about_and_kept_once_agreed(desk: Desk, ids: dict[str, int]) -> None:
    """By hand: 3 % of 132 lb is 3.96 lb."""
    assert morning(desk, {ids["Łucja"]: "128.1"}).asked == {}
    odd = morning(desk, {ids["Łucja"]: "127.9"})
    assert odd.asked[ids["Łucja"]].code == "team.odd"
    with pytest.raises(InvalidInput) as refused:
        keep_morning(desk, odd, ())
    assert refused.value.text.code == "team.asked"
    keep_morning(desk, odd, {ids["Łucja"]})


def test_a_slip_of_unit_and_a_weight_typed_twice_are_asked_about(
    desk: Desk, ids: dict[str, int]
) -> None:
    slip = morning(desk, {ids["Łucja"]: "59.8"}).asked[ids["Łucja"]]
    assert (slip.code, dict(slip.values)["other"]) == ("team.odd_unit", "kg")
    again = morning(desk, {ids["Łucja"]: "132"}, Common(on="2026-11-18"))
    assert again.asked[ids["Łucja"]].code == "team.on_file_already"


@pytest.mark.parametrize(
    ("common", "field"),
    [
        (Common(on="2026-11-26"), "on"),
        (Common(on="soon"), "on"),
        (Common(on=""), "on"),
        (Common(on="2026-11-25", at="late"), "at"),
    ],
)
def test_a_day_or_an_hour_that_cannot_be_is_said_at_its_field(
    desk: Desk, ids: dict[str, int], common: Common, field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        morning(desk, {ids["Mia"]: "80"}, common)
    assert refused.value.field == field


def test_a_pasted_column_fills_from_a_row_on(desk: Desk, ids: dict[str, int]) -> None:
    people = team(desk)
    found = read_pasted([["Weight"], ["131"], [""], ["80"]], people, first=0, order=None, months={})
    assert found.cells == {ids["Zoë"]: Cell("131"), ids["Mia"]: Cell("80")}
    later = read_pasted([["131"], ["80"], ["90"]], people, first=1, order=None, months={})
    assert later.cells == {ids["Łucja"]: Cell("131"), ids["Mia"]: Cell("80")}
    assert [(each.number, each.why.code) for each in later.refused] == [(3, "team.too_many")]


def test_pasted_names_find_their_rows_and_others_are_reported(
    desk: Desk, ids: dict[str, int]
) -> None:
    lines = [
        ["Name", "Weight", "Day", "Hour"],
        ["oster, mia", "80,5", "24/11/2026", "7:30 pm"],
        ["ZOLW ZOE", "58", "", ""],
        ["Ina Adler", "70", "", ""],
        ["Mia Oster", "81", "", ""],
        ["Łucja Bąk", "131", "32/11/2026", ""],
        ["", "", "", ""],
    ]
    found = read_pasted(lines, team(desk), first=0, order=DayOrder.DAY_FIRST, months={})
    assert found.cells == {
        ids["Mia"]: Cell("80,5", date(2026, 11, 24), time(19, 30)),
        ids["Zoë"]: Cell("58"),
    }
    assert [(each.number, each.why.code) for each in found.refused] == [
        (4, "names.unknown"),
        (5, "team.twice"),
        (6, "day.none"),
    ]


def test_two_athletes_of_one_name_are_never_guessed(desk: Desk, ids: dict[str, int]) -> None:
    twin = AthleteData(given_name="Oster", family_name="Mia", sex=Sex.FEMALE)
    assert add_athlete(desk, twin).value not in ids.values()
    found = read_pasted([["Mia Oster", "80"]], team(desk), first=0, order=None, months={})
    assert [each.why.code for each in found.refused] == ["names.several"]
    assert found.cells == {}
