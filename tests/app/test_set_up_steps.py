"""The set-up at work, without a network: its steps in order, and what it hands on to."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
ENTRY = ROOT / "packaging" / "run.py"

sys.path.append(str(ENTRY.parent))
children = importlib.import_module("set_up.children")
libraries = importlib.import_module("set_up.libraries")
main = importlib.import_module("set_up.main")
stamp = importlib.import_module("set_up.stamp")


def _run(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if name != "COACHDESK_VENV"}
    return subprocess.run(
        [sys.executable, ENTRY, *arguments],
        env=kept | environment,
        capture_output=True,
        text=True,
        check=False,
    )


def test_no_command_is_a_usage_error() -> None:
    ended = _run()
    assert ended.returncode == 2
    assert "usage:" in ended.stderr


def test_a_python_without_ensurepip_is_named_and_nothing_is_made(tmp_path: Path) -> None:
    (tmp_path / "stub").mkdir()
    (tmp_path / "stub" / "ensurepip.py").write_text("raise ImportError\n", encoding="utf-8")
    ended = _run("--venv", tmp_path / "venv", "demo", PYTHONPATH=str(tmp_path / "stub"))
    assert ended.returncode == 1
    assert "without its module ensurepip" in ended.stderr
    assert "Traceback" not in ended.stderr
    assert not (tmp_path / "venv").exists()


def test_a_folder_with_other_things_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("months of work", encoding="utf-8")
    ended = _run("--fresh", "--venv", tmp_path, "demo")
    assert ended.returncode == 1
    assert "nothing there is touched" in ended.stderr
    assert (tmp_path / "thesis.txt").read_text(encoding="utf-8") == "months of work"


def _stub_environment(folder: Path, command: str, script: str) -> None:
    """Make an environment that looks ready, whose Python is a shell script."""
    python = main.venv_python(folder)
    python.parent.mkdir(parents=True)
    python.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    python.chmod(0o755)
    stamp.write_stamp(folder, main.wanted_stamp(main.parse(["--venv", str(folder), command])))


def test_a_ready_environment_is_handed_on_to_at_once(tmp_path: Path) -> None:
    venv = tmp_path / "venv"
    _stub_environment(venv, "tests", 'echo "$@"; exit 7')
    ended = _run("tests", "-k", "foo", COACHDESK_VENV=str(venv))
    assert ended.stdout == f"coachdesk is set up in {venv.resolve()}.\n-m pytest -k foo\n"
    assert ended.returncode == 7


def test_the_demo_says_where_its_packets_are(tmp_path: Path) -> None:
    venv, packets = tmp_path / "venv", tmp_path / "packets"
    _stub_environment(venv, "demo", 'echo "$@"')
    ended = _run("demo", "--packets", packets, "--venv", venv)
    assert ended.stdout.splitlines()[1:] == [
        f"-m coachdesk demo --packets {packets}",
        f"The packets are in {packets.resolve()}",
    ]


def test_a_program_ended_by_a_signal_gives_the_code_a_shell_gives() -> None:
    ended = children.run_openly([sys.executable, "-c", "import os; os.kill(os.getpid(), 15)"])
    assert ended == 128 + 15


def test_both_streams_of_a_quiet_program_are_kept_in_order() -> None:
    script = "import sys; print('one', flush=True); print('two', file=sys.stderr); sys.exit(3)"
    heard: list[str] = []
    outcome = children.run_quietly([sys.executable, "-c", script], on_line=heard.append)
    assert outcome == children.Outcome(3, ("one", "two"))
    assert heard == ["one", "two"]


Answer = Callable[[list[str]], Any]


class Programs:
    """Stands for the programs the set-up runs: keeps the commands, answers as told."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, venv: Path) -> None:
        self.commands: list[str] = []
        self.answers: dict[str, Answer] = {}
        self._python = main.venv_python(venv)
        monkeypatch.setattr(main, "run_quietly", self._run)
        monkeypatch.setattr(main, "run_openly", self._run_openly)

    def _run(self, command: Sequence[str | Path], **_: object) -> Any:
        said = [str(part) for part in command]
        self.commands.append(" ".join(said))
        if "--without-pip" in said:
            self._python.parent.mkdir(parents=True)
            self._python.touch()
        answers = (answer for part, answer in self.answers.items() if part in said)
        return next(answers, lambda _: children.Outcome(0, ()))(said)

    def _run_openly(self, command: Sequence[str | Path], **_: object) -> int:
        self.commands.append(" ".join(map(str, command)))
        return 0


