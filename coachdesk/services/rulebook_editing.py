"""Use cases about the coach's own rulebooks: files beside the data file, not in the journal.

A file is written whole or not at all. Whatever is replaced or taken away is kept beside it with
the day and time, so that it can be put back.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import chain, count
from pathlib import Path
from typing import TypeVar

from coachdesk.domain.change import Change
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.rulebook_file import parse_rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.toml_reader import FileFault
from coachdesk.services.desk import Desk, Done
from coachdesk.services.rulebook_draft import Draft, cell_name, draft_of, text_of
from coachdesk.services.rulebook_fields import FIELDS, ROWS
from coachdesk.services.whole_file import cannot_write, write_whole
from coachdesk.storage.rulebook_queries import meets_by_rulebook

T = TypeVar("T")

KIND = "rulebook"
LONGEST_KEY = 40
_KEY = re.compile(r"[a-z][a-z0-9_]*")
_RESERVED = re.compile(r"con|prn|aux|nul|(com|lpt)[0-9]")
"""Names that Windows keeps for devices."""
_EARLIER = re.compile(r"(?P<key>.+)\.(?P<at>\d{4}-\d{2}-\d{2}T\d{6})(-\d+)?")
_STAMP = "%Y-%m-%dT%H%M%S"


@dataclass(frozen=True, slots=True)
class EarlierRulebook:
    """What a rulebook's file was until `replaced_at`, by the clock on the wall then."""

    key: str
    replaced_at: datetime
    file: Path


def copy_rulebook(desk: Desk, source: str, *, key: str, name: str) -> Done[str]:
    """Copy a rulebook under a new key and name into the coach's own folder; answers the key."""
    desk.rulebooks.get(source)
    if not _KEY.fullmatch(key) or len(key) > LONGEST_KEY or _RESERVED.fullmatch(key):
        raise InvalidInput("key", text("rulebook.key_form", count=LONGEST_KEY))
    if key in desk.rulebooks.shelf.files:
        raise InvalidInput("key", text("rulebook.key_taken", key=key))
    if not name.strip():
        raise InvalidInput("name", text("check.required"))
    draft = read_draft(desk, source)
    named = replace(draft, values={**draft.values, "name": name.strip()})
    return _keep(desk, key, text_of(named, desk.today()), key)


def read_draft(desk: Desk, key: str) -> Draft:
    """A rulebook's file as a form shows it; raises Trouble when it cannot be read as TOML."""
    source = _source(desk, key)
    try:
        return draft_of(source)
    except tomllib.TOMLDecodeError as error:
        raise desk.rulebooks.faults.get(key) or Trouble(text("rulebook.moved_on")) from error


def save_rulebook(desk: Desk, key: str, draft: Draft) -> Done[Rulebook]:
    """Save what the coach changed in a rulebook of their own; answers it as it is now.

    Raises InvalidInput, which names the field, and nothing is written, when the rulebook would
    not be in order; Trouble when the file has changed since the draft was read from it, or is
    one that the program ships.
    """
    if _read(_own_file(desk, key)) != draft.source:
        raise Trouble(text("rulebook.moved_on"))
    written = text_of(draft, desk.today())
    rulebook = _checked(draft, written, key)
    if written == draft.source:
        return Done(rulebook, frozenset())
    return _keep(desk, key, written, rulebook)


def delete_rulebook(desk: Desk, key: str) -> Done[None]:
    """Take a rulebook of the coach's own off the shelf; its file is kept among the earlier ones."""
    file = _own_file(desk, key)
    earlier = _earlier_file(desk, key)
    try:
        earlier.parent.mkdir(parents=True, exist_ok=True)
        file.replace(earlier)
    except OSError as error:
        raise cannot_write(earlier, error) from error
    return _changed(desk, None)


