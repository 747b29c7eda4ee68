"""Between a rulebook's file and its form: nothing is lost that nobody changed."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.rulebook_file import parse_rulebook
from coachdesk.services.rulebook_draft import Draft, Row, draft_of, text_of
from coachdesk.services.rulebook_fields import FIELDS, ROWS

SHIPPED = Path(__file__).parents[2] / "resources" / "rulebooks"
TODAY = date(2026, 11, 25)
IPF = (SHIPPED / "ipf_2021.toml").read_text(encoding="utf-8")


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


def with_row(draft: Draft, rows: str, **cells: str) -> Draft:
    columns = next(each for each in ROWS if each.name == rows).columns
    number = max(row.number for row in draft.rows[rows]) + 1
    added = Row(number, {column.name: cells.get(column.name, "") for column in columns})
    return replace(draft, rows={**draft.rows, rows: (*draft.rows[rows], added)})


@pytest.mark.parametrize("file", sorted(SHIPPED.glob("*.toml")), ids=lambda file: file.stem)
def test_a_draft_nobody_changed_is_the_file_letter_by_letter(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    assert text_of(draft_of(source), TODAY) == source
    assert all(
        draft_of(source).values[each.name] or not each.required
        for each in FIELDS
        if each.kind != "yes"
    )


def test_what_is_renamed_is_no_longer_said_as_before_in_another_language() -> None:
    source = (SHIPPED / "traditional_two_hour.toml").read_text(encoding="utf-8")
    draft = with_cell(draft_of(source), "divisions", 1, "name", "School 14-16")
    after = text_of(with_value(draft, "note", "Ours."), TODAY)
    french = parse_rulebook(after.encode(), "county.toml", "fr")
    assert french.divisions[1].name == "School 14-16"
    assert french.divisions[2].name == "Adolescents 17-19"
    assert french.note == "Ours."
    assert french.name.startswith("Traditionnel")


def test_rows_are_changed_added_and_taken_out_and_comments_stay() -> None:
    draft = draft_of(IPF)
    draft = with_cell(draft, "classes", 1, "limits", "59 66 74 83 93 105 120 135")
    draft = without_row(draft, "classes", 0)
    draft = without_row(draft, "classes", 2)
    draft = with_row(draft, "classes", sex="female", limits="48; 55,5; 62", unlimited_above="yes")
    draft = with_row(
        draft, "divisions", key="guests", name="Guests", age_rule="on_the_day", from_age="16"
    )
    draft = with_cell(draft, "discs", 0, "colour", "")
    draft = without_row(draft, "discs", 8)
    draft = with_row(draft, "discs", weight="0,1", records_only="yes")
    after = text_of(draft, TODAY)
    saved = parse_rulebook(after.encode(), "county.toml")
    (women,) = [each for each in saved.class_sets if each.sex == "female"]
    assert [each.name for each in women.classes] == ["48", "55.5", "62", "62+"]
    assert saved.division("guests").from_age == 16
    assert saved.discs[0].colour == ""
    assert [str(disc.weight.number) for disc in saved.discs[-2:]] == ["0.25", "0.1"]
    kept = [line for line in draft.source.splitlines() if line.startswith("#")]
    assert [line for line in after.splitlines() if line.startswith("#")] == kept
    assert "# Classes 2011-2020: seen." in kept


ADDED = st.lists(st.sampled_from(["divisions", "discs", "kit_limits", "groups.small"]), max_size=4)
NEW: dict[str, dict[str, str]] = {
    "divisions": {"key": "x_1", "name": "X", "age_rule": "on_the_day", "to_age": "30"},
    "discs": {"weight": "7.5", "colour": "grey"},
    "kit_limits": {"items": "belt, towel", "words": "dry"},
    "groups.small": {"up_to": "3", "extra_minutes": "6"},
}


@given(
    gone=st.sets(st.tuples(st.sampled_from([each.name for each in ROWS]), st.integers(0, 12))),
    added=ADDED,
)
def test_whatever_rows_come_and_go_the_file_says_what_the_form_said(
    gone: set[tuple[str, int]], added: list[str]
) -> None:
    draft = draft_of(IPF)
    for rows, number in sorted(gone):
        if len(draft.rows[rows]) > 1:
            draft = without_row(draft, rows, number)
    for rows in added:
        draft = with_row(draft, rows, **NEW[rows])
    written = text_of(draft, TODAY)
    tomllib.loads(written)
    again = draft_of(written)
    assert again.values == draft.values
    for rows in draft.rows:
        assert [row.cells for row in again.rows[rows]] == [row.cells for row in draft.rows[rows]]
    comments = [line for line in IPF.splitlines() if line.startswith("#")]
    assert [line for line in written.splitlines() if line.startswith("#")] == comments


@given(
    bar=st.decimals(min_value="0.01", max_value="99", places=2),
    minutes=st.integers(0, 1440),
    words=st.text(st.characters(exclude_categories=["Cc", "Cs"]), min_size=1, max_size=80),
)
def test_what_is_typed_comes_back_as_typed(bar: object, minutes: int, words: str) -> None:
    draft = draft_of(IPF)
    note = words.strip() or "-"
    draft = with_value(draft, "bar", str(bar))
    draft = with_value(draft, "opener_change.first_group_minutes", str(minutes))
    draft = with_value(draft, "note", note)
    rulebook = parse_rulebook(text_of(draft, TODAY).encode(), "county.toml")
    assert str(rulebook.bar.number.normalize()) == str(bar.normalize())  # type: ignore[attr-defined]
    assert rulebook.opener_change.first_group_minutes == minutes
    assert rulebook.note == note


def test_what_is_emptied_and_not_needed_goes_from_the_file() -> None:
    draft = with_value(draft_of(IPF), "squat.restart_command", "")
    draft = with_value(draft, "squat.restart_seconds", "")
    written = text_of(draft, TODAY)
    assert "restart_" not in written
    assert parse_rulebook(written.encode(), "county.toml").lifts[0].restart_command == ""


def test_comments_within_a_list_stay_beside_what_is_still_in_it() -> None:
    source = IPF.replace(
        "team_points = [12, 9, 8, 7, 6, 5, 4, 3, 2, 1] # recalled",
        "team_points = [\n    12, # first\n    9, # second\n    8, # third\n]",
    )
    written = text_of(with_value(draft_of(source), "team_points", "12, 10, 8, 7"), TODAY)
    assert "    12, # first\n" in written
    assert "    8, # third\n" in written
    assert "# second" not in written
    assert parse_rulebook(written.encode(), "county.toml").team_points == (12, 10, 8, 7)


def test_rows_written_as_sections_or_in_a_list_are_both_changed() -> None:
    """Both are TOML for the same thing, and people write both."""
    start, end = IPF.index("discs = ["), IPF.index("# Ages:")
    sections = '[[discs]]\nweight = 25\ncolour = "red" # seen\n\n[[discs]]\nweight = 20\n\n'
    source = IPF[:start] + IPF[end:].replace("[weigh_in]", f"{sections}[weigh_in]", 1)
    draft = with_cell(draft_of(source), "discs", 0, "colour", "blue")
    draft = with_row(without_row(draft, "discs", 1), "discs", weight="10")
    written = text_of(draft, TODAY)
    assert 'colour = "blue" # 2026-11-25: "red" -> "blue"; seen' in written
    discs = parse_rulebook(written.encode(), "county.toml").discs
    assert [(str(disc.weight.number), disc.colour) for disc in discs] == [
        ("25", "blue"),
        ("10", ""),
    ]


def test_a_row_that_is_none_gives_way_to_what_is_typed() -> None:
    source = IPF.replace('    { weight = 50, colour = "green" },', "    50,")
    draft = with_cell(draft_of(source), "discs", 0, "weight", "50")
    discs = parse_rulebook(text_of(draft, TODAY).encode(), "county.toml").discs
    assert str(discs[0].weight.number) == "50"


def test_a_list_or_a_section_that_is_missing_is_made() -> None:
    start, end = IPF.index("[groups]"), IPF.index("# `strength` says")
    draft = draft_of(IPF[:start] + IPF[end:])
    for name, value in (("largest", "14"), ("may_split_from", "10"), ("must_split_from", "15")):
        draft = with_value(draft, f"groups.{name}", value)
    draft = replace(
        draft, rows={**draft.rows, "groups.small": (Row(0, {"up_to": "9", "extra_minutes": "1"}),)}
    )
    groups = parse_rulebook(text_of(draft, TODAY).encode(), "county.toml").groups
    assert (groups.largest, groups.small[0].up_to) == (14, 9)


def test_the_comments_of_a_first_row_taken_out_stay_above_the_next() -> None:
    source = IPF.replace(
        '\n[[classes]]\nsex = "male"\nvalid_from = 2021',
        '\n# Men since 2021: seen.\n\n[[classes]]\nsex = "male"\nvalid_from = 2021',
    )
    written = text_of(without_row(draft_of(source), "classes", 0), TODAY)
    place = written.index("# Men since 2021: seen.")
    assert written.index("[[classes]]") < place < written.index('sex = "male"')
