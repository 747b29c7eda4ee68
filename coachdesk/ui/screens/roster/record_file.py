"""Asks where an athlete's whole record goes, once it is said what is in it, and writes it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog, QWidget

from coachdesk.services.record_export import ENDING, RecordWritten, write_record
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask


def write_record_of(context: Context, athlete_id: int, name: str, parent: QWidget) -> None:
    """Say what it holds, ask for the file, write it in the background and say where it is."""
    words = context.words
    if not ask(
        parent, words("record.about", name=name), words("record.choose"), words("frame.leave")
    ):
        return
    documents = QStandardPaths.StandardLocation.DocumentsLocation
    folder = context.preferences.print_folder or QStandardPaths.writableLocation(documents)
    suggested = str(Path(folder) / f"{words('record.file_name')}{ENDING}")
    title = words("record.title", name=name)
    chosen, _kind = QFileDialog.getSaveFileName(parent, title, suggested, words("record.kinds"))
    if not chosen:
        return

    def done(written: RecordWritten) -> None:
        file, count = str(written.file), written.files
        context.notices.say(words("record.done", name=written.name, file=file, count=count))

    context.runner.background(
        lambda _: write_record(context.desk, athlete_id, Path(chosen)),
        about=words("record.under_way", name=name),
        then=done,
    )
