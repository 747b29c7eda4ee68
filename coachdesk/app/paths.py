"""Where things are: the program's own files, and the coach's data."""

from __future__ import annotations

from pathlib import Path

import platformdirs

_PACKAGE = Path(__file__).resolve().parents[1]


def resources() -> Path:
    """The folder of rulebooks, kit lists, fonts and texts."""
    return _shipped("resources")


def migrations() -> Path:
    """The folder of migrations."""
    return _shipped("migrations")


def data_file() -> Path:
    """The coach's data file, unless one is named."""
    return Path(platformdirs.user_data_dir("coachdesk", appauthor=False)) / "coachdesk.db"


def preferences_folder() -> Path:
    """The folder of the coach's preferences and of the window's own memory."""
    return Path(platformdirs.user_config_dir("coachdesk", appauthor=False))


def preferences_file(folder: Path) -> Path:
    """The file of preferences in the folder that is theirs."""
    return folder / "preferences.json"


def guide(language: str, page: str) -> Path:
    """A page of the guide, in English where the language has none."""
    own = resources() / "guide" / language / f"{page}.md"
    return own if own.is_file() else resources() / "guide" / "en" / own.name


def own_rulebooks(data: Path) -> Path:
    """The folder of the coach's own rulebooks, beside the data file."""
    return data.parent / "rulebooks"


def own_templates(data: Path) -> Path:
    """The folder of the coach's own templates of blocks, beside the data file."""
    return data.parent / "blocks"


def backups(data: Path) -> Path:
    """The folder of a data file's backups: one for each file, so that none overwrites another's."""
    return data.parent / "backups" / data.name


def _shipped(name: str) -> Path:
    """The folder beside the package in a checkout, the one inside it when installed."""
    checkout = _PACKAGE.parent
    if (checkout / "pyproject.toml").is_file():
        return checkout / name
    return _PACKAGE / f"_{name}"
