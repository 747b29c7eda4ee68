"""Changing a TOML document in place, so that comments stay with what they speak of.

A comment above a row of a list stands, in the document, at the end of the row before it: where
rows come or go, such comments are moved, never dropped.
"""

from __future__ import annotations

import re
from collections.abc import MutableMapping, Sequence
from datetime import date
from difflib import SequenceMatcher
from typing import Any, TypeAlias

import tomlkit
from tomlkit.container import Container
from tomlkit.items import AoT, Array, InlineTable, Item, Table

Holder: TypeAlias = MutableMapping[str, Any]
RowList: TypeAlias = AoT | Array

_LONGEST_MARK = 40
_MARK = re.compile(r"#\s*\d{4}-\d{2}-\d{2}: (?P<before>.+?) -> .+?; (?P<comment>.*)")


def set_value(holder: Holder, key: str, value: object, today: date) -> None:
    """Set a key to a plain value or a list of them; None takes the key out.

    A comment beside the value is kept behind the day and the values before and after. What the
    value was in other languages goes with the old one.
    """
    _forget_translations(holder, key)
    if value is None:
        holder.pop(key, None)
        return
    before = _item(holder, key)
    if isinstance(value, list) and isinstance(before, Array) and "#" in before.as_string():
        _change_list(before, value)
        return
    if before is None:
        trailing = _take_trailing(holder) if isinstance(holder, Table) else []
        holder[key] = value
        _add_trailing(holder, trailing)
        return
    comment, words = before.trivia.comment, before.as_string()
    holder[key] = value
    after = _item(holder, key)
    if comment and after is not None:
        earlier = _MARK.fullmatch(comment)
        if earlier:
            words, comment = earlier["before"], earlier["comment"]
        kept = comment.lstrip("# ")
        after.comment(f"{today}: {_short(words)} -> {_short(after.as_string())}; {kept}")


def remove_row(rows: RowList, at: int) -> None:
    """Take a row out of a list; the comments at its end stay where they were."""
    if isinstance(rows, Array):
        del rows[at]
        return
    trailing = _take_trailing(rows[at])
    del rows[at]
    if at > 0:
        _add_trailing(rows[at - 1], trailing)
    elif rows:
        _begin_with(rows, trailing)


def append_row(rows: RowList) -> Holder:
    """An empty row at the end of a list, above the comments that end it."""
    if isinstance(rows, Array):
        rows.append(tomlkit.inline_table())
        return row_of(rows, len(rows) - 1)
    trailing = _take_trailing(rows[-1]) if rows else []
    if rows:
        rows[-1].add(tomlkit.nl())
    rows.append(tomlkit.table())
    _add_trailing(rows[-1], trailing)
    return rows[-1]


def row_of(rows: RowList, at: int) -> Holder:
    """The row at a place; one that is no table gives way to an empty one."""
    if not isinstance(rows[at], MutableMapping):
        rows[at] = tomlkit.inline_table()
    row: Holder = rows[at]
    return row


def new_rows() -> Array:
    """An empty list for rows, each on a line of its own."""
    return tomlkit.array().multiline(multiline=True)


def _forget_translations(holder: Holder, key: str) -> None:
    languages = holder.get("in")
    for each in languages.values() if isinstance(languages, MutableMapping) else ():
        if isinstance(each, MutableMapping):
            each.pop(key, None)


def _change_list(present: Array, wanted: Sequence[Any]) -> None:
    """Turn one list into another, leaving alone what is in both."""
    steps = SequenceMatcher(None, list(present.unwrap()), list(wanted), autojunk=False)
    for what, start, end, first, last in reversed(steps.get_opcodes()):
        if what == "equal":
            continue
        for at in range(end - 1, start - 1, -1):
            del present[at]
        for offset, value in enumerate(wanted[first:last]):
            present.insert(start + offset, value)


def _item(holder: Holder, key: str) -> Item | None:
    container = holder.value if isinstance(holder, Table | InlineTable) else holder
    if not isinstance(container, Container) or key not in container:
        return None
    found = container.item(key)
    return found if isinstance(found, Item) else None


def _take_trailing(table: Table) -> list[Item]:
    """Take the comments and blank lines off the end of a table."""
    body = table.value.body
    taken: list[Item] = []
    while body and body[-1][0] is None:
        taken.append(body.pop()[1])
    return taken[::-1]


def _add_trailing(holder: Holder, trailing: Sequence[Item]) -> None:
    if isinstance(holder, Table):
        holder.value.body.extend((None, each) for each in trailing)


def _begin_with(rows: AoT, comments: Sequence[Item]) -> None:
    """Comments that have lost the row above theirs stand at the head of the first row."""
    first = tomlkit.table()
    for each in comments:
        first.value.append(None, each)
    for key, item in rows[0].value.body:
        first.value.append(key, item)
    del rows[0]
    rows.insert(0, first)


def _short(words: str) -> str:
    return words if len(words) <= _LONGEST_MARK else f"{words[: _LONGEST_MARK - 1]}…"
