"""A coach's own rulebook: copied, changed, refused at the field, kept earlier, put back."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.meet import MeetData
from coachdesk.domain.text import Text
from coachdesk.domain.toml_reader import FileFault
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet
from coachdesk.services.rulebook_draft import Draft, Row
from coachdesk.services.rulebook_editing import (
    copy_rulebook,
    delete_rulebook,
    earlier_rulebooks,
    meets_with,
    read_draft,
    restore_rulebook,
    save_rulebook,
)

SHIPPED = Path(__file__).parents[2] / "resources" / "rulebooks"


@pytest.fixture
def own(desk: Desk) -> Desk:
    """A desk with a copy called "county" of the IPF rulebook."""
    copy_rulebook(desk, "ipf_2021", key="county", name="County rules")
    return desk


def with_value(draft: Draft, name: str, value: str) -> Draft:
    assert name in draft.values
    return replace(draft, values={**draft.values, name: value})


def with_cell(draft: Draft, rows: str, number: int, column: str, value: str) -> Draft:
    changed = [
        Row(row.number, {**row.cells, column: value}) if row.number == number else row
        for row in draft.rows[rows]
    ]
    assert changed != list(draft.rows[rows])
    return replace(draft, rows={**draft.rows, rows: tuple(changed)})


def without_row(draft: Draft, rows: str, number: int) -> Draft:
    kept = tuple(row for row in draft.rows[rows] if row.number != number)
    return replace(draft, rows={**draft.rows, rows: kept})


def file_of(desk: Desk, key: str = "county") -> str:
    return (desk.rulebooks.own_folder / f"{key}.toml").read_text(encoding="utf-8")


def test_a_copy_is_on_the_shelf_at_once_and_differs_in_nothing_but_its_name(own: Desk) -> None:
    copy, shipped = own.rulebooks.get("county"), own.rulebooks.get("ipf_2021")
    assert copy == replace(shipped, key="county", name="County rules")
    assert own.rulebooks.own == {"county"}
    lines = file_of(own).splitlines()
    before = (SHIPPED / "ipf_2021.toml").read_text(encoding="utf-8").splitlines()
    (in_french,) = (line for line in before if line.startswith("in.fr.name"))
    before.remove(in_french)
    assert [(old, new) for old, new in zip(before, lines, strict=True) if old != new] == [
        ('name = "IPF, classic and equipped (classes since 2021)"', 'name = "County rules"')
    ]


@pytest.mark.parametrize(
    ("key", "code"),
    [
        ("ipf_2021", "rulebook.key_taken"),
        ("County", "rulebook.key_form"),
        ("../county", "rulebook.key_form"),
        ("con", "rulebook.key_form"),
        ("", "rulebook.key_form"),
        ("a" * 41, "rulebook.key_form"),
    ],
)
def test_a_key_that_is_taken_or_no_file_name_is_refused(desk: Desk, key: str, code: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        copy_rulebook(desk, "ipf_2021", key=key, name="County")
    assert (refused.value.field, refused.value.text.code) == ("key", code)
    assert not desk.rulebooks.own


def test_a_copy_needs_a_name(desk: Desk) -> None:
    with pytest.raises(InvalidInput) as refused:
        copy_rulebook(desk, "ipf_2021", key="county", name=" ")
    assert refused.value.field == "name"


def test_what_is_saved_holds_from_then_on_and_comments_stay(own: Desk) -> None:
    draft = with_value(read_draft(own, "county"), "bar", "25")
    draft = with_value(draft, "opener_change.times", "2")
    draft = with_value(draft, "note", "As told at the county's coaches' evening.")
    done = save_rulebook(own, "county", draft)
    assert own.rulebooks.get("county") is not None
    assert own.rulebooks.get("county").bar == kilograms(25)
    assert done.value.opener_change.times == 2
    assert {change.kind for change in done.changes} == {"rulebook"}
    after = file_of(own)
    assert "bar = 25 # 2026-11-25: 20 -> 25; seen: bar and collars 25 kg together" in after
    assert "times = 2 # 2026-11-25: 1 -> 2; recalled" in after
    assert [line for line in draft.source.splitlines() if line.startswith("#")] == [
        line for line in after.splitlines() if line.startswith("#")
    ]


def test_a_value_changed_twice_names_the_first_one(own: Desk) -> None:
    """The note on the source speaks of the figure that was shipped."""
    for bar in ("25", "22.5"):
        save_rulebook(own, "county", with_value(read_draft(own, "county"), "bar", bar))
    assert "bar = 22.5 # 2026-11-25: 20 -> 22.5; seen: bar and collars" in file_of(own)


# What is typed into a field, the field the fault is said at, and what is expected there.
WRONG = [
    ("bar", "0", "bar", "expected.number"),
    ("bar", "twenty", "bar", "typed.number"),
    ("bar", "", "bar", "check.required"),
    ("edition_date", "2027-01-01", "checked_on", "expected.date_from"),
    ("edition_date", "last year", "edition_date", "typed.day"),
    ("record_step", "5", "record_step", "expected.record_step"),
    ("name", "", "name", "check.required"),
    ("weigh_in.lasts_minutes", "121", "weigh_in.lasts_minutes", "expected.integer"),
    ("weigh_in.opens_minutes", "", "weigh_in.opens_minutes", "expected.integer"),
    ("opener_change.later_group_attempts_left", "5",
     "opener_change.later_group_attempts_left", "expected.one_later_group_rule"),
    ("attempts.third_changes.squat", "10", "attempts.third_changes.squat", "expected.integer"),
    ("team_points", "12, 13", "team_points", "expected.falling_points"),
    ("ties", "shared\nlighter_bodyweight", "ties", "expected.shared_last"),
    ("groups.must_split_from", "16", "groups.must_split_from", "expected.integer"),
    ("squat.commands", "", "squat.commands", "check.required"),
    ("squat.restart_seconds", "0", "squat.restart_seconds", "expected.integer"),
    ("source", "a\tb", "source", "expected.text"),
]  # fmt: skip


def code_of(error: InvalidInput) -> str:
    expected = dict(error.text.values).get("expected")
    return expected.code if isinstance(expected, Text) else error.text.code


@pytest.mark.parametrize(("name", "typed", "field", "expected"), WRONG)
def test_what_cannot_be_taken_is_said_at_its_field_and_nothing_is_written(
    own: Desk, name: str, typed: str, field: str, expected: str
) -> None:
    before = file_of(own)
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", with_value(read_draft(own, "county"), name, typed))
    assert (refused.value.field, code_of(refused.value)) == (field, expected)
    assert file_of(own) == before
    assert earlier_rulebooks(own) == ()


def test_a_fault_names_line_and_key_of_the_file(own: Desk) -> None:
    draft = with_value(read_draft(own, "county"), "bar", "0")
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", draft)
    values = dict(refused.value.text.values)
    assert values["key"] == "bar"
    line = values["line"]
    assert isinstance(line, int)
    assert draft.source.splitlines()[line - 1].startswith("bar = 20")


@pytest.mark.parametrize(
    ("rows", "number", "column", "typed", "expected"),
    [
        ("classes", 1, "limits", "66 59", "expected.rising_numbers"),
        ("classes", 1, "limits", "heavy", "typed.number"),
        ("classes", 1, "reserved_for", "giants", "expected.choices"),
        ("classes", 1, "valid_from", "2010-01-01", "expected.no_overlap"),
        ("divisions", 2, "key", "open", "expected.new_code"),
        ("divisions", 2, "to_age", "18", "expected.integer"),
        ("discs", 3, "weight", "20", "expected.new_disc"),
        ("groups.small", 1, "up_to", "9", "expected.new_size"),
        ("squat.causes", 1, "code", "squat.depth", "expected.new_code"),
        ("kit_limits", 3, "items", "belts", "expected.choices"),
    ],
)
def test_what_a_cell_cannot_take_is_said_at_that_cell(
    own: Desk, rows: str, number: int, column: str, typed: str, expected: str
) -> None:
    draft = with_cell(read_draft(own, "county"), rows, number, column, typed)
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", draft)
    found = refused.value.field.split("/")
    assert (found[0], code_of(refused.value)) == (rows, expected)
    if expected != "expected.no_overlap":
        assert found == [rows, str(number), column]


def test_a_fault_below_a_row_taken_out_is_said_at_the_row_it_is_in(own: Desk) -> None:
    draft = without_row(read_draft(own, "county"), "discs", 0)
    draft = with_cell(draft, "discs", 3, "weight", "-1")
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", draft)
    assert refused.value.field == "discs/3/weight"


def test_an_empty_list_of_rows_is_said_at_the_list(own: Desk) -> None:
    draft = read_draft(own, "county")
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", replace(draft, rows={**draft.rows, "discs": ()}))
    assert refused.value.field == "discs"


def test_small_groups_are_not_needed(own: Desk) -> None:
    draft = read_draft(own, "county")
    emptied = replace(draft, rows={**draft.rows, "groups.small": ()})
    assert save_rulebook(own, "county", emptied).value.groups.small == ()


def test_a_lift_taken_out_of_the_order_goes_with_its_rules(own: Desk) -> None:
    draft = with_value(read_draft(own, "county"), "lift_order", "bench")
    saved = save_rulebook(own, "county", with_value(draft, "events", "bench_only")).value
    assert [rules.lift for rules in saved.lifts] == ["bench"]
    assert "squat.depth" not in file_of(own)


def test_a_file_changed_meanwhile_is_not_overwritten(own: Desk) -> None:
    draft = with_value(read_draft(own, "county"), "bar", "25")
    file = own.rulebooks.own_folder / "county.toml"
    file.write_text(file_of(own).replace("bar = 20", "bar = 15"), encoding="utf-8")
    with pytest.raises(Trouble) as refused:
        save_rulebook(own, "county", draft)
    assert refused.value.text.code == "rulebook.moved_on"
    assert "bar = 15" in file_of(own)


def test_a_shipped_rulebook_is_never_changed(desk: Desk) -> None:
    draft = with_value(read_draft(desk, "ipf_2021"), "bar", "25")
    with pytest.raises(Trouble) as unsaved:
        save_rulebook(desk, "ipf_2021", draft)
    with pytest.raises(Trouble) as undeleted:
        delete_rulebook(desk, "ipf_2021")
    codes = {refused.value.text.code for refused in (unsaved, undeleted)}
    assert codes == {"rulebook.not_own"}
    assert desk.rulebooks.get("ipf_2021").bar == kilograms(20)


def test_every_earlier_text_is_kept_and_can_be_put_back(
    desk_at: Callable[[datetime], Desk],
) -> None:
    desk = desk_at(datetime(2026, 11, 25, 10, 0, tzinfo=ZoneInfo("Europe/Berlin")))
    copy_rulebook(desk, "ipf_2021", key="county", name="County rules")
    first = file_of(desk)
    save_rulebook(desk, "county", with_value(read_draft(desk, "county"), "bar", "25"))
    save_rulebook(desk, "county", with_value(read_draft(desk, "county"), "bar", "15"))
    kept = earlier_rulebooks(desk)
    assert [each.key for each in kept] == ["county", "county"]
    assert {each.replaced_at for each in kept} == {datetime(2026, 11, 25, 10, 0)}  # noqa: DTZ001
    (original,) = [each for each in kept if each.file.read_text(encoding="utf-8") == first]
    restore_rulebook(desk, original)
    assert file_of(desk) == first
    assert desk.rulebooks.get("county").bar == kilograms(20)
    assert len(earlier_rulebooks(desk)) == 3


def test_a_deleted_rulebook_is_off_the_shelf_and_can_be_put_back(own: Desk) -> None:
    before = file_of(own)
    delete_rulebook(own, "county")
    assert "county" not in own.rulebooks.books
    (kept,) = earlier_rulebooks(own)
    assert restore_rulebook(own, kept).value == "county"
    assert file_of(own) == before
    assert own.rulebooks.get("county").name == "County rules"


def test_an_earlier_file_that_is_faulty_is_not_put_back(own: Desk) -> None:
    delete_rulebook(own, "county")
    (kept,) = earlier_rulebooks(own)
    kept.file.write_text("bar = 20", encoding="utf-8")
    with pytest.raises(FileFault):
        restore_rulebook(own, kept)
    assert not own.rulebooks.own


def test_a_faulty_file_opens_in_the_form_and_is_mended_there(own: Desk) -> None:
    file = own.rulebooks.own_folder / "county.toml"
    faulty = (
        file_of(own).replace("bar = 20 ", 'bar = "twenty" ').replace("weight = 15", "weight = 20")
    )
    file.write_text(faulty, encoding="utf-8")
    own.rulebooks.read_again()
    assert "county" in own.rulebooks.faults
    draft = read_draft(own, "county")
    assert draft.values["bar"] == "twenty"
    draft = with_value(draft, "bar", "20")
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", draft)
    assert refused.value.field == "discs/3/weight"
    save_rulebook(own, "county", with_cell(draft, "discs", 3, "weight", "15"))
    assert "county" not in own.rulebooks.faults


def test_a_file_that_is_no_toml_is_said_with_its_line(own: Desk) -> None:
    file = own.rulebooks.own_folder / "county.toml"
    file.write_text(file_of(own).replace("bar = 20 ", "bar = [20 "), encoding="utf-8")
    own.rulebooks.read_again()
    with pytest.raises(FileFault) as fault:
        read_draft(own, "county")
    assert fault.value.key == "bar"


def test_a_disk_that_takes_nothing_leaves_the_file_as_it_was(
    own: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = file_of(own)
    draft = with_value(read_draft(own, "county"), "bar", "25")

    def refuse(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(Trouble) as refused:
        save_rulebook(own, "county", draft)
    assert refused.value.text.code == "file.disk_full"
    assert file_of(own) == before
    assert not list(own.rulebooks.own_folder.rglob("*.part"))


def test_windows_line_ends_stay(own: Desk) -> None:
    file = own.rulebooks.own_folder / "county.toml"
    file.write_bytes(b"\xef\xbb\xbf" + file_of(own).replace("\n", "\r\n").encode())
    own.rulebooks.read_again()
    save_rulebook(own, "county", with_value(read_draft(own, "county"), "bar", "25"))
    written = file.read_bytes()
    assert b"bar = 25 #" in written
    assert written.count(b"\r\n") == written.count(b"\n")


def test_meets_under_a_rulebook_are_counted(own: Desk) -> None:
    assert meets_with(own, "county") == 0
    add_meet(
        own,
        MeetData(
            name="Harbour Open",
            starts_on=own.today() + timedelta(days=80),
            rulebook="county",
            time_zone="Europe/Berlin",
        ),
    )
    assert meets_with(own, "county") == 1


def test_a_file_that_cannot_be_read_is_said(own: Desk) -> None:
    file = own.rulebooks.own_folder / "county.toml"
    file.write_bytes(b'name = "\xff"')
    with pytest.raises(FileFault) as fault:
        read_draft(own, "county")
    assert fault.value.text.code == "fault.encoding"
    file.unlink()
    with pytest.raises(Trouble) as refused:
        read_draft(own, "county")
    assert refused.value.text.code == "shelf.unreadable"
    with pytest.raises(Trouble) as unknown:
        read_draft(own, "moon")
    assert unknown.value.text.code == "shelf.not_found"


def test_a_key_the_reader_does_not_know_belongs_to_no_field(own: Desk) -> None:
    file = own.rulebooks.own_folder / "county.toml"
    file.write_text("colour = 1\n" + file_of(own), encoding="utf-8")
    with pytest.raises(InvalidInput) as refused:
        save_rulebook(own, "county", read_draft(own, "county"))
    assert refused.value.field == ""
    assert refused.value.text.code == "fault.unknown_key"


def test_a_rulebook_that_cannot_be_moved_away_stays_on_the_shelf(
    own: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_file: Path, _target: Path) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(Trouble) as refused:
        delete_rulebook(own, "county")
    assert refused.value.text.code == "file.cannot_create"
    assert "county" in own.rulebooks.books
