"""Undo and redo: said in words before, done, and said again afterwards."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction

from coachdesk.ui import shortcuts
from coachdesk.ui.change_signal import ChangeSignal
from coachdesk.ui.menus import Menus
from coachdesk.ui.plain import without_mnemonic
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from coachdesk.domain.text import Text
    from coachdesk.ui.context import Context


class UndoActions:
    """The two actions, idle until a desk is open."""

    def __init__(self, menus: Menus, changed: ChangeSignal) -> None:
        self._context: Context | None = None
        self.undo = menus.action("frame.undo", self._undo_last, shortcuts.UNDO)
        self.redo = menus.action("frame.redo", self._redo_last, shortcuts.REDO)
        changed.changed.connect(lambda _: self.name())
        self.name()

    def work_with(self, context: Context | None) -> None:
        """Work on an open desk, or on none."""
        self._context = context
        self.name()

    def name(self) -> None:
        """Say in words what undo and redo will do."""
        if self._context is None:
            self.undo.setEnabled(False)
            self.redo.setEnabled(False)
            return
        from coachdesk.services.undo import redoable, undoable  # noqa: PLC0415

        desk, words = self._context.desk, self._context.words
        _name(self.undo, ("frame.undo", "frame.undo.what"), undoable(desk), words)
        _name(self.redo, ("frame.redo", "frame.redo.what"), redoable(desk), words)

    def _undo_last(self) -> None:
        from coachdesk.services.undo import undo  # noqa: PLC0415

        self._take_back(undo, "frame.undone")

    def _redo_last(self) -> None:
        from coachdesk.services.undo import redo  # noqa: PLC0415

        self._take_back(redo, "frame.redone")

    def _take_back(self, use_case: Callable[..., object], said: str) -> None:
        context = self._context
        if context is None:
            return

        def tell(done: object) -> None:
            what = getattr(done, "value", None)
            if what is not None:
                kept = context.words.say_kept(what, "frame.earlier_action")
                context.notices.say(context.words(said, what=kept))

        context.runner.now(lambda: use_case(context.desk), then=tell)


def _name(action: QAction, codes: tuple[str, str], what: Text | None, words: Wording) -> None:
    """Name an action; `codes` are for nothing to take back and for something."""
    said = words(codes[0])
    if what is not None:
        said = words(codes[1], what=words.say_kept(what, "frame.earlier_action"))
    action.setText(without_mnemonic(said))
    action.setEnabled(what is not None)
