"""What to say when a step fails: from an exit code, an errno or a program's output to words."""

from __future__ import annotations

import errno
import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto
from pathlib import Path

SHOWN_LINES = 8
SHOWN_COLUMNS = 200


class SetUpError(Exception):
    """The set-up cannot go on; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Places:
    """Where the set-up writes: the environment's folder, and the room that takes [MB]."""

    venv: Path
    megabytes: int


class Cause(Enum):
    """Why a step failed, as far as its output tells."""

    DISK_FULL = auto()
    NOT_WRITABLE = auto()
    CERTIFICATE = auto()
    NETWORK = auto()
    PYTHON_INCOMPLETE = auto()
    NO_BUILD = auto()
    NO_VERSION = auto()
    UNKNOWN = auto()


# The first that matches is the cause: pip ends most troubles with the words for NO_VERSION.
_SIGNS = {
    Cause.DISK_FULL: r"No space left on device|Disk quota exceeded|Errno (28|122)\b"
    r"|No usable temporary directory",
    Cause.NOT_WRITABLE: r"Permission denied|Read-only file system|Errno (13|30)\b",
    Cause.CERTIFICATE: r"CERTIFICATE_VERIFY_FAILED|certificate verify failed",
    Cause.NETWORK: r"NewConnectionError|Failed to establish a new connection|NameResolutionError"
    r"|name resolution|Temporary failure resolving|Name or service not known|ConnectTimeoutError"
    r"|ReadTimeoutError|Read timed out|ProtocolError|IncompleteRead|Connection (refused|reset)"
    r"|Network is unreachable|ProxyError|SSLError|Max retries exceeded|after connection broken"
    r"|(401|403|407|429) Client Error|5\d\d Server Error|Failed to fetch"
    r"|from versions: none",
    Cause.PYTHON_INCOMPLETE: r"ssl module .*is not available|zlib not available"
    r"|No module named '?_?(sqlite3|ssl|ctypes|bz2|lzma|hashlib|zlib)\b",
    Cause.NO_BUILD: r"command '[^']*(gcc|cc|clang|cl\.exe)' failed|Microsoft Visual C\+\+"
    r"|Unknown compiler",
    Cause.NO_VERSION: r"No matching distribution found|ResolutionImpossible",
}

_WORDS = {
    Cause.DISK_FULL: (
        "The disk is full. The set-up needs about {megabytes} MB in {venv} and, for a while, room"
        " in the folder for temporary files (TMPDIR, usually /tmp).\nMake room, or choose a folder"
        " on a larger disk with --venv FOLDER, then type the same line again."
    ),
    Cause.NOT_WRITABLE: (
        "The set-up may not read or write where it has to: in {venv} or in the folder for temporary"
        " files (TMPDIR, usually /tmp).\nUse a folder of your own with --venv FOLDER, or have the"
        " rights changed, then type the same line again."
    ),
    Cause.CERTIFICATE: (
        "The package index answers with a certificate that this computer does not trust.\nCheck the"
        " date and time. In a network with a certificate of its own, name its file with"
        " PIP_CERT=FILE. Then type the same line again."
    ),
    Cause.NETWORK: (
        "The package index, where the libraries come from, cannot be reached or comes up empty.\n"
        "Check that this computer is on the network; behind a proxy, set HTTPS_PROXY; with an index"
        " of your own, check PIP_INDEX_URL. Then type the same line again: what is already"
        " downloaded is not fetched twice."
    ),
    Cause.PYTHON_INCOMPLETE: (
        "This Python was built without a part that coachdesk needs (named above).\nUse the Python"
        " that comes with the system or one from https://www.python.org/downloads/, then type the"
        " same line again with it."
    ),
    Cause.NO_BUILD: (
        "A library (named above) has no ready-made build for this Python on this system, and"
        " building it here failed.\nStart again with another Python from 3.11 on, for example:"
        " python3.12 packaging/run.py demo"
    ),
    Cause.NO_VERSION: (
        "The package index answers but has no fitting version of a library (named above) for this"
        " Python and system.\nWith an index of your own, check PIP_INDEX_URL; otherwise start again"
        " with another Python from 3.11 on."
    ),
    Cause.UNKNOWN: (
        "The lines above are the last of what was said.\nType the same line again; if it stays the"
        " same, add --fresh to begin anew."
    ),
}

