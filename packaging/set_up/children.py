"""Running other programs: quietly with their lines kept, or openly on the user's terminal."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

GRACE_S = 10


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a program ended and what it printed."""

    code: int
    lines: tuple[str, ...]


def run_quietly(
    command: Sequence[str | Path],
    *,
    cwd: Path | None = None,
    on_line: Callable[[str], None] = lambda _line: None,
) -> Outcome:
    """Run a program to its end, unseen; `on_line` gets each line as it comes.

    Messages are asked for in English, for the causes are read from them.
    """
    lines = []
    with (
        subprocess.Popen(
            command,
            cwd=cwd,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            errors="replace",
            env={**os.environ, "LC_ALL": "C.UTF-8", "DEBIAN_FRONTEND": "noninteractive"},
        ) as child,
        _stopped_with_us(child),
    ):
        for line in child.stdout or ():
            lines.append(line.rstrip())
            on_line(lines[-1])
        child.wait()
    return Outcome(child.returncode, tuple(lines))


def run_openly(command: Sequence[str | Path], *, cwd: Path | None = None) -> int:
    """Run a program on the user's terminal and return its exit code as a shell gives it."""
    with subprocess.Popen(command, cwd=cwd) as child, _stopped_with_us(child):
        child.wait()
    return child.returncode if child.returncode >= 0 else 128 - child.returncode


@contextmanager
def _stopped_with_us(child: subprocess.Popen[str] | subprocess.Popen[bytes]) -> Iterator[None]:
    """On Ctrl+C, which the terminal sends to both, give the child time to clear up, then end it."""
    try:
        yield
    except KeyboardInterrupt:
        try:
            child.wait(GRACE_S)
        except subprocess.TimeoutExpired:
            child.terminate()
        raise
