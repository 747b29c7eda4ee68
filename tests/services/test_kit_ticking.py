"""Kit ticked there, missing, or not looked for: a piece, a whole list, a whole team."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest

from coachdesk.domain.errors import Trouble
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Event
from coachdesk.domain.readiness import KitCheck
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_all_kit, tick_kit
from coachdesk.services.undo import redo, undo

if TYPE_CHECKING:
    from tests.conftest import Results


@pytest.fixture
def team(results: Results) -> tuple[int, int]:
    """One of three lifts, one bench presser."""
    meet_id = results.meet("Harbour Open", date(2027, 2, 20))
    return (
        results.entry(results.athlete("Ana Ruiz"), meet_id),
        results.entry(results.athlete("Bea Lund"), meet_id, event=Event.BENCH_ONLY),
    )


def on_file(desk: Desk) -> tuple[KitCheck, ...]:
    with desk.reading() as reader:
        return reader.list(KitCheck)


def test_a_piece_goes_through_all_three_states(desk: Desk, team: tuple[int, int]) -> None:
    tick_kit(desk, team[0], "two_weeks", {"belt": Sight.PRESENT, "talc": Sight.MISSING})
    (check,) = on_file(desk)
    assert (check.present, check.missing) == (("belt",), ("talc",))
    tick_kit(desk, team[0], "two_weeks", {"talc": Sight.PRESENT})
    (check,) = on_file(desk)
    assert (check.present, check.missing) == (("belt", "talc"), ())
    tick_kit(desk, team[0], "two_weeks", {"talc": Sight.NOT_LOOKED})
    assert on_file(desk)[0].present == ("belt",)


def test_a_round_in_which_nothing_was_looked_for_is_not_on_file(
    desk: Desk, team: tuple[int, int]
) -> None:
    tick_kit(desk, team[0], "two_weeks", {"belt": Sight.PRESENT})
    tick_kit(desk, team[0], "two_weeks", {"belt": Sight.NOT_LOOKED})
    assert on_file(desk) == ()
    assert tick_kit(desk, team[0], "two_weeks", {"belt": Sight.NOT_LOOKED}).changes == frozenset()


def test_all_there_ticks_what_each_of_the_team_packs(desk: Desk, team: tuple[int, int]) -> None:
    tick_kit(desk, team[0], "one_week", {"belt": Sight.MISSING})
    tick_all_kit(desk, team, "one_week")
    three, bench = on_file(desk)
    assert "belt" in three.present
    assert three.missing == ()
    assert {"squat_shoes", "deadlift_socks"} <= set(three.present)
    assert not {"squat_shoes", "deadlift_socks"} & set(bench.present)
    undo(desk)
    assert [check.missing for check in on_file(desk)] == [("belt",)]
    redo(desk)
    assert len(on_file(desk)) == 2


def test_a_tick_names_athlete_and_round_for_undo(desk: Desk, team: tuple[int, int]) -> None:
    tick_all_kit(desk, team[:1], "two_weeks")
    label = undo(desk).value
    assert label is not None
    assert label.code == "did.tick_all_kit"
    assert dict(label.values)["name"] == "Ana Ruiz"


def test_what_is_on_no_list_is_said_and_nothing_is_kept(desk: Desk, team: tuple[int, int]) -> None:
    with pytest.raises(Trouble) as no_round:
        tick_kit(desk, team[0], "full_moon", {"belt": Sight.PRESENT})
    assert no_round.value.text.code == "kit_check.unknown_round"
    with pytest.raises(Trouble) as no_item:
        tick_kit(desk, team[1], "two_weeks", {"squat_shoes": Sight.PRESENT})
    assert no_item.value.text.code == "kit_check.unknown_item"
    assert on_file(desk) == ()
