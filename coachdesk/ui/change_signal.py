"""The one signal that carries what a write changed; each screen decides whether it is stale."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from coachdesk.domain.change import Change


class ChangeSignal(QObject):
    """Told of every write."""

    changed = Signal(object)
    """Carries a frozenset of `Change`."""

    new_day = Signal()
    """Midnight has passed: whatever is counted in days is stale."""

    def announce(self, changes: frozenset[Change]) -> None:
        """Say what a write changed."""
        if changes:
            self.changed.emit(changes)
