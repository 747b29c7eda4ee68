"""A cell of a block in full words, and what is said of one that is not understood."""

from __future__ import annotations

import pytest

from coachdesk.domain.blocks.notation import in_full, read_prescriptions
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.units import Unit
from coachdesk.wording.wording import Wording


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


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("squat heavy", "“squat heavy” does not begin with sets x repetitions."),
        ("100x5x3", "“100x5x3” can be read in two ways."),
        ("5x3 80% heavy", "“heavy” is not understood."),
        ("5x3 121%", "above 0 and at most 120 %"),
        ("5x3 705", "700 kg"),
        ("5x3 RPE 8.3", "RPE goes from 5 to 10 in half steps."),
        ("5x3 11 RIR", "go from 0 to 10 in half steps."),
        ("51x3", "Sets go from 1 to 50."),
    ],
)
def test_a_mistake_is_explained(typed: str, said: str, wording: Wording) -> None:
    with pytest.raises(InvalidInput) as fault:
        read_prescriptions(typed, Unit.KG)
    assert said in wording.say(fault.value.text)