def earlier_rulebooks(desk: Desk) -> tuple[EarlierRulebook, ...]:
    """What was replaced or deleted, latest first."""
    folder = _earlier_folder(desk)
    files = folder.iterdir() if folder.is_dir() else ()
    found = [
        EarlierRulebook(match["key"], datetime.strptime(match["at"], _STAMP), file)  # noqa: DTZ007
        for file in files
        if file.suffix == ".toml" and (match := _EARLIER.fullmatch(file.stem))
    ]
    return tuple(sorted(found, key=lambda each: (each.replaced_at, each.file.name), reverse=True))


def restore_rulebook(desk: Desk, earlier: EarlierRulebook) -> Done[str]:
    """Put an earlier file back, keeping the present one; answers the key."""
    source = _read(earlier.file)
    parse_rulebook(source.encode(), earlier.file.name)
    return _keep(desk, earlier.key, source, earlier.key)


def meets_with(desk: Desk, key: str) -> int:
    """How many meets on file are lifted under a rulebook."""
    with desk.reading() as reader:
        return meets_by_rulebook(reader).get(key, 0)


def _keep(desk: Desk, key: str, written: str, value: T) -> Done[T]:
    """Write a file of the coach's own, its earlier text kept, and show it on the shelf."""
    file = desk.rulebooks.own_folder / f"{key}.toml"
    if key in desk.rulebooks.own:
        file = _own_file(desk, key)
        write_whole(_earlier_file(desk, key), file.read_bytes())
    write_whole(file, written.encode())
    return _changed(desk, value)


def _changed(desk: Desk, value: T) -> Done[T]:
    desk.rulebooks.read_again()
    return Done(value, frozenset({Change(KIND, 0)}))


def _own_file(desk: Desk, key: str) -> Path:
    if key not in desk.rulebooks.own:
        raise Trouble(text("rulebook.not_own", key=key))
    return desk.rulebooks.shelf.files[key]


def _earlier_folder(desk: Desk) -> Path:
    return desk.rulebooks.own_folder / "earlier"


def _earlier_file(desk: Desk, key: str) -> Path:
    """A name that no earlier file has yet."""
    stem = f"{key}.{desk.now():{_STAMP}}"
    endings = chain([""], (f"-{number}" for number in count(2)))
    files = (_earlier_folder(desk) / f"{stem}{ending}.toml" for ending in endings)
    return next(file for file in files if not file.exists())


def _source(desk: Desk, key: str) -> str:
    """The text of a rulebook's file, its line ends as they are."""
    file = desk.rulebooks.shelf.files.get(key)
    if file is None:
        raise Trouble(text("shelf.not_found", key=key))
    return _read(file)


def _read(file: Path) -> str:
    try:
        return file.read_bytes().decode("utf-8-sig")
    except OSError as error:
        why = error.strerror or str(error)
        raise Trouble(text("shelf.unreadable", file=file.name, reason=why)) from error
    except UnicodeDecodeError as error:
        raise FileFault("fault.encoding", file.name, 1) from error


def _checked(draft: Draft, written: str, key: str) -> Rulebook:
    try:
        return parse_rulebook(written.encode(), f"{key}.toml")
    except FileFault as fault:
        raise InvalidInput(_field_of(draft, fault), _sentence(fault)) from fault


def _sentence(fault: FileFault) -> Text:
    """What is wrong, as it is said beside a field; in full where the reader expects no value."""
    expected = dict(fault.text.values).get("expected")
    if expected is None:
        return fault.text
    return text("rulebook.fault", expected=expected, key=fault.key, line=fault.line)


def _field_of(draft: Draft, fault: FileFault) -> str:
    """The field of the form that a fault in the file belongs to; nothing where there is none."""
    for rows in ROWS:
        size = len(rows.path)
        if fault.path[:size] == rows.path:
            place, column = (*fault.path[size:], None, None)[:2]
            if not isinstance(place, int):
                return rows.name
            row = sorted(draft.rows[rows.name], key=lambda row: row.number)[place]
            names = [each.name for each in rows.columns]
            return cell_name(rows, row.number, str(column) if column in names else names[0])
    keys = tuple(part for part in fault.path if isinstance(part, str))
    found = (each.name for each in FIELDS if keys and each.path[: len(keys)] == keys)
    return next(found, "")
