"""What commands say and print is in the language preferred, else in the environment's."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from coachdesk.app import paths
from coachdesk.app.main import main
from coachdesk.app.words import wording as words_of
from coachdesk.services.preferences import Preferences, write_preferences
from tests.app.french_paper import check_french


def command(folder: Path, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, with preferences in `folder`."""
    return subprocess.run(
        [sys.executable, "-m", "coachdesk", *arguments],
        env={**os.environ, "XDG_CONFIG_HOME": str(folder), **environment},
        capture_output=True,
        text=True,
        check=False,
    )


def test_commands_obey_the_preference_and_else_the_environment(tmp_path: Path) -> None:
    english_words, french_words = words_of("en"), words_of("fr")
    assert english_words("command.check") in command(tmp_path, "--help").stdout
    told = command(tmp_path, "--help", LANG="fr_CA.UTF-8").stdout
    assert french_words("command.check") in told
    file = paths.preferences_file(tmp_path / "coachdesk")
    write_preferences(file, Preferences(language="en"))
    assert english_words("command.check") in command(tmp_path, "--help", LANG="fr_FR").stdout
    write_preferences(file, Preferences(language="fr"))
    missing = command(tmp_path, "--data", str(tmp_path / "none.db"), "check")
    assert missing.returncode == 1
    assert missing.stderr.strip() == french_words("file.missing", file=str(tmp_path / "none.db"))


def test_the_demo_is_printed_in_french(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", "fr_FR.UTF-8")
    assert main(["demo", "--packets", str(tmp_path)]) == 0
    files = list(tmp_path.rglob("*.pdf"))
    assert files
    check_french(files)
