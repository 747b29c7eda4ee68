"""The shelf: shipped files, a coach's own beside them, and what is wrong with the rest."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Equipment
from coachdesk.domain.toml_reader import FileFault
from coachdesk.services.rulebooks import (
    NO_PARA_RULEBOOK,
    kit_list_for,
    read_kit_lists,
    read_rulebooks,
)

RESOURCES = Path(__file__).parents[2] / "resources"
RULEBOOKS = RESOURCES / "rulebooks"
KIT = RESOURCES / "kit"


@pytest.fixture
def own(tmp_path: Path) -> Path:
    folder = tmp_path / "own"
    folder.mkdir()
    return folder


def copy_with(source: Path, target: Path, old: str, new: str) -> None:
    words = source.read_text(encoding="utf-8")
    assert words.count(old) == 1
    target.write_text(words.replace(old, new), encoding="utf-8")


def test_the_shipped_files_are_all_on_the_shelf_without_a_fault(own: Path) -> None:
    shelf = read_rulebooks(RULEBOOKS, own)
    assert sorted(shelf.books) == ["ipf_2021", "traditional_day_before", "traditional_two_hour"]
    assert not shelf.faults
    assert not shelf.own
    assert not read_kit_lists(KIT).faults


def test_a_copy_under_a_new_name_stands_beside_the_shipped_one(own: Path) -> None:
    copy_with(RULEBOOKS / "ipf_2021.toml", own / "County 2027.TOML", "largest = 14", "largest = 16")
    shelf = read_rulebooks(RULEBOOKS, own)
    assert shelf.own == {"County 2027"}
    assert len(shelf.books) == 4
    assert shelf.get("County 2027").groups.largest == 16


def test_a_coachs_own_file_stands_in_for_the_shipped_one_of_the_same_name(own: Path) -> None:
    copy_with(
        RULEBOOKS / "ipf_2021.toml", own / "ipf_2021.toml", '\nname = "IPF, ', '\nname = "Club, '
    )
    shelf = read_rulebooks(RULEBOOKS, own)
    assert shelf.get("ipf_2021").name.startswith("Club, ")
    assert shelf.own == {"ipf_2021"}
    assert len(shelf.books) == 3


def test_a_faulty_file_leaves_the_others_usable_and_is_named_when_asked_for(own: Path) -> None:
    copy_with(RULEBOOKS / "ipf_2021.toml", own / "ipf_2021.toml", "bar = 20", "bar = -20")
    shelf = read_rulebooks(RULEBOOKS, own)
    assert sorted(shelf.books) == ["traditional_day_before", "traditional_two_hour"]
    with pytest.raises(FileFault) as fault:
        shelf.get("ipf_2021")
    assert (fault.value.file, fault.value.key) == ("ipf_2021.toml", "bar")
    assert shelf.faults["ipf_2021"] is fault.value


def test_a_rulebook_nobody_has_is_refused_in_words(own: Path) -> None:
    with pytest.raises(Trouble) as refusal:
        read_rulebooks(RULEBOOKS, own).get("para")
    assert refusal.value.text.code == "shelf.not_found"
    assert NO_PARA_RULEBOOK.code == "rulebook.no_para"


def test_a_file_put_down_or_taken_away_counts_once_the_shelf_is_read_again(own: Path) -> None:
    rulebooks = read_rulebooks(RULEBOOKS, own)
    before = rulebooks.shelf
    shutil.copy(RULEBOOKS / "ipf_2021.toml", own / "county.toml")
    assert "county" not in rulebooks.books
    rulebooks.read_again()
    assert rulebooks.get("county").key == "county"
    assert rulebooks.own == {"county"}
    assert "county" not in before.books
    (own / "county.toml").unlink()
    rulebooks.read_again()
    with pytest.raises(Trouble):
        rulebooks.get("county")


def test_an_own_folder_that_does_not_exist_yet_is_no_trouble(tmp_path: Path) -> None:
    assert len(read_rulebooks(RULEBOOKS, tmp_path / "none yet").books) == 3


def test_other_files_and_folders_in_the_own_folder_are_left_alone(own: Path) -> None:
    (own / "notes.txt").write_text("not a rulebook", encoding="utf-8")
    (own / "old.toml").mkdir()
    shelf = read_rulebooks(RULEBOOKS, own)
    assert not shelf.own
    assert not shelf.faults


def test_folders_without_any_rulebook_are_trouble(tmp_path: Path) -> None:
    with pytest.raises(Trouble) as trouble:
        read_rulebooks(tmp_path / "missing", tmp_path / "none yet")
    assert trouble.value.text.code == "shelf.empty"


def test_a_file_that_cannot_be_read_is_named(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    locked = own / "locked.toml"
    shutil.copy(RULEBOOKS / "ipf_2021.toml", locked)
    read_bytes = Path.read_bytes

    def refuse_the_locked_one(file: Path) -> bytes:
        if file == locked:
            raise PermissionError(13, os.strerror(13))
        return read_bytes(file)

    monkeypatch.setattr(Path, "read_bytes", refuse_the_locked_one)
    fault = read_rulebooks(RULEBOOKS, own).faults["locked"]
    assert fault.text.code == "shelf.unreadable"
    assert dict(fault.text.values)["file"] == "locked.toml"


def test_each_equipment_has_its_kit_list() -> None:
    shelf = read_kit_lists(KIT)
    assert kit_list_for(shelf, Equipment.CLASSIC).key == "classic"
    assert kit_list_for(shelf, Equipment.EQUIPPED).key == "equipped"


def test_a_coachs_own_kit_list_comes_before_the_shipped_one(own: Path) -> None:
    shutil.copy(KIT / "classic.toml", own / "zebra club.toml")
    shelf = read_kit_lists(KIT, own)
    assert kit_list_for(shelf, Equipment.CLASSIC).key == "zebra club"
    assert kit_list_for(shelf, Equipment.EQUIPPED).key == "equipped"


def test_a_faulty_kit_list_is_not_swapped_for_another_in_silence(own: Path) -> None:
    copy_with(KIT / "classic.toml", own / "classic.toml", 'code = "photo_id"', 'code = "id"')
    with pytest.raises(FileFault) as fault:
        kit_list_for(read_kit_lists(KIT, own), Equipment.CLASSIC)
    assert fault.value.key == "items.code"
