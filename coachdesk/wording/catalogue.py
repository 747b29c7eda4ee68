"""The one catalogue of texts, by language."""

from __future__ import annotations

import gettext
from pathlib import Path

DOMAIN = "coachdesk"


class UnknownText(LookupError):
    """A code without words: a bug, found by the tests."""


class Catalogue:
    """The words of one language.

    Codes stand in for words everywhere in the program; the catalogue holds the words as gettext
    messages whose id is the code.
    """

    def __init__(self, folder: Path, language: str) -> None:
        self.language = language
        self._translations = gettext.translation(DOMAIN, folder, [language])
        self._found: dict[str, str] = {}

    def words(self, code: str, count: int | None = None) -> str:
        """The words for `code`, in the plural form for `count` where there is one."""
        if count is None:
            found = self._found.get(code)
            if found is None:
                found = self._found[code] = self._known(code, self._translations.gettext(code))
            return found
        return self._known(code, self._translations.ngettext(code, code, count))

    def _known(self, code: str, found: str) -> str:
        if found == code:
            raise UnknownText(code)
        return found
