"""The words the program speaks."""

from __future__ import annotations

from coachdesk.app import paths
from coachdesk.wording.catalogue import Catalogue
from coachdesk.wording.wording import Wording


def wording(language: str = "en") -> Wording:
    """The words of a language."""
    return Wording(Catalogue(paths.resources() / "catalogues", language))
