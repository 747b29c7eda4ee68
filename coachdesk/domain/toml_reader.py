"""Reads TOML files that people edit, and says exactly what is wrong with them.

A table may hold its texts in further languages, below the key `in`: `in.fr.name = "..."` beside
`name`. Every fault names the file, the line, the key and what is expected there, so that somebody
who edits a rulebook in a plain text editor finds the place at once.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from typing import TypeGuard, TypeVar

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import Text, Value, text
from coachdesk.domain.toml_lines import Path, Places, Span, TooDeepError, find_places
from coachdesk.domain.units import Mass, Unit

LONGEST_LINE = 2000
LIGHTEST = Decimal("0.01")
HEAVIEST = Decimal(2000)
_T = TypeVar("_T")
_E = TypeVar("_E", bound=StrEnum)
_PLACE = re.compile(r"at line (\d+), column (\d+)")
_LANGUAGES = "in"
_CODE = re.compile(r"[a-z0-9_]+(\.[a-z0-9_]+)*")


class FileFault(Trouble):
    """A file that cannot be used: `file`, `line` (from 1) and `key` say where the fault is.

    `path` is the way to the key, with the places (from 0) in the lists on the way.
    """

    def __init__(self, code: str, file: str, line: int, path: Path = (), **values: Value) -> None:
        self.file = file
        self.line = line
        self.path = path
        self.key = _dotted(path)
        super().__init__(text(code, file=file, line=line, key=self.key, **values))


def read_toml(data: bytes, file: str, language: str = "") -> TomlTable:
    """Read the bytes of a TOML file named `file`; raises FileFault when they are none.

    Texts are those of `language` where the file holds them.
    """
    document = _Document(file, _decoded(data, file), language)
    try:
        content = tomllib.loads(document.source, parse_float=Decimal)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise _syntax_fault(error, document) from error
    if not content:
        raise FileFault("fault.empty", file, 1)
    return TomlTable(document, (), content)


@dataclass(frozen=True)
class _Document:
    file: str
    source: str
    language: str = ""

    @cached_property
    def places(self) -> Places:
        """Where keys stand: looked for only once something is wrong, for it takes its time."""
        try:
            return find_places(self.source)
        except TooDeepError as error:
            raise FileFault("fault.too_deep", self.file, error.line) from error


class TomlTable:
    """One table of the file, read key by key. `finish` reports the keys nobody asked for."""

    def __init__(self, document: _Document, path: Path, content: dict[str, object]) -> None:
        self._document = document
        self._path = path
        self._content = content
        self._asked: set[str] = set()
        self._texts: set[str] = set()

    def __contains__(self, key: str) -> bool:
        self._asked.add(key)
        return key in self._content

    def fault(self, key: str, expected: Text, index: int | None = None) -> FileFault:
        """The fault that `key`, or its element `index` (from 0), is not what is expected."""
        path = (*self._path, key) if index is None else (*self._path, key, index)
        return self._fault("fault.value", path, expected=expected)

    def finish(self) -> None:
        """Raise FileFault when the table holds a key that was never asked for, or something else
        than its own texts in another language."""
        self._check_languages()
        for key in self._content:
            if key not in self._asked:
                known = ", ".join(sorted(self._asked))
                raise self._fault("fault.unknown_key", (*self._path, key), known=known)

    def text(self, key: str) -> str:
        """Text that is more than blanks, in the reader's language where the table has it."""
        expected = text("expected.text")
        value = self._value(key, expected)
        if not _is_plain_text(value):
            raise self.fault(key, expected)
        self._texts.add(key)
        return self._translated(key) or value.strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of at least one text."""
        expected = text("expected.texts")
        values: list[str] = []
        for index, value in enumerate(self._items(key, expected)):
            if not _is_plain_text(value):
                raise self.fault(key, expected, index)
            values.append(value.strip())
        return tuple(values)

    def code(self, key: str) -> str:
        """A code: small letters, digits and underscores, in parts joined by full stops."""
        expected = text("expected.code")
        value = self._value(key, expected)
        if not (isinstance(value, str) and _CODE.fullmatch(value)):
            raise self.fault(key, expected)
        return value

    def known_code(self, known: Collection[str], taken: Collection[str]) -> tuple[str, str]:
        """The keys `code` and `words`: a code among `known`, or any other with its own words.

        A code among `taken` was used before in this file.
        """
        code = self.code("code")
        words = self.text("words") if "words" in self else ""
        if code in taken:
            raise self.fault("code", text("expected.new_code", used=code))
        if not words and code not in known:
            raise self.fault("code", text("expected.known_code", codes=", ".join(sorted(known))))
        return code, words

    def codes(self, key: str, known: Collection[str]) -> tuple[str, ...]:
        """A list of at least one of the codes `known`, none twice."""
        listed = sorted(known)
        return self._several(key, {code: code for code in listed})

    def boolean(self, key: str) -> bool:
        """True or false."""
        expected = text("expected.boolean")
        value = self._value(key, expected)
        if not isinstance(value, bool):
            raise self.fault(key, expected)
        return value

    def date(self, key: str) -> date:
        """A calendar date without a time."""
        expected = text("expected.date")
        value = self._value(key, expected)
        if type(value) is not date:
            raise self.fault(key, expected)
        return value

    def integer(self, key: str, least: int, most: int) -> int:
        """A whole number from `least` to `most`."""
        expected = text("expected.integer", least=least, most=most)
        value = self._value(key, expected)
        if not _is_integer(value) or not least <= value <= most:
            raise self.fault(key, expected)
        return value

    def integers(self, key: str, least: int, most: int) -> tuple[int, ...]:
        """A list of at least one whole number from `least` to `most`."""
        expected = text("expected.integers", least=least, most=most)
        values: list[int] = []
        for index, value in enumerate(self._items(key, expected)):
            if not _is_integer(value) or not least <= value <= most:
                raise self.fault(key, expected, index)
            values.append(value)
        return tuple(values)

    def mass(self, key: str, unit: Unit, zero_allowed: bool = False) -> Mass:
        """A mass in `unit`, from 0.01 to 2000, or nothing at all where `zero_allowed`."""
        expected = text("expected.number_from_zero" if zero_allowed else "expected.number")
        number = _number(self._value(key, expected))
        if number is None or number < 0 or (number == 0 and not zero_allowed):
            raise self.fault(key, expected)
        if number != 0 and not LIGHTEST <= number <= HEAVIEST:
            raise self.fault(
                key, text("expected.number_within", least=str(LIGHTEST), most=str(HEAVIEST))
            )
        return Mass(number, unit)

    def rising_masses(self, key: str, unit: Unit) -> tuple[Mass, ...]:
        """A list of at least one mass in `unit`, each heavier than the one before."""
        expected = text("expected.rising_numbers", least=str(LIGHTEST), most=str(HEAVIEST))
        masses: list[Mass] = []
        before = Decimal(0)
        for index, value in enumerate(self._items(key, expected)):
            number = _number(value)
            if number is None or number <= before or not LIGHTEST <= number <= HEAVIEST:
                raise self.fault(key, expected, index)
            masses.append(Mass(number, unit))
            before = number
        return tuple(masses)

    def choice(self, key: str, kinds: type[_E]) -> _E:
        """One of the words of `kinds`."""
        words = {kind.value: kind for kind in kinds}
        expected = text("expected.choice", choices=", ".join(words))
        value = self._value(key, expected)
        if not isinstance(value, str) or value not in words:
            raise self.fault(key, expected)
        return words[value]

    def choices(self, key: str, kinds: type[_E]) -> tuple[_E, ...]:
        """A list of at least one of the words of `kinds`, none twice."""
        return self._several(key, {kind.value: kind for kind in kinds})

    def table(self, key: str) -> TomlTable:
        """A table of its own."""
        expected = text("expected.table")
        return self._table((*self._path, key), self._value(key, expected), expected)

    def tables(self, key: str) -> tuple[TomlTable, ...]:
        """A list of at least one table."""
        expected = text("expected.tables")
        return tuple(
            self._table((*self._path, key, index), value, expected)
            for index, value in enumerate(self._items(key, expected))
        )

    def _translated(self, key: str) -> str:
        """A text in the reader's language, empty where it is not there."""
        languages = self._content.get(_LANGUAGES)
        told = languages.get(self._document.language) if isinstance(languages, dict) else None
        found = told.get(key) if isinstance(told, dict) else None
        return found.strip() if isinstance(found, str) else ""

    def _check_languages(self) -> None:
        """Every language is a table of texts that stand in this table as well."""
        if not self._texts or _LANGUAGES not in self._content:
            return
        told = self.table(_LANGUAGES)
        for language in told._content:  # noqa: SLF001
            in_language = told.table(language)
            for key in in_language._content:  # noqa: SLF001
                if key in self._texts:
                    in_language.text(key)
            in_language.finish()

    def _table(self, path: Path, value: object, expected: Text) -> TomlTable:
        if not isinstance(value, dict):
            raise self._fault("fault.value", path, expected=expected)
        return TomlTable(self._document, path, value)

    def _several(self, key: str, words: dict[str, _T]) -> tuple[_T, ...]:
        expected = text("expected.choices", choices=", ".join(words))
        chosen: list[_T] = []
        for index, value in enumerate(self._items(key, expected)):
            if not isinstance(value, str) or value not in words or words[value] in chosen:
                raise self.fault(key, expected, index)
            chosen.append(words[value])
        return tuple(chosen)

    def _items(self, key: str, expected: Text) -> list[object]:
        value = self._value(key, expected)
        if not isinstance(value, list) or not value:
            raise self.fault(key, expected)
        return value

    def _value(self, key: str, expected: Text) -> object:
        if key not in self:
            raise self._fault("fault.missing", (*self._path, key), expected=expected)
        return self._content[key]

    def _fault(self, code: str, path: Path, **values: Value) -> FileFault:
        line = self._document.places.line_of(path)
        return FileFault(code, self._document.file, line, path, **values)


