"""The shelf of rulebooks, lists and templates: files the program ships and files a coach keeps.

There is no rulebook for para powerlifting: its steps, commands, straps and scoring differ, and
none could be verified. `NO_PARA_RULEBOOK` says so to the coach.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Generic, TypeAlias, TypeVar

from coachdesk.domain.errors import Trouble
from coachdesk.domain.kit import KitList, parse_kit_list
from coachdesk.domain.lifting import Equipment
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.rulebook_file import parse_rulebook
from coachdesk.domain.tasks import TaskList, parse_task_list
from coachdesk.domain.text import Text, text

if TYPE_CHECKING:
    from coachdesk.domain.blocks.template import BlockTemplate

NO_PARA_RULEBOOK: Text = text("rulebook.no_para")
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Shelf(Generic[_T]):
    """What could be read from the folders, and what is wrong with the rest.

    `books` and `faults` go by key, the file's name without its ending. A file of the coach's own
    stands in for a shipped one of the same key, even when it is faulty: a rulebook somebody
    changed is never swapped back in silence. `own` holds the keys of the coach's own files,
    `files` every file by key.
    """

    books: Mapping[str, _T]
    faults: Mapping[str, Trouble]
    own: frozenset[str]
    files: Mapping[str, Path]

    def get(self, key: str) -> _T:
        """The book named `key`; raises the fault of its file, or Trouble when there is no file."""
        if key in self.books:
            return self.books[key]
        if key in self.faults:
            raise self.faults[key]
        raise Trouble(text("shelf.not_found", key=key))


KitLists: TypeAlias = Shelf[KitList]
TaskLists: TypeAlias = Shelf[TaskList]
BlockTemplates: TypeAlias = "Shelf[BlockTemplate]"
USUAL_TASKS = "usual"
"""The key of the list of tasks that every entry has."""


class Rulebooks:
    """The rulebooks as their files are now.

    `shelf` is what was read last; it is never changed, only replaced by a newer one when
    `read_again` is told that a file has changed, so that it can be read from any thread.
    """

    def __init__(self, shipped: Path, own_folder: Path, language: str = "") -> None:
        self.own_folder = own_folder
        self._shipped = shipped
        self._parse = partial(parse_rulebook, language=language)
        self.shelf: Shelf[Rulebook] = read_shelf(self._parse, shipped, own_folder)

    @property
    def books(self) -> Mapping[str, Rulebook]:
        """The rulebooks that can be used, by key."""
        return self.shelf.books

    @property
    def faults(self) -> Mapping[str, Trouble]:
        """What is wrong with the files that cannot, by key."""
        return self.shelf.faults

    @property
    def own(self) -> frozenset[str]:
        """The keys of the coach's own files."""
        return self.shelf.own

    def get(self, key: str) -> Rulebook:
        """The rulebook named `key`; raises the fault of its file, or Trouble without a file."""
        return self.shelf.get(key)

    def read_again(self) -> None:
        """Read the files anew."""
        self.shelf = read_shelf(self._parse, self._shipped, self.own_folder)


def read_rulebooks(shipped: Path, own: Path, language: str = "") -> Rulebooks:
    """Read the rulebooks in the folder `shipped` and, where it exists, the coach's folder `own`,
    their texts in `language` where they hold them."""
    return Rulebooks(shipped, own, language)


def read_kit_lists(shipped: Path, own: Path | None = None) -> KitLists:
    """Read the kit lists in the folder `shipped` and, where it exists, the coach's folder `own`."""
    return read_shelf(parse_kit_list, shipped, own)


def read_task_lists(shipped: Path) -> TaskLists:
    """Read the lists of tasks in the folder `shipped`."""
    return read_shelf(parse_task_list, shipped, None)


def kit_list_for(shelf: KitLists, equipment: Equipment) -> KitList:
    """The kit list for `equipment`: the coach's own before a shipped one.

    Raises the fault of the list named after the equipment, or Trouble when there is none.
    """
    fitting = [key for key, kit_list in shelf.books.items() if kit_list.equipment is equipment]
    fitting.sort(key=lambda key: (key not in shelf.own, key))
    return shelf.get(fitting[0] if fitting else equipment)


def read_shelf(parse: Callable[[bytes, str], _T], shipped: Path, own: Path | None) -> Shelf[_T]:
    """Read the files in the folder `shipped` and, where it exists, the coach's folder `own`.

    Raises Trouble when there is not a single file; a faulty one only leaves a fault behind.
    """
    own_files = _toml_files(own) if own else {}
    files = _toml_files(shipped) | own_files
    if not files:
        raise Trouble(text("shelf.empty", folder=str(shipped)))
    books: dict[str, _T] = {}
    faults: dict[str, Trouble] = {}
    for key, file in sorted(files.items()):
        try:
            books[key] = parse(file.read_bytes(), file.name)
        except OSError as error:
            faults[key] = Trouble(
                text("shelf.unreadable", file=file.name, reason=error.strerror or str(error))
            )
        except Trouble as fault:
            faults[key] = fault
    return Shelf(books, faults, frozenset(own_files), files)


def _toml_files(folder: Path) -> dict[str, Path]:
    """The TOML files of a folder by stem; none when there is no such folder."""
    if not folder.is_dir():
        return {}
    return {
        file.stem: file
        for file in sorted(folder.iterdir())
        if file.suffix.lower() == ".toml" and file.is_file()
    }
