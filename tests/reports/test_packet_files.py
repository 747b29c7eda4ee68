"""File names from people's names, and files written whole or not at all."""

from __future__ import annotations

import errno
import unicodedata
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.errors import Trouble
from coachdesk.reports.packet_files import LONGEST_BYTES, LONGEST_LETTERS, safe_name, write_file


@given(st.lists(st.text(max_size=300), max_size=4))
def test_any_names_give_a_name_every_file_system_takes(parts: list[str]) -> None:
    name = safe_name(*parts)
    assert name
    assert not set(name) & set('<>:"/\\|?*')
    assert not any(unicodedata.category(letter).startswith("C") for letter in name)
    assert not name.startswith((".", " "))
    assert not name.endswith((".", " "))
    assert len(name) <= LONGEST_LETTERS + 1
    assert len(name.encode()) <= LONGEST_BYTES + 1
    assert PureWindowsPath(name).name == name


@given(st.text(max_size=300), st.integers(0, 10**9), st.integers(0, 10**9))
def test_the_number_keeps_namesakes_apart(name: str, one: int, other: int) -> None:
    same = safe_name(name, f"{one}", "card") == safe_name(name, f"{other}", "card")
    assert same == (one == other)


# Reserved names: Microsoft, "Naming Files, Paths, and Namespaces".
@pytest.mark.parametrize("name", ["CON", "nul", "Com1", "LPT9.txt", "aux.pdf", "PRN"])
def test_names_kept_for_devices_are_changed(name: str) -> None:
    assert safe_name(name).casefold() != name.casefold()
    assert safe_name(name).startswith("_")


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Жанна Ли", "Жанна Ли"),
        ("陳 大文", "陳 大文"),
        ("../../etc/passwd", "_.._etc_passwd"),
        ("...", "sheet"),
        ("Constance", "Constance"),
        ("A\x00\tB", "A B"),
    ],
)
def test_letters_of_any_script_stay(typed: str, expected: str) -> None:
    assert safe_name(typed) == expected


def test_a_file_replaces_an_earlier_one_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    write_file(tmp_path / "new", "a.pdf", b"first")
    path = write_file(tmp_path / "new", "a.pdf", b"second")
    assert path.read_bytes() == b"second"
    assert [one.name for one in path.parent.iterdir()] == ["a.pdf"]


@pytest.mark.parametrize(
    ("number", "code"),
    [(errno.ENOSPC, "file.disk_full"), (errno.EACCES, "print.cannot_write")],
)
def test_a_failed_write_is_trouble_and_leaves_the_earlier_file(
    number: int, code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_file(tmp_path, "a.pdf", b"first")

    def fail(path: Path, _data: bytes) -> int:
        path.touch()
        raise OSError(number, "no")

    monkeypatch.setattr(Path, "write_bytes", fail)
    with pytest.raises(Trouble) as trouble:
        write_file(tmp_path, "a.pdf", b"second")
    assert trouble.value.text.code == code
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]
    assert (tmp_path / "a.pdf").read_bytes() == b"first"


def test_a_folder_that_is_a_file_is_trouble(tmp_path: Path) -> None:
    (tmp_path / "taken").touch()
    with pytest.raises(Trouble) as trouble:
        write_file(tmp_path / "taken", "a.pdf", b"x")
    assert trouble.value.text.code == "print.cannot_write"