def _decoded(data: bytes, file: str) -> str:
    try:
        source = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise FileFault("fault.encoding", file, line) from error
    source = source.replace("\r\n", "\n")
    for number, line_text in enumerate(source.split("\n"), start=1):
        if len(line_text) > LONGEST_LINE:
            raise FileFault("fault.long_line", file, number, most=LONGEST_LINE)
    return source


def _syntax_fault(error: Exception, document: _Document) -> FileFault:
    """The fault with the line a person would look at, which need not be where reading stopped."""
    places = document.places
    lines = document.source.split("\n")
    place = _PLACE.search(str(error))
    if place:
        line, column = int(place[1]), int(place[2])
        span = places.span_at(line)
        if span and span.first < line and not lines[line - 1][: column - 1].strip():
            line = _last_written_line(lines, span, line)
    else:
        span = next((span for span in places.spans if not span.whole), None)
        line = span.first if span else len(lines)
    path = span.path if span else ()
    code = "fault.syntax_at" if _dotted(path) else "fault.syntax"
    return FileFault(code, document.file, line, path)


def _last_written_line(lines: list[str], span: Span, stopped: int) -> int:
    """The last line before `stopped` that says anything: where a comma or bracket is missing."""
    for number in range(stopped - 1, span.first, -1):
        if lines[number - 1].split("#")[0].strip():
            return number
    return span.first


def _dotted(path: Path) -> str:
    return ".".join(part for part in path if isinstance(part, str))


def _is_plain_text(value: object) -> TypeGuard[str]:
    return (
        isinstance(value, str)
        and bool(value.strip())
        and not any(unicodedata.category(letter) == "Cc" for letter in value if letter != "\n")
    )


def _is_integer(value: object) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool)


def _number(value: object) -> Decimal | None:
    if isinstance(value, Decimal):
        return value if value.is_finite() else None
    return Decimal(value) if _is_integer(value) else None
