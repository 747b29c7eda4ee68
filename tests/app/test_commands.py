"""The commands as a coach types them, on real files, with the exit codes scripts rely on."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest
from pypdf import PdfReader

from coachdesk.app import paths, print_meet
from coachdesk.app.main import main
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athletes, upcoming_meets
from coachdesk.services.packets import entry_packet, print_job
from coachdesk.services.roster import add_athlete

NASTY = '<b>&"../../x'


def _team(file: Path, *names: str) -> None:
    desk = open_desk(file)
    starts_on = desk.today() + timedelta(days=100)
    meet_id = add_meet(
        desk,
        MeetData(
            name="Harbour Open",
            starts_on=starts_on,
            rulebook="ipf_2021",
            time_zone="Europe/Berlin",
        ),
    ).value
    enter_athletes(
        desk,
        [
            EntryData(
                athlete_id=add_athlete(
                    desk,
                    AthleteData(
                        given_name=name,
                        family_name="",
                        sex=Sex.FEMALE,
                        birth_date=date(1996, 5, 4),
                        meets_before=3,
                    ),
                ).value,
                meet_id=meet_id,
                event=Event.THREE_LIFT,
                equipment=Equipment.CLASSIC,
                divisions=("open",),
                weight_class="63",
                expected_squat=kilograms(120),
                expected_bench=kilograms(70),
                expected_deadlift=kilograms(150),
            )
            for name in names
        ],
    )
    desk.store.close()


def _text(file: Path) -> str:
    pages = PdfReader(file).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def test_the_demo_prints_a_packet_for_every_entry_and_a_team_sheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["demo", "--packets", str(tmp_path)]) == 0
    folders = sorted(path for path in tmp_path.iterdir() if path.is_dir())
    assert len(folders) == 2
    for folder in folders:
        names = {path.stem.split(" - ")[0] for path in folder.glob("*athlete's sheet.pdf")}
        assert names
        for pile in ("team sheet", "handler cards", "coach's sheets"):
            printed = _text(folder / f"{pile}.pdf")
            assert [name for name in names if name not in printed] == [], pile
    assert "written to" in capsys.readouterr().out


def test_paper_agrees_with_the_calculators(tmp_path: Path) -> None:
    """What is printed is what the plan on file says."""
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz")
    command = ["packets", "--meet", "harbour open", "--out", str(tmp_path)]
    assert main(["--data", str(file), *command]) == 0
    (athlete,) = tmp_path.rglob("*athlete's sheet.pdf")
    (coach,) = tmp_path.rglob("coach's sheets.pdf")
    desk = open_desk(file)
    job = print_job(desk, upcoming_meets(desk)[0].id)
    packet = entry_packet(desk, job, job.entries[0])
    for card in packet.lifts:
        assert card.plan is not None
        for weight in card.plan.good_path:
            assert f"{weight.number.normalize():f} kg" in _text(athlete)
            assert f"{weight.number.normalize():f} kg" in _text(coach)
    total = packet.scores[1].total
    assert total is not None
    assert f"{total.number.normalize():f} kg" in _text(coach)
    assert packet.scores[1].score is None  # no bodyweight is known: no score, not zero
    desk.store.close()


def test_a_second_print_says_which_it_replaces(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz")
    command = ["--data", str(file), "packets", "--meet", "Harbour Open", "--out", str(tmp_path)]
    assert main(command) == 0
    (sheet,) = tmp_path.rglob("*athlete's sheet.pdf")
    assert "replaces" not in _text(sheet)
    assert main(command) == 0
    assert "replaces the print of" in _text(sheet)


def test_a_nasty_name_stays_in_the_folder_and_prints_as_typed(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _team(file, NASTY, "..", "CON", "x" * 200, "\u202eעִבְרִית 🏋", "tab\tand\x07bell")
    out = tmp_path / "deep" / "out"
    assert main(["--data", str(file), "packets", "--meet", "Harbour Open", "--out", str(out)]) == 0
    printed = list(out.rglob("*.pdf"))
    assert len(printed) == 6 + 3
    assert {path.parent for path in printed} == {printed[0].parent}
    assert sorted(path.name for path in tmp_path.iterdir() if path.is_dir()) == ["deep"]
    assert any(NASTY in _text(path) for path in printed if "athlete's sheet" in path.name)


def test_one_failing_athlete_is_reported_and_does_not_stop_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz", "Bea Sol")

    def failing(desk: Desk, job: object, entry: object) -> object:
        packet = entry_packet(desk, job, entry)  # type: ignore[arg-type]
        if packet.athlete == "Ana Ruiz":
            msg = "drawn by a bug"
            raise ZeroDivisionError(msg)
        return packet

    monkeypatch.setattr(print_meet, "entry_packet", failing)
    code = main(["--data", str(file), "packets", "--meet", "Harbour Open", "--out", str(tmp_path)])
    assert code == 1
    assert "No packet for Ana Ruiz" in capsys.readouterr().out
    assert [path.name for path in tmp_path.rglob("*athlete*.pdf") if "Bea" in path.name]
    (team,) = tmp_path.rglob("team sheet.pdf")
    assert "No sheets could be made for: Ana Ruiz" in _text(team)


def _said(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    code = main(arguments)
    return code, capsys.readouterr().err


def test_what_cannot_be_done_is_said_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "coachdesk.db"
    out = str(tmp_path / "out")
    packets = ["packets", "--meet", "Harbour Open", "--out", out]
    assert _said(["--data", str(file), *packets], capsys)[0] == 1
    assert not file.exists()
    _team(file, "Ana Ruiz")
    code, said = _said(["--data", str(file), "packets", "--meet", "No", "--out", out], capsys)
    assert (code, said) == (1, "There is no meet named “No” on file.\n")
    (tmp_path / "out").write_text("in the way", encoding="utf-8")
    code, said = _said(["--data", str(file), *packets], capsys)
    assert code == 1
    assert "could not be written" in said
    assert "Traceback" not in said
    own = tmp_path / "rulebooks"
    own.mkdir()
    (own / "ipf_2021.toml").write_text('name = "Mine"\nunit = "stone"\n', encoding="utf-8")
    code, said = _said(["--data", str(file), *packets], capsys)
    assert code == 1
    assert "ipf_2021.toml, line" in said
    letter = tmp_path / "letter.db"
    letter.write_text("Dear coach, " * 100, encoding="utf-8")
    code, said = _said(["--data", str(letter), *packets], capsys)
    assert (code, said) == (
        1,
        f"{letter} is not a coachdesk data file. It was left as it is.\n",
    )


def test_words_the_command_does_not_know_exit_with_2(
    capsys: pytest.CaptureFixture[str],
) -> None:
    for arguments in (["dance"], ["packets"], ["demo", "--paper", "a3", "--packets", "x"]):
        with pytest.raises(SystemExit) as left:
            main(arguments)
        assert left.value.code == 2
    assert "usage: coachdesk" in capsys.readouterr().err


def test_check_backup_and_restore(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz")
    assert main(["--data", str(file), "check"]) == 0
    assert main(["--data", str(file), "backup"]) == 0
    (backup,) = paths.backups(file).iterdir()
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("DELETE FROM athlete")
        connection.commit()
    assert main(["--data", str(file), "restore", str(backup)]) == 0
    said = capsys.readouterr().out
    assert "is sound" in said
    assert "is kept as" in said
    desk = open_desk(file)
    assert len(upcoming_meets(desk)) == 1
    desk.store.close()


def test_letter_paper_is_letter(tmp_path: Path) -> None:
    """US Letter is 8.5 by 11 inches (ANSI A): 612 by 792 points."""
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz")
    out = str(tmp_path / "out")
    command = ["--data", str(file), "packets", "--meet", "Harbour Open", "--out", out]
    assert main([*command, "--paper", "letter"]) == 0
    (sheet,) = tmp_path.rglob("coach's sheets.pdf")
    box = PdfReader(sheet).pages[0].mediabox
    assert (float(box.width), float(box.height)) == (612, 792)


def test_lifts_keep_the_meets_order(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _team(file, "Ana Ruiz")
    desk = open_desk(file)
    job = print_job(desk, upcoming_meets(desk)[0].id)
    assert [card.lift for card in entry_packet(desk, job, job.entries[0]).lifts] == list(Lift)
    desk.store.close()
