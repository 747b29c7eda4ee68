"""What stands around the figures of the guide's pages, in each language of the guide."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from coachdesk.app import paths
from coachdesk.app.words import wording
from coachdesk.domain.units import Percent

_FOLDER = Path(__file__).parent / "guide_words"
GUIDE = paths.resources() / "guide"
LANGUAGES = tuple(sorted(folder.name for folder in GUIDE.iterdir() if folder.is_dir()))


class GuideWords:
    """The words of one language, and how it writes numbers: as the program does."""

    def __init__(self, language: str) -> None:
        file = _FOLDER / f"{language}.toml"
        self._found: dict[str, Any] = tomllib.loads(file.read_text(encoding="utf-8"))
        self.language = language
        self.of_program = wording(language)

    def __call__(self, part: str, name: str, **values: str) -> str:
        """The words `name` of a part of the file, with values put in."""
        said: str = self._found[part][name]
        return said.format_map(values)

    def head(self, name: str) -> Sequence[str]:
        """The heads of a table's columns."""
        heads: Sequence[str] = self._found["heads"][name]
        return heads

    def limits(self) -> Sequence[dict[str, str]]:
        """Each limit on weight by `name`; its `unit` and `source` where they are not English."""
        limits: Sequence[dict[str, str]] = self._found["limits"]
        return limits

    def kilograms(self, kg: float, digits: int | None = None) -> str:
        """A weight [kg] with `digits` decimals, as many as it needs where none are named."""
        number = f"{kg:g}" if digits is None else f"{kg:.{digits}f}"
        return self.of_program("number.mass", number=self._localised(number), unit="kg")

    def number(self, number: float) -> str:
        """A number with as many decimals as it needs."""
        return self._localised(f"{number:g}")

    def percent(self, chance: float, digits: int) -> str:
        """A chance (0 to 1) in per cent."""
        return self.of_program.show(Percent(100 * chance, digits))

    def _localised(self, number: str) -> str:
        return number.replace(".", self.of_program("number.decimal_mark"))
