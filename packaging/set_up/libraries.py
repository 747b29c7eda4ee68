"""System libraries that Python packages lean on: which is missing, and how to get it."""

from __future__ import annotations

import ctypes
import os
import re
import shutil
import sys
from collections.abc import Callable, Iterable, Sequence

# Shared object -> Debian package. Whoever misses one of a group tends to miss its neighbours, and
# an import names only the first: so a group is always looked through as a whole.
_COMMON = {
    "libstdc++.so.6": "libstdc++6",
    "libgcc_s.so.1": "libgcc-s1",
    "libgomp.so.1": "libgomp1",
    "libz.so.1": "zlib1g",
}
_WINDOW = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
_GROUPS = (_COMMON, _WINDOW)


def named_library(lines: Iterable[str]) -> str:
    """Return the shared object that the lines of a failed import name as missing, or nothing."""
    match = re.search(r"([\w.+-]+\.so[.\d]*): cannot open shared object file", "\n".join(lines))
    return match[1] if match else ""


def loads(library: str) -> bool:
    """Return whether the system finds a shared object."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def has_display() -> bool:
    """Return whether a window can be opened here."""
    if not sys.platform.startswith("linux"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY"))


def missing_for_a_window(*, loads: Callable[[str], bool] = loads) -> str:
    """Return the first shared object that a window needs and this system lacks, or nothing."""
    if not sys.platform.startswith("linux"):
        return ""
    return next((library for library in _WINDOW if not loads(library)), "")


def packages_for(library: str, *, loads: Callable[[str], bool] = loads) -> tuple[str, ...]:
    """Return the Debian packages to install where `library` is missing; none if it is unknown."""
    group = next((group for group in _GROUPS if library in group), {})
    return tuple(package for name, package in group.items() if name == library or not loads(name))


def apt_commands(packages: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """Return the commands that install Debian packages."""
    return (
        ("apt-get", "update"),
        ("apt-get", "install", "-y", "--no-install-recommends", *packages),
    )


def has_apt() -> bool:
    """Return whether this is Debian or one of its relatives."""
    return shutil.which("apt-get") is not None


def is_root() -> bool:
    """Return whether the set-up may install system packages without asking for a password."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def advice(library: str, packages: Sequence[str], *, has_apt: bool) -> str:
    """Return what to do about a missing library, with the exact line to type where it is known."""
    said = f"The system library {library} is missing."
    if not has_apt:
        return (
            f"{said}\nInstall it with the system's own package tool; then type the same line again."
        )
    if not packages:
        return f"{said}\nThis finds its package: apt-file search {library}"
    line = " && ".join("sudo " + " ".join(command) for command in apt_commands(packages))
    return f"{said} Type:\n    {line}\nand then the same line again."
