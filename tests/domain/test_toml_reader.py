"""The validating reader: places of keys, and faults that name file, line and key."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text
from coachdesk.domain.toml_lines import find_places
from coachdesk.domain.toml_reader import FileFault, TomlTable, read_toml
from coachdesk.domain.units import Unit, kilograms

ROOT = Path(__file__).parents[2]
SHIPPED = sorted((ROOT / "resources").glob("*/*.toml"))


def read(source: str) -> TomlTable:
    return read_toml(source.encode(), "club.toml")


def fault_of(call: Callable[[], object]) -> FileFault:
    with pytest.raises(FileFault) as fault:
        call()
    assert fault.value.file == "club.toml"
    return fault.value


def expected_code(fault: FileFault) -> str:
    expected = dict(fault.text.values)["expected"]
    assert isinstance(expected, Text)
    return expected.code


# Source for what is and is not TOML: the TOML 1.0 specification, as the standard library reads it.


def paths_of(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    paths = [path]
    if isinstance(value, dict):
        for key, part in value.items():
            paths += paths_of(part, (*path, key))
    elif isinstance(value, list):
        for index, part in enumerate(value):
            paths += paths_of(part, (*path, index))
    return paths


@pytest.mark.parametrize("file", SHIPPED, ids=[file.stem for file in SHIPPED])
def test_every_key_of_the_shipped_files_has_its_line(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    lines = source.split("\n")
    places = find_places(source)
    for path in paths_of(tomllib.loads(source)):
        assert path in places.lines
        if path and isinstance(path[-1], str):
            assert path[-1] in lines[places.lines[path] - 1]


KEYS = st.sampled_from(["a", "b-c", "d_1", '"e f"', "'g.h'", '"\\u0069"'])
SCALARS = st.sampled_from(
    [
        "1",
        "2.5",
        "true",
        "2021-01-01",
        "2021-01-01 10:00:00",
        '"text # no comment"',
        "'it is [no] bracket'",
        '""',
        "''",
        '"""\nthree " lines\n"""',
        "'''\nthree ' lines\n'''",
        '"\\"quoted\\""',
        '"""ends in quote\\""""',
        '""""two quotes first"""',
    ]
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda parts: "[" + ",\n # so\n ".join(parts) + "]"),
        st.lists(st.tuples(KEYS, inner), max_size=3, unique_by=lambda pair: pair[0]).map(
            lambda pairs: "{ " + ", ".join(f"{key} = {part}" for key, part in pairs) + " }"
        ),
    ),
    max_leaves=6,
)
STATEMENTS = st.lists(st.tuples(KEYS, VALUES), max_size=3, unique_by=lambda pair: pair[0])
HEADERS = st.sampled_from(["[x]", "[[y]]", "[[y.z]]", "[y.w.v]", "[ x . u ]", '[["q q"]]'])
DOCUMENTS = st.lists(st.tuples(HEADERS, STATEMENTS), max_size=5).map(
    lambda tables: "\n\n".join(
        "\n".join([f"{header} # comment", *(f"{key} = {value}" for key, value in statements)])
        for header, statements in tables
    )
)


@given(DOCUMENTS)
def test_the_scan_finds_the_keys_the_standard_reader_finds(source: str) -> None:
    try:
        content = tomllib.loads(source)
    except tomllib.TOMLDecodeError:
        return
    places = find_places(source)
    assert set(paths_of(content)) == set(places.lines)
    assert all(span.whole for span in places.spans)
    for path, line in places.lines.items():
        key = path[-1] if path else 0
        shown = source.split("\n")[line - 1]
        assert isinstance(key, int) or key in shown or (key == "i" and "\\u0069" in shown)


def test_lines_are_those_an_editor_shows_with_windows_line_ends_and_a_byte_order_mark() -> None:
    table = read_toml(b'\xef\xbb\xbfname = "x"\r\n\r\nbar = "heavy"\r\n', "club.toml")
    fault = fault_of(lambda: table.mass("bar", Unit.KG))
    assert (fault.line, fault.key) == (3, "bar")


def test_values_come_back_as_they_stand_in_the_file() -> None:
    table = read(
        'name = " Club "\nlifts = ["bench", "squat"]\nbar = 20\ndisc = 1.25\nnone = 0\n'
        "on = 2026-06-15\nyes = true\ncount = 3\npoints = [12, 9]\nlimits = [59, 67.5]\n"
        'words = ["a", "b"]\nkey = "squat.depth"\n'
    )
    assert table.text("name") == "Club"
    assert table.choices("lifts", Lift) == (Lift.BENCH, Lift.SQUAT)
    assert table.mass("bar", Unit.KG) == kilograms(20)
    assert table.mass("disc", Unit.LB).number == Decimal("1.25")
    assert table.mass("none", Unit.KG, zero_allowed=True) == kilograms(0)
    assert table.date("on") == date(2026, 6, 15)
    assert table.boolean("yes") is True
    assert table.integer("count", 0, 3) == 3
    assert table.integers("points", 0, 12) == (12, 9)
    assert table.rising_masses("limits", Unit.KG) == (kilograms(59), kilograms("67.5"))
    assert table.texts("words") == ("a", "b")
    assert table.code("key") == "squat.depth"
    table.finish()


