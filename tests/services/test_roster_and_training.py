"""People and training: bad input is named at its field and nothing is kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from coachdesk.domain.athlete import (
    Athlete,
    AthleteData,
    Handler,
    HandlerData,
    Reading,
    ReadingData,
)
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift, Result, Sex
from coachdesk.domain.training import Block, BlockData, LoggedSet, LoggedSetData, Purpose
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.roster import (
    add_athlete,
    add_handler,
    add_readings,
    archive_athlete,
    delete_handler,
    delete_readings,
    edit_handler,
    edit_reading,
)
from coachdesk.services.training import add_blocks, causes_of, delete_sets, edit_set, log_sets
from coachdesk.services.undo import undo, undoable

ATHLETE = AthleteData(given_name="Łucja", family_name="Bąk", sex=Sex.FEMALE)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"given_name": " "}, "given_name"),
        ({"given_name": "x" * 201}, "given_name"),
        ({"family_name": "x" * 201}, "family_name"),
        ({"birth_date": date(2026, 11, 26)}, "birth_date"),
        ({"birth_date": date(1899, 12, 31)}, "birth_date"),
        ({"height_cm": 17}, "height_cm"),
        ({"meets_before": -1}, "meets_before"),
    ],
)
def test_an_athlete_that_cannot_be_is_refused(
    desk: Desk, change: dict[str, object], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        add_athlete(desk, replace(ATHLETE, **change))  # type: ignore[arg-type]
    assert refused.value.field == field
    with desk.reading() as reader:
        assert reader.list(Athlete) == ()


def test_every_field_of_an_athlete_comes_back(desk: Desk) -> None:
    data = replace(
        ATHLETE,
        birth_date=date(2001, 2, 28),
        unit=Unit.LB,
        height_cm=164,
        bench_lift_off=True,
        squat_cue="Chest up",
        health_note="private",
    )
    athlete_id = add_athlete(desk, data).value
    with desk.reading() as reader:
        kept = reader.get(Athlete, athlete_id)
    assert {name: getattr(kept, name) for name in data.__dataclass_fields__} == {
        name: getattr(data, name) for name in data.__dataclass_fields__
    }


def test_readings_are_all_kept_or_none(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    good = ReadingData(athlete_id=athlete_id, on=date(2026, 11, 24), weight=pounds("143.5"))
    for bad, field in (
        (replace(good, on=date(2026, 11, 26)), "on"),
        (replace(good, weight=kilograms(4)), "weight"),
        (replace(good, weight=kilograms(6480)), "weight"),
    ):
        with pytest.raises(InvalidInput) as refused:
            add_readings(desk, [good, bad])
        assert refused.value.field == field
    with desk.reading() as reader:
        assert reader.list(Reading) == ()
    add_readings(desk, [good])
    with desk.reading() as reader:
        (reading,) = reader.list(Reading)
    assert reading.weight == pounds("143.5")
    delete_readings(desk, [reading])
    with pytest.raises(Trouble) as gone:
        delete_readings(desk, [reading])
    assert gone.value.text.code == "record.gone"


def test_a_reading_is_mended_unless_it_was_changed_meanwhile(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    data = ReadingData(athlete_id=athlete_id, on=date(2026, 11, 24), weight=kilograms("65.1"))
    add_readings(desk, [data])
    with desk.reading() as reader:
        (seen,) = reader.list(Reading)
    with pytest.raises(InvalidInput) as refused:
        edit_reading(desk, seen, replace(data, on=date(2026, 11, 26)))
    assert refused.value.field == "on"
    edit_reading(desk, seen, replace(data, weight=kilograms("56.1")))
    with pytest.raises(Trouble) as moved:
        edit_reading(desk, seen, data)
    assert moved.value.text.code == "record.moved_on"
    undo(desk)
    with desk.reading() as reader:
        assert reader.list(Reading)[0].weight == kilograms("65.1")


def test_several_readings_go_together_or_not_at_all(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    data = ReadingData(athlete_id=athlete_id, on=date(2026, 11, 24), weight=kilograms(65))
    add_readings(desk, [data, data])
    with desk.reading() as reader:
        first, second = reader.list(Reading)
    with pytest.raises(Trouble):
        delete_readings(desk, [first, replace(second, version=9)])
    with desk.reading() as reader:
        assert len(reader.list(Reading)) == 2
    delete_readings(desk, [first, second])
    undo(desk)
    with desk.reading() as reader:
        assert len(reader.list(Reading)) == 2


def test_archiving_deletes_nothing_and_can_be_undone(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    with desk.reading() as reader:
        archive_athlete(desk, reader.get(Athlete, athlete_id), archived=True)
    label = undoable(desk)
    assert label is not None
    assert label.code == "did.archive_athlete"
    undo(desk)
    with desk.reading() as reader:
        assert not reader.get(Athlete, athlete_id).archived


def test_a_handler_needs_a_name(desk: Desk) -> None:
    with pytest.raises(InvalidInput):
        add_handler(desk, HandlerData(name=""))


def test_a_handler_is_mended_deleted_and_brought_back(desk: Desk) -> None:
    add_handler(desk, HandlerData(name="Ida", phone="1"))
    with desk.reading() as reader:
        (seen,) = reader.list(Handler)
    with pytest.raises(InvalidInput):
        edit_handler(desk, seen, HandlerData(name=" "))
    edit_handler(desk, seen, HandlerData(name="Ida Roth", phone="2"))
    with pytest.raises(Trouble):
        delete_handler(desk, seen)
    with desk.reading() as reader:
        (mended,) = reader.list(Handler)
    assert (mended.name, mended.phone) == ("Ida Roth", "2")
    delete_handler(desk, mended)
    undo(desk)
    with desk.reading() as reader:
        assert [each.name for each in reader.list(Handler)] == ["Ida Roth"]


def test_sets_belong_to_blocks_and_bad_ones_are_refused(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    block = BlockData(
        athlete_id=athlete_id,
        name="Autumn",
        purpose=Purpose.VOLUME,
        starts_on=date(2026, 10, 5),
        weeks=6,
    )
    with pytest.raises(InvalidInput) as refused:
        add_blocks(desk, [block, replace(block, weeks=0)])
    assert refused.value.field == "weeks"
    good = LoggedSetData(
        athlete_id=athlete_id,
        on=date(2026, 11, 3),
        lift=Lift.BENCH,
        weight=kilograms("62.5"),
        reps=5,
        rir=1.5,
        block_id=add_blocks(desk, [block]).value[0],
    )
    for bad, field in (
        (replace(good, reps=-1), "reps"),
        (replace(good, rir=1.3), "rir"),
        (replace(good, rir=11.0), "rir"),
        (replace(good, weight=kilograms(0)), "weight"),
        (replace(good, on=date(2027, 1, 1)), "on"),
        (replace(good, judged=True), "result"),
        (replace(good, judged=True, reps=1), "result"),
        (replace(good, cause="bench.chest"), "cause"),
    ):
        with pytest.raises(InvalidInput) as refused:
            log_sets(desk, [good, bad])
        assert refused.value.field == field
    log_sets(desk, [good, replace(good, judged=True, reps=1, result=Result.GOOD)])
    with desk.reading() as reader:
        assert [each.rir for each in reader.list(LoggedSet)] == [1.5, 1.5]
        assert reader.list(Block)[0].name == "Autumn"


def test_a_set_is_mended_deleted_and_brought_back(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ATHLETE).value
    data = LoggedSetData(
        athlete_id=athlete_id,
        on=date(2026, 11, 3),
        lift=Lift.SQUAT,
        weight=kilograms("62.5"),
        reps=5,
    )
    log_sets(desk, [data, data])
    with desk.reading() as reader:
        seen, other = reader.list(LoggedSet)
    red = replace(data, reps=1, judged=True, result=Result.NO_LIFT, cause="squat.depth")
    edit_set(desk, seen, red)
    with pytest.raises(Trouble):
        edit_set(desk, seen, data)
    with desk.reading() as reader:
        mended = reader.get(LoggedSet, seen.id)
    assert (mended.judged, mended.cause) == (True, "squat.depth")
    delete_sets(desk, [mended, other])
    undo(desk)
    with desk.reading() as reader:
        assert len(reader.list(LoggedSet)) == 2


def test_a_judged_single_can_be_given_every_cause_a_rulebook_has(desk: Desk) -> None:
    codes = [cause.code for cause in causes_of(desk, Lift.SQUAT)]
    assert codes[0].startswith("squat.")
    assert {"squat.depth", "squat.strength"} <= set(codes)
    assert len(codes) == len(set(codes))
