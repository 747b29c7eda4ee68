"""What a plan rests on, in words for the coach."""

from __future__ import annotations

from coachdesk.domain.attempts import LiftPlan, Turn
from coachdesk.domain.lifting import Lift
from coachdesk.domain.plan_outlook import LiftOutlook
from coachdesk.domain.text import text
from coachdesk.domain.units import kilograms
from coachdesk.wording.plan_words import source_line
from coachdesk.wording.wording import Wording


def test_the_coach_reads_how_wide_a_source_is_as_far_as_the_plan_knows(wording: Wording) -> None:
    """By hand: eight in ten lie within 1.2816 standard deviations, here 4 % of 200 kg."""
    plan = LiftPlan(
        Lift.SQUAT,
        kilograms(200),
        text("expected_max.coach"),
        Turn(1, kilograms(180)),
        outlook=LiftOutlook(
            spread=0.04, miss=0.05, expected_best=kilograms(195), no_lift=0.01, all_good=0.2
        ),
    )
    assert source_line(plan, wording).endswith("Eight days in ten bring 189.7 kg to 210.3 kg.")
