"""What the coach's own weights cost, in the words of the screen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import Entry, EntryData
from coachdesk.domain.units import kilograms
from coachdesk.domain.wishes import LiftBasisData
from coachdesk.services.desk import Desk
from coachdesk.services.meets import enter_athlete
from coachdesk.services.plan_fixing import TurnOf, fix_turn
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import no_progress
from coachdesk.services.wishes_editing import say_of_lift
from coachdesk.ui.screens.meets.plans_presenter import PlansPresenter
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

    def cost(self) -> str:
        """What is said of the cost by now."""
        self.presenter.rows(self.meet_id)
        self.presenter.look(self.entry_id)
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
    told = " ".join(line.words for line in planned.presenter.look(planned.entry_id).figures)
    assert "180 kg is below the 190 kg" in told
