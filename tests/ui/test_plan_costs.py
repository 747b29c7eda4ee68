"""What the coach's own weights cost, in the words of the screen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import Entry, EntryData
from coachdesk.domain.units import kilograms
from coachdesk.domain.wishes import DayAim, LiftBasisData, WishesData
from coachdesk.services.desk import Desk
from coachdesk.services.meets import enter_athlete
from coachdesk.services.plan_fixing import TurnOf, fix_turn
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import no_progress
from coachdesk.services.wishes_editing import say_of_lift, wish_for_all
from coachdesk.ui.screens.meets.plans_presenter import PlanLook, PlansPresenter
from coachdesk.wording.wording import Wording
from tests.conftest import Results

OPENER = TurnOf(Lift.SQUAT, ((),))


@dataclass
class Planned:
    """An equipped athlete with a plan, and the plan's presenter."""

    desk: Desk
    meet_id: int
    entry_id: int
    presenter: PlansPresenter

    def open_with(self, squat_kg: float) -> None:
        """Overrule the squat opener."""
        fix_turn(self.desk, self.entry_id, OPENER, kilograms(squat_kg))

    def look(self) -> PlanLook:
        """The plan by now, as it is shown."""
        self.presenter.rows(self.meet_id)
        return self.presenter.look(self.entry_id)

    def risk(self) -> str:
        """The chance of no total by now, as the team's table shows it."""
        (row,) = self.presenter.rows(self.meet_id)
        return row.risk

    def cost(self) -> str:
        """What is said of the cost by now."""
        self.look()
        return " ".join(line.words for line in self.presenter.cost()(no_progress))


@pytest.fixture
def planned(results: Results, wording: Wording) -> Planned:
    meet_id = results.meet("Harbour Open", date(2027, 2, 20), rulebook="ipf_2021")
    data = EntryData(
        athlete_id=results.athlete("Ana Ruiz"),
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.EQUIPPED,
        divisions=("open",),
        expected_squat=kilograms(200),
        expected_bench=kilograms(120),
        expected_deadlift=kilograms(210),
    )
    entry_id = enter_athlete(results.desk, data).value
    plan_meet(results.desk, meet_id)
    return Planned(results.desk, meet_id, entry_id, PlansPresenter(results.desk, wording))


def test_a_weight_too_light_for_the_suit_is_not_praised(planned: Planned) -> None:
    """Below its floor a suit does not break depth: the chances of such a squat do not hold."""
    said = LiftBasisData(entry_id=planned.entry_id, lift=Lift.SQUAT, floor=kilograms(190))
    with planned.desk.reading() as reader:
        entry = reader.get(Entry, planned.entry_id)
    say_of_lift(planned.desk, entry, kilograms(200), said, basis=None)
    planned.open_with(180)
    assert "too light for the suit or shirt" in planned.cost()
    assert "add" not in planned.cost().split()
    told = " ".join(line.words for line in planned.look().figures)
    assert "180 kg is below the 190 kg" in told


def test_a_risk_is_told_before_and_after(planned: Planned) -> None:
    """In the figures the screen shows of both plans, not as so many points more."""
    before = planned.risk()
    planned.open_with(197.5)
    assert f"no total: {before} becomes {planned.risk()}." in planned.cost()
    assert "likely" not in planned.cost()
    assert "first aim" not in planned.cost()


def test_what_changes_nothing_is_said_to_cost_nothing(planned: Planned) -> None:
    (opener, *_) = planned.look().turns
    planned.open_with(float(opener.weight))
    assert "cost nothing on average" in planned.cost()
    assert f"no total: {planned.risk()}, as before." in planned.cost()
    assert "0.0 %" not in planned.cost()


def test_under_an_aim_its_chance_is_told_too(planned: Planned) -> None:
    wish = WishesData(
        entry_id=planned.entry_id,
        aim=DayAim.LIFT_NUMBER,
        aim_lift=Lift.SQUAT,
        aim_weight=kilograms(205),
    )
    entries = frozenset({planned.entry_id})
    wish_for_all(planned.desk, planned.meet_id, entries, wish, no_progress)
    planned.open_with(197.5)
    assert "Chance of the first aim: " in planned.cost()
