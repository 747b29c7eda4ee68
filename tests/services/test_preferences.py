"""Preferences: kept across starts; an odd file never stops the desk from opening."""

from __future__ import annotations

from pathlib import Path

import pytest

from coachdesk.domain.errors import Trouble
from coachdesk.domain.scoring import Formula
from coachdesk.domain.units import Unit
from coachdesk.services.preferences import Preferences, read_preferences, write_preferences

CHOSEN = Preferences(Unit.LB, Formula.DOTS, "letter", "dark", "/a/b.db", "/tmp/prints", "fr")  # noqa: S108


def test_what_was_chosen_is_read_back(tmp_path: Path) -> None:
    file = tmp_path / "deep" / "preferences.json"
    write_preferences(file, CHOSEN)
    assert read_preferences(file) == CHOSEN
    assert [each.name for each in file.parent.iterdir()] == ["preferences.json"]


@pytest.mark.parametrize(
    "content",
    [b"", b"[]", b"{", b"\xff\xfe", b'{"unit": "stone", "paper": 4, "room": null, "formula": []}'],
)
def test_an_odd_file_gives_the_usual(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "preferences.json"
    file.write_bytes(content)
    assert read_preferences(file) == Preferences()


def test_one_odd_choice_leaves_the_others(tmp_path: Path) -> None:
    file = tmp_path / "preferences.json"
    file.write_text('{"unit": "lb", "paper": "a3", "later": "more"}', encoding="utf-8")
    assert read_preferences(file) == Preferences(unit=Unit.LB)


def test_no_file_gives_the_usual(tmp_path: Path) -> None:
    assert read_preferences(tmp_path / "none.json") == Preferences()


def test_a_place_that_takes_no_file_is_trouble_in_words(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Trouble):
        write_preferences(tmp_path / "file" / "preferences.json", CHOSEN)
