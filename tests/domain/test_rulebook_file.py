"""Faulty rulebook files: each is refused with its line, its key and what is expected there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.lifting import Lift
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.rulebook_file import parse_rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.toml_reader import FileFault

FOLDER = Path(__file__).parents[2] / "resources" / "rulebooks"
IPF = (FOLDER / "ipf_2021.toml").read_text(encoding="utf-8")
TWO_HOUR = (FOLDER / "traditional_two_hour.toml").read_text(encoding="utf-8")


def changed(source: str, old: str, new: str) -> tuple[str, int]:
    """The source with `old`, which stands in it once, replaced; and the line of the change."""
    assert source.count(old) == 1, old
    return source.replace(old, new), source[: source.index(old)].count("\n") + 1


def parse(source: str) -> Rulebook:
    return parse_rulebook(source.encode(), "club.toml")


def fault_of(source: str) -> FileFault:
    with pytest.raises(FileFault) as fault:
        parse(source)
    assert dict(fault.value.text.values)["file"] == "club.toml"
    return fault.value


def expected_code(fault: FileFault) -> str:
    expected = dict(fault.text.values)["expected"]
    assert isinstance(expected, Text)
    return expected.code


MEN = "limits = [52, 56, 60, 67.5, 75, 82.5, 90, 100, 110, 125, 140]"
# Each row: what stands in the file, what it is changed to, the key named, what is expected.
WRONG = [
    ('name = "Traditional classes', 'name = 5 # "', "name", "text"),
    ("edition_date = 2007-01-01", 'edition_date = "2007"', "edition_date", "date"),
    ("checked_on = 2026-11-25", "checked_on = 2006-12-31", "checked_on", "date_from"),
    ('unit = "kg"', 'unit = "stone"', "unit", "choice"),
    ('"push_pull", ', '"pull_push", ', "events", "choices"),
    ('["classic", "equipped"]\nlift', '["classic", "raw"]\nlift', "equipment", "choices"),
    (
        'lift_order = ["squat", "bench", "deadlift"]',
        'lift_order = ["squat", "squat"]',
        "lift_order",
        "choices",
    ),
    ("smallest_step = 2.5", "smallest_step = 0", "smallest_step", "number"),
    ("smallest_step = 2.5", "smallest_step = -2.5", "smallest_step", "number"),
    ("smallest_step = 2.5", 'smallest_step = "2,5"', "smallest_step", "number"),
    ("record_step = 0.5", "record_step = 5", "record_step", "record_step"),
    ("bar = 20 ", "bar = 0 ", "bar", "number"),
    ("collar = 2.5", "collar = -1", "collar", "number_from_zero"),
    ('bench_lift_off = "crew', 'bench_lift_off = "x', "bench_lift_off", "choice"),
    ('best_lifter = "dots"', 'best_lifter = "wilks"', "best_lifter", "choice"),
    ("team_points = [12, 9,", "team_points = [12, 13,", "team_points", "falling_points"),
    ("team_points = [12, 9,", "team_points = [12, -9,", "team_points", "integers"),
    ('ties = ["lighter', 'ties = ["shared", "lighter', "ties", "shared_last"),
    ('ties = ["lighter_bodyweight"', 'ties = ["lighter"', "ties", "choices"),
    ("kit_inspection = true", 'kit_inspection = "yes"', "kit_inspection", "boolean"),
    ("{ weight = 50,", "{ weight = 0,", "discs.weight", "number"),
    ("{ weight = 50,", "{ weight = -50,", "discs.weight", "number"),
    ("{ weight = 15,", "{ weight = 20,", "discs.weight", "new_disc"),
    ('colour = "yellow"', 'colour = ""', "discs.colour", "text"),
    ("{ weight = 10 }", "10", "discs", "tables"),
    ('key = "teen_17_19"', 'key = "teen_14_16"', "divisions.key", "new_code"),
    ('key = "teen_17_19"', 'key = "Teen 17-19"', "divisions.key", "code"),
    ("to_age = 16", "to_age = 13", "divisions.to_age", "integer"),
    ("to_age = 16", "to_age = 160", "divisions.to_age", "integer"),
    ("to_age = 16", "to_age = 16.5", "divisions.to_age", "integer"),
    (MEN, "limits = []", "classes.limits", "rising_numbers"),
    (MEN, "limits = [52, 60, 56]", "classes.limits", "rising_numbers"),
    (MEN, "limits = [52, 56, 56]", "classes.limits", "rising_numbers"),
    (MEN, "limits = [-52]", "classes.limits", "rising_numbers"),
    ('sex = "male"', 'sex = "men"', "classes.sex", "choice"),
    ('kind = "two_hour"', 'kind = "morning"', "weigh_in.kind", "choice"),
    ("opens_minutes = 120", "opens_minutes = -120", "weigh_in.opens_minutes", "integer"),
    ("lasts_minutes = 90", "lasts_minutes = 0", "weigh_in.lasts_minutes", "integer"),
    ("lasts_minutes = 90", "lasts_minutes = 121", "weigh_in.lasts_minutes", "integer"),
    ("reweighs = true", "reweighs = 1", "weigh_in.reweighs", "boolean"),
    ('out_of_class = "move_up"', 'out_of_class = "x"', "weigh_in.out_of_class", "choice"),
    ("times = 1", "times = -1", "opener_change.times", "integer"),
    (
        "first_group_minutes = 5",
        "first_group_minutes = -5",
        "opener_change.first_group_minutes",
        "integer",
    ),
    (
        "later_group_attempts_left = 5",
        "later_group_attempts_left = -5",
        "opener_change.later_group_attempts_left",
        "integer",
    ),
    (
        "next_weight_seconds = 60",
        "next_weight_seconds = 0",
        "attempts.next_weight_seconds",
        "integer",
    ),
    ('after_good = "lost"', 'after_good = "same_weight"', "attempts.after_good", "choice"),
    ('after_miss = "lost"', 'after_miss = "step_up"', "attempts.after_miss", "choice"),
    ('fourth = "record_only"', "fourth = true", "attempts.fourth", "choice"),
    ("clock_seconds = 60", "clock_seconds = 0", "attempts.clock_seconds", "integer"),
    ("bench_only = 2", "bench_only = -2", "attempts.third_changes.bench_only", "integer"),
    ("largest = 15", "largest = 0", "groups.largest", "integer"),
    ("must_split_from = 16", "must_split_from = 17", "groups.must_split_from", "integer"),
    ("may_split_from = 11", "may_split_from = 17", "groups.may_split_from", "integer"),
    ("extra_minutes = 5", "extra_minutes = -5", "groups.small.extra_minutes", "integer"),
    (
        "{ up_to = 10, extra_minutes = 5 }",
        "{ up_to = 10, extra_minutes = 5 }, { up_to = 10, extra_minutes = 6 }",
        "groups.small.up_to",
        "new_size",
    ),
    ('commands = ["Squat", "Rack"]', "commands = []", "squat.commands", "texts"),
    ("restart_seconds = 5", "restart_seconds = 0", "squat.restart_seconds", "integer"),
    ('{ code = "squat.depth" }', '{ code = "squat.dept" }', "squat.causes.code", "known_code"),
    ('{ code = "squat.depth" }', '{ code = "bench.chest" }', "squat.causes.code", "known_code"),
    ('{ code = "squat.knees" }', '{ code = "squat.depth" }', "squat.causes.code", "new_code"),
    (
        '{ code = "bench.chest" }',
        '{ code = "bench.chest", card = "green" }',
        "bench.causes.card",
        "choice",
    ),
    (
        '{ code = "bench.chest" }',
        '{ code = "bench.chest", strength = "no" }',
        "bench.causes.strength",
        "boolean",
    ),
    ('{ code = "bench.chest" }', "{ }", "bench.causes.code", "code"),
    ('items = ["belt"]', 'items = ["belts"]', "kit_limits.items", "choices"),
    (
        'equipment = ["equipped"]\nwords',
        'equipment = ["single"]\nwords',
        "kit_limits.equipment",
        "choices",
    ),
]


@pytest.mark.parametrize(("old", "new", "key", "expected"), WRONG)
def test_a_wrong_value_is_refused_with_its_line_key_and_what_is_expected(
    old: str, new: str, key: str, expected: str
) -> None:
    source, line = changed(TWO_HOUR, old, new)
    fault = fault_of(source)
    assert (fault.line, fault.key) == (line, key)
    assert expected_code(fault) == f"expected.{expected}"


WOMEN_2011 = 'sex = "female"\nvalid_from = 2011-01-01\nvalid_until = 2020-12-31'
# Each row as above for a fault that only shows against another line, with the lines from the
# first changed one to the one named.
AT_ODDS = [
    (
        WOMEN_2011,
        'sex = "female"\nvalid_from = 2011-01-01\nvalid_until = 2010-12-31',
        2,
        "classes.valid_until",
        "date_from",
    ),
    (
        WOMEN_2011,
        'sex = "female"\nvalid_from = 2011-01-01\nvalid_until = 2021-01-01',
        1,
        "classes.valid_from",
        "no_overlap",
    ),
    (
        WOMEN_2011,
        'sex = "female"\nvalid_until = 2021-01-01',
        1,
        "classes.valid_until",
        "no_overlap",
    ),
    (WOMEN_2011, 'sex = "female"', 0, "classes.sex", "no_overlap"),
    (
        'name = "Open"\nage_rule = "calendar_year"',
        'name = "Open"\nage_rule = "on_the_day"',
        3,
        "divisions.from_birthday",
        "from_birthday",
    ),
    (
        "from_age = 19\nto_age = 23",
        "from_birthday = true\nto_age = 23",
        0,
        "divisions.from_birthday",
        "from_birthday",
    ),
    (
        "later_group_minutes = 3 # recalled",
        "",
        -3,
        "opener_change.later_group_attempts_left",
        "one_later_group_rule",
    ),
    (
        "later_group_minutes = 3",
        "later_group_attempts_left = 5\nlater_group_minutes = 3",
        0,
        "opener_change.later_group_attempts_left",
        "one_later_group_rule",
    ),
    (
        'lift_order = ["squat", "bench", "deadlift"]',
        'lift_order = ["bench", "deadlift"]',
        -2,
        "events",
        "event_of_lifts",
    ),
]


@pytest.mark.parametrize(("old", "new", "lines_on", "key", "expected"), AT_ODDS)
def test_lines_at_odds_with_each_other_are_refused_at_one_of_them(
    old: str, new: str, lines_on: int, key: str, expected: str
) -> None:
    source, line = changed(IPF, old, new)
    fault = fault_of(source)
    assert (fault.line, fault.key) == (line + lines_on, key)
    assert expected_code(fault) == f"expected.{expected}"


@pytest.mark.parametrize(
    ("limits", "expected"),
    [
        ("[59]", "reserved_limit"),
        ("[121]", "reserved_limit"),
        ("[53, 52]", "rising_numbers"),
        ("[]", "rising_numbers"),
    ],
)
def test_a_reserved_class_is_a_class_of_its_own_among_the_others(
    limits: str, expected: str
) -> None:
    first = IPF.index("reserved_limits = [53]")
    source = IPF[:first] + IPF[first:].replace("[53]", limits, 1)
    fault = fault_of(source)
    assert fault.line == IPF[:first].count("\n") + 1
    assert fault.key == "classes.reserved_limits"
    assert expected_code(fault) == f"expected.{expected}"


def test_a_reserved_class_is_for_divisions_the_rulebook_has() -> None:
    first = IPF.index('reserved_for = ["sub_junior", "junior"]')
    source = IPF[:first] + IPF[first:].replace('"junior"', '"cadet"', 1)
    fault = fault_of(source)
    assert (fault.line, fault.key) == (IPF[:first].count("\n") + 1, "classes.reserved_for")


@pytest.mark.parametrize("sex", ["female", "male"])
def test_a_rulebook_has_classes_for_both_sexes(sex: str) -> None:
    other = {"female": "male", "male": "female"}[sex]
    start = TWO_HOUR.index(f'[[classes]]\nsex = "{sex}"')
    end = TWO_HOUR.index("unlimited_above = true\n", start) + len("unlimited_above = true\n")
    fault = fault_of(TWO_HOUR[:start] + TWO_HOUR[end:])
    assert fault.key == "classes"
    assert fault.line == (TWO_HOUR[:start] + TWO_HOUR[end:]).split("\n").index("[[classes]]") + 1
    assert f'sex = "{other}"' in TWO_HOUR[:start] + TWO_HOUR[end:]
    said = dict(fault.text.values)["expected"]
    assert said == text("expected.classes_of", sex=text(f"sex.{sex}"))


def test_two_class_sets_that_hold_on_the_same_day_are_refused_without_dates_too() -> None:
    source = TWO_HOUR.replace(
        "[weigh_in]", '[[classes]]\nsex = "male"\nlimits = [60]\nunlimited_above = true\n[weigh_in]'
    )
    fault = fault_of(source)
    assert (fault.line, fault.key) == (
        source[: source.index("limits = [60]")].count("\n"),
        "classes.sex",
    )


def test_a_class_set_need_not_be_open_above() -> None:
    source = TWO_HOUR.replace("unlimited_above = true", "unlimited_above = false")
    assert [each.classes[-1].name for each in parse(source).class_sets] == ["90", "140"]


def test_a_two_hour_weigh_in_has_its_times_and_another_need_not() -> None:
    source, _ = changed(TWO_HOUR, "opens_minutes = 120 # seen\nlasts_minutes = 90 # seen\n", "")
    fault = fault_of(source)
    assert fault.text.code == "fault.missing"
    assert (fault.line, fault.key) == (
        source.split("\n").index("[weigh_in]") + 1,
        "weigh_in.opens_minutes",
    )
    assert parse(source.replace('"two_hour"', '"same_day"')).weigh_in.opens_minutes is None


def test_a_rulebook_may_have_causes_of_its_own_with_words() -> None:
    source, _ = changed(
        TWO_HOUR,
        '{ code = "squat.depth" }',
        '{ code = "squat.mat", words = "Foot off the mat", card = "yellow" }',
    )
    cause = parse(source).lift_rules(Lift.SQUAT).causes[0]
    assert cause.label == text("cause.own", words="Foot off the mat")


# Every line of the shipped files that holds one key and its whole value.
OPTIONAL = {
    "to_age",
    "from_age",
    "from_birthday",
    "valid_from",
    "valid_until",
    "equipment",
    "restart_command",
}
STATEMENTS = [
    pytest.param(source, number, id=f"{name}-{number + 1}")
    for name, source in (("ipf", IPF), ("two_hour", TWO_HOUR))
    for number, line in enumerate(source.split("\n"))
    if " = " in line and line[0].isalpha() and not line.split("#")[0].strip().endswith("[")
]


def with_line(source: str, number: int, line: str) -> str:
    lines = source.split("\n")
    lines[number] = line
    return "\n".join(lines)


@pytest.mark.parametrize(("source", "number"), STATEMENTS)
def test_a_value_of_the_wrong_kind_is_found_on_every_line(source: str, number: int) -> None:
    key = source.split("\n")[number].split(" = ", maxsplit=1)[0]
    fault = fault_of(with_line(source, number, f"{key} = {{ }}"))
    assert (fault.line, fault.key.split(".")[-1]) == (number + 1, key.split(".")[-1])
    assert fault.text.code == "fault.value"


@pytest.mark.parametrize(("source", "number"), STATEMENTS)
def test_a_slip_of_the_pen_is_found_on_every_line(source: str, number: int) -> None:
    key, value = source.split("\n")[number].split(" = ", 1)
    fault = fault_of(with_line(source, number, f"{key} {value}"))
    assert (fault.line, fault.key.split(".")[-1]) == (number + 1, key.split(".")[-1])
    assert fault.text.code == "fault.syntax_at"


@pytest.mark.parametrize(("source", "number"), STATEMENTS)
def test_a_missing_line_is_named_unless_the_key_is_optional(source: str, number: int) -> None:
    key = source.split("\n")[number].split(" = ", maxsplit=1)[0]
    shortened = with_line(source, number, "")
    try:
        parse(shortened)
    except FileFault as fault:
        missing = fault
    else:
        assert key in OPTIONAL or key.startswith("in.")
        return
    table = max(
        (row for row, line in enumerate(source.split("\n")[:number]) if line.startswith("[")),
        default=0,
    )
    if key in OPTIONAL and table:  # gone, and now its neighbours make no sense
        assert missing.text.code in {"fault.value", "fault.unknown_key"}
    elif key.startswith("later_group_"):  # one of two
        assert (missing.text.code, missing.line) == ("fault.value", table + 1)
    else:
        assert missing.text.code == "fault.missing"
        assert (missing.key.split(".")[-1], missing.line) == (key, table + 1)


def test_texts_are_those_of_the_language_asked_for_where_the_file_has_them() -> None:
    source = TWO_HOUR.encode()
    english, french = (parse_rulebook(source, "club.toml", each) for each in ("en", "fr"))
    assert english.name == "Traditional classes, two-hour weigh-in"
    assert french.name == "Traditionnel, pesée 2\N{NO-BREAK SPACE}h avant"
    assert french.division("open").name == english.division("open").name == "Open"
    assert french.kit_limits[0].words.startswith("couvrent le tibia")
    assert parse_rulebook(source, "club.toml", "xx") == english


@pytest.mark.parametrize(
    ("instead", "key"),
    [
        ('in.fr.nome = "x"', "in.fr.nome"),
        ("in.fr.name = 3", "in.fr.name"),
        ("in.fr = 3", "in.fr"),
        ("in = 3", "in"),
        ('in.fr.name = " "', "in.fr.name"),
    ],
)
def test_a_slip_in_another_language_is_found_whoever_reads(instead: str, key: str) -> None:
    number, line = next(
        (at, each) for at, each in enumerate(IPF.split("\n")) if each.startswith("in.fr.name")
    )
    assert line
    source = re.sub(r"^in\.fr\.(edition|note) = .*$", "", IPF, flags=re.MULTILINE)
    fault = fault_of(with_line(source, number, instead))
    assert (fault.line, fault.key) == (number + 1, key)


@given(st.integers(0, len(IPF)), st.integers(0, 40), st.sampled_from("\"'[]{}=#,.\n 9a-\x00é"))
def test_a_rulebook_with_any_stretch_overwritten_is_read_or_refused(
    at: int, length: int, letter: str
) -> None:
    source = IPF[:at] + letter + IPF[at + length :]
    try:
        rulebook = parse(source)
    except FileFault as fault:
        refused = fault
    else:
        assert rulebook.key == "club"
        return
    assert 1 <= refused.line <= source.count("\n") + 1
    assert dict(refused.text.values)["line"] == refused.line
