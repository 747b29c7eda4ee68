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
    bare,
    read_prescriptions,
    show_cell,
)
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.units import Mass, Unit, kilograms, pounds


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
        ("5x3 80% (pause 2 s)", Prescription(5, 3, percent=80, note="pause 2 s")),
        ("5x3(belt;  no sleeves )", Prescription(5, 3, note="belt; no sleeves")),
        ("5x3 100 ()", Prescription(5, 3, weight=kilograms(100))),
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


def test_every_part_of_a_cell_has_its_own_note() -> None:
    read = read_prescriptions("1x3 85% (as a single; calm); 4x3 (j 80%)\n2x2", Unit.KG)
    assert [each.note for each in read] == ["as a single; calm", "j 80%", ""]
    assert [bare(each) for each in read] == list(read_prescriptions("1x3 85%; 4x3; 2x2", Unit.KG))


@pytest.mark.parametrize("typed", ["", "  ", "\n", " ; "])
def test_nothing_typed_is_nothing_planned(typed: str) -> None:
    assert read_prescriptions(typed, Unit.KG) == ()


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("squat heavy", "cell.no_sets"),
        ("5", "cell.no_sets"),
        ("x3", "cell.no_sets"),
        ("3x5+", "cell.no_sets"),
        ("3x5-8 80%", "cell.no_sets"),
        ("100x5x3", "cell.weight_first"),
        ("100 kg x 5 x 3", "cell.weight_first"),
        ("5 x 3 x 100", "cell.weight_first"),
        ("0x5", "cell.sets_range"),
        ("51x5", "cell.sets_range"),
        ("5x0", "cell.reps_range"),
        ("5x101", "cell.reps_range"),
        ("5x3 80% heavy", "cell.unreadable"),
        ("5x3 80%%", "cell.unreadable"),
        ("5x3 1,000.5", "cell.unreadable"),
        ("5x3 0%", "cell.percent_range"),
        ("5x3 121%", "cell.percent_range"),
        ("5x3 0", "check.lifted"),
        ("5x3 705", "check.lifted"),
        ("5x3 80% 100", "cell.weight_twice"),
        ("5x3 80% 75%", "cell.weight_twice"),
        ("5x3 RPE 8 2 RIR", "cell.effort_twice"),
        ("5x3 @4.5", "cell.rpe_range"),
        ("5x3 RPE 8.3", "cell.rpe_range"),
        ("5x3 RPE 11", "cell.rpe_range"),
        ("5x3 11 RIR", "cell.rir_range"),
        ("5x3 1.2 RIR", "cell.rir_range"),
        ("3x2 90% judged", "cell.judged_reps"),
        ("5x3 80%; 5y3", "cell.no_sets"),
        ("(pause)", "cell.no_sets"),
        ("5x3 (pause", "cell.note_brackets"),
        ("5x3 pause)", "cell.note_brackets"),
        ("5x3 (pause) 80%", "cell.note_brackets"),
        ("5x3 (a) (b)", "cell.note_brackets"),
        ("5x3 (a (b))", "cell.note_brackets"),
        (f"5x3 ({'a' * 201})", "check.too_long"),
        (";".join(["1x1"] * (MOST_LINES + 1)), "cell.too_many"),
    ],
)
def test_what_is_not_understood_is_said(typed: str, why: str) -> None:
    with pytest.raises(InvalidInput) as fault:
        read_prescriptions(typed, Unit.KG)
    assert fault.value.field == "cell"
    assert fault.value.text.code == why


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
        note=draw(st.text('ab é.;%x5@"', max_size=12).map(lambda note: " ".join(note.split()))),
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


@given(st.text("0123456789x@%., kglbRPEIjd;×()", max_size=20))
def test_whatever_is_typed_is_read_or_refused_at_the_cell(typed: str) -> None:
    try:
        read = read_prescriptions(typed, Unit.LB)
    except InvalidInput:
        return
    assert read_prescriptions(show_cell(read, Unit.LB), Unit.LB) == read
