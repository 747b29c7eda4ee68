"""Files of a packet: names made from people's names, written whole or not at all."""

from __future__ import annotations

import errno
import os
import re
import unicodedata
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text

LONGEST_LETTERS = 80
LONGEST_BYTES = 200
"""File systems take 255 bytes; the rest is left for a counter or an ending added later."""

_SEPARATOR = " - "
_UNNAMED = "sheet"
_FORBIDDEN = re.compile(r'[<>:"/\\|?*]')
_RESERVED = re.compile(r"(CON|PRN|AUX|NUL|CONIN\$|CONOUT\$|(COM|LPT)[0-9¹²³])(?=\.|$)", re.I)


def safe_name(*parts: str) -> str:
    """A file name, without ending, that every common file system takes.

    Letters of any script stay. Where it is too long the longest parts are shortened, so a short
    part that tells entries apart is kept whole.
    """
    kept = [clean for part in parts if (clean := _cleaned(part))]
    while _is_too_long(_SEPARATOR.join(kept)):
        longest = max(range(len(kept)), key=lambda at: len(kept[at].encode()))
        kept[longest] = kept[longest][:-1]
    name = _SEPARATOR.join(part.strip(" .") for part in kept).strip(" .")
    return f"_{name}" if _RESERVED.match(name) else name or _UNNAMED


def _is_too_long(name: str) -> bool:
    return len(name) > LONGEST_LETTERS or len(name.encode()) > LONGEST_BYTES


def _cleaned(part: str) -> str:
    composed = unicodedata.normalize("NFC", part)
    plain = "".join(" " if one.isspace() else one for one in composed)
    printable = "".join(one for one in plain if not unicodedata.category(one).startswith("C"))
    return " ".join(_FORBIDDEN.sub("_", printable).split()).strip(" .")


def write_file(folder: Path, name: str, data: bytes) -> Path:
    """Write `data` to `folder`/`name`, replacing an earlier file only once all is written.

    Raises Trouble when the disk is full or the file cannot be written.
    """
    path = folder / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _write_beside(path, data)
    except OSError as error:
        if error.errno == errno.ENOSPC:
            raise Trouble(text("file.disk_full", file=str(path))) from error
        why = error.strerror or str(error)
        raise Trouble(text("print.cannot_write", file=str(path), why=why)) from error
    return path


def _write_beside(path: Path, data: bytes) -> None:
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_bytes(data)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
