"""Age factors against the published tables."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import pytest

from coachdesk.domain.age_factors import age_factor
from coachdesk.domain.errors import InvalidInput

DATA = Path(__file__).parents[1] / "data"


def published() -> dict[int, float]:
    """Foster and McCulloch tables [recalled; 40, 45, 50, 55 and 60 matched an excerpt]."""
    with (DATA / "age_factors.csv").open(newline="") as file:
        return {int(row["age"]): float(row["factor"]) for row in csv.DictReader(file)}


def test_every_published_age_gets_its_factor() -> None:
    table = published()
    assert len(table) == 10 + 51
    assert {age: age_factor(age) for age in table} == table


def test_between_the_tables_age_changes_nothing() -> None:
    assert {age_factor(age) for age in range(24, 40)} == {1.0}


def test_factors_fall_to_the_prime_and_rise_after_it() -> None:
    factors = [age_factor(age) for age in range(14, 91)]
    known = [factor for factor in factors if factor is not None]
    assert len(known) == len(factors)
    prime = 24 - 14
    assert all(younger >= older for younger, older in pairwise(known[: prime + 1]))
    assert all(younger <= older for younger, older in pairwise(known[prime:]))
    assert min(known) == 1.0


@pytest.mark.parametrize("age", [0, 9, 13])
def test_below_14_no_factor_was_published(age: int) -> None:
    assert age_factor(age) is None


@pytest.mark.parametrize("age", [91, 104])
def test_beyond_the_table_the_factor_for_90_stays(age: int) -> None:
    assert age_factor(age) == age_factor(90) == 2.549


def test_an_age_below_zero_is_refused() -> None:
    with pytest.raises(InvalidInput) as caught:
        age_factor(-1)
    assert caught.value.field == "age"