READERS: dict[str, Callable[[TomlTable], object]] = {
    "text": lambda table: table.text("it"),
    "texts": lambda table: table.texts("it"),
    "code": lambda table: table.code("it"),
    "codes": lambda table: table.codes("it", {"one", "two"}),
    "boolean": lambda table: table.boolean("it"),
    "date": lambda table: table.date("it"),
    "integer": lambda table: table.integer("it", 1, 9),
    "integers": lambda table: table.integers("it", 1, 9),
    "mass": lambda table: table.mass("it", Unit.KG),
    "mass from zero": lambda table: table.mass("it", Unit.KG, zero_allowed=True),
    "rising": lambda table: table.rising_masses("it", Unit.KG),
    "choice": lambda table: table.choice("it", Lift),
    "choices": lambda table: table.choices("it", Lift),
    "table": lambda table: table.table("it"),
    "tables": lambda table: table.tables("it"),
}


@pytest.mark.parametrize(
    ("reader", "value", "expected"),
    [
        ("text", "3", "expected.text"),
        ("text", '"  "', "expected.text"),
        ("text", '"bell\\u0007"', "expected.text"),
        ("texts", '"one"', "expected.texts"),
        ("texts", "[]", "expected.texts"),
        ("texts", '["one", 2]', "expected.texts"),
        ("code", '"Two Words"', "expected.code"),
        ("code", '"../up"', "expected.code"),
        ("codes", '["one", "three"]', "expected.choices"),
        ("codes", '["one", "one"]', "expected.choices"),
        ("boolean", "1", "expected.boolean"),
        ("boolean", '"true"', "expected.boolean"),
        ("date", '"2021-01-01"', "expected.date"),
        ("date", "2021-01-01T10:00:00", "expected.date"),
        ("date", "10:00:00", "expected.date"),
        ("integer", "1.0", "expected.integer"),
        ("integer", "true", "expected.integer"),
        ("integer", "0", "expected.integer"),
        ("integer", "10", "expected.integer"),
        ("integers", "[1, 10]", "expected.integers"),
        ("integers", "[true]", "expected.integers"),
        ("mass", "0", "expected.number"),
        ("mass", "-2.5", "expected.number"),
        ("mass", "true", "expected.number"),
        ("mass", "nan", "expected.number"),
        ("mass", "inf", "expected.number"),
        ("mass", '"20"', "expected.number"),
        ("mass", "0.001", "expected.number_within"),
        ("mass", "1e999999", "expected.number_within"),
        ("mass from zero", "-0.1", "expected.number_from_zero"),
        ("rising", "59", "expected.rising_numbers"),
        ("rising", "[]", "expected.rising_numbers"),
        ("rising", "[59, 59]", "expected.rising_numbers"),
        ("rising", "[66, 59]", "expected.rising_numbers"),
        ("rising", "[0, 59]", "expected.rising_numbers"),
        ("rising", "[59, 2001]", "expected.rising_numbers"),
        ("rising", '[59, "66"]', "expected.rising_numbers"),
        ("choice", '"curl"', "expected.choice"),
        ("choice", "[]", "expected.choice"),
        ("choices", '["squat", "curl"]', "expected.choices"),
        ("choices", '["squat", "squat"]', "expected.choices"),
        ("choices", '["squat", ["bench"]]', "expected.choices"),
        ("table", "3", "expected.table"),
        ("tables", "[]", "expected.tables"),
        ("tables", "{ a = 1 }", "expected.tables"),
        ("tables", "[3]", "expected.tables"),
    ],
)
def test_a_wrong_value_is_named_with_line_key_and_what_is_expected(
    reader: str, value: str, expected: str
) -> None:
    table = read(f"# a comment\nname = 1\n\n[part]\nit = {value}\n").table("part")
    fault = fault_of(lambda: READERS[reader](table))
    assert fault.text.code == "fault.value"
    assert (fault.line, fault.key) == (5, "part.it")
    assert expected_code(fault) == expected


@pytest.mark.parametrize("reader", READERS)
def test_a_missing_key_is_named_at_the_table_it_is_missing_from(reader: str) -> None:
    table = read("name = 1\n\n[part]\nother = 1\n").table("part")
    fault = fault_of(lambda: READERS[reader](table))
    assert fault.text.code == "fault.missing"
    assert (fault.line, fault.key) == (3, "part.it")


