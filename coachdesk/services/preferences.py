"""What the coach prefers: kept in a small file of its own, apart from the records."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

from coachdesk.domain.scoring import Formula
from coachdesk.domain.units import Unit
from coachdesk.services.whole_file import write_whole


@dataclass(frozen=True, slots=True)
class Preferences:
    """`paper` is "a4" or "letter", `room` "system", "light" or "dark", `language` "system" or a
    language's code; `data_file` "" is the usual place, `print_folder` "" none chosen yet."""

    unit: Unit = Unit.KG
    formula: Formula = Formula.IPF_GL
    paper: str = "a4"
    room: str = "system"
    data_file: str = ""
    print_folder: str = ""
    language: str = "system"


_CHOICES: dict[str, frozenset[str]] = {
    "unit": frozenset(Unit),
    "formula": frozenset(Formula),
    "paper": frozenset({"a4", "letter"}),
    "room": frozenset({"system", "light", "dark"}),
}
_KINDS = {"unit": Unit, "formula": Formula}


def read_preferences(file: Path) -> Preferences:
    """What was chosen last; where the file is missing or odd, the usual, so that nothing stops
    the desk from opening."""
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Preferences()
    if not isinstance(found, dict):
        return Preferences()
    chosen: dict[str, Any] = {
        field.name: _KINDS.get(field.name, str)(found[field.name])
        for field in fields(Preferences)
        if isinstance(found.get(field.name), str)
        and found[field.name] in _CHOICES.get(field.name, {found[field.name]})
    }
    return Preferences(**chosen)


def write_preferences(file: Path, preferences: Preferences) -> None:
    """Keep what was chosen; raises Trouble when the file cannot be written."""
    write_whole(file, json.dumps(asdict(preferences), indent=1).encode())
