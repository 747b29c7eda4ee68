"""One athlete's whole record as a zip: complete, plain to other programs, written whole."""

from __future__ import annotations

import csv
import io
import zipfile
from datetime import date, time
from pathlib import Path

import pytest

from coachdesk.domain.athlete import AthleteData, Dress, ReadingData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.training import BlockData, ExerciseData, LoggedSetData, Purpose
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block, add_exercise
from coachdesk.services.desk import Desk
from coachdesk.services.record_export import write_record
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.roster_reading import find_athlete, roster
from coachdesk.services.training import log_sets


def _read(file: Path) -> dict[str, list[dict[str, str]]]:
    with zipfile.ZipFile(file) as packed:
        return {
            name: list(csv.DictReader(io.StringIO(packed.read(name).decode("utf-8-sig"))))
            for name in packed.namelist()
        }


@pytest.fixture
def lifter(desk: Desk) -> int:
    return add_athlete(
        desk,
        AthleteData(
            given_name="Łucja",
            family_name="Bąk",
            sex=Sex.FEMALE,
            unit=Unit.LB,
            note='=HYPERLINK("x")',
            bench_lift_off=True,
        ),
    ).value


def test_all_that_is_on_file_of_one_athlete_and_of_nobody_else(
    desk: Desk, lifter: int, tmp_path: Path
) -> None:
    other = add_athlete(desk, AthleteData(given_name="Mia", family_name="", sex=Sex.FEMALE)).value
    on = date(2026, 11, 20)
    for who in (lifter, other):
        add_readings(
            desk,
            [
                ReadingData(
                    athlete_id=who,
                    on=on,
                    weight=pounds("138.5"),
                    at=time(7, 5),
                    dress=Dress.LIGHT,
                    note="-0.5 after travel",
                )
            ],
        )
    block_id = add_block(
        desk,
        BlockData(
            athlete_id=lifter,
            name="Base",
            purpose=Purpose.VOLUME,
            starts_on=date(2026, 11, 23),
            weeks=4,
        ),
    ).value
    exercise_id = add_exercise(
        desk, ExerciseData(block_id=block_id, day=1, place=1, lift=Lift.SQUAT)
    ).value
    type_cells(desk, block_id, [TypedCell(exercise_id, 1, "5x3 225 lb RPE 7.5")])
    log_sets(
        desk,
        [LoggedSetData(athlete_id=lifter, on=on, lift=Lift.BENCH, weight=kilograms(60), reps=5)],
    )
    written = write_record(desk, lifter, tmp_path / "new folder" / "record.zip")
    found = _read(written.file)
    assert written.files == len(found) == 12
    assert found["profile.csv"][0]["family_name"] == "Bąk"
    assert found["profile.csv"][0]["bench_lift_off"] == "yes"
    (reading,) = found["readings.csv"]
    assert (reading["on"], reading["at"]) == ("2026-11-20", "07:05:00")
    assert (reading["weight"], reading["weight_unit"]) == ("138.5", "lb")
    (planned,) = found["planned_sets.csv"]
    assert planned["sets"] == "5"
    assert (planned["weight"], planned["weight_unit"], planned["rir"]) == ("225", "lb", "2.5")
    assert found["blocks.csv"][0]["name"] == "Base"
    assert found["logged_sets.csv"][0]["athlete"] == "Łucja Bąk"


def test_nothing_typed_becomes_a_formula_in_a_spreadsheet(
    desk: Desk, lifter: int, tmp_path: Path
) -> None:
    file = write_record(desk, lifter, tmp_path / "record.zip").file
    assert _read(file)["profile.csv"][0]["note"] == '\'=HYPERLINK("x")'


def test_meets_come_with_their_attempts(club: Desk, tmp_path: Path) -> None:
    for line in roster(club):
        found = _read(write_record(club, line.id, tmp_path / f"{line.id}.zip").file)
        names = {each["name"] for each in found["meets.csv"]}
        assert {each["meet"] for each in found["entries.csv"]} == names
        assert {each["meet"] for each in found["attempts.csv"]} <= names
        if found["attempts.csv"]:
            break
    else:
        pytest.fail("nobody of the club has lifted")


def test_where_the_file_cannot_be_written_what_stood_there_stays(
    desk: Desk, lifter: int, tmp_path: Path
) -> None:
    (tmp_path / "a file").write_text("mine")
    with pytest.raises(Trouble):
        write_record(desk, lifter, tmp_path / "a file" / "record.zip")
    assert [each.name for each in tmp_path.iterdir() if each.is_file()] == ["a file"]
    assert (tmp_path / "a file").read_text() == "mine"


def test_an_athlete_is_found_by_name_or_nobody_is(desk: Desk, lifter: int) -> None:
    assert find_athlete(desk, "bak lucja").id == lifter
    with pytest.raises(Trouble):
        find_athlete(desk, "Łucja")
