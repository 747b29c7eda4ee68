"""Ages and divisions against published age rules and open results."""

from __future__ import annotations

import csv
from datetime import date
from math import floor
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.division import age_in_year, age_on, check_division, divisions_open_to
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.rulebook import AgeRule, Division, Rulebook
from coachdesk.domain.rulebook_file import parse_rulebook

ROOT = Path(__file__).parents[2]
RESULTS = ROOT / "tests" / "data" / "ipf_results_sample.csv"


def shipped(key: str) -> Rulebook:
    file = ROOT / "resources" / "rulebooks" / f"{key}.toml"
    return parse_rulebook(file.read_bytes(), file.name)


IPF = shipped("ipf_2021")
ON_THE_DAY = shipped("traditional_day_before")


def open_keys(rulebook: Rulebook, birth_date: date | None, on: date) -> list[str]:
    return [division.key for division in divisions_open_to(birth_date, on, rulebook)]


# Source: IPF Technical Rules Book 2007 and affiliates' copies (seen).
@pytest.mark.parametrize(
    ("birth_date", "on", "keys"),
    [
        (date(2012, 6, 15), date(2026, 6, 14), []),
        (date(2012, 6, 15), date(2026, 6, 15), ["open", "sub_junior"]),
        (date(2008, 12, 31), date(2026, 12, 31), ["open", "sub_junior"]),
        (date(2008, 1, 1), date(2026, 12, 31), ["open", "sub_junior"]),
        (date(2008, 1, 1), date(2027, 1, 1), ["open", "junior"]),
        (date(2008, 12, 31), date(2027, 1, 1), ["open", "junior"]),
        (date(2003, 1, 1), date(2026, 12, 31), ["open", "junior"]),
        (date(2003, 12, 31), date(2027, 1, 1), ["open"]),
        (date(1986, 12, 31), date(2026, 1, 1), ["open", "masters_1"]),
        (date(1987, 1, 1), date(2026, 12, 31), ["open"]),
        (date(1976, 12, 31), date(2026, 1, 1), ["open", "masters_2"]),
        (date(1966, 12, 31), date(2026, 1, 1), ["open", "masters_3"]),
        (date(1956, 12, 31), date(2026, 1, 1), ["open", "masters_4"]),
        (date(1930, 5, 1), date(2026, 5, 1), ["open", "masters_4"]),
    ],
)
def test_ipf_divisions_follow_the_calendar_year_and_start_on_the_14th_birthday(
    birth_date: date, on: date, keys: list[str]
) -> None:
    assert open_keys(IPF, birth_date, on) == keys


# Source: IPL Rulebook 2019, age on the day of the meet (seen).
@pytest.mark.parametrize(
    ("birth_date", "on", "keys"),
    [
        (date(2011, 6, 15), date(2026, 6, 14), []),
        (date(2011, 6, 15), date(2026, 6, 15), ["open", "junior_15_19"]),
        (date(2006, 6, 15), date(2026, 6, 14), ["open", "junior_15_19"]),
        (date(2006, 6, 15), date(2026, 6, 15), ["open", "junior_20_23"]),
        (date(2002, 6, 15), date(2026, 6, 14), ["open", "junior_20_23"]),
        (date(2002, 6, 15), date(2026, 6, 15), ["open"]),
        (date(1986, 6, 15), date(2026, 6, 14), ["open"]),
        (date(1986, 6, 15), date(2026, 6, 15), ["open", "masters_40"]),
        (date(1941, 6, 15), date(2026, 6, 14), ["open", "masters_80"]),
        (date(1941, 6, 15), date(2026, 6, 15), ["open", "masters_85"]),
    ],
)
def test_age_on_the_day_decides_where_the_rulebook_says_so(
    birth_date: date, on: date, keys: list[str]
) -> None:
    assert open_keys(ON_THE_DAY, birth_date, on) == keys


