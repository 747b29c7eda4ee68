"""Athletes by the names that lists and files give them: found exactly, or not at all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Generic, Protocol, TypeVar

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.wording.folding import folded


class Named(Protocol):
    """Somebody with a name in two parts."""

    @property
    def given_name(self) -> str:
        """The given name."""

    @property
    def family_name(self) -> str:
        """The family name; may be empty."""


N = TypeVar("N", bound=Named)


class NameBook(Generic[N]):
    """Looks athletes up by "given family", "family given" or "family, given".

    Case, accents, blanks and commas do not count. A part of a name finds nobody.
    """

    def __init__(self, people: Iterable[N]) -> None:
        self._of_name: defaultdict[str, list[N]] = defaultdict(list)
        for person in people:
            given, family = plain_name(person.given_name), plain_name(person.family_name)
            for name in {f"{given} {family}".strip(), f"{family} {given}".strip()}:
                self._of_name[name].append(person)

    def knows(self, name: str) -> bool:
        """Whether there is somebody of this name."""
        return plain_name(name) in self._of_name

    def find(self, name: str) -> N:
        """The one athlete of this name; raises InvalidInput at `name` for none or several."""
        if not name.strip():
            raise InvalidInput("name", text("names.missing"))
        found = self._of_name.get(plain_name(name), [])
        if not found:
            raise InvalidInput("name", text("names.unknown", name=name.strip()))
        if len(found) > 1:
            raise InvalidInput("name", text("names.several", name=name.strip(), many=len(found)))
        return found[0]


def plain_name(name: str) -> str:
    """A name without capitals, accents, commas and doubled blanks."""
    return " ".join(folded(name).replace(",", " ").split())
