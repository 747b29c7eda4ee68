"""The printed week of training, read back from the PDF, and the command that prints it."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf.generic import Destination

from coachdesk.app.commands import run
from coachdesk.app.print_training import print_training
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift, Sex
from coachdesk.domain.training import BlockData, ExerciseData, Purpose
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block, add_exercise, note_day, set_maxima
from coachdesk.services.block_reading import blocks_of
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.training_content import training_week, week_on
from coachdesk.wording.wording import Wording

MONDAY = date(2026, 11, 23)


def planned(
    desk: Desk, *, name: str = "Mara", unit: Unit = Unit.KG, block: str = "Base"
) -> tuple[int, int]:
    """An athlete with a block of three weeks: squat and bench on its first and third day."""
    data = AthleteData(given_name=name, family_name="", sex=Sex.FEMALE, unit=unit)
    athlete_id = add_athlete(desk, data).value
    block_id = add_block(
        desk,
        BlockData(
            athlete_id=athlete_id, name=block, purpose=Purpose.VOLUME, starts_on=MONDAY, weeks=3
        ),
    ).value
    maximum = kilograms(100) if unit is Unit.KG else pounds(225)
    set_maxima(desk, block_id, {Lift.SQUAT: maximum})
    squat = add_exercise(
        desk, ExerciseData(block_id=block_id, day=1, place=1, lift=Lift.SQUAT)
    ).value
    pause = add_exercise(
        desk,
        ExerciseData(
            block_id=block_id, day=3, place=1, lift=Lift.SQUAT, variation="pause", share=0.9
        ),
    ).value
    type_cells(
        desk,
        block_id,
        [
            TypedCell(squat, 1, "1x1 92% judged; 5x3 80%"),
            TypedCell(pause, 1, "8x2 75% RPE 8 (pause 2 s; <b>belt</b>)"),
            TypedCell(squat, 2, "4x4"),
        ],
    )
    note_day(desk, block_id, 1, 3, missed=False, note="Slow on the way down")
    return athlete_id, block_id


def words_of(file: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(file).pages]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_week_is_a_page_with_bar_weights_and_boxes(
    desk: Desk, wording: Wording, tmp_path: Path, paper: str
) -> None:
    """By hand: 92 % of 100 is 90 with discs that step by 2.5; 75 % of 0.9 times 100 is 67.5."""
    _, block_id = planned(desk)
    file = print_training(desk, block_id, [1, 2], tmp_path, paper, wording)
    first, second = words_of(file)
    for words in ("Mara", "Base", "Volume", "Week 1 of 3", "5 × 3, 80 %", "commanded and judged"):
        assert words in first, words
    assert "8 × 2, 75 %, RPE 8" in first
    assert "pause 2 s; <b>belt</b>" in first
    assert "67.5" in first
    assert "Page 1 of 2" in first
    assert "Page 2 of 2" in second
    assert "4 × 4" in second
    assert "%" not in second.replace("Per cents", "")
    (whole,) = [day for day in training_week(desk, block_id, 1).days if day.on == MONDAY]
    assert [line.bar for line in whole.lines] == [kilograms(90), kilograms(80)]
    reader = PdfReader(file)
    assert reader.metadata is not None
    assert "Mara" in str(reader.metadata.title)
    assert str(reader.root_object["/Lang"]) == "en"
    outline = [entry.title for entry in reader.outline if isinstance(entry, Destination)]
    assert outline == ["Week 1 of 3", "Week 2 of 3"]
    width = {"a4": 595, "letter": 612}[paper]
    assert round(float(reader.pages[0].mediabox.width)) == width


def test_a_week_is_in_the_athletes_own_unit(desk: Desk, wording: Wording, tmp_path: Path) -> None:
    """By hand: 80 % of 225 lb is 180 lb, bar 45 and a 45 and a 22.5 a side."""
    _, block_id = planned(desk, unit=Unit.LB)
    (sheet,) = words_of(print_training(desk, block_id, [1], tmp_path, "a4", wording))
    assert "Bar, lb" in sheet
    assert "180" in sheet
    assert "225 lb" in sheet


def test_a_page_says_nothing_of_weights_or_chances(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    _, block_id = planned(desk)
    (sheet,) = words_of(print_training(desk, block_id, [1], tmp_path, "a4", wording))
    for private in ("slow on the way down", "bodyweight", "chance", "forecast", "health"):
        assert private not in sheet.lower()
    assert "physician" in sheet


def test_a_week_that_is_not_there_is_refused_in_words(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    _, block_id = planned(desk)
    for week, code in ((0, "training.week_range"), (4, "training.week_range")):
        with pytest.raises(InvalidInput) as refused:
            training_week(desk, block_id, week)
        assert refused.value.text.code == code
    with pytest.raises(Trouble) as empty:
        print_training(desk, block_id, [3], tmp_path, "a4", wording)
    assert empty.value.text.code == "training.nothing"
    assert list(tmp_path.glob("*.pdf")) == []


def test_weeks_of_a_block_by_day(desk: Desk) -> None:
    athlete_id, _ = planned(desk)
    (block,) = blocks_of(desk, athlete_id)
    assert week_on(block, MONDAY) == 1
    assert week_on(block, MONDAY + timedelta(days=6)) == 1
    assert week_on(block, MONDAY + timedelta(days=7)) == 2
    assert week_on(block, MONDAY - timedelta(days=1)) is None
    assert week_on(block, MONDAY + timedelta(days=21)) is None


def test_the_command_prints_a_week_by_its_day(
    desk: Desk, wording: Wording, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    planned(desk, name="Łucja")
    file = str(desk.store.file)
    out = tmp_path / "paper"
    asked = ["--data", file, "training", "--athlete", "lucja", "--out", str(out), "--week"]
    assert run([*asked, MONDAY.isoformat()], wording) == 0
    (printed,) = out.iterdir()
    assert "Week 1 of 3" in words_of(printed)[0]
    assert str(printed) in capsys.readouterr().out
    assert run([*asked, (MONDAY + timedelta(days=7)).isoformat()], wording) == 0
    assert len(list(out.iterdir())) == 2
    for week, code in (
        ("2020-01-01", "training.no_block_on"),
        ("soon", "training.week_unread"),
        ("3", None),
    ):
        with pytest.raises(Trouble) as refused:
            run([*asked, week], wording)
        assert code is None or refused.value.text.code == code
    with pytest.raises(Trouble):
        run(["--data", file, "training", "--athlete", "Nobody", "--out", str(out)], wording)


def test_a_block_called_what_it_is_for_says_it_once(
    desk: Desk, wording: Wording, tmp_path: Path
) -> None:
    _, block_id = planned(desk, block="Volume")
    (page, *_) = words_of(print_training(desk, block_id, [1], tmp_path, "a4", wording))
    assert page.split().count("Volume") == 1
