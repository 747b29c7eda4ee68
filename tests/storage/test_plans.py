"""Plans on file: equal branches stand together, and plans of earlier versions are still read."""

from __future__ import annotations

import json
from datetime import date

import pytest
from sqlalchemy import text as sql

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.attempts import Outcome
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_athlete
from coachdesk.storage.plans import latest_snapshots, plan_before

EARLIER = {
    "method": "textbook",
    "rulebook": "IPF",
    "edition": "2021",
    "lifts": [
        {
            "lift": "squat",
            "expected": "120 kg",
            "source": {"code": "expected_max.coach", "values": {}},
            "opener": {
                "number": 1,
                "weight": "107.5 kg",
                "branches": [
                    {
                        "outcome": "good",
                        "turn": {"number": 2, "weight": "112.5 kg", "branches": []},
                    },
                    {
                        "outcome": "no_lift",
                        "turn": {"number": 2, "weight": "107.5 kg", "branches": []},
                    },
                ],
            },
            "notes": [],
        }
    ],
}


@pytest.fixture
def entry_id(desk: Desk) -> int:
    athlete = AthleteData(
        given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
    )
    meet = MeetData(
        name="Harbour Open",
        starts_on=date(2027, 2, 20),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    data = EntryData(
        athlete_id=add_athlete(desk, athlete).value,
        meet_id=add_meet(desk, meet).value,
        event=Event.BENCH_ONLY,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        expected_bench=kilograms(60),
    )
    found = enter_athlete(desk, data).value
    plan_meet(desk, data.meet_id)
    return found


def test_what_leads_to_the_same_turn_is_kept_once(desk: Desk, entry_id: int) -> None:
    with desk.reading() as reader:
        plan = latest_snapshots(reader, [entry_id])[entry_id].plan
        stored = reader.connection.execute(sql("SELECT content FROM plan_snapshot")).scalar_one()
    (bench,) = plan.lifts
    content = json.loads(stored)
    branches = content["lifts"][0]["opener"]["branches"]
    assert len(branches) == len(bench.opener.ways) < len(bench.opener.branches)
    assert {seen for branch in branches for seen in branch["outcomes"]} == {
        branch.outcome.value for branch in bench.opener.branches
    }


def test_a_plan_of_an_earlier_version_is_still_read(desk: Desk, entry_id: int) -> None:
    with desk.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE plan_snapshot SET content = ?", (json.dumps(EARLIER),))
    with desk.reading() as reader:
        plan = latest_snapshots(reader, [entry_id])[entry_id].plan
    (squat,) = plan.lifts
    assert squat.lift is Lift.SQUAT
    assert squat.good_path == (kilograms("107.5"), kilograms("112.5"))
    missed = squat.opener.after(Outcome.NO_LIFT)
    assert missed is not None
    assert (missed.weight, missed.good, plan.outlook) == (kilograms("107.5"), None, None)


def test_the_plan_before_is_found(desk: Desk, entry_id: int) -> None:
    with desk.reading() as reader:
        assert plan_before(reader, entry_id) is None
        first = latest_snapshots(reader, [entry_id])[entry_id]
    plan_meet(desk, 1)
    with desk.reading() as reader:
        assert plan_before(reader, entry_id) == first
