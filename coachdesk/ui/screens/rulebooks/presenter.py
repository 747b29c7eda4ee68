"""The rulebooks without Qt: the shelf as a list, one rulebook in words, and what can be done."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import chain, count
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.rulebook import Rulebook
from coachdesk.services import rulebook_editing
from coachdesk.services.desk import Desk, Done
from coachdesk.services.rulebook_draft import Draft
from coachdesk.services.rulebook_editing import EarlierRulebook
from coachdesk.services.rulebooks import NO_PARA_RULEBOOK
from coachdesk.ui.screens.rulebooks.reading import Section, sections_of
from coachdesk.wording.wording import Wording

_NO_KEY = re.compile(r"[^a-z0-9_]")


class Origin(StrEnum):
    """Whose file a rulebook is."""

    SHIPPED = "shipped"
    OWN = "own"
    FAULTY = "faulty"


@dataclass(frozen=True, slots=True)
class BookRow:
    """A rulebook on the list."""

    key: str
    name: str
    origin: Origin
    whose: str
    can_edit: bool


@dataclass(frozen=True, slots=True)
class BookPage:
    """A rulebook in words; `fault` says instead why it cannot be used."""

    key: str
    name: str
    fault: str
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class EarlierRow:
    """An earlier file that can be put back."""

    earlier: EarlierRulebook
    key: str
    replaced: str


class RulebooksPresenter:
    """What the screen shows and does."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words

    @property
    def no_para(self) -> str:
        """Why there is no rulebook for para powerlifting."""
        return self._words.say(NO_PARA_RULEBOOK)

    def rows(self) -> tuple[BookRow, ...]:
        """The coach's own first, then those that are shipped, by name."""
        shelf = self._desk.rulebooks.shelf
        rows = [self._row(key, shelf.books.get(key)) for key in shelf.files]
        return tuple(sorted(rows, key=lambda row: (not row.can_edit, row.name.casefold())))

    def page(self, key: str) -> BookPage:
        """One rulebook in words."""
        try:
            rulebook = self._desk.rulebooks.get(key)
        except Trouble as fault:
            return BookPage(key, f"{key}.toml", self._words.say(fault.text), ())
        return BookPage(key, rulebook.name, "", sections_of(rulebook, self._words))

    def copy_values(self, key: str) -> dict[str, str]:
        """What a copy is called unless the coach says otherwise."""
        taken = self._desk.rulebooks.shelf.files
        stem = _NO_KEY.sub("_", f"own_{key}".casefold())[: rulebook_editing.LONGEST_KEY - 3]
        keys = (f"{stem}{ending}" for ending in chain([""], map(str, count(2))))
        name = self._words("rulebook.copy_name", name=self._desk.rulebooks.get(key).name)
        return {"name": name, "key": next(each for each in keys if each not in taken)}

    def copy(self, source: str, values: Mapping[str, str]) -> Done[str]:
        """Copy a rulebook into the coach's own folder; answers the new key."""
        return rulebook_editing.copy_rulebook(
            self._desk, source, key=values["key"], name=values["name"]
        )

    def draft(self, key: str) -> Draft:
        """A rulebook of the coach's own as the form shows it."""
        return rulebook_editing.read_draft(self._desk, key)

    def save(self, key: str, draft: Draft) -> Done[Rulebook]:
        """Save what was changed."""
        return rulebook_editing.save_rulebook(self._desk, key, draft)

    def delete_means(self, key: str) -> str:
        """What deleting a rulebook means for the meets on file, and that it can be put back."""
        count = rulebook_editing.meets_with(self._desk, key)
        kept = self._words("rulebook.delete.kept")
        if not count:
            return kept
        return f"{self._words('rulebook.delete.meets', count=count)} {kept}"

    def delete(self, key: str) -> Done[None]:
        """Take a rulebook of the coach's own off the shelf."""
        return rulebook_editing.delete_rulebook(self._desk, key)

    def earlier(self) -> tuple[EarlierRow, ...]:
        """What was replaced or deleted, latest first."""
        return tuple(
            EarlierRow(each, each.key, self._words.moment(each.replaced_at))
            for each in rulebook_editing.earlier_rulebooks(self._desk)
        )

    def restore(self, earlier: EarlierRulebook) -> Done[str]:
        """Put an earlier file back."""
        return rulebook_editing.restore_rulebook(self._desk, earlier)

    @property
    def folder(self) -> Path:
        """Where the coach's own files are."""
        return self._desk.rulebooks.own_folder

    def _row(self, key: str, rulebook: Rulebook | None) -> BookRow:
        is_own = key in self._desk.rulebooks.own
        origin = Origin.OWN if is_own else Origin.SHIPPED
        if rulebook is None:
            origin = Origin.FAULTY
        name = f"{key}.toml" if rulebook is None else rulebook.name
        return BookRow(key, name, origin, self._words(f"rulebook.origin.{origin}"), is_own)
