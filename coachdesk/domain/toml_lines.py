"""Where each key of a TOML text stands.

The standard reader gives values without their places. This light scan gives the places without
judging the text: what it does not understand it passes over, for the standard reader finds fault
with it anyway.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

Path: TypeAlias = tuple[str | int, ...]
DEEPEST = 12

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY_PART = re.compile(r"""[ \t]*("(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]*""")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}(?!")'
    r"|'''.*?'{3,5}(?!')"
    r'|"(?!"")(?:[^"\\\n]|\\.)*"'
    r"|'(?!'')[^'\n]*'",
    re.DOTALL,
)
_BARE = re.compile(r"""[^,\[\]{}"'#\n]+""")


class TooDeepError(Exception):
    """Values nested deeper than any file of ours needs; `line` counts from 1."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


@dataclass(frozen=True, slots=True)
class Span:
    """The lines one header or one key with its value covers, from 1, and whether it is whole."""

    path: Path
    first: int
    last: int
    whole: bool


@dataclass(frozen=True, slots=True)
class Places:
    """Line numbers by key path, array elements by their index, and the spans in file order."""

    lines: Mapping[Path, int]
    spans: tuple[Span, ...]

    def line_of(self, path: Path) -> int:
        """The line of `path`, or of the nearest table around it."""
        while path not in self.lines:
            path = path[:-1]
        return self.lines[path]

    def span_at(self, line: int) -> Span | None:
        """The header or key whose lines include `line`."""
        return next((span for span in self.spans if span.first <= line <= span.last), None)


def find_places(source: str) -> Places:
    """Find the line of every key in `source`; raises TooDeepError before nesting gets harmful."""
    scan = _Scan(source)
    scan.run()
    return Places(scan.lines, tuple(scan.spans))


class _Scan:
    def __init__(self, source: str) -> None:
        self.source = source
        self.at = 0
        self.lines: dict[Path, int] = {(): 1}
        self.spans: list[Span] = []
        self._line_starts = [match.end() for match in re.finditer("\n", source)]
        self._table_counts: dict[Path, int] = {}

    def run(self) -> None:
        table: Path = ()
        self._skip_blank()
        while self.at < len(self.source):
            first = self._line()
            if self.source[self.at] == "[":
                table, whole = self._header()
                path = table
            else:
                path, whole = self._statement(table)
            self.spans.append(Span(path, first, self._line(), whole))
            line_end = self.source.find("\n", self.at)
            self.at = len(self.source) if line_end < 0 else line_end
            self._skip_blank()

    def _header(self) -> tuple[Path, bool]:
        array = self.source.startswith("[[", self.at)
        self.at += 2 if array else 1
        keys = self._key()
        if not keys:
            return (), False
        path = self._resolve(keys[:-1] if array else keys)
        if array:
            path += (keys[-1],)
            self._table_counts[path] = self._table_counts.get(path, 0) + 1
            path += (self._table_counts[path] - 1,)
        self._record(path)
        return path, self._take("]]" if array else "]")

    def _statement(self, table: Path) -> tuple[Path, bool]:
        keys = self._key()
        path = table + keys
        if not keys or not self._take("="):
            return path, False
        self._record(path)
        self._skip_spaces()
        return path, self._value(path)

    def _value(self, path: Path) -> bool:
        """Pass over a value, noting the lines of what is in it; False when it breaks off."""
        if len(path) > DEEPEST:
            raise TooDeepError(self._line())
        self._record(path)
        if self._take("["):
            return self._array(path)
        if self._take("{"):
            return self._inline_table(path)
        match = _STRING.match(self.source, self.at) or _BARE.match(self.source, self.at)
        if match is None:
            return False
        self.at = match.end()
        return True

    def _array(self, path: Path) -> bool:
        index = 0
        while True:
            self._skip_blank()
            if self._take("]"):
                return True
            if not self._value((*path, index)):
                return False
            index += 1
            self._skip_blank()
            if self._take("]"):
                return True
            if not self._take(","):
                return False

    def _inline_table(self, path: Path) -> bool:
        while True:
            self._skip_spaces()
            if self._take("}"):
                return True
            keys = self._key()
            if not keys or not self._take("="):
                return False
            self._skip_spaces()
            if not self._value(path + keys):
                return False
            self._skip_spaces()
            if self._take("}"):
                return True
            if not self._take(","):
                return False

    def _key(self) -> tuple[str, ...]:
        """Pass over a key; its dotted parts, or nothing when there is none."""
        parts: list[str] = []
        while match := _KEY_PART.match(self.source, self.at):
            self.at = match.end()
            parts.append(_unquoted(match[1]))
            if not self._take("."):
                break
        return tuple(parts)

    def _resolve(self, keys: tuple[str, ...]) -> Path:
        """The path `keys` mean here: an array of tables stands for its latest table."""
        path: Path = ()
        for key in keys:
            path += (key,)
            if path in self._table_counts:
                path += (self._table_counts[path] - 1,)
        return path

    def _record(self, path: Path) -> None:
        for length in range(1, len(path) + 1):
            self.lines.setdefault(path[:length], self._line())

    def _take(self, mark: str) -> bool:
        found = self.source.startswith(mark, self.at)
        if found:
            self.at += len(mark)
        return found

    def _skip_blank(self) -> None:
        match = _BLANK.match(self.source, self.at)
        self.at = match.end() if match else self.at

    def _skip_spaces(self) -> None:
        while self.source.startswith((" ", "\t"), self.at):
            self.at += 1

    def _line(self) -> int:
        return bisect_right(self._line_starts, self.at) + 1


def _unquoted(key: str) -> str:
    if key[0] not in "\"'":
        return key
    try:
        return next(iter(tomllib.loads(f"{key} = 0")))
    except tomllib.TOMLDecodeError:
        return key
