"""Writing a file whole or not at all."""

from __future__ import annotations

import errno
import os
from contextlib import suppress
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text


def write_whole(file: Path, data: bytes) -> None:
    """Write `data` beside `file` and put it in its place once all is on the disk.

    Raises Trouble when that cannot be done; what stood there before still does then.
    """
    beside = file.with_name(f".{file.name}.{os.getpid()}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("wb") as part:
            part.write(data)
            part.flush()
            os.fsync(part.fileno())
        beside.replace(file)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        raise cannot_write(file, error) from error


def cannot_write(file: Path, error: OSError) -> Trouble:
    """Why a file cannot be written, in words."""
    if error.errno == errno.ENOSPC:
        return Trouble(text("file.disk_full", file=str(file)))
    why = error.strerror or str(error)
    return Trouble(text("file.cannot_create", file=str(file), why=why))