_CAUSE_OF_ERRNO = {
    errno.ENOSPC: Cause.DISK_FULL,
    errno.EDQUOT: Cause.DISK_FULL,
    errno.EACCES: Cause.NOT_WRITABLE,
    errno.EPERM: Cause.NOT_WRITABLE,
    errno.EROFS: Cause.NOT_WRITABLE,
}


def cause_of_output(lines: Sequence[str]) -> tuple[Cause, str]:
    """Return why a step failed, and the line that tells, from the lines it printed."""
    for cause, signs in _SIGNS.items():
        for line in lines:
            if re.search(signs, line):
                return cause, line
    return Cause.UNKNOWN, ""


def failed_step(what: str, lines: Sequence[str], places: Places) -> SetUpError:
    """Return the error for a step that failed: its last lines, then the cause in words.

    `what` names the step as it follows "Could not" ("install the libraries").
    """
    cause, telling = cause_of_output(lines)
    shown = last_lines(lines, telling)
    return SetUpError(f"{shown}Could not {what}.\n{_filled(cause, places)}")


def last_lines(lines: Sequence[str], telling: str = "") -> str:
    """Return the last lines a program printed, indented, with the `telling` one among them."""
    shown = [line for line in lines if line.strip()][-SHOWN_LINES:]
    if telling and telling not in shown:
        shown = [telling, "...", *shown]
    return "".join(f"    {line[:SHOWN_COLUMNS]}\n" for line in shown)


def failed_write(error: OSError, places: Places) -> SetUpError:
    """Return the error for trouble the system reported to the set-up itself."""
    cause = _CAUSE_OF_ERRNO.get(error.errno or 0)
    advice = _filled(cause, places) if cause else "Put that right and type the same line again."
    return SetUpError(f"The system says: {error}\n{advice}")


def _filled(cause: Cause, places: Places) -> str:
    return _WORDS[cause].format(venv=places.venv, megabytes=places.megabytes)


def missing_modules(names: Sequence[str], *, minor: int, has_apt: bool) -> SetUpError:
    """Return the error for a Python 3.`minor` without the modules that make an environment."""
    lacking = " and ".join(names)
    if has_apt:
        advice = (
            f"Debian and its relatives keep it in the package python3.{minor}-venv (python3-venv"
            " for the system's own Python). Type:\n"
            f"    sudo apt-get update && sudo apt-get install -y python3.{minor}-venv\n"
            "and then the same line again."
        )
    else:
        advice = (
            "Install the rest of Python from where it came (the package is often called"
            " python3-venv or python3-pip), or a whole one from https://www.python.org/downloads/,"
            " and type the same line again."
        )
    return SetUpError(f"This Python comes without its module {lacking}.\n{advice}")


def not_ours(venv: Path) -> SetUpError:
    """Return the error for a folder that holds something else than a virtual environment."""
    return SetUpError(
        f"{venv} holds files that are no virtual environment, so nothing there is touched.\n"
        "Choose an empty or a new folder with --venv FOLDER (or the variable COACHDESK_VENV)."
    )


def too_old(venv: Path) -> SetUpError:
    """Return the error for a stranger's environment with a Python too old for coachdesk."""
    return SetUpError(
        f"The virtual environment in {venv} was not made by this set-up, and its Python is older"
        " than 3.11.\nChoose another folder with --venv FOLDER, or add --fresh to replace it."
    )


def progress_note(line: str) -> str:
    """Return what a line of pip's output means for somebody who waits, or nothing."""
    if "Retrying (Retry(" in line:
        return "the package index does not answer, trying again for a while"
    if line.startswith("Installing collected packages: ") and "coachdesk" in line:
        return "everything is downloaded, unpacking it"
    return ""
