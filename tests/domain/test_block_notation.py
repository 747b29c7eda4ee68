"""The notation of planned sets: the trade's shorthand, back and forth, and what is refused.

Sets before repetitions, "5x3 80%", "4x6 RPE 8" and "4x6 @8" are common practice in written
programmes; RPE against repetitions in reserve is the published scale (Zourdos et al. 2016).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.blocks.notation import (
    MOST_LINES,
    Prescription,
    in_full,
    read_prescriptions,
    show_cell,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.wording.wording import Wording


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("5x3", Prescription(5, 3)),
        ("5x3 80%", Prescription(5, 3, percent=80)),
        ("5 X 3 @ 80 %", Prescription(5, 3, percent=80)),
        ("5×3 77,5%", Prescription(5, 3, percent=77.5)),
        ("5*3@77.5%", Prescription(5, 3, percent=77.5)),
        ("3x5 100", Prescription(3, 5, weight=kilograms(100))),
        ("3x5 @100", Prescription(3, 5, weight=kilograms(100))),
        ("3x5 102,5 kg", Prescription(3, 5, weight=kilograms("102.5"))),
        ("3x5 225lbs", Prescription(3, 5, weight=pounds(225))),
        ("4x6 RPE 8", Prescription(4, 6, rir=2)),
        ("4x6 rpe8.5", Prescription(4, 6, rir=1.5)),
        ("4x6 @8", Prescription(4, 6, rir=2)),
        ("4x6 @ 10", Prescription(4, 6, rir=0)),
        ("4x6 8 RPE", Prescription(4, 6, rir=2)),
        ("3x5 2 RIR", Prescription(3, 5, rir=2)),
        ("3x5 RIR 0,5", Prescription(3, 5, rir=0.5)),
        ("3x5 8 RIR", Prescription(3, 5, rir=8)),
        ("3x5 75% RPE 8", Prescription(3, 5, percent=75, rir=2)),
        ("3x5 100 RPE 8", Prescription(3, 5, weight=kilograms(100), rir=2)),
        ("3x5 100 @8", Prescription(3, 5, weight=kilograms(100), rir=2)),
        ("3x5 100 RIR 2", Prescription(3, 5, weight=kilograms(100), rir=2)),
        ("1x1 92% judged", Prescription(1, 1, percent=92, judged=True)),
        ("3x1 92% j", Prescription(3, 1, percent=92, judged=True)),
    ],
)
def test_the_trades_shorthand_is_understood(typed: str, read: Prescription) -> None:
    assert read_prescriptions(typed, Unit.KG) == (read,)


def test_a_weight_without_a_unit_is_in_the_athletes() -> None:
    assert read_prescriptions("3x5 225", Unit.LB)[0].weight == pounds(225)


@pytest.mark.parametrize(
    "typed", ["1x3 85%; 4x3 77.5%", "1x3 85%\n4x3 77.5%\n", ";1x3 85%;;4x3 77.5%"]
)
def test_several_are_parted_by_a_semicolon_or_a_line(typed: str) -> None:
    read = read_prescriptions(typed, Unit.KG)
    assert read == (Prescription(1, 3, percent=85), Prescription(4, 3, percent=77.5))


@pytest.mark.parametrize("typed", ["", "  ", "\n", " ; "])
def test_nothing_typed_is_nothing_planned(typed: str) -> None:
    assert read_prescriptions(typed, Unit.KG) == ()


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("squat heavy", "“squat heavy” does not begin with sets x repetitions"),
        ("5", "does not begin with sets x repetitions"),
        ("x3", "does not begin with sets x repetitions"),
        ("3x5+", "does not begin with sets x repetitions"),
        ("3x5-8 80%", "does not begin with sets x repetitions"),
        ("100x5x3", "can be read in two ways"),
        ("100 kg x 5 x 3", "can be read in two ways"),
        ("5 x 3 x 100", "can be read in two ways"),
        ("0x5", "Sets go from 1 to 50."),
        ("51x5", "Sets go from 1 to 50."),
        ("5x0", "Repetitions go from 1 to 100."),
        ("5x101", "Repetitions go from 1 to 100."),
        ("5x3 80% heavy", "“heavy” is not understood"),
        ("5x3 80%%", "“80%%” is not understood"),
        ("5x3 1,000.5", "“1,000.5” is not understood"),
        ("5x3 0%", "above 0 and at most 120 %"),
        ("5x3 121%", "above 0 and at most 120 %"),
        ("5x3 0", "700 kg"),
        ("5x3 705", "700 kg"),
        ("5x3 80% 100", "How heavy is said twice"),
        ("5x3 80% 75%", "How heavy is said twice"),
        ("5x3 RPE 8 2 RIR", "are said twice"),
        ("5x3 @4.5", "RPE goes from 5 to 10"),
        ("5x3 RPE 8.3", "in half steps"),
        ("5x3 RPE 11", "RPE goes from 5 to 10"),
        ("5x3 11 RIR", "in reserve go from 0 to 10"),
        ("5x3 1.2 RIR", "in half steps"),
        ("3x2 90% judged", "Only singles are judged"),
        ("5x3 80%; 5y3", "“5y3” does not begin"),
        (";".join(["1x1"] * (MOST_LINES + 1)), "at most 12"),
    ],
)
def test_what_is_not_understood_is_said(typed: str, why: str, wording: Wording) -> None:
    with pytest.raises(InvalidInput) as fault:
        read_prescriptions(typed, Unit.KG)
    assert fault.value.field == "cell"
    assert why in wording.say(fault.value.text)


_HALVES = st.integers(0, 20).map(lambda half: half / 2)
_MASSES = st.builds(
    Mass, st.integers(1, 1500).map(lambda n: Decimal(n).scaleb(-1) * 2), st.sampled_from(Unit)
)


@st.composite
def _prescriptions(draw: st.DrawFn) -> Prescription:
    judged = draw(st.booleans())
    percent = draw(st.none() | st.integers(1, 4800).map(lambda n: n / 40))
    return Prescription(
        sets=draw(st.integers(1, 50)),
        reps=1 if judged else draw(st.integers(1, 100)),
        percent=percent,
        weight=None if percent is not None else draw(st.none() | _MASSES),
        rir=draw(st.none() | _HALVES),
        judged=judged,
    )


@given(st.lists(_prescriptions(), max_size=MOST_LINES), st.sampled_from(Unit), st.booleans())
def test_what_is_shown_reads_back_as_the_same(
    planned: list[Prescription], unit: Unit, named: bool
) -> None:
    shown = show_cell(planned, None if named else unit)
    assert read_prescriptions(shown, unit) == tuple(planned)


@given(st.lists(_prescriptions(), max_size=3))
def test_with_every_unit_named_it_reads_the_same_for_every_athlete(
    planned: list[Prescription],
) -> None:
    shown = show_cell(planned, None)
    assert {read_prescriptions(shown, unit) for unit in Unit} == {tuple(planned)}


@given(st.text("0123456789x@%., kglbRPEIjd;×", max_size=20))
def test_whatever_is_typed_is_read_or_explained(wording: Wording, typed: str) -> None:
    try:
        read = read_prescriptions(typed, Unit.LB)
    except InvalidInput as fault:
        wording.say(fault.text)
        return
    assert read_prescriptions(show_cell(read, Unit.LB), Unit.LB) == read


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("5x3", "5 sets of 3 repetitions, weight left open"),
        ("5x3 77.5%", "5 sets of 3 repetitions, 77.5 % of the training maximum"),
        ("1x1 92% j", "1 set of 1 repetition, 92 % of the training maximum, judged as at a meet"),
        ("3x5 100 @8.5", "3 sets of 5 repetitions, 100 kg, RPE 8.5 (1.5 in reserve)"),
        ("3x5 6 RIR", "3 sets of 5 repetitions, 6 in reserve"),
    ],
)
def test_it_is_shown_back_in_full(typed: str, said: str, wording: Wording) -> None:
    (read,) = read_prescriptions(typed, Unit.KG)
    assert wording.say(in_full(read)) == said