def test_an_element_is_named_by_its_own_line() -> None:
    table = read("limits = [\n  59,\n  66, # so far so good\n  60,\n]\n")
    fault = fault_of(lambda: table.rising_masses("limits", Unit.KG))
    assert (fault.line, fault.key) == (4, "limits")


def test_an_unknown_key_is_named_with_the_keys_that_are_known() -> None:
    table = read('name = "x"\n\n[[rows]]\nweight = 1\n\n[[rows]]\nweight = 2\nwieght = 3\n')
    rows = table.tables("rows")
    for row in rows:
        row.mass("weight", Unit.KG)
    rows[0].finish()
    fault = fault_of(rows[1].finish)
    assert fault.text.code == "fault.unknown_key"
    assert (fault.line, fault.key) == (8, "rows.wieght")
    assert dict(fault.text.values)["known"] == "weight"


@pytest.mark.parametrize(
    ("source", "line", "key"),
    [
        ('name = "x"\nbar 20\n', 2, "bar"),
        ('name = "x"\nbar = \n', 2, "bar"),
        ('name = "x"\nbar = twenty\n', 2, "bar"),
        ('name = "x"\nbar = 2021-02-30\n', 2, "bar"),
        ('name = "x\nbar = 20\n', 1, "name"),
        ('bar = 20\nname = "x"\nbar = 25\n', 3, "bar"),
        ("limits = [59, 66\nbar = 20\n", 1, "limits"),
        ("limits = [\n  59\n  66\n]\nbar = 20\n", 2, "limits"),
        ("limits = [\n  59, # first\n  66 # second\n\n  # third\n  74 ]\n", 3, "limits"),
        ("bar = 20\nlimits = [59,\n", 2, "limits"),
        ('bar = 20\nname = """never\nends\n', 2, "name"),
        ("[part\nbar = 20\n", 1, "part"),
        ("[part]\nbar = 20\n[part]\n", 3, "part"),
        ("[[part]\nbar = 20\n", 1, "part"),
        ("bar = 20 25\n", 1, "bar"),
        ("bar = { a = 1, b }\n", 1, "bar"),
        ("bar = { a = 1 b = 2 }\n", 1, "bar"),
        ('bar = 20\n"a\\q" = 1\n', 2, '"a\\q"'),
        ("bar = 20\n= 25\n", 2, ""),
        ("bar = 20\n]\n", 2, ""),
        ("bar = 20\n[]\n", 2, ""),
        ("bar = 20\nfoo = 1\x00\n", 2, "foo"),
        ("bar", 1, "bar"),
    ],
)
def test_a_line_that_is_no_toml_is_named(source: str, line: int, key: str) -> None:
    fault = fault_of(lambda: read(source))
    assert fault.text.code == ("fault.syntax_at" if key else "fault.syntax")
    assert (fault.line, fault.key) == (line, key)


@pytest.mark.parametrize("source", ["", "\n\n", "# only a comment\n", "\ufeff"])
def test_an_empty_file_is_no_rulebook(source: str) -> None:
    assert fault_of(lambda: read(source)).text.code == "fault.empty"


@pytest.mark.parametrize(
    ("data", "line"),
    [
        ('bar = 20\nname = "Jänner"\n'.encode("latin-1"), 2),
        ('name = "x"\n'.encode("utf-16"), 1),
        (b"a = 1\nb = 2\n\x80", 3),
    ],
)
def test_bytes_that_are_no_utf_8_are_named_by_line(data: bytes, line: int) -> None:
    fault = fault_of(lambda: read_toml(data, "club.toml"))
    assert (fault.text.code, fault.line) == ("fault.encoding", line)


def test_a_number_or_nesting_no_reader_survives_is_refused_with_its_line() -> None:
    digits = fault_of(lambda: read("a = 1\nb = " + "9" * 5000 + "\n"))
    assert (digits.text.code, digits.line) == ("fault.long_line", 2)
    brackets = fault_of(lambda: read("a = 1\nb = " + "[" * 1500 + "\n"))
    assert (brackets.text.code, brackets.line) == ("fault.too_deep", 2)
    stairs = fault_of(lambda: read("b = " + "[\n" * 1500))
    assert (stairs.text.code, stairs.line) == ("fault.too_deep", 13)


def line_of_fault(data: bytes) -> int | None:
    try:
        read_toml(data, "club.toml")
    except FileFault as fault:
        return fault.line
    return None


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused_with_a_line(data: bytes) -> None:
    assert line_of_fault(data) in {None, *range(1, data.count(b"\n") + 2)}


@given(st.text(alphabet="ab=.[]{}\"'#,\n 1\\-", max_size=40))
def test_any_scribble_is_read_or_refused_with_a_line(source: str) -> None:
    assert line_of_fault(source.encode()) in {None, *range(1, source.count("\n") + 2)}
