"""Past results, typed from a sheet: one action each, undone as one, nothing noted is lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from math import exp

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.history import total_grams
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import Attempt, AttemptData, Entry, EntryData, Meet, MeetData
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit, kilograms
from coachdesk.services.attempt_notation import read_attempts, write_attempts
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete, record_attempts
from coachdesk.services.results import (
    PastResult,
    ResultData,
    add_result,
    delete_result,
    edit_result,
)
from coachdesk.services.roster import add_athlete
from coachdesk.services.roster_reading import best_totals, is_alone, meet_unit, past_results, points
from coachdesk.services.undo import redo, undo, undoable

MAY = date(2026, 5, 9)


@pytest.fixture
def lina(desk: Desk) -> int:
    data = AthleteData(
        given_name="Lina", family_name="Brandt", sex=Sex.FEMALE, birth_date=date(1999, 3, 1)
    )
    return add_athlete(desk, data).value


def _sheet(lina: int, **lines: str) -> ResultData:
    given = lines or {
        "squat": "120 127.5 -132.5",
        "bench": "60 -65 65",
        "deadlift": "140 150 157.5",
    }
    return ResultData(
        athlete_id=lina,
        meet="Spring Cup",
        on=MAY,
        rulebook="ipf_2021",
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
        bodyweight=kilograms("62.45"),
        place=2,
        called={Lift(lift): read_attempts(lift, line, Unit.KG) for lift, line in given.items()},
    )


def _only(desk: Desk, lina: int) -> PastResult:
    (found,) = past_results(desk, lina)
    return found


def _line(result: PastResult, lift: Lift) -> str:
    return write_attempts(result.attempts, lift, Unit.KG)


def _meets(desk: Desk) -> list[str]:
    with desk.reading() as reader:
        return [meet.name for meet in reader.list(Meet)]


def test_a_result_brings_its_meet_and_undo_takes_both_back(desk: Desk, lina: int) -> None:
    add_result(desk, _sheet(lina))
    result = _only(desk, lina)
    assert (result.meet.name, result.meet.starts_on) == ("Spring Cup", MAY)
    assert result.meet.time_zone == "Europe/Berlin"
    assert total_grams(result.attempts, result.entry.event) == 350_000
    assert best_totals(desk, [lina])[lina].grams == 350_000
    label = undoable(desk)
    assert label is not None
    assert dict(label.values) == {"name": "Lina Brandt", "meet": "Spring Cup"}
    undo(desk)
    assert past_results(desk, lina) == ()
    assert _meets(desk) == []
    redo(desk)
    assert _line(_only(desk, lina), Lift.BENCH) == "60 -65 65"


def test_the_points_are_those_of_the_coachs_formula(desk: Desk, lina: int) -> None:
    """IPF GL by its published constants for women, classic, three lifts, in plain arithmetic:
    100 / (610.32796 - 1045.59282 exp(-0.03048 x 62.45)) x 350 = 77.25."""
    add_result(desk, _sheet(lina))
    with desk.reading() as reader:
        athlete = reader.get(Athlete, lina)
    result = _only(desk, lina)
    by_hand = 100 / (610.32796 - 1045.59282 * exp(-0.03048 * 62.45)) * 350
    found = points(result, athlete, Formula.IPF_GL)
    assert found == Decimal(f"{by_hand:.2f}")
    unweighed = replace(result, entry=replace(result.entry, bodyweight=None))
    assert points(unweighed, athlete, Formula.IPF_GL) is None


def test_a_meet_on_file_that_day_is_used_whatever_the_case(desk: Desk, lina: int) -> None:
    meet = MeetData(
        name="SPRING cup", starts_on=MAY, rulebook="ipf_2021", time_zone="Europe/Vienna"
    )
    add_meet(desk, meet)
    add_result(desk, _sheet(lina))
    assert _meets(desk) == ["SPRING cup"]
    with pytest.raises(InvalidInput) as refused:
        add_result(desk, _sheet(lina))
    assert refused.value.field == "event"


def test_a_meet_under_other_rules_is_not_changed_behind_the_coachs_back(
    desk: Desk, lina: int
) -> None:
    add_result(desk, _sheet(lina))
    other = replace(_sheet(lina), rulebook="traditional_two_hour", event=Event.BENCH_ONLY)
    bench = replace(other, called={Lift.BENCH: other.called[Lift.BENCH]})
    with pytest.raises(InvalidInput) as refused:
        add_result(desk, bench)
    assert refused.value.field == "rulebook"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"on": date(2026, 11, 26)}, "on"),
        ({"meet": " "}, "meet"),
        ({"event": Event.PUSH_PULL}, "event"),
        ({"divisions": ()}, "divisions"),
        ({"divisions": ("masters_1",)}, "divisions"),
        ({"weight_class": "62"}, "weight_class"),
        ({"bodyweight": kilograms(6245)}, "bodyweight"),
        ({"place": 0}, "place"),
        ({"called": {}}, "squat"),
        ({"event": Event.BENCH_ONLY}, "squat"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_at_its_field(
    desk: Desk, lina: int, change: dict[str, object], field: str
) -> None:
    data = _sheet(lina)
    if change.get("event") is Event.PUSH_PULL:
        change = {**change, "called": {Lift.BENCH: data.called[Lift.BENCH]}}
    with pytest.raises(InvalidInput) as refused:
        add_result(desk, replace(data, **change))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert past_results(desk, lina) == ()
    assert _meets(desk) == []


def test_editing_keeps_lights_and_causes_of_attempts_that_stay(desk: Desk, lina: int) -> None:
    add_result(desk, _sheet(lina))
    before = _only(desk, lina)
    missed = next(each for each in before.attempts if each.result is Result.NO_LIFT)
    with desk.action(text("did.place_entries", count=1)) as work:
        noted = replace(missed, lights="wrr", cause="squat.depth")
        work.update(missed.id, missed.version, noted)
    seen = _only(desk, lina)
    changed = _sheet(lina, squat="120 127.5 -132.5 140", bench="60 -65", deadlift="140 150 -157.5")
    edit_result(desk, seen, changed)
    after = _only(desk, lina)
    assert _line(after, Lift.SQUAT) == "120 127.5 -132.5 140"
    assert _line(after, Lift.BENCH) == "60 -65"
    assert _line(after, Lift.DEADLIFT) == "140 150 -157.5"
    kept = next(each for each in after.attempts if each.id == missed.id)
    assert (kept.lights, kept.cause) == ("wrr", "squat.depth")
    undo(desk)
    assert _line(_only(desk, lina), Lift.BENCH) == "60 -65 65"


def test_a_result_changed_meanwhile_is_not_overwritten(desk: Desk, lina: int) -> None:
    entry_id = add_result(desk, _sheet(lina)).value
    seen = _only(desk, lina)
    fourth = AttemptData(
        entry_id=entry_id, lift=Lift.SQUAT, number=4, weight=kilograms(140), result=Result.GOOD
    )
    record_attempts(desk, [fourth])
    with pytest.raises(Trouble) as moved:
        edit_result(desk, seen, _sheet(lina))
    assert moved.value.text.code == "record.moved_on"
    edit_result(desk, _only(desk, lina), _sheet(lina))
    with pytest.raises(Trouble):
        edit_result(desk, seen, _sheet(lina))


def test_mending_the_name_of_a_meet_leaves_no_empty_meet_behind(desk: Desk, lina: int) -> None:
    add_result(desk, replace(_sheet(lina), meet="Sprng Cup"))
    edit_result(desk, _only(desk, lina), _sheet(lina))
    assert _meets(desk) == ["Spring Cup"]
    assert len(_only(desk, lina).attempts) == 9


def test_a_deleted_result_takes_its_meet_along_only_when_nothing_else_is_there(
    desk: Desk, lina: int
) -> None:
    other = add_athlete(
        desk,
        AthleteData(
            given_name="Mia", family_name="Oster", sex=Sex.FEMALE, birth_date=date(2000, 1, 1)
        ),
    ).value
    add_result(desk, _sheet(lina))
    add_result(desk, _sheet(other))
    assert not is_alone(desk, _only(desk, lina))
    delete_result(desk, _only(desk, lina))
    assert _meets(desk) == ["Spring Cup"]
    assert is_alone(desk, _only(desk, other))
    delete_result(desk, _only(desk, other))
    assert _meets(desk) == []
    undo(desk)
    assert len(_only(desk, other).attempts) == 9


def test_an_entry_that_began_at_the_meets_screen_can_be_completed_here(
    desk: Desk, lina: int
) -> None:
    meet_id = add_meet(
        desk,
        MeetData(name="Cup", starts_on=MAY, rulebook="ipf_2021", time_zone="Europe/Berlin"),
    ).value
    entry_id = enter_athlete(
        desk,
        EntryData(
            athlete_id=lina,
            meet_id=meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
        ),
    ).value
    opener = AttemptData(entry_id=entry_id, lift=Lift.SQUAT, number=1, weight=kilograms(120))
    record_attempts(desk, [opener])
    seen = _only(desk, lina)
    assert _line(seen, Lift.SQUAT) == "120?"
    edit_result(desk, seen, replace(_sheet(lina), meet="Cup"))
    with desk.reading() as reader:
        (entry,) = reader.list(Entry)
        assert entry.id == entry_id
        assert len(reader.list(Attempt)) == 9


def test_a_rulebook_that_is_gone_counts_in_kilograms(desk: Desk) -> None:
    assert meet_unit(desk, "no_such_book") is Unit.KG
    assert meet_unit(desk, "ipf_2021") is Unit.KG
