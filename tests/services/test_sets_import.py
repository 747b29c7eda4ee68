"""Logged sets from real files: spellings of the trade, faults by the line, nothing twice."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time
from pathlib import Path

import pytest

from coachdesk.domain.athlete import AthleteData, Dress, ReadingData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result, Sex
from coachdesk.domain.training import LoggedSet, LoggedSetData
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services import sets_import, weights_import
from coachdesk.services.csv_reading import read_source
from coachdesk.services.desk import Desk
from coachdesk.services.import_file import Fate, Preview
from coachdesk.services.record_export import write_record
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.roster_reading import athlete, logged_sets
from coachdesk.services.sets_file import Part, Vocabulary
from coachdesk.services.sets_lines import Sets
from coachdesk.services.training import delete_sets, log_sets
from coachdesk.services.undo import undo
from coachdesk.ui.imports.vocabularies import sets_vocabulary, weights_vocabulary
from coachdesk.wording.wording import Wording
from tests.conftest import NOW

DAY = date(2026, 11, 20)


@pytest.fixture
def words(wording: Wording) -> Vocabulary:
    return sets_vocabulary(wording)


@pytest.fixture
def ana(desk: Desk) -> int:
    return add_athlete(
        desk, AthleteData(given_name="Ana", family_name="Lee", sex=Sex.FEMALE, unit=Unit.LB)
    ).value


def _read(desk: Desk, words: Vocabulary, file: Path, owner: int | None = None) -> Preview[Sets]:
    source = read_source(file)
    layout = sets_import.suggest(desk, source, words)
    whose = None if owner is None else athlete(desk, owner)
    return sets_import.preview(desk, source, layout, words, lambda _done, _of: None, whose)


def _file(tmp_path: Path, content: str) -> Path:
    file = tmp_path / "log.csv"
    file.write_text(content, "utf-8")
    return file


def _on_file(desk: Desk, athlete_id: int) -> tuple[LoggedSet, ...]:
    return logged_sets(desk, athlete_id, None)[0]


@pytest.mark.parametrize(
    ("written", "lift", "variation"),
    [
        ("Squat", Lift.SQUAT, ""),
        ("back squat", Lift.SQUAT, ""),
        ("SQ", Lift.SQUAT, ""),
        ("Bench Press", Lift.BENCH, ""),
        ("bp", Lift.BENCH, ""),
        ("Sumo Deadlift", Lift.DEADLIFT, ""),
        ("Paused Squat", Lift.SQUAT, "Paused"),
        ("Squat (paused)", Lift.SQUAT, "paused"),
        ("Bench press, close grip", Lift.BENCH, "close grip"),
        ("Deadlift - 2 in deficit", Lift.DEADLIFT, "2 in deficit"),
        ("Incline Bench Press", Lift.BENCH, "Incline"),
    ],
)
def test_lifts_are_known_in_the_spellings_of_the_trade(
    words: Vocabulary, written: str, lift: Lift, variation: str
) -> None:
    assert words.lift_named(written) == (lift, variation)


@pytest.mark.parametrize("written", ["Leg press", "Curl", "", "5"])
def test_what_is_none_of_the_lifts_is_not_taken_for_one(words: Vocabulary, written: str) -> None:
    assert words.lift_named(written) is None


def test_a_line_in_full(desk: Desk, ana: int, words: Vocabulary, tmp_path: Path) -> None:
    content = (
        "Date,Athlete,Exercise,Weight (kg),Sets,Reps,RPE,Notes\n"
        "2026-11-20,Ana Lee,Paused squat,102.5,3,5,8.5,slow\n"
    )
    found = _read(desk, words, _file(tmp_path, content))
    expected = LoggedSetData(
        athlete_id=ana,
        on=DAY,
        lift=Lift.SQUAT,
        variation="Paused",
        weight=kilograms("102.5"),
        reps=5,
        rir=1.5,
        note="slow",
    )
    assert found.records == ((expected,) * 3,)
    sets_import.keep(desk, found, leave_out_faulty=False)
    assert len(_on_file(desk, ana)) == 3
    undo(desk)
    assert _on_file(desk, ana) == ()


def test_a_file_that_names_nobody_is_the_athlete_shown(
    desk: Desk, ana: int, words: Vocabulary, tmp_path: Path
) -> None:
    file = _file(tmp_path, "date;lift;load;reps;rir\n20.11.2026;DL;405;2;0,5\n")
    assert _read(desk, words, file).lacking is not None
    found = _read(desk, words, file, ana)
    ((logged,),) = found.records
    assert (logged.athlete_id, logged.weight, logged.rir) == (ana, pounds(405), 0.5)


def test_one_fault_keeps_all_out_until_it_is_left_out(
    desk: Desk, ana: int, words: Vocabulary, wording: Wording, tmp_path: Path
) -> None:
    content = (
        "name,date,lift,weight,reps,rpe\n"
        "Ana Lee,2026-11-20,squat,225,5,8\n"
        "Ana Lee,2026-11-20,leg press,400,10,\n"
        "Ana Lee,2026-11-20,bench,135,five,4\n"
        "Mia,2026-12-20,bench,,5,\n"
    )
    found = _read(desk, words, _file(tmp_path, content))
    assert [line.fate for line in found.lines] == [Fate.NEW, *[Fate.FAULTY] * 3]
    assert [len(line.remarks) for line in found.lines] == [0, 1, 2, 2]
    assert "leg press" in wording.say(found.lines[1].remarks[0])
    with pytest.raises(InvalidInput):
        sets_import.keep(desk, found, leave_out_faulty=False)
    assert _on_file(desk, ana) == ()
    sets_import.keep(desk, found, leave_out_faulty=True)
    assert [each.weight for each in _on_file(desk, ana)] == [pounds(225)]


def test_equal_sets_all_count_but_what_is_on_file_does_not_count_again(
    desk: Desk, ana: int, words: Vocabulary, tmp_path: Path
) -> None:
    line = "Ana Lee,2026-11-20,squat,100,5\n"
    file = _file(tmp_path, "name,date,lift,weight,reps\n" + line * 3)
    sets_import.keep(desk, _read(desk, words, file), leave_out_faulty=False)
    assert len(_on_file(desk, ana)) == 3
    again = _read(desk, words, file)
    assert [each.fate for each in again.lines] == [Fate.ON_FILE] * 3
    delete_sets(desk, _on_file(desk, ana)[:1])
    more = _file(tmp_path, "name,date,lift,weight,sets,reps\nAna Lee,2026-11-20,squat,100,4,5\n")
    sets_import.keep(desk, _read(desk, words, more), leave_out_faulty=False)
    assert len(_on_file(desk, ana)) == 4


def test_singles_stay_beside_other_sets_and_plain_ones_beside_judged_ones(
    desk: Desk, ana: int, words: Vocabulary, tmp_path: Path
) -> None:
    """By hand: 1 plain single, 2 x 3 equal sets, 2 equal singles in a line, 2 judged singles."""
    content = (
        "name,date,lift,weight,sets,reps,call\n"
        "Ana Lee,2026-11-20,squat,300,1,1,\n"
        "Ana Lee,2026-11-20,squat,300,2,3,\n"
        "Ana Lee,2026-11-20,squat,300,2,3,\n"
        "Ana Lee,2026-11-20,squat,300,2,1,\n"
        "Ana Lee,2026-11-20,squat,300,,1,good\n"
        "Ana Lee,2026-11-20,squat,300,,1,no lift\n"
    )
    file = _file(tmp_path, content)
    found = _read(desk, words, file)
    sets_import.keep(desk, found, leave_out_faulty=False)
    kept = sorted((each.reps, each.result or "") for each in _on_file(desk, ana))
    assert kept == [
        (1, ""),
        (1, ""),
        (1, ""),
        (1, Result.GOOD),
        (1, Result.NO_LIFT),
        *[(3, "")] * 4,
    ]
    assert {each.fate for each in _read(desk, words, file).lines} == {Fate.ON_FILE}
    judged = [each for each in _on_file(desk, ana) if each.judged]
    delete_sets(desk, [each for each in _on_file(desk, ana) if each not in judged])
    again = _read(desk, words, file)
    assert [each.fate for each in again.lines] == [Fate.NEW] * 4 + [Fate.ON_FILE] * 2
    sets_import.keep(desk, again, leave_out_faulty=False)
    assert len(_on_file(desk, ana)) == 9


@pytest.mark.parametrize(("given", "family"), [("=Ana", "Lee"), ("-Ben", "@Co"), ("'=Ana", "")])
def test_a_record_is_taken_to_another_desk(
    desk_at: Callable[[datetime], Desk],
    words: Vocabulary,
    wording: Wording,
    tmp_path: Path,
    given: str,
    family: str,
) -> None:
    """Also of an athlete whose name a spreadsheet would take for a formula."""
    data = AthleteData(given_name=given, family_name=family, sex=Sex.FEMALE)
    here, there = desk_at(NOW), desk_at(NOW)
    old = add_athlete(here, data).value
    add_athlete(there, AthleteData(given_name="Somebody", family_name="Else", sex=Sex.MALE))
    new = add_athlete(there, data).value
    single = LoggedSetData(
        athlete_id=old, on=DAY, lift=Lift.BENCH, weight=pounds(200), reps=1, note="-1 rack"
    )
    paused = replace(single, reps=5, rir=2.5, variation="+bands", weight=kilograms(80), note="")
    log_sets(here, [single, *[paused] * 3])
    reading = ReadingData(
        athlete_id=old, on=DAY, weight=pounds("138.5"), at=time(7, 5), dress=Dress.LIGHT, note="=?"
    )
    add_readings(here, [reading])
    with zipfile.ZipFile(write_record(here, old, tmp_path / "record.zip").file) as record:
        record.extractall(tmp_path)
    found = _read(there, words, tmp_path / "logged_sets.csv")
    sets_import.keep(there, found, leave_out_faulty=False)
    kept = [replace(_without_id(each), athlete_id=old) for each in _on_file(there, new)]
    assert sorted(map(repr, kept)) == sorted(map(repr, [single, *[paused] * 3]))
    source, heads = read_source(tmp_path / "readings.csv"), weights_vocabulary(wording)
    layout = weights_import.suggest(there, source, heads)
    weights = weights_import.preview(there, source, layout, heads, lambda _done, _of: None)
    assert weights.records == (replace(reading, athlete_id=new),)


def test_columns_without_heads_are_told_as_far_as_they_can_be(
    desk: Desk, ana: int, words: Vocabulary, tmp_path: Path
) -> None:
    assert ana
    file = _file(tmp_path, "Ana Lee,2026-11-20,squat,100,5\nAna Lee,2026-11-20,bench,60,5\n")
    found = _read(desk, words, file)
    assert found.layout.columns == {Part.NAME: 0, Part.DAY: 1, Part.LIFT: 2}
    assert found.lacking is not None


def test_a_record_written_and_read_again_is_the_same(
    desk: Desk, ana: int, words: Vocabulary, tmp_path: Path
) -> None:
    cause = "squat.depth"
    plain = LoggedSetData(
        athlete_id=ana, on=DAY, lift=Lift.BENCH, weight=pounds("132.5"), reps=8, rir=2.5
    )
    judged = LoggedSetData(
        athlete_id=ana,
        on=DAY,
        lift=Lift.SQUAT,
        weight=kilograms("140.5"),
        reps=0,
        judged=True,
        result=Result.NO_LIFT,
        cause=cause,
        note='=1+1; "quoted"',
    )
    paused = LoggedSetData(
        athlete_id=ana,
        on=DAY,
        lift=Lift.DEADLIFT,
        weight=kilograms(100),
        reps=3,
        variation="paused, 2 s",
    )
    log_sets(desk, [plain, plain, judged, paused])
    before = [_without_id(each) for each in _on_file(desk, ana)]
    packed = write_record(desk, ana, tmp_path / "record.zip").file
    delete_sets(desk, _on_file(desk, ana))
    with zipfile.ZipFile(packed) as record:
        record.extract("logged_sets.csv", tmp_path)
    found = _read(desk, words, tmp_path / "logged_sets.csv")
    sets_import.keep(desk, found, leave_out_faulty=False)
    assert sorted(map(repr, before)) == sorted(
        repr(_without_id(each)) for each in _on_file(desk, ana)
    )


def _without_id(logged: LoggedSet) -> LoggedSetData:
    names = LoggedSetData.__dataclass_fields__
    return LoggedSetData(**{name: getattr(logged, name) for name in names})
