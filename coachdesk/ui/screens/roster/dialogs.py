"""Showing a form's dialog: high enough for the whole form, no higher than the window."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from coachdesk.ui.widgets.form_dialog import FormDialog

_WIDTH = 520
_AROUND_FORM = 120
_AROUND_DIALOG = 40
"""Sizes [px]."""


def ask_form(dialog: FormDialog, parent: QWidget) -> object:
    """Show a dialog until it is left or saved; answers what saving answered, None when left."""
    wanted = dialog.form.sizeHint().height() + _AROUND_FORM
    dialog.resize(_WIDTH, min(wanted, parent.window().height() - _AROUND_DIALOG))
    dialog.exec()
    answer: object = dialog.answer
    dialog.deleteLater()
    return answer