@pytest.fixture
def venv(tmp_path: Path) -> Path:
    return tmp_path.resolve() / "venv"


@pytest.fixture
def programs(monkeypatch: pytest.MonkeyPatch, venv: Path) -> Programs:
    return Programs(monkeypatch, venv)


def _main(venv: Path, *arguments: str) -> Any:
    return main.main(["--venv", str(venv), *arguments])


def _steps(output: str) -> list[str]:
    return [line[:6] for line in output.splitlines() if " of 3: " in line]


def test_a_fresh_machine_goes_through_all_steps_and_the_second_run_through_none(
    programs: Programs, venv: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _main(venv, "tests") == 0
    assert _steps(capsys.readouterr().out) == ["1 of 3", "2 of 3", "3 of 3"]
    made, piped, installed, loaded, tested = programs.commands
    assert made.endswith(f"-m venv --without-pip {venv}")
    assert "-m ensurepip" in piped
    assert installed.endswith("--editable .[dev]")
    assert "import sqlite3, sqlalchemy" in loaded
    assert "icalendar" in loaded
    assert tested.endswith("-m pytest")

    assert _main(venv, "tests") == 0
    assert _steps(capsys.readouterr().out) == []
    assert programs.commands[5:] == [tested]


def test_a_run_interrupted_at_pip_ends_with_130_and_the_next_begins_anew(
    programs: Programs, venv: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupted(_: list[str]) -> Any:
        raise KeyboardInterrupt

    programs.answers["pip"] = interrupted
    assert _main(venv, "demo") == 130
    assert "Stopped." in capsys.readouterr().err
    del programs.answers["pip"]
    assert _main(venv, "demo") == 0
    output = capsys.readouterr().out
    assert "did not come to its end" in output
    assert _steps(output) == ["1 of 3", "2 of 3", "3 of 3"]


def test_a_full_disk_stops_the_set_up_in_words(
    programs: Programs, venv: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    programs.answers["pip"] = lambda _: children.Outcome(
        2, ("OSError: [Errno 28] No space left on device",)
    )
    assert _main(venv, "tests") == 1
    said = capsys.readouterr().err
    assert "The disk is full. The set-up needs about 1600 MB" in said
    assert programs.commands[-1].endswith("[dev]")


MISSING = ("ImportError: libgomp.so.1: cannot open shared object file: No such file or directory",)


def _on_debian(monkeypatch: pytest.MonkeyPatch, *, root: bool) -> None:
    monkeypatch.setattr(libraries, "has_apt", lambda: True)
    monkeypatch.setattr(libraries, "is_root", lambda: root)


def test_root_on_debian_gets_a_missing_library_installed(
    programs: Programs, venv: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _on_debian(monkeypatch, root=True)

    def load(_: list[str]) -> Any:
        there = any("install -y" in command for command in programs.commands)
        return children.Outcome(0, ()) if there else children.Outcome(1, MISSING)

    programs.answers["-c"] = load
    assert _main(venv, "demo") == 0
    fetched = [command for command in programs.commands if command.startswith("apt-get")]
    assert fetched[0] == "apt-get update"
    assert fetched[1].startswith("apt-get install -y --no-install-recommends ")
    assert "libgomp1" in fetched[1].split()


@pytest.mark.parametrize("root", [True, False])
def test_a_library_that_stays_missing_gives_the_line_to_type_and_only_the_check_is_redone(
    programs: Programs,
    venv: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    root: bool,
) -> None:
    _on_debian(monkeypatch, root=root)
    programs.answers["-c"] = lambda _: children.Outcome(1, MISSING)
    assert _main(venv, "demo") == 1
    assert "sudo apt-get update && sudo apt-get install -y" in capsys.readouterr().err
    assert ("apt-get update" in programs.commands) is root
    programs.answers.clear()
    assert _main(venv, "demo") == 0
    assert _steps(capsys.readouterr().out) == ["3 of 3"]
