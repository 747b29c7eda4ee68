"""Masses as entered, and their grams."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.units import (
    Mass,
    Unit,
    from_grams,
    kilograms,
    parse_mass,
    parse_number,
    pounds,
)


def test_a_pound_is_what_the_1959_agreement_says() -> None:
    # International yard and pound agreement: 1 lb = 0.45359237 kg exactly.
    assert pounds(1).in_unit(Unit.KG) == Decimal("0.45359237")
    assert pounds(100_000_000).grams == 45_359_237_000


def test_what_was_entered_in_pounds_reads_back_the_same() -> None:
    entered = parse_mass("405 lb", Unit.KG)
    assert (entered.number, entered.unit) == (Decimal(405), Unit.LB)
    assert entered.in_unit(Unit.LB) == Decimal(405)
    assert entered.grams == 183_705


@pytest.mark.parametrize(
    ("limit_kg", "limit_lb"),
    # Limits of the kilogram classes in exact pounds to a hundredth [computed from the 1959 pound].
    [
        ("60", "132.28"),
        ("67.5", "148.81"),
        ("75", "165.35"),
        ("82.5", "181.88"),
        ("90", "198.42"),
        ("100", "220.46"),
        ("110", "242.51"),
        ("125", "275.58"),
        ("140", "308.65"),
    ],
)
def test_class_limits_convert_to_pounds(limit_kg: str, limit_lb: str) -> None:
    limit = kilograms(limit_kg)
    assert round(limit.in_unit(Unit.LB), 2) == Decimal(limit_lb)
    assert from_grams(limit.grams, Unit.LB) == pounds(limit_lb)


def test_the_printed_pound_limit_of_the_75_kg_class_is_above_75_kg() -> None:
    # Printed in a federation's table: 165.5 lb [seen], which is 75.07 kg.
    assert pounds("165.5").grams > kilograms(75).grams
    assert round(pounds("165.5").kg, 2) == 75.07


def test_grams_are_rounded_half_to_even() -> None:
    assert [kilograms(number).grams for number in ("0.0005", "0.0015", "0.0025")] == [0, 2, 2]


def test_floats_are_taken_to_the_gram() -> None:
    assert kilograms(0.1 + 0.2) == kilograms("0.3")
    assert kilograms(82.5).number == Decimal("82.5")


def test_round_numbers_never_read_as_powers_of_ten() -> None:
    assert str(kilograms(100.0).number) == "100"
    assert str(from_grams(100_000).number) == "100"
    assert str(from_grams(1_250).number) == "1.25"


@pytest.mark.parametrize(
    ("entered", "mass"),
    [
        ("82.5", kilograms("82.5")),
        ("82,5 kg", kilograms("82.5")),
        ("82.5KG", kilograms("82.5")),
        ("182 lb", pounds(182)),
        ("182lbs", pounds(182)),
        ("  7  ", kilograms(7)),
    ],
)
def test_masses_are_read_as_people_type_them(entered: str, mass: Mass) -> None:
    assert parse_mass(entered, Unit.KG) == mass


def test_a_bare_number_is_in_the_unit_of_the_person_typing() -> None:
    assert parse_mass("182", Unit.LB) == pounds(182)


@pytest.mark.parametrize(
    "entered", ["", "kg", "heavy", "1,000.5", "1.000,5", "82.5 k g", "nan", "inf", "1..5", "5 st"]
)
def test_what_is_no_mass_is_refused(entered: str) -> None:
    number = entered.removesuffix("kg")
    with pytest.raises(ValueError, match=f"^{re.escape(number)}$"):
        parse_mass(entered, Unit.KG)
    with pytest.raises(ValueError, match=f"^{re.escape(number)}$"):
        parse_number(number)


@given(st.integers(-2_000_000, 2_000_000))
def test_grams_survive_kilograms_without_loss(grams: int) -> None:
    assert from_grams(grams).grams == grams


@given(st.integers(0, 2_000_000))
def test_grams_shown_in_pounds_are_within_half_a_hundredth(grams: int) -> None:
    # Half of 0.01 lb is 2.27 g.
    assert abs(from_grams(grams, Unit.LB).grams - grams) <= 3


@given(st.decimals(0, 1000, places=2), st.sampled_from(Unit))
def test_a_number_and_its_unit_read_back_through_text(number: Decimal, unit: Unit) -> None:
    assert parse_mass(f"{number} {unit}", Unit.KG) == Mass(number, unit)
