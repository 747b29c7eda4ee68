"""The words the program speaks, and in which language."""

from __future__ import annotations

import os
from collections.abc import Iterable
from functools import cache

from coachdesk.app import paths
from coachdesk.wording.catalogue import Catalogue
from coachdesk.wording.wording import Wording

ENGLISH = "en"
_ENVIRONMENT = ("LC_ALL", "LC_MESSAGES", "LANG")
"""Where a system says which language is read; the first that is set counts."""


def wording(language: str = ENGLISH) -> Wording:
    """The words of a language."""
    return Wording(Catalogue(paths.resources() / "catalogues", language))


@cache
def languages() -> tuple[str, ...]:
    """The codes of the languages there are: those with a compiled catalogue."""
    compiled = paths.resources().glob("catalogues/*/LC_MESSAGES/coachdesk.mo")
    return tuple(sorted(file.parents[1].name for file in compiled))


def own_names() -> list[tuple[str, str]]:
    """Every language with its name in that language itself."""
    return [(language, wording(language)("language.own_name")) for language in languages()]


def spoken(preferred: str, of_system: Iterable[str]) -> str:
    """The language to speak: the one preferred where it is there, else the first of the system's
    that is (as "fr", "fr-CA" or "fr_CA.UTF-8"), else English."""
    for name in (preferred, *of_system):
        language = name.replace("_", "-").partition("-")[0].partition(".")[0].lower()
        if language in languages():
            return language
    return ENGLISH


def of_environment() -> tuple[str, ...]:
    """The language the environment names; none on systems that say it elsewhere."""
    return next(((told,) for name in _ENVIRONMENT if (told := os.environ.get(name))), ())
