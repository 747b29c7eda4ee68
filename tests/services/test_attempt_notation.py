"""Attempts on one line, as result sheets print them, against rows of public results."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.history import best_grams
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.meet import Attempt
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.attempt_notation import Called, read_attempts, taken, write_attempts

LINES = Path(__file__).parents[1] / "data" / "attempt_lines.csv"


GOOD, NO_LIFT = Result.GOOD, Result.NO_LIFT


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("140 147.5 152.5", [("140", GOOD), ("147.5", GOOD), ("152.5", GOOD)]),
        ("140 -147,5 147,5", [("140", GOOD), ("147.5", NO_LIFT), ("147.5", GOOD)]),
        ("  140;  −147.5 /–150 ", [("140", GOOD), ("147.5", NO_LIFT), ("150", NO_LIFT)]),
        ("140 kg 150KG", [("140", GOOD), ("150", GOOD)]),
        ("140? 150", [("140", None), ("150", GOOD)]),
        ("", []),
    ],
)
def test_a_minus_sign_is_a_no_lift_and_either_decimal_mark_does(
    typed: str, read: list[tuple[str, Result | None]]
) -> None:
    """Common practice on result sheets: a no lift stands with a minus sign."""
    assert read_attempts("squat", typed, Unit.KG) == {
        number: Called(kilograms(weight), result)
        for number, (weight, result) in enumerate(read, start=1)
    }


def test_an_attempt_not_taken_keeps_its_place() -> None:
    found = read_attempts("bench", "-90 0 -92.5", Unit.KG)
    assert sorted(found) == [1, 3]


def test_pounds_are_taken_where_they_are_typed_or_where_the_meet_has_them() -> None:
    assert read_attempts("squat", "308.6lb", Unit.KG)[1].weight == pounds("308.6")
    assert read_attempts("squat", "308.6 lbs 315 lb", Unit.KG)[2].weight == pounds("315")
    assert read_attempts("squat", "308.6", Unit.LB)[1].weight == pounds("308.6")


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("140 x", "results.unreadable"),
        ("140 - 150", "results.unreadable"),
        ("140,150,160", "results.unreadable"),
        ("-140?", "results.unreadable"),
        ("140 137.5", "results.goes_down"),
        ("1 2 3 4 5", "results.too_many"),
        ("1400", "check.lifted"),
        ("140 -0", "check.lifted"),
    ],
)
def test_what_cannot_be_read_is_refused_at_its_lift(typed: str, code: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        read_attempts("deadlift", typed, Unit.KG)
    assert (refused.value.field, refused.value.text.code) == ("deadlift", code)


def _lines() -> list[tuple[Lift, list[str]]]:
    with LINES.open(encoding="utf-8") as file:
        return [
            (Lift(row["lift"]), [row[f"{which}_kg"] for which in ("first", "second", "third")])
            for row in csv.DictReader(file)
        ]


def test_public_results_read_and_write_back_the_same() -> None:
    """180 lines of three attempts from public results (tests/data/attempt_lines.csv).

    The best lift is what the sheet's positive numbers say, and none of them goes down.
    """
    lines = _lines()
    assert len(lines) == 180
    for lift, weights in lines:
        typed = " ".join(weight or "0" for weight in weights)
        found = read_attempts(lift, typed, Unit.KG)
        attempts = [
            Attempt(
                id=number,
                version=1,
                entry_id=1,
                lift=lift,
                number=number,
                weight=called.weight,
                result=called.result,
            )
            for number, called in found.items()
        ]
        best_kg = max((float(weight) for weight in weights if weight), default=0.0)
        assert (best_grams(attempts, lift) or 0) == max(round(best_kg * 1000), 0)
        assert read_attempts(lift, write_attempts(attempts, lift, Unit.KG), Unit.KG) == found


def test_a_passed_or_spoiled_attempt_was_not_taken() -> None:
    attempts = {
        number: Attempt(
            id=number,
            version=1,
            entry_id=1,
            lift=Lift.SQUAT,
            number=number,
            weight=kilograms(140),
            result=result,
        )
        for number, result in ((1, GOOD), (2, Result.PASSED), (3, Result.VOID))
    }
    assert list(taken(attempts)) == [1]
    assert write_attempts(attempts.values(), Lift.SQUAT, Unit.KG) == "140"