@pytest.mark.parametrize(
    ("on", "age"),
    [
        (date(2023, 2, 28), 18),
        (date(2023, 3, 1), 19),
        (date(2024, 2, 28), 19),
        (date(2024, 2, 29), 20),
    ],
)
def test_somebody_born_on_29_february_turns_on_1_march_in_common_years(on: date, age: int) -> None:
    assert age_on(date(2004, 2, 29), on) == age


def test_an_athlete_with_no_birth_date_on_file_enters_no_division_bound_to_age() -> None:
    on = date(2026, 6, 15)
    assert open_keys(IPF, None, on) == []
    reason = check_division(IPF.division("junior"), None, on)
    assert reason is not None
    assert reason.code == "division.birth_date_needed"


def test_a_division_without_ages_is_open_to_all() -> None:
    guest = Division(key="guest", name="Guest", age_rule=AgeRule.ON_THE_DAY)
    assert check_division(guest, None, date(2026, 6, 15)) is None


@pytest.mark.parametrize(
    ("rulebook", "key", "birth_date", "code"),
    [
        (IPF, "open", date(2012, 6, 16), "division.from_birthday"),
        (IPF, "junior", date(2008, 1, 1), "division.from_year"),
        (IPF, "sub_junior", date(2007, 12, 31), "division.to_year"),
        (ON_THE_DAY, "masters_40", date(1986, 6, 16), "division.from_birthday"),
        (ON_THE_DAY, "junior_20_23", date(2002, 6, 15), "division.to_day"),
    ],
)
def test_a_closed_division_says_which_age_it_needs(
    rulebook: Rulebook, key: str, birth_date: date, code: str
) -> None:
    reason = check_division(rulebook.division(key), birth_date, date(2026, 6, 15))
    assert reason is not None
    assert reason.code == code


def test_a_birth_date_after_the_meet_is_refused_at_its_field() -> None:
    with pytest.raises(InvalidInput) as refusal:
        divisions_open_to(date(2026, 6, 16), date(2026, 6, 15), IPF)
    assert refusal.value.field == "birth_date"


def test_a_division_the_rulebook_does_not_have_is_refused_in_words() -> None:
    with pytest.raises(Trouble) as refusal:
        IPF.division("veterans")
    assert refusal.value.text.code == "rulebook.no_division"


@given(st.dates(date(1920, 1, 1), date(2026, 1, 1)), st.dates(date(2026, 1, 1), date(2030, 1, 1)))
def test_the_age_on_the_day_is_the_age_of_the_year_or_one_less(birth_date: date, on: date) -> None:
    assert age_in_year(birth_date, on) - age_on(birth_date, on) in {0, 1}


@given(st.dates(date(1920, 1, 1), date(2026, 1, 1)), st.dates(date(2026, 1, 1), date(2030, 1, 1)))
def test_nobody_is_in_two_ipf_age_groups_at_once(birth_date: date, on: date) -> None:
    assert len(set(open_keys(IPF, birth_date, on)) - {"open"}) <= 1


PUBLISHED_NAMES = {
    "Sub-Juniors": "sub_junior",
    "Juniors": "junior",
    "Masters 1": "masters_1",
    "Masters 2": "masters_2",
    "Masters 3": "masters_3",
    "Masters 4": "masters_4",
}


def test_1500_open_results_are_in_a_division_their_age_allows() -> None:
    # Source: open results 2012-2019, see the head of the file (dataset). An age such as 21.5
    # stands for a known birth year, here the one of turning 22; a whole age for a known day.
    with RESULTS.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    checked = 0
    for row in rows:
        key = PUBLISHED_NAMES.get(row["division"])
        if key is None:
            continue
        age, last_day = float(row["age"]), date(int(row["year"]), 12, 31)
        turning = {floor(age) + 1} if age % 1 else {floor(age), floor(age) + 1}
        found = {
            open_key
            for years in turning
            for open_key in open_keys(IPF, date(last_day.year - years, 1, 1), last_day)
        }
        assert key in found, row
        checked += 1
    assert checked == 972
