"""Training sheets read back: what is planned, what goes on the bar, room to write, nothing else."""

from __future__ import annotations

from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from coachdesk.app.main import main
from coachdesk.app.print_training import print_training
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.training import BlockData, ExerciseData, Purpose
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block, add_exercise, note_day, set_maximum
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.training_content import find_week
from coachdesk.wording.wording import Wording

MONDAY = date(2026, 11, 23)
NAME = "Zoë <b> O'Hara"


def _block(desk: Desk, unit: Unit = Unit.KG, *, cell: str = "5x3 80% RPE 8", days: int = 3) -> int:
    athlete_id = add_athlete(
        desk,
        AthleteData(
            given_name="Zoë <b>",
            family_name="O'Hara",
            sex=Sex.FEMALE,
            unit=unit,
            health_note="asthma",
        ),
    ).value
    block_id = add_block(
        desk,
        BlockData(
            athlete_id=athlete_id,
            name="Base",
            purpose=Purpose.VOLUME,
            starts_on=MONDAY,
            weeks=3,
            note="coach only",
        ),
    ).value
    heavy = kilograms(181) if unit is Unit.KG else pounds(400)
    set_maximum(desk, block_id, Lift.SQUAT, heavy)
    cells = []
    for day in range(1, days + 1):
        exercise_id = add_exercise(
            desk,
            ExerciseData(
                block_id=block_id, day=day, place=1, lift=Lift.SQUAT, variation="paused", share=0.9
            ),
        ).value
        cells += [TypedCell(exercise_id, 1, cell), TypedCell(exercise_id, 2, "1x1 100 judged")]
    type_cells(desk, block_id, cells)
    note_day(desk, block_id, 1, 1, missed=True, note="slept badly")
    return block_id


def _read(file: Path) -> PdfReader:
    return PdfReader(BytesIO(file.read_bytes()))


def _print(desk: Desk, words: Wording, out: Path, block_id: int, paper: str = "a4") -> PdfReader:
    return _read(print_training(desk, block_id, (1, 2), out, paper, words))


def test_a_week_a_page_with_the_weight_that_can_be_loaded(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    pdf = _print(desk, wording, tmp_path, _block(desk))
    first, second = [page.extract_text() for page in pdf.pages]
    # by hand: 181 kg x 0.9 x 80 % = 130.32 kg, with discs of 1.25 kg 130
    for expected in ("5 × 3", "80 %", "RPE 8", "130 kg", "paused", "Mon 23 Nov 2026"):
        assert expected in first
    assert first.count("reps") == 15
    assert "judged" in second
    assert "Mon 30 Nov 2026" in second
    for number, words in enumerate((first, second), start=1):
        assert NAME in words
        assert f"Page {number} of 2" in words
        assert "Printed" in words


def test_pounds_for_who_trains_in_pounds(desk: Desk, wording: Wording, tmp_path: Path) -> None:
    pdf = _print(desk, wording, tmp_path, _block(desk, Unit.LB), "letter")
    assert [float(side) for side in pdf.pages[0].mediabox[2:]] == [612, 792]
    words = pdf.pages[0].extract_text()
    # by hand: 400 lb x 0.9 x 80 % = 288 lb, with discs of 2.5 lb 285
    assert "285 lb" in words
    assert " kg" not in words


def test_the_document_says_what_it_is(desk: Desk, wording: Wording, tmp_path: Path) -> None:
    pdf = _print(desk, wording, tmp_path, _block(desk))
    assert pdf.metadata is not None
    assert pdf.metadata.title == f"Training: {NAME}, Base"
    assert str(pdf.root_object["/Lang"]) == "en"
    places = [str(each["/Title"]) for each in pdf.outline if not isinstance(each, list)]
    assert [place.split(":")[0] for place in places] == ["Week 1", "Week 2"]


def test_notes_of_the_coach_and_health_stay_off_it(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    pdf = _print(desk, wording, tmp_path, _block(desk))
    words = " ".join(page.extract_text() for page in pdf.pages)
    for private in ("coach only", "slept badly", "asthma"):
        assert private not in words


def test_a_week_too_long_for_a_page_goes_on_under_the_same_head(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    cell = "10x3 80%; 10x3 75%; 10x3 70%; 10x3 65%; 10x3 60%"
    pdf = _print(desk, wording, tmp_path, _block(desk, cell=cell, days=6))
    assert len(pdf.outline) == 2
    assert len(pdf.pages) > 2
    words = [page.extract_text() for page in pdf.pages]
    assert all(NAME in page for page in words)
    assert sum(page.count("reps") for page in words) == 6 * 50 + 6


def test_a_week_without_a_plan_is_not_printed(desk: Desk, wording: Wording, tmp_path: Path) -> None:
    block_id = _block(desk)
    with pytest.raises(Trouble) as caught:
        print_training(desk, block_id, (3,), tmp_path, "a4", wording)
    assert wording.say(caught.value.text) == "Nothing is planned in “Base”, week 3."
    assert list(tmp_path.glob("*.pdf")) == []


@pytest.mark.parametrize(
    ("wanted", "week"), [("2026-11-23", 1), ("2026-11-29", 1), ("2026-11-30", 2), ("3", 3)]
)
def test_a_week_is_found_by_a_day_or_its_number(desk: Desk, wanted: str, week: int) -> None:
    block_id = _block(desk)
    assert find_week(desk, 1, wanted) == (block_id, week)


@pytest.mark.parametrize("wanted", ["2026-11-22", "2026-12-14", "0", "4", "next"])
def test_a_week_that_is_none_is_said_to_be_none(desk: Desk, wanted: str) -> None:
    _block(desk)
    with pytest.raises(Trouble):
        find_week(desk, 1, wanted)


def test_the_command_prints_a_week_and_writes_the_record(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "desk.db"
    desk = open_desk(file)
    _block(desk)
    desk.store.close()
    out = tmp_path / "out"
    before = ["--data", str(file)]
    who = ["--athlete", NAME]
    assert main([*before, "training", *who, "--week", "2026-11-25", "--out", str(out)]) == 0
    (printed,) = out.glob("*.pdf")
    assert str(printed) in capsys.readouterr().out
    assert main([*before, "training", *who, "--week", "2020-01-01", "--out", str(out)]) == 1
    assert "no training block on Wed 1 Jan 2020" in capsys.readouterr().err
    assert main([*before, "training", "--athlete", "Nobody", "--week", "1", "--out", str(out)]) == 1
    assert "Nobody here is called" in capsys.readouterr().err
    assert main([*before, "record", *who, "--out", str(tmp_path / "record.zip")]) == 0
    assert "12 files" in capsys.readouterr().out
    assert (tmp_path / "record.zip").exists()
