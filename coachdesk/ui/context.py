"""What every screen works with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings

from coachdesk.services.preferences import Preferences
from coachdesk.ui.change_signal import ChangeSignal
from coachdesk.ui.notices import Notices
from coachdesk.ui.printing import Printing
from coachdesk.ui.runner import Runner
from coachdesk.ui.theme import Theme
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from coachdesk.services.desk import Desk


@dataclass(frozen=True)
class Context:
    """The open desk and the window's services."""

    desk: Desk
    words: Wording
    preferences: Preferences
    set_preferences: Callable[[Preferences], None]
    """Keeps preferences and, where they show, makes the screens anew."""
    languages: Callable[[], list[tuple[str, str]]]
    """The languages there are: code, and name in that language."""
    open_file: Callable[[Path | None], None]
    """Goes on with another data file; None for the usual one."""
    runner: Runner
    changed: ChangeSignal
    notices: Notices
    theme: Theme
    remembered: QSettings
    """The window's own memory: places, columns."""
    printing: Printing
    backups: Path
    """The folder of backups of the data file that is open."""
